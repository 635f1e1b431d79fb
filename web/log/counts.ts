// Counts over many sessions, for charts and tables. Pure: from the lines of the list alone.
import { type Facts, originOf, type SessionSummary } from './log.ts'

export interface Share {
  readonly key: string
  readonly count: number
  /** Of all, up to and with this one: 0 to 1. */
  readonly upTo: number
}

/** One line a session, even where it is told in two ways. */
export const distinct = (sessions: readonly SessionSummary[]): readonly SessionSummary[] => {
  const seen = new Set<string>()
  return sessions.filter(({ id }) => !seen.has(originOf(id)) && seen.add(originOf(id)))
}

/** How often each, the most frequent first; equal ones by name, so that a chart looks the same on every phone. */
export const pareto = (keys: readonly string[]): readonly Share[] => {
  const counts = new Map<string, number>()
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1)
  const sorted = [...counts].sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
  let sum = 0
  return sorted.map(([key, count]) => {
    sum += count
    return { key, count, upTo: sum / keys.length }
  })
}

export interface Typical {
  readonly key: string
  readonly count: number
  /** Seconds, half of them took no longer. */
  readonly median: number
}
const median = (sorted: readonly number[]): number => {
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? (sorted[middle] ?? 0) : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2
}

export const monthOf = ({ startedAt }: Pick<SessionSummary, 'startedAt'>): string => startedAt.slice(0, 7)

/** Time to find, by `key`, for the sessions that found something. */
export const timeToFind = (sessions: readonly SessionSummary[], key: (session: SessionSummary) => string): readonly Typical[] => {
  const groups = new Map<string, number[]>()
  for (const session of sessions) {
    const seconds = session.facts?.times.diagnosis
    if (seconds === undefined) continue
    const group = groups.get(key(session))
    if (group) group.push(seconds)
    else groups.set(key(session), [seconds])
  }
  return [...groups]
    .map(([name, seconds]) => ({ key: name, count: seconds.length, median: median(seconds.sort((a, b) => a - b)) }))
    .sort((a, b) => (a.key < b.key ? -1 : 1))
}

/** Metres: two faults this close on a run count as one place (two metres: common practice, no source). */
export const SAME_PLACE = 2

export interface Again {
  readonly machineId: string
  readonly machineName: string
  readonly branch: string
  readonly run?: string
  readonly load?: string
  /** Metres from the run's near end, from the first to the last of them. */
  readonly from?: number
  readonly to?: number
  readonly sessions: readonly SessionSummary[]
}

/** Places that failed more than once: the same load, or the same run with each fault at most two metres from the next. */
export const failedAgain = (sessions: readonly SessionSummary[]): readonly Again[] => {
  const places = new Map<string, SessionSummary[]>()
  for (const session of sessions) {
    const found = session.facts?.found
    if (!found || (found.run === undefined && found.load === undefined)) continue
    const key = JSON.stringify([session.machineId, found.branch, found.run ?? null, found.run === undefined ? found.load : null])
    const known = places.get(key)
    if (known) known.push(session)
    else places.set(key, [session])
  }
  return [...places.values()].flatMap(clusters).sort((a, b) => b.sessions.length - a.sessions.length)
}

const metres = (session: SessionSummary): number | undefined => session.facts?.found?.alongRun?.best

const clusters = (sessions: readonly SessionSummary[]): readonly Again[] => {
  const sorted = [...sessions].sort((a, b) => (metres(a) ?? 0) - (metres(b) ?? 0))
  const groups: SessionSummary[][] = []
  for (const session of sorted) {
    const last = groups.at(-1)
    const before = last?.at(-1)
    const near = before !== undefined && (metres(session) ?? 0) - (metres(before) ?? 0) <= SAME_PLACE
    if (last && near) last.push(session)
    else groups.push([session])
  }
  return groups.filter(group => group.length > 1).map(placeOf)
}

const placeOf = (sessions: readonly SessionSummary[]): Again => {
  const [first] = sessions
  const found = first?.facts?.found
  const at = sessions.flatMap(session => metres(session) ?? [])
  return {
    machineId: first?.machineId ?? '',
    machineName: first?.machineName ?? '',
    branch: found?.branch ?? '',
    ...(found?.run === undefined ? {} : { run: found.run }),
    ...(found?.load === undefined ? {} : { load: found.load }),
    ...(at.length === 0 ? {} : { from: Math.min(...at), to: Math.max(...at) }),
    sessions: [...sessions].sort((a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt)),
  }
}

/** A step that could not be done. */
type Refused = Facts['cannots'][number]
/** Steps that could not be done, with the reason; `words` makes one line of all tellings of it. */
export const notDone = (
  sessions: readonly SessionSummary[],
  words: (refused: Refused) => string = ({ what, why }) => `${what}: ${why}`,
): readonly Share[] => pareto(sessions.flatMap(({ facts }) => (facts?.cannots ?? []).map(words)))
