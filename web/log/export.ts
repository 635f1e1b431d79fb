// Session files: out as JSON for machines and as CSV for people, and in again from JSON.
import { checked, refuse } from '../../engine/fields.ts'
import type { Checked } from '../../engine/machine.ts'
import type { Entry, SessionEvent } from '../flow/request.ts'
import { table } from './csv.ts'
import { type Log, LogError, type StoredEvent } from './log.ts'
import { COLUMNS, rowOf } from './row.ts'
import { type SessionFile, sessionFile } from './shape.ts'
import { localIso } from './stamp.ts'

/** A file to share or to download. */
export interface ExportFile {
  readonly name: string
  readonly mime: string
  readonly text: string
}

const eventsOf = async (log: Pick<Log, 'events'>, id: string): Promise<StoredEvent[]> => {
  const events = await log.events(id)
  if (events.length === 0) throw new LogError('unknown', 'This session is not in the log.')
  return events
}

/** Letters, digits and hyphens only, whatever the machine is called: the name goes to foreign file systems. */
const fileName = ([first]: readonly StoredEvent[], ending: string): string => {
  const machine = first?.event.type === 'started' ? first.event.machine.name : ''
  const words = ['ohmward', machine.normalize('NFKD').replace(/\p{M}/gu, '').slice(0, 40), first?.wall.slice(0, 16)]
  return `${words.join('-').replace(/[^A-Za-z0-9]+/g, '-')}.${ending}`
}

export const exportJson = async (log: Pick<Log, 'events'>, id: string, appVersion?: string): Promise<ExportFile> => {
  const events = await eventsOf(log, id)
  const session: SessionFile = {
    format: 'ohmward.session',
    version: 1,
    id,
    exportedAt: localIso(new Date()),
    ...(appVersion === undefined ? {} : { appVersion }),
    events,
  }
  return { name: fileName(events, 'json'), mime: 'application/json', text: `${JSON.stringify(session, null, 1)}\n` }
}

/** One line per answered step. `entries` are the session's, from the same events: the log itself knows no procedure. */
export const exportCsv = async (log: Pick<Log, 'events'>, id: string, entries: readonly Entry[]): Promise<ExportFile> => {
  const events = await eventsOf(log, id)
  // Undo gives a number free again: the latest answer with it is the one that stands.
  const answers = new Map(events.flatMap(stored => (stored.event.type === 'answered' ? [[stored.event.n, stored]] : [])))
  const rows = entries.map(entry => rowOf(entry, answers.get(entry.request.n)))
  return { name: fileName(events, 'csv'), mime: 'text/csv;charset=utf-8', text: table([COLUMNS, ...rows]) }
}

/** A session as read from a file: its events, and the same with the time and place in the log that each had. */
export interface ReadSession {
  readonly id: string
  readonly exportedAt: string
  readonly appVersion?: string
  readonly events: readonly SessionEvent[]
  readonly stored: readonly StoredEvent[]
}

/** Reads a session file's text, whatever it holds. Never throws: what cannot be read comes back as the field and a sentence. */
export const readExport = (text: string): Checked<ReadSession> => {
  const read = checked((_, field) => sessionFile(parsed(text), field), text)
  if (!read.ok) return read
  const { format: _format, version: _version, events: stored, ...rest } = read.value
  return { ok: true, value: { ...rest, stored, events: stored.map(({ event }) => event) } }
}

const MOST_BYTES = 10_000_000
/** Each UTF-16 unit is at least one byte and at most three, so most texts need not be encoded to be measured. */
const bytesOf = (text: string): number =>
  text.length * 3 <= MOST_BYTES || text.length > MOST_BYTES ? text.length : new TextEncoder().encode(text).length

const MOST_LEVELS = 32
/** Told from the text, by its brackets outside strings: a parser may already stumble over a file made of brackets. */
const isTooDeep = (text: string): boolean => {
  let level = 0
  let inString = false
  for (let i = 0; i < text.length && level <= MOST_LEVELS; i++) {
    const c = text[i]
    if (inString && c === '\\') i++
    else if (c === '"') inString = !inString
    else if (!inString && (c === '[' || c === '{')) level++
    else if (!inString && (c === ']' || c === '}')) level--
  }
  return level > MOST_LEVELS
}

const parsed = (text: string): unknown => {
  const bytes = bytesOf(text)
  if (bytes > MOST_BYTES) refuse('', bytes, `at most ${MOST_BYTES} bytes long`)
  if (isTooDeep(text)) refuse('', text, `at most ${MOST_LEVELS} levels deep`)
  try {
    return JSON.parse(text)
  } catch {
    return refuse('', text, 'JSON')
  }
}
