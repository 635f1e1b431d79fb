import { createServer } from 'node:http'
import { createRequire } from 'node:module'
import type { AddressInfo } from 'node:net'

// These packages have no types; what is used of them stands here.
type Handler = (request: unknown, response: unknown) => void
interface Pouch {
  plugin(part: unknown): Pouch
  defaults(options: { adapter: string }): Pouch
}
const load = createRequire(import.meta.url)
const core = load('pouchdb-core') as Pouch
const serving = load('express-pouchdb') as (pouch: Pouch, options: object) => Handler
const Database = core.plugin(load('pouchdb-adapter-memory')).plugin(load('pouchdb-mapreduce')).defaults({ adapter: 'memory' })
const handler = serving(Database, { mode: 'minimumForPouchDB', overrideMode: { include: ['validation'] }, inMemoryConfig: true })

/** Whatever is there stays as it is, and an event without its hash does not come in. */
const APPEND_ONLY = {
  validate_doc_update: `function (doc, old) {
    if (old) throw({ forbidden: 'append only' })
    if (doc._deleted) throw({ forbidden: 'nothing is deleted' })
    if (doc._id.charAt(0) !== '_' && !/^[0-9a-f]{64}$/.test(doc.hash)) throw({ forbidden: 'no hash' })
  }`,
  views: { found: { map: "function (doc) { if (doc.event.type === 'closed') emit(doc.event.branch, 1) }", reduce: '_count' } },
}

export interface Couch {
  readonly database: (name: string) => Promise<string>
  readonly stop: () => Promise<void>
}
/** A database server of the CouchDB protocol, on the loopback address alone, in memory. */
export const couchServer = async (): Promise<Couch> => {
  const server = createServer(handler)
  await new Promise<void>(listening => server.listen(0, '127.0.0.1', listening))
  const root = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const put = (path: string, body?: object) =>
    fetch(`${root}/${path}`, { method: 'PUT', headers: { 'content-type': 'application/json' }, body: body ? JSON.stringify(body) : null })
  return {
    database: async name => {
      await put(name)
      await put(`${name}/_design/append`, APPEND_ONLY)
      return `${root}/${name}`
    },
    stop: () =>
      new Promise(stopped => {
        server.close(() => stopped())
        server.closeAllConnections()
      }),
  }
}
