// A site's sessions, generated and not played, and what its views must answer: counted here from the sessions, without any database.
import type { FaultKind } from '../../engine/step.ts'
import type { FaultRecord, SessionEvent } from '../../web/flow/request.ts'
import type { DeskLine } from '../../web/log/desk.ts'
import { chain } from '../../web/log/seal.ts'
import { chance, seedOf } from '../bench/random.ts'
import { answered, MACHINE, stored } from './samples.ts'

/** A machine stops some ten times a quarter. */
const machinesOf = (count: number): number => Math.max(10, Math.ceil(count / 250))
const FAULTS: readonly FaultKind[] = ['short-to-zero', 'short-to-earth', 'load-short', 'open-plus']
/** Sessions fall evenly into so many years from this one on. */
const [FIRST_YEAR, YEARS] = [2021, 5]
const LAST_YEAR = String(FIRST_YEAR + YEARS - 1)

export interface SiteSession {
  readonly id: string
  readonly machine: string
  readonly wall: string
  readonly events: readonly SessionEvent[]
  /** What its closing form says was found; some say nothing. */
  readonly found?: FaultRecord['found']
}

/** The sessions of a site: the same number gives the same ones. `answers` a session, of which no view takes notice. */
export const siteSession = (i: number, count: number, answers: number): SiteSession => {
  const luck = chance(seedOf(78, i))
  const at = new Date(Date.UTC(FIRST_YEAR, 0, 1) + Math.floor((i / count) * YEARS * 365 * 86_400_000))
  const machine = `machine-${luck.whole(0, machinesOf(count) - 1)}`
  const branch = `B${luck.whole(1, 12)}`
  const found = { fault: luck.pick(FAULTS), ...(luck.yes(0.1) ? {} : { branch }) }
  // One in five was stopped: its form says what was done, and of no finding.
  const closed = luck.yes(0.2) ? { record: { mended: 'nothing' } } : { record: { found } }
  return {
    id: `00000000-0000-4000-8000-${String(i).padStart(12, '0')}`,
    machine,
    wall: `${at.toISOString().slice(0, -1)}+00:00`,
    events: [
      { type: 'started', machine: { ...MACHINE, id: machine, name: machine }, kit: {}, symptom: 'all-dead' },
      ...Array.from({ length: answers }, (_, n) => answered(n + 1)),
      { type: 'closed', branch, wrong: '', note: '', ...closed },
    ],
    ...closed.record,
  }
}

/** As a phone sends it. */
export const siteLines = ({ id, machine, wall, events }: SiteSession): DeskLine[] => {
  const kept = stored(events).map(event => ({ ...event, wall }))
  const hashes = chain(id, kept)
  return kept.map((event, k) => ({
    format: 'ohmward.event',
    version: 1,
    session: id,
    hash: hashes[k] ?? '',
    ...event,
    'x-machine': machine,
  }))
}

export interface Question {
  readonly what: string
  readonly view: string
  readonly query: Readonly<Record<string, unknown>>
  /** The key under which a session counts; undefined where the question is not about it. */
  readonly keyOf: (session: SiteSession) => readonly unknown[] | undefined
}

const quarterOf = ({ wall }: SiteSession): readonly [string, number] => [wall.slice(0, 4), Math.floor((Number(wall.slice(5, 7)) + 2) / 3)]
const isLastQuarter = (session: SiteSession): boolean => quarterOf(session).join() === `${LAST_YEAR},4`
const QUARTER = [LAST_YEAR, 4]
const within = (key: readonly unknown[]) => ({ start_key: key, end_key: [...key, {}] })

/** What the guide for the site asks, of the last quarter and of machine 7. */
export const QUESTIONS: readonly Question[] = [
  {
    what: 'which branches failed this quarter',
    view: 'branches',
    query: { ...within(QUARTER), group_level: 4 },
    keyOf: one => (one.found && isLastQuarter(one) ? [...quarterOf(one), one.machine, one.found.branch ?? null] : undefined),
  },
  {
    what: 'the same of one machine',
    view: 'branches',
    query: { ...within([...QUARTER, 'machine-7']), group_level: 4 },
    keyOf: one =>
      one.found && isLastQuarter(one) && one.machine === 'machine-7' ? [...QUARTER, one.machine, one.found.branch ?? null] : undefined,
  },
  {
    what: 'what it was this quarter',
    view: 'faults',
    query: { ...within(QUARTER), group_level: 3 },
    keyOf: one => (one.found && isLastQuarter(one) ? [...QUARTER, one.found.fault] : undefined),
  },
  { what: 'sessions of each machine', view: 'machines', query: { group_level: 1 }, keyOf: ({ machine }) => [machine] },
  {
    what: 'sessions of one machine in the last year',
    view: 'machines',
    query: { start_key: ['machine-7', LAST_YEAR], end_key: ['machine-7', {}], group_level: 1 },
    keyOf: ({ machine, wall }) => (machine === 'machine-7' && wall.startsWith(LAST_YEAR) ? [machine] : undefined),
  },
]

/** Sessions a key, the keys as JSON. */
export type Counts = Readonly<Record<string, number>>

export const counted = (sessions: Iterable<SiteSession>, { keyOf }: Question): Counts => {
  const counts: Record<string, number> = {}
  for (const session of sessions) {
    const key = keyOf(session)
    if (key) counts[JSON.stringify(key)] = (counts[JSON.stringify(key)] ?? 0) + 1
  }
  return counts
}

/** What the database at this address answers. */
export const answeredBy = async (address: string, { view, query }: Question): Promise<Counts> => {
  const words = Object.entries(query).map(([key, value]) => `${key}=${encodeURIComponent(JSON.stringify(value))}`)
  const response = await fetch(`${address}/_design/append/_view/${view}?${words.join('&')}`)
  const { rows }: { rows: { key: unknown; value: number }[] } = await response.json()
  return Object.fromEntries(rows.map(({ key, value }) => [JSON.stringify(key), value]))
}
