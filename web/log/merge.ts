// Sessions of several phones come together. Events are never changed, so two tellings of a session either go on from one another,
// or part at some event: then both are kept. What counts as the same event is its canonical form, at its place after the same others.

import { Dexie } from 'dexie'
import { canonical } from './canonical.ts'
import { closing } from './closing.ts'
import { type Database, withoutSession } from './database.ts'
import type { Started } from './log.ts'
import { LogError, type Merged, type StoredEvent } from './log.ts'
import { putRow } from './rows.ts'
import type { SealedSession } from './sheet.ts'

/** 'known': nothing new in `other`. 'longer': it goes on where `own` ends. 'parted': they differ in some event. */
export const compare = (own: readonly StoredEvent[], other: readonly StoredEvent[]): 'known' | 'longer' | 'parted' => {
  const shorter = Math.min(own.length, other.length)
  for (let i = 0; i < shorter; i++) if (canonical(own[i]) !== canonical(other[i])) return 'parted'
  return other.length > own.length ? 'longer' : 'known'
}

const MOST_TELLINGS = 50

const startOf = (events: readonly StoredEvent[]): StoredEvent & { readonly event: Started } => {
  const [first] = events
  if (first?.event.type !== 'started') throw new LogError('unknown', 'A session begins with its start.')
  return { ...first, event: first.event }
}

/** In one transaction: all come in, or none. */
export const mergeInto = (db: Database, sessions: readonly SealedSession[]): PromiseLike<Merged> =>
  db.transaction('rw', [db.sessions, db.blocks, db.events, db.texts], async () => {
    let [added, grown, known] = [0, 0, 0]
    const conflicts: string[] = []
    let order = (await db.sessions.orderBy('order').last())?.order ?? 0
    const eventsOf = async (id: string): Promise<StoredEvent[]> => {
      const rows = await db.events.where('[session+seq]').between([id, Dexie.minKey], [id, Dexie.maxKey]).toArray()
      return rows.map(withoutSession)
    }
    const add = async (id: string, { events, seal }: SealedSession, from: number): Promise<void> => {
      const { event, wall } = startOf(events)
      const { id: machineId, name: machineName } = event.machine
      const row = (await db.sessions.get(id)) ?? { id, order: ++order, machineId, machineName, startedAt: wall, imported: true as const }
      const { seal: _seal, facts: _facts, sent: _sent, exported: _exported, branch: _branch, wrong: _wrong, ...bare } = row
      await putRow(db, { ...bare, ...closing(events), ...(seal === undefined ? {} : { seal }) })
      await db.texts.delete(id)
      await db.events.bulkAdd(events.slice(from).map(stored => ({ session: id, ...stored })))
    }
    const take = async (session: SealedSession): Promise<void> => {
      for (let n = 1; n <= MOST_TELLINGS; n++) {
        const id = n === 1 ? session.id : `${session.id}~${n}`
        const own = await eventsOf(id)
        const fit = own.length === 0 ? 'new' : compare(own, session.events)
        if (fit === 'parted') continue
        if (fit === 'known') known += 1
        else await add(id, session, own.length)
        if (fit === 'longer') grown += 1
        if (fit === 'new' && n === 1) added += 1
        if (fit === 'new' && n > 1) conflicts.push(id)
        return
      }
      throw new LogError('unknown', `Nothing was taken in: session ${session.id} is told in more than ${MOST_TELLINGS} ways.`)
    }
    for (const session of sessions) await take(session)
    return { added, grown, known, conflicts }
  })
