// Sessions in again, from any of the app's own files. Nothing here touches the store.
import { checked, fieldOf, refuse } from '../../engine/fields.ts'
import type { Checked } from '../../engine/machine.ts'
import type { SessionEvent } from '../flow/request.ts'
import { measured, parsed } from './files.ts'
import type { StoredEvent } from './log.ts'
import type { Claim } from './seal.ts'
import { MOST_EVENTS } from './shape.ts'
import { checkOrder, eventLine, type People, sessionFile, sessionsFile } from './sheet.ts'

/** A session as read from a file: its events, and the same with the time and place in the log that each had. */
export interface ReadSession {
  readonly id: string
  readonly exportedAt: string
  readonly appVersion?: string
  readonly events: readonly SessionEvent[]
  readonly stored: readonly StoredEvent[]
}

/** Reads one session's file, whatever it holds. Never throws: what cannot be read comes back as the field and a sentence. */
export const readExport = (text: string): Checked<ReadSession> => {
  const read = checked((_, field) => sessionFile(parsed(measured(text)), field), text)
  if (!read.ok) return read
  const { format: _format, version: _version, events: stored, seal: _seal, people: _people, ...rest } = read.value
  return { ok: true, value: { ...rest, stored, events: stored.map(({ event }) => event) } }
}

export interface Readable {
  readonly sessions: readonly Claim[]
  readonly people: People
}

/** The events of several sessions, one a line, those of a session in order. */
const fromLines = (lines: readonly string[]): Readable => {
  if (lines.length > MOST_EVENTS) refuse('', `${lines.length} lines`, `of at most ${MOST_EVENTS} lines`)
  const sessions = new Map<string, { events: StoredEvent[]; hashes: string[] }>()
  for (const [i, text] of lines.entries()) {
    const at = `line ${i + 1}`
    const { format: _format, version: _version, session, hash, ...stored } = eventLine(parsed(text, at), at)
    const known = sessions.get(session) ?? { events: [], hashes: [] }
    known.events.push(stored)
    known.hashes.push(hash)
    sessions.set(session, known)
  }
  for (const [id, { events }] of sessions) checkOrder(events, `session ${id.slice(0, 40)}`)
  return { people: [], sessions: [...sessions].map(([id, read]) => ({ id, ...read })) }
}

const FORMATS = ['ohmward.session', 'ohmward.sessions', 'ohmward.event'] as const
const read = (text: string): Readable => {
  const lines = measured(text.replace(/^\uFEFF/, ''))
    .split('\n')
    .filter(line => line.trim() !== '')
  const [first = ''] = lines
  if (/"format":\s*"ohmward\.event"/.test(first.slice(0, 200))) return fromLines(lines)
  const json = parsed(text.replace(/^\uFEFF/, ''))
  const format = fieldOf(json, 'format')
  if (format === 'ohmward.sessions') {
    const { sessions, people = [] } = sessionsFile(json, '')
    return { sessions, people }
  }
  if (format !== 'ohmward.session') refuse('format', format, `one of ${FORMATS.join(', ')}`)
  const { id, events, seal, people = [] } = sessionFile(json, '')
  return { people, sessions: [{ id, events, ...(seal === undefined ? {} : { seal }) }] }
}

/** Reads any file that this app writes of sessions: one, several, or lines of events. Never throws. */
export const readSessions = (text: string): Checked<Readable> => checked(() => read(text), text)
