// The events of several sessions at once.
import { Dexie } from 'dexie'
import { type Database, withoutSession } from './database.ts'
import type { StoredEvent } from './log.ts'

/** Neighbours in the table are read in one request, as when a whole log leaves; else each session by its own. */
export const eventsOfMany = (db: Database, ids: readonly string[]): PromiseLike<StoredEvent[][]> =>
  db.transaction('r', db.sessions, db.events, async () => {
    const within = (from: string, to: string) =>
      db.events.where('[session+seq]').between([from, Dexie.minKey], [to, Dexie.maxKey]).toArray()
    const sorted = [...new Set(ids)].sort()
    const [first, last] = [sorted[0], sorted.at(-1)]
    if (first === undefined || last === undefined) return []
    if ((await db.sessions.where('id').between(first, last, true, true).count()) !== sorted.length)
      return (await Promise.all(ids.map(id => within(id, id)))).map(rows => rows.map(withoutSession))
    const sessions = new Map<string, StoredEvent[]>(sorted.map(id => [id, []]))
    for (const row of await within(first, last)) sessions.get(row.session)?.push(withoutSession(row))
    return ids.map(id => sessions.get(id) ?? [])
  })
