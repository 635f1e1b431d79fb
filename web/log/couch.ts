// A CouchDB database as the desk: plain HTTP, no second database on the phone.
import { fieldOf } from '../../engine/fields.ts'
import { type Desk, nameOf } from './desk.ts'

type Fetch = (address: string, options: RequestInit) => Promise<Response>
/** Documents that are fetched at once. */
const PAGE = 1000

/** `address` of the database, without a slash at its end. It must be one that the page's own policy lets it talk to. */
export const couch = (address: string, reach: Fetch = (at, options) => fetch(at, options), page = PAGE): Desk => {
  const ask = async (path: string, body: unknown): Promise<unknown> => {
    const response = await reach(`${address}/${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', accept: 'application/json' },
      credentials: 'same-origin',
      body: JSON.stringify(body),
    })
    if (!response.ok) throw new Error(`The desk answered ${response.status} to ${path.split('?')[0]}.`)
    return response.json()
  }
  const rowsOf = async (path: string, body: unknown): Promise<readonly unknown[]> => {
    const rows = fieldOf(await ask(path, body), 'rows')
    if (!Array.isArray(rows)) throw new Error('The desk answered in a way that is not known.')
    return rows
  }
  return {
    async push(lines) {
      // Refusals come item by item, under a status that says all is well: 'conflict' or 'forbidden' where it is there already.
      // What is stored is found out by asking for it, so they are not even looked at.
      await ask('_bulk_docs', { docs: lines.map(line => ({ _id: nameOf(line), ...line })) })
    },
    async hashes(lines) {
      const rows = await rowsOf('_all_docs?include_docs=true', { keys: lines.map(nameOf) })
      return lines.map((line, i) => {
        const hash = fieldOf(rows[i], 'id') === nameOf(line) ? fieldOf(fieldOf(rows[i], 'doc'), 'hash') : undefined
        return typeof hash === 'string' ? hash : undefined
      })
    },
    async *pull() {
      let after: string | undefined
      for (;;) {
        const rows = await rowsOf('_all_docs?include_docs=true', {
          limit: page,
          ...(after === undefined ? {} : { start_key: after, skip: 1 }),
        })
        for (const row of rows) {
          const doc = fieldOf(row, 'doc')
          const id = fieldOf(row, 'id')
          if (typeof id === 'string') after = id
          // Designs of views are documents too.
          if (typeof id !== 'string' || id.startsWith('_') || typeof doc !== 'object' || doc === null) continue
          const own = Object.entries(doc).filter(([key]) => !key.startsWith('_'))
          yield Object.fromEntries(own)
        }
        if (rows.length < page) return
      }
    },
  }
}
