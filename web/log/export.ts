// Session files: out as JSON and NDJSON for machines, as CSV for people. `import.ts` reads the first two again.
import type { Entry } from '../flow/request.ts'
import { POINT, type Style, table } from './csv.ts'
import { MOST_BYTES } from './files.ts'
import { type Log, LogError, originOf, type StoredEvent } from './log.ts'
import { COLUMNS, rowOf } from './row.ts'
import { sealOf } from './seal.ts'
import { MOST_EVENTS } from './shape.ts'
import type { People, SealedSession, SessionFile, SessionsFile } from './sheet.ts'
import { localIso } from './stamp.ts'
import { asLines, asSession, type Written, write } from './written.ts'

export { readExport } from './import.ts'

/** A file to share or to download. */
export interface ExportFile {
  readonly name: string
  readonly mime: string
  readonly text: string
}
/** A long one, in pieces: the browser makes the file of them faster than of one text, and without holding all of it twice. */
export interface LongFile extends ExportFile {
  readonly parts: readonly string[]
}
const longFile = (name: string, mime: string, parts: readonly string[]): LongFile => ({
  name,
  mime,
  parts,
  get text() {
    return parts.join('')
  },
})
/** What goes into a file besides the events. Names of people only where they are handed in. */
export interface Extras {
  readonly appVersion?: string | undefined
  readonly people?: People | undefined
}

/** Reads sessions for a file. What is kept of them as text need not be read event by event. */
export type Source = Pick<Log, 'events'> & Partial<Pick<Log, 'textsOf' | 'eventsOfMany'>>

const eventsOf = async (log: Source, id: string): Promise<StoredEvent[]> => {
  const events = await log.events(id)
  if (events.length === 0) throw new LogError('unknown', 'This session is not in the log.')
  return events
}
const sealed = async (log: Source, id: string): Promise<SealedSession> => {
  const events = await eventsOf(log, id)
  const origin = originOf(id)
  return { id: origin, seal: await sealOf(origin, events), events }
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

/** One event a line, each with its hash. */
export const exportLines = async (log: Source, id: string): Promise<ExportFile> => {
  const events = await eventsOf(log, id)
  const text = asLines(originOf(id), write(originOf(id), events))
  return { name: nameOf(events, 'ndjson'), mime: 'application/x-ndjson', text }
}

/** One line per answered step. `entries` are the session's, from the same events: the log itself knows no procedure. */
export const exportCsv = async (log: Source, id: string, entries: readonly Entry[], style: Style = POINT): Promise<ExportFile> => {
  const events = await eventsOf(log, id)
  // Undo gives a number free again: the latest answer with it is the one that stands.
  const answers = new Map(events.flatMap(stored => (stored.event.type === 'answered' ? [[stored.event.n, stored]] : [])))
  const rows = entries.map(entry => rowOf(entry, answers.get(entry.request.n)))
  return { name: nameOf(events, 'csv'), mime: 'text/csv;charset=utf-8', text: table([COLUMNS, ...rows], style) }
}

/** Sessions that are read together. */
const BATCH = 50
const read = async (log: Source, ids: readonly string[]): Promise<readonly (readonly [string, Written])[]> => {
  const texts = await log.textsOf?.(ids)
  const others = ids.filter((_, i) => texts?.[i] === undefined)
  const many = log.eventsOfMany ?? ((some: readonly string[]) => Promise.all(some.map(id => log.events(id))))
  const events = new Map((others.length === 0 ? [] : await many(others)).map((own, i) => [others[i], own]))
  return ids.map((id, i) => {
    const text = texts?.[i]
    if (text) return [originOf(id), text]
    const own = events.get(id) ?? []
    if (own.length === 0) throw new LogError('unknown', 'A session is not in the log any more.')
    return [originOf(id), write(originOf(id), own)]
  })
}
/** The next ones are read while these are made into a file. */
async function* inOrder(log: Source, ids: readonly string[]): AsyncGenerator<readonly [string, Written]> {
  const from = (i: number) => {
    const reading = i < ids.length ? read(log, ids.slice(i, i + BATCH)) : undefined
    // Nobody may ask for it any more; who does, is told.
    reading?.catch(() => undefined)
    return reading
  }
  let reading = from(0)
  for (let next = BATCH; reading; next += BATCH) {
    const some = await reading
    reading = from(next)
    yield* some
  }
}

/** Room for the sheet's own fields and a list of people. */
const ROOM = 200_000

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
): AsyncGenerator<LongFile> {
  let part = 0
  let parts: string[] = []
  let held = { bytes: 0, events: 0 }
  const file = (last: boolean): LongFile => {
    part += 1
    const name = fileName([what, ...(part > 1 || !last ? [`part-${part}`] : [])], kind)
    const head: Omit<SessionsFile, 'sessions'> = { format: 'ohmward.sessions', ...sheet(extras) }
    const pieces = kind === 'ndjson' ? parts : [`${JSON.stringify(head).slice(0, -1)},"sessions":[\n`, ...parts, '\n]}\n']
    parts = []
    held = { bytes: 0, events: 0 }
    return longFile(name, kind === 'json' ? 'application/json' : 'application/x-ndjson', pieces)
  }
  // In the order of their keys: neighbours are read together, and the same log makes the same file on every phone.
  for await (const [id, written] of inOrder(log, [...ids].sort())) {
    const text = kind === 'json' ? asSession(id, written) : asLines(id, written)
    // What stands around the events is plain ASCII, a byte a character; and `,\n` before it.
    const bytes = written.bytes + text.length - written.events.length + 2
    const isFull = held.bytes + bytes > MOST_BYTES - ROOM || held.events + written.count > MOST_EVENTS
    if (parts.length > 0 && isFull) yield file(false)
    parts.push(kind === 'json' && parts.length > 0 ? `,\n${text}` : text)
    held = { bytes: held.bytes + bytes, events: held.events + written.count }
  }
  if (parts.length > 0) yield file(true)
}
