// The files that sessions leave and come in by, read strictly: one session, several, or an event a line.
import { fieldOf, list, object, oneOf, optional, type Reader, refuse } from '../../engine/fields.ts'
import type { StoredEvent } from './log.ts'
import type { Seal } from './seal.ts'
import { event, finite, hash, MOST_EVENTS, seq, stored, text, wall } from './shape.ts'

/** Codes of technicians and their names. They stand beside the sealed events, so that leaving them out breaks no seal. */
export type People = readonly { readonly code: string; readonly name: string }[]
interface Sheet {
  readonly version: 1
  readonly exportedAt: string
  readonly appVersion?: string
  readonly people?: People
}
export interface SealedSession {
  readonly id: string
  readonly seal?: Seal
  readonly events: readonly StoredEvent[]
}
/** One session. */
export interface SessionFile extends Sheet, SealedSession {
  readonly format: 'ohmward.session'
}
/** Several: of a machine, of a month, or all. */
export interface SessionsFile extends Sheet {
  readonly format: 'ohmward.sessions'
  readonly sessions: readonly SealedSession[]
}
/** A line of an NDJSON file: one event, with its hash in its session's chain. */
export interface EventLine extends StoredEvent {
  readonly format: 'ohmward.event'
  readonly version: 1
  readonly session: string
  readonly hash: string
}

/** Made by this app as a UUID. Kept narrow, for it becomes a key and part of others. */
export const sessionId: Reader<string> = (found, field) =>
  typeof found === 'string' && /^[A-Za-z0-9-]{1,100}$/.test(found) ? found : refuse(field, found, '1 to 100 letters, digits and hyphens')
const sealed = {
  id: sessionId,
  seal: optional(object<Seal>({ head: hash, count: seq })),
  events: list(stored, MOST_EVENTS, 1),
}
const sheet = {
  version: oneOf(1),
  exportedAt: wall,
  appVersion: optional(text),
  people: optional(list(object<People[number]>({ code: text, name: text }), 1000)),
}
const one = object<SessionFile>({ format: oneOf('ohmward.session'), ...sheet, ...sealed })
const several = object<SessionsFile>({
  format: oneOf('ohmward.sessions'),
  ...sheet,
  sessions: list(object<SealedSession>(sealed), MOST_EVENTS, 1),
})
const line = object<EventLine>({
  format: oneOf('ohmward.event'),
  version: oneOf(1),
  session: sessionId,
  hash,
  seq,
  wall,
  zone: text,
  mono: finite,
  boot: text,
  event,
})

/** Before all else: a later version may differ in anything, and a refusal of some field would mislead. */
export const checkVersion = (found: unknown): void => {
  const version = fieldOf(found, 'version')
  if (version !== undefined && version !== 1) refuse('version', version, '1, the only one that this app reads')
}
/** A session's events in order, none missing, the start at its head and nowhere else. */
export const checkOrder = (events: readonly StoredEvent[], field: string): void => {
  for (const [i, { seq, event }] of events.entries()) {
    if (seq !== i + 1) refuse(`${field}[${i}].seq`, seq, `${i + 1}: no event may be missing or out of order`)
    if ((event.type === 'started') !== (i === 0))
      refuse(`${field}[${i}].event.type`, event.type, i === 0 ? 'started' : 'another: a session starts once')
  }
}

export const sessionFile: Reader<SessionFile> = (found, field) => {
  checkVersion(found)
  const read = one(found, field)
  checkOrder(read.events, 'events')
  return read
}
export const sessionsFile: Reader<SessionsFile> = (found, field) => {
  checkVersion(found)
  const inside = fieldOf(found, 'sessions')
  // Counted before any of them is read: a file of very many is refused at once.
  const events = Array.isArray(inside) ? inside.reduce((sum: number, one) => sum + lengthOf(fieldOf(one, 'events')), 0) : 0
  if (events > MOST_EVENTS) refuse('sessions', inside, `of at most ${MOST_EVENTS} events together`)
  const read = several(found, field)
  for (const [i, { events }] of read.sessions.entries()) checkOrder(events, `sessions[${i}].events`)
  return read
}
const lengthOf = (found: unknown): number => (Array.isArray(found) ? found.length : 0)
export const eventLine: Reader<EventLine> = (found, field) => {
  checkVersion(found)
  return line(found, field)
}
