// The log on the phone. Reaches the database library: import it lazily.
import { Dexie } from 'dexie'
import { closing } from './closing.ts'
import { asLogError, database, isDropped, SCHEMA, type SessionRow, withoutSession } from './database.ts'
import { keep } from './keep.ts'
import { type Log, LogError } from './log.ts'
import { eventsOfMany } from './many.ts'
import { mergeInto } from './merge.ts'
import { stamp } from './stamp.ts'

export const openLog = async (): Promise<Log> => {
  const db = database()
  const listeners = new Set<() => void>()
  let shut = false
  let askedToKeep = false

  const shutDown = (): void => {
    shut = true
    db.close({ disableAutoOpen: true })
    for (const tell of listeners) tell()
    listeners.clear()
  }
  db.on('versionchange', () => {
    shutDown()
    return false // or the library's own handler would leave reopening on
  })
  // At every opening: the library would open a newer schema than ours without a word, and write to it.
  db.on(
    'ready',
    () => {
      if (db.backendDB().version < (SCHEMA + 1) * 10) return
      shutDown()
      throw new LogError('closed', 'The log was made by a newer version of this app. Reload the app.')
    },
    true,
  )

  // One queue for all: two quick taps keep their order, and no reopening pulls the connection from under another request.
  let tail: Promise<unknown> = Promise.resolve()
  const attempt = async <T>(work: () => PromiseLike<T>): Promise<T> => {
    try {
      return await work()
    } catch (first) {
      if (shut || !isDropped(first)) throw asLogError(first, shut)
    }
    try {
      db.close()
      await db.open()
      return await work()
    } catch (second) {
      throw asLogError(second, shut)
    }
  }
  const queued = <T>(work: () => PromiseLike<T>): Promise<T> => {
    const result = tail.then(() => attempt(work))
    tail = result.catch(() => undefined)
    return result
  }

  await queued(() => db.open())
  const eventsOf = (id: string) => db.events.where('[session+seq]').between([id, Dexie.minKey], [id, Dexie.maxKey])

  return {
    create(started) {
      const id = crypto.randomUUID()
      const at = stamp()
      return queued(() =>
        db.transaction('rw', db.sessions, db.events, async () => {
          if (await db.sessions.get(id)) return id // the first try had committed before the connection went
          const order = ((await db.sessions.orderBy('order').last())?.order ?? 0) + 1
          const { id: machineId, name: machineName } = started.machine
          await db.sessions.add({ id, order, machineId, machineName, startedAt: at.wall })
          await db.events.add({ session: id, seq: 1, ...at, event: started })
          return id
        }),
      )
    },
    async append(id, event, ending) {
      const at = stamp()
      let tried = 0
      const seq = await queued(() =>
        db.transaction('rw', db.sessions, db.events, db.drafts, async () => {
          // A second try: was the first one committed after all? Only this append could have used that number from this page.
          if (tried > 0 && (await db.events.get([id, tried]))?.boot === at.boot) return tried
          const row = await db.sessions.get(id)
          if (!row) throw new LogError('unknown', 'Not saved: this session is not in the log.')
          tried = ((await eventsOf(id).last())?.seq ?? 0) + 1
          await db.events.add({ session: id, seq: tried, ...at, event })
          // What was taken from the events before this one is not true any more.
          const { facts: _facts, seal: _seal, sent: _sent, ...current } = row
          const { result: _result, endedAt: _endedAt, branch: _branch, wrong: _wrong, ...bare } = current
          const told =
            event.type === 'undone' ? { ...bare, ...closing(await eventsOf(id).toArray()) } : { ...current, ...closing([{ event }]) }
          await db.sessions.put({ ...told, ...ending })
          await db.drafts.delete(id)
          return tried
        }),
      )
      if (!askedToKeep) void keep()
      askedToKeep = true
      return seq
    },
    async sessions() {
      // Reversed here: backwards, the library would fetch one row after the other.
      const rows = await queued(() => db.sessions.orderBy('order').toArray())
      return rows.reverse().map(({ order: _order, ...summary }) => summary)
    },
    async events(id) {
      const rows = await queued(() => eventsOf(id).toArray())
      return rows.map(withoutSession)
    },
    eventsOfMany: ids => queued(() => eventsOfMany(db, ids)),
    async open() {
      const isOpen = (row: SessionRow): boolean => row.result === undefined && row.imported !== true
      return (await queued(() => db.sessions.orderBy('order').reverse().filter(isOpen).first()))?.id
    },
    async draft(id) {
      return (await queued(() => db.drafts.get(id)))?.text ?? ''
    },
    async saveDraft(id, text) {
      await queued(() => db.drafts.put({ session: id, text }))
    },
    async saveMachine(machine) {
      await queued(() => db.machines.put(machine))
    },
    machines: () => queued(() => db.machines.toArray()),
    merge: sessions => queued(() => mergeInto(db, sessions)),
    async seal(id) {
      return (await queued(() => db.sessions.get(id)))?.seal
    },
    async saveFacts(id, facts, seal) {
      await queued(() =>
        db.transaction('rw', db.sessions, db.events, async () => {
          const row = await db.sessions.get(id)
          // An answer came in meanwhile: what was taken from the events before it is not true any more.
          if (!row || (await eventsOf(id).count()) !== facts.events) return
          const { result, endedAt } = facts
          const ending = row.result === undefined && result !== undefined && endedAt !== undefined ? { result, endedAt } : {}
          await db.sessions.put({ ...row, ...ending, facts, seal })
        }),
      )
    },
    async saveSent(id, sent) {
      await queued(() =>
        db.transaction('rw', db.sessions, db.events, async () => {
          if ((await eventsOf(id).count()) === sent.count) await db.sessions.update(id, { sent })
        }),
      )
    },
    people: () => queued(() => db.people.toArray()),
    async savePerson(person) {
      await queued(() => db.people.put(person))
    },
    onClosed(tell) {
      if (shut) tell()
      else listeners.add(tell)
      return () => listeners.delete(tell)
    },
    close: () => db.close(),
  }
}
