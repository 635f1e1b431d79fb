import { createServer } from 'node:http'
import { createRequire } from 'node:module'
import type { AddressInfo } from 'node:net'
import design from '../../web/log/desk-design.json'
import { views } from './views.ts'

// These packages have no types; what is used of them stands here.
type Handler = (request: unknown, response: unknown) => void
interface Pouch {
  plugin(part: unknown): Pouch
  defaults(options: { adapter: string; view_update_changes_batch_size: number }): Pouch
}
const load = createRequire(import.meta.url)
const core = load('pouchdb-core') as Pouch
const serving = load('express-pouchdb') as (pouch: Pouch, options: object) => Handler
const Database = core
  .plugin(load('pouchdb-adapter-memory'))
  .plugin(views)
  .defaults({ adapter: 'memory', view_update_changes_batch_size: 2000 })
const handler = serving(Database, { mode: 'minimumForPouchDB', overrideMode: { include: ['validation'] }, inMemoryConfig: true })

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
      await put(`${name}/${design._id}`, design)
      return `${root}/${name}`
    },
    stop: () =>
      new Promise(stopped => {
        server.close(() => stopped())
        server.closeAllConnections()
      }),
  }
}
