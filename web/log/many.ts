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

/** Neighbours that are read by one request. Many at once are no faster, and all that follow wait for them. */
const TOGETHER = 5

/** Their texts, as far as they are kept. All are asked for before the first answer comes, as a whole log leaves in pieces of these. */
export const textsOf = (db: Database, ids: readonly string[]): PromiseLike<(Written | undefined)[]> =>
  db.transaction('r', db.texts, async () => {
    const sorted = [...ids].sort()
    const within = (low: string | undefined, high: string | undefined) => db.texts.where('session').between(low, high, true, true)
    if (ids.length === 0 || (await within(sorted[0], sorted.at(-1)).count()) > ids.length) return db.texts.bulkGet([...ids])
    const groups = Array.from({ length: Math.ceil(sorted.length / TOGETHER) }, (_, i) => sorted.slice(i * TOGETHER, (i + 1) * TOGETHER))
    const rows = await Promise.all(groups.map(group => within(group[0], group.at(-1)).toArray()))
    const texts = new Map(rows.flat().map(text => [text.session, text]))
    return ids.map(id => texts.get(id))
  })
