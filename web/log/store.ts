// The log on the phone. The only file that reaches the database library: import it lazily.
import { Dexie, type Table } from 'dexie'
import type { Machine } from '../../engine/machine.ts'
import type { SessionEvent } from '../flow/request.ts'
import { keep } from './keep.ts'
import { type Log, LogError, type SessionSummary, type StoredEvent } from './log.ts'
import { stamp } from './stamp.ts'
import { standing } from './standing.ts'

const SCHEMA = 1

/** A line of the list, written in the same transaction as the event it was taken from. `order` counts sessions: ids and clocks cannot. */
type SessionRow = SessionSummary & { readonly order: number; readonly machineId: string }
type EventRow = StoredEvent & { readonly session: string }
type Database = Dexie & {
  readonly sessions: Table<SessionRow, string>
  readonly events: Table<EventRow, [string, number]>
  readonly drafts: Table<{ readonly session: string; readonly text: string }, string>
  readonly machines: Table<Machine, string>
}

const database = (): Database => {
  // Strict: a commit is reported only once it is on the disk, so that a flat battery takes nothing acknowledged.
  const db = new Dexie('ohmward', { chromeTransactionDurability: 'strict', autoOpen: false })
  db.version(SCHEMA).stores({ sessions: 'id, &order', events: '[session+seq]', drafts: 'session', machines: 'id' })
  return db as Database
}

/** The names of an error and of what caused it: the library wraps the browser's own. */
const names = (error: unknown): readonly string[] => {
  if (!(error instanceof Error)) return []
  return [error.name, ...names('inner' in error ? error.inner : undefined)]
}
// What browsers give when they have dropped the connection behind the page's back, as iOS does in the background.
const DROPPED = ['DatabaseClosedError', 'InvalidStateError', 'UnknownError', 'AbortError']
const isQuota = (error: unknown): boolean => names(error).includes('QuotaExceededError')
const isDropped = (error: unknown): boolean => !isQuota(error) && names(error).some(name => DROPPED.includes(name))

const asLogError = (error: unknown, shut: boolean): LogError => {
  if (error instanceof LogError) return error
  if (isQuota(error)) return new LogError('quota', 'Not saved: this phone has no space left. Free some space, then try again.', error)
  if (shut) return new LogError('closed', 'The log was taken over by a newer version of this app, or cleared. Reload the app.', error)
  if (isDropped(error)) return new LogError('closed', 'The browser closed the log. Try again, or reload the app.', error)
  return new LogError('unknown', `The browser's storage failed (${error instanceof Error ? error.message : String(error)}).`, error)
}

/** What the closing form says, unless it was taken back. */
const closing = (events: readonly { readonly event: SessionEvent }[]): Pick<SessionRow, 'branch' | 'wrong'> => {
  const form = standing(events).findLast(({ event }) => event.type === 'closed')?.event
  return form?.type === 'closed' ? { branch: form.branch, wrong: form.wrong } : {}
}

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
          const { result: _result, endedAt: _endedAt, branch: _branch, wrong: _wrong, ...bare } = row
          const told = event.type === 'undone' ? { ...bare, ...closing(await eventsOf(id).toArray()) } : { ...row, ...closing([{ event }]) }
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
      const rows = await queued(() => db.sessions.orderBy('order').reverse().toArray())
      return rows.map(({ order: _order, machineId: _machineId, ...summary }) => summary)
    },
    async events(id) {
      const rows = await queued(() => eventsOf(id).toArray())
      return rows.map(({ session: _session, ...stored }) => stored)
    },
    async open() {
      const isOpen = (row: SessionRow): boolean => row.result === undefined
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
    onClosed(tell) {
      if (shut) tell()
      else listeners.add(tell)
      return () => listeners.delete(tell)
    },
    close: () => db.close(),
  }
}
