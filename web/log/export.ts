// Session files: out as JSON and NDJSON for machines, as CSV for people. `import.ts` reads the first two again.
import type { Entry } from '../flow/request.ts'
import { table } from './csv.ts'
import { MOST_BYTES } from './files.ts'
import { type Log, LogError, originOf, type StoredEvent } from './log.ts'
import { COLUMNS, rowOf } from './row.ts'
import { chain, sealOf } from './seal.ts'
import { MOST_EVENTS } from './shape.ts'
import type { EventLine, People, SealedSession, SessionFile, SessionsFile } from './sheet.ts'
import { localIso } from './stamp.ts'

export { readExport } from './import.ts'

/** A file to share or to download. */
export interface ExportFile {
  readonly name: string
  readonly mime: string
  readonly text: string
}
/** What goes into a file besides the events. Names of people only where they are handed in. */
export interface Extras {
  readonly appVersion?: string | undefined
  readonly people?: People | undefined
}

/** Reads sessions for a file. A seal that is kept beside its session, and counts all of its events, need not be reckoned again. */
export type Source = Pick<Log, 'events'> & Partial<Pick<Log, 'seal' | 'eventsOfMany'>>

const eventsOf = async (log: Source, id: string): Promise<StoredEvent[]> => {
  const events = await log.events(id)
  if (events.length === 0) throw new LogError('unknown', 'This session is not in the log.')
  return events
}
const sealed = async (log: Source, id: string, read?: readonly StoredEvent[]): Promise<SealedSession> => {
  const events = read ?? (await eventsOf(log, id))
  const kept = await log.seal?.(id)
  const origin = originOf(id)
  return { id: origin, seal: kept?.count === events.length ? kept : await sealOf(origin, events), events }
}
const sheet = ({ appVersion, people }: Extras) => ({
  version: 1 as const,
  exportedAt: localIso(new Date()),
  ...(appVersion === undefined ? {} : { appVersion }),
  ...(people === undefined || people.length === 0 ? {} : { people }),
})

/** Letters, digits and hyphens only, whatever the machine is called: the name goes to foreign file systems. */
export const fileName = (words: readonly (string | undefined)[], ending: string): string => {
  const plain = words.map(word => (word ?? '').normalize('NFKD').replace(/\p{M}/gu, '').slice(0, 40))
  return `${['ohmward', ...plain].join('-').replace(/[^A-Za-z0-9]+/g, '-')}.${ending}`
}
const nameOf = ([first]: readonly StoredEvent[], ending: string): string =>
  fileName([first?.event.type === 'started' ? first.event.machine.name : '', first?.wall.slice(0, 16)], ending)

export const exportJson = async (log: Source, id: string, extras: Extras = {}): Promise<ExportFile> => {
  const session = await sealed(log, id)
  const file: SessionFile = { format: 'ohmward.session', ...sheet(extras), ...session }
  return { name: nameOf(session.events, 'json'), mime: 'application/json', text: `${JSON.stringify(file, null, 1)}\n` }
}

const linesOf = async (id: string, events: readonly StoredEvent[]): Promise<string> => {
  const session = originOf(id)
  const hashes = await chain(session, events)
  const line = (stored: StoredEvent, i: number): string => {
    const whole: EventLine = { format: 'ohmward.event', version: 1, session, hash: hashes[i] ?? '', ...stored }
    return `${JSON.stringify(whole)}\n`
  }
  return events.map(line).join('')
}
/** One event a line, each with its hash. */
export const exportLines = async (log: Source, id: string): Promise<ExportFile> => {
  const events = await eventsOf(log, id)
  return { name: nameOf(events, 'ndjson'), mime: 'application/x-ndjson', text: await linesOf(id, events) }
}

/** One line per answered step. `entries` are the session's, from the same events: the log itself knows no procedure. */
export const exportCsv = async (log: Source, id: string, entries: readonly Entry[]): Promise<ExportFile> => {
  const events = await eventsOf(log, id)
  // Undo gives a number free again: the latest answer with it is the one that stands.
  const answers = new Map(events.flatMap(stored => (stored.event.type === 'answered' ? [[stored.event.n, stored]] : [])))
  const rows = entries.map(entry => rowOf(entry, answers.get(entry.request.n)))
  return { name: nameOf(events, 'csv'), mime: 'text/csv;charset=utf-8', text: table([COLUMNS, ...rows]) }
}

/** Sessions that are read together. */
const BATCH = 50
async function* inOrder(log: Source, ids: readonly string[]): AsyncGenerator<readonly [string, readonly StoredEvent[]]> {
  const many = log.eventsOfMany ?? ((some: readonly string[]) => Promise.all(some.map(id => log.events(id))))
  for (let i = 0; i < ids.length; i += BATCH) {
    const some = ids.slice(i, i + BATCH)
    for (const [k, events] of (await many(some)).entries()) {
      if (events.length === 0) throw new LogError('unknown', 'A session is not in the log any more.')
      yield [some[k] ?? '', events]
    }
  }
}

/** Room for the sheet's own fields and a list of people. */
const ROOM = 200_000
/** Text lengths are counted thrice: a UTF-16 unit is at most three bytes. Plain ASCII, the usual case, is counted once. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: ASCII begins with control characters
const bytesAtMost = (text: string): number => (/^[\x00-\x7f]*$/.test(text) ? text.length : text.length * 3)

/**
 * Many sessions as one file; as several, numbered, where one would be larger than can be read in again. Made one after the other,
 * so that only one is in memory.
 */
export async function* exportMany(
  log: Source,
  ids: readonly string[],
  what: string,
  kind: 'json' | 'ndjson',
  extras: Extras = {},
): AsyncGenerator<ExportFile> {
  let part = 0
  let parts: string[] = []
  let held = { bytes: 0, events: 0 }
  const file = (last: boolean): ExportFile => {
    part += 1
    const name = fileName([what, ...(part > 1 || !last ? [`part-${part}`] : [])], kind)
    const body = { name, mime: kind === 'json' ? 'application/json' : 'application/x-ndjson' }
    const head: Omit<SessionsFile, 'sessions'> = { format: 'ohmward.sessions', ...sheet(extras) }
    const text = kind === 'ndjson' ? parts.join('') : `${JSON.stringify(head).slice(0, -1)},"sessions":[\n${parts.join(',\n')}\n]}\n`
    parts = []
    held = { bytes: 0, events: 0 }
    return { ...body, text }
  }
  // In the order of their keys: neighbours are read together, and the same log makes the same file on every phone.
  for await (const [id, events] of inOrder(log, [...ids].sort())) {
    const text = kind === 'json' ? JSON.stringify(await sealed(log, id, events)) : await linesOf(id, events)
    const bytes = bytesAtMost(text) + 2
    const isFull = held.bytes + bytes > MOST_BYTES - ROOM || held.events + events.length > MOST_EVENTS
    if (parts.length > 0 && isFull) yield file(false)
    parts.push(text)
    held = { bytes: held.bytes + bytes, events: held.events + events.length }
  }
  if (parts.length > 0) yield file(true)
}
