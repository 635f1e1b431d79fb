// Several sessions at once.
import { Dexie } from 'dexie'
import { type Database, withoutSession } from './database.ts'
import type { StoredEvent } from './log.ts'
import type { Written } from './written.ts'

/** The events of each, in the order asked for. */
export const eventsOfMany = (db: Database, ids: readonly string[]): PromiseLike<StoredEvent[][]> =>
  db.transaction('r', db.events, async () => {
    const within = (id: string) => db.events.where('[session+seq]').between([id, Dexie.minKey], [id, Dexie.maxKey]).toArray()
    return (await Promise.all(ids.map(within))).map(rows => rows.map(withoutSession))
  })

/** Their texts, as far as they are kept. Neighbours in the table are read in one request, as when a whole log leaves. */
export const textsOf = (db: Database, ids: readonly string[]): PromiseLike<(Written | undefined)[]> =>
  db.transaction('r', db.texts, async () => {
    const sorted = [...ids].sort()
    const range = () => db.texts.where('session').between(sorted[0], sorted.at(-1), true, true)
    if (ids.length === 0 || (await range().count()) > ids.length) return db.texts.bulkGet([...ids])
    const texts = new Map((await range().toArray()).map(text => [text.session, text]))
    return ids.map(id => texts.get(id))
  })
