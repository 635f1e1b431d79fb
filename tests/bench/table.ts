import type { Played } from './play.ts'
import type { Search } from './rivals.ts'

/** One machine played, and what both habits need on it (short circuits only). */
export interface Outcome {
  readonly seed: number
  /** The kind of the fault that was there. */
  readonly fault: string
  readonly played: Played
  readonly oneByOne?: Search
  /** The same with the kindest walk: no 60 s for going there, and it stops at the short circuit. */
  readonly kindest?: Search
  readonly live?: Search
}

export const mean = (of: readonly number[]): number => of.reduce((sum, x) => sum + x, 0) / of.length
/** The value that `share` of them do not pass. */
export const quantile = (of: readonly number[], share: number): number => {
  const sorted = [...of].sort((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN
}

const percent = (part: number, of: number): string => (of === 0 ? '-' : `${((100 * part) / of).toFixed(1)}%`)
const whole = (x: number): string => (Number.isFinite(x) ? x.toFixed(0) : '-')

type Column = readonly [title: string, width: number, cell: (outcomes: readonly Outcome[]) => string]
/** The share of those for which there is something to judge. */
const share =
  (is: (played: Played) => boolean | undefined): Column[2] =>
  outcomes => {
    const judged = outcomes.map(o => is(o.played)).filter(x => x !== undefined)
    return percent(judged.filter(Boolean).length, judged.length)
  }
/** A search that finds nothing still counts with all the seconds it took. */
const toPlace = ({ played }: Outcome): number => played.secondsToPlace ?? played.seconds
const toRestored = ({ played }: Outcome): number => played.seconds
const against =
  (rival: (o: Outcome) => Search | undefined): Column[2] =>
  outcomes => {
    const both = outcomes.filter(o => rival(o) !== undefined)
    return both.length === 0 ? '-' : (mean(both.map(toPlace)) / mean(both.map(o => rival(o)?.seconds ?? 0))).toFixed(2)
  }
const stated: Column[2] = outcomes => {
  const said = outcomes.map(o => o.played.stated).filter(x => x !== undefined)
  return percent(
    said.reduce((sum, x) => sum + x, 0),
    said.length,
  )
}

const COLUMNS: readonly Column[] = [
  ['n', 5, outcomes => String(outcomes.length)],
  ['found', 7, share(p => p.found)],
  ['first right', 12, share(p => p.firstRight ?? p.found)],
  ['as sure', 8, stated],
  ['covered', 8, share(p => p.covered)],
  ['in its run', 11, share(p => p.coveredInRun)],
  ['unsafe', 7, outcomes => String(outcomes.filter(o => o.played.unsafe.length > 0).length)],
  ['restored', 9, share(p => p.restored)],
  ['stuck', 6, outcomes => String(outcomes.filter(o => o.played.result === 'stuck').length)],
  ['to place', 9, outcomes => whole(mean(outcomes.map(toPlace)))],
  ['p95', 6, outcomes => whole(quantile(outcomes.map(toPlace), 0.95))],
  ['to restored', 12, outcomes => whole(mean(outcomes.map(toRestored)))],
  ['p95', 6, outcomes => whole(quantile(outcomes.map(toRestored), 0.95))],
  ['/one-by-one', 12, against(o => o.oneByOne)],
  ['kindly', 8, against(o => o.kindest)],
  ['/live', 7, against(o => o.live)],
]
const line = (setup: string, cells: readonly string[]): string =>
  [setup.padEnd(22), ...cells.map((c, i) => c.padStart(COLUMNS[i]?.[1] ?? 8))].join('')

export const heading = (): string =>
  line(
    'setup',
    COLUMNS.map(([title]) => title),
  )
export const row = (setup: string, outcomes: readonly Outcome[]): string =>
  line(
    setup,
    COLUMNS.map(([, , cell]) => cell(outcomes)),
  )

/** What went wrong and how often, with a machine's seed to play it again. */
export const troubles = (outcomes: readonly Outcome[]): string[] => {
  const seen = new Map<string, { times: number; seed: number }>()
  const add = (what: string, seed: number): void => {
    const one = seen.get(what)
    seen.set(what, { times: (one?.times ?? 0) + 1, seed: one?.seed ?? seed })
  }
  for (const { seed, fault, played } of outcomes) {
    for (const what of new Set(played.unsafe.map(u => `unsafe, rule ${u.rule}: ${u.what}`))) add(what, seed)
    for (const message of new Set(played.errors)) add(`error: ${message}`, seed)
    if (!played.found) add(`not found (${played.result}): ${fault}`, seed)
    else if (played.firstRight === false) add(`first finding wrong: ${fault}`, seed)
    if (played.found && !played.restored) add(`not restored (${played.result})`, seed)
    if (played.misstated > 0) add('seconds stated that a step does not cost', seed)
    if (played.secondsAtStart > 60) add('short circuit as found left live for more than 60 s', seed)
  }
  const lines = [...seen]
    .sort(([, a], [, b]) => b.times - a.times)
    .map(([what, { times, seed }]) => `  ${String(times).padStart(4)} × ${what}  (--one ${seed})`)
  const longest = [...outcomes].sort((a, b) => toPlace(b) - toPlace(a)).slice(0, LONGEST)
  return [...lines, ...longest.map(o => `  ${whole(toPlace(o)).padStart(5)} s  ${o.fault}  (--one ${o.seed})`)]
}
/** So many of the longest searches are named. */
const LONGEST = 4
