// The tables on the phone, and what their failures mean. Reaches the database library: import it lazily.
import { Dexie, type Table } from 'dexie'
import { type KeptMachine, LogError, type SessionSummary, type StoredEvent } from './log.ts'
import type { Photo } from './photo.ts'
import type { People } from './sheet.ts'
import type { Written } from './written.ts'

/** 2 added the names of people; 3 sessions and lines of the list as text, and photos. Versions only ever add. */
export const SCHEMA = 3

/** A line of the list, written in the same transaction as the event it was taken from. `order` counts sessions: ids and clocks cannot. */
export type SessionRow = SessionSummary & { readonly order: number }
export type EventRow = StoredEvent & { readonly session: string }
export const withoutSession = ({ seq, wall, zone, mono, boot, event }: EventRow): StoredEvent => ({ seq, wall, zone, mono, boot, event })
export type Database = Dexie & {
  readonly sessions: Table<SessionRow, string>
  readonly events: Table<EventRow, [string, number]>
  readonly drafts: Table<{ readonly session: string; readonly text: string }, string>
  readonly machines: Table<KeptMachine, string>
  readonly people: Table<People[number], string>
  /** Sessions as they leave. One falls in the same transaction in which its session gets another event. */
  readonly texts: Table<Written & { readonly session: string }, string>
  /** Lines of the list, many in one text: see `rows.ts`. */
  readonly blocks: Table<{ readonly block: number; readonly text: string }, number>
  readonly photos: Table<Photo & { readonly session: string }, [string, string]>
}

export const database = (): Database => {
  // Strict: a commit is reported only once it is on the disk, so that a flat battery takes nothing acknowledged.
  const db = new Dexie('ohmward', { chromeTransactionDurability: 'strict', autoOpen: false })
  db.version(1).stores({ sessions: 'id, &order', events: '[session+seq]', drafts: 'session', machines: 'id' })
  db.version(2).stores({ people: 'code' })
  db.version(SCHEMA).stores({ texts: 'session', blocks: 'block', photos: '[session+hash]' })
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
export const isDropped = (error: unknown): boolean => !isQuota(error) && names(error).some(name => DROPPED.includes(name))

export const asLogError = (error: unknown, shut: boolean): LogError => {
  if (error instanceof LogError) return error
  if (isQuota(error)) return new LogError('quota', 'Not saved: this phone has no space left. Free some space, then try again.', error)
  if (shut) return new LogError('closed', 'The log was taken over by a newer version of this app, or cleared. Reload the app.', error)
  if (isDropped(error)) return new LogError('closed', 'The browser closed the log. Try again, or reload the app.', error)
  return new LogError('unknown', `The browser's storage failed (${error instanceof Error ? error.message : String(error)}).`, error)
}
