// What a machine's own log of confirmed findings does to the starting prior: a Dirichlet prior and counts.
import { MOVING, SHORTS } from './fault.ts'
import { census } from './place.ts'
import type { Plant } from './plant.ts'
import type { Finding } from './step.ts'

/**
 * How many log entries the built-in prior is worth. A machine has perhaps five to ten confirmed short circuits a year, so log and
 * prior weigh alike after two to four years. One finding shifts a twenty-first of the belief, three alike lift a place that the
 * prior gives 4 of 100 to 17 of 100: noticed, and not yet believed. Eight records against a prior worth 157 hardly move it
 * (NUREG/CR-6823, from memory), a prior worth two would follow every single one (common practice, no source).
 */
export const WORTH = 20
/** No cause is ruled out because nobody thought of it or nobody has seen it (common practice, no source). */
const LEAST = 1e-6

const sum = (of: readonly number[]): number => of.reduce((total, x) => total + x, 0)

/** Posterior mean of each share: (worth × prior + count)/(worth + all counts). The prior need not sum to 1. */
export const learned = (prior: readonly number[], counts: readonly number[], worth: number): number[] => {
  if (counts.length !== prior.length) throw new RangeError(`a count for each of ${prior.length} causes, found ${counts.length}`)
  if (!(worth > 0)) throw new RangeError(`the prior is worth some entries, found ${worth}`)
  const total = sum(prior)
  const floored = prior.map(p => (total > 0 ? Math.max(p / total, LEAST) : 1))
  const [all, entries] = [sum(floored), sum(counts)]
  return floored.map((p, k) => ((worth * p) / all + (counts[k] ?? 0)) / (worth + entries))
}

/** How much of the learned shares came from the log: 0 to 1. */
export const shareFromLog = (counts: readonly number[], worth: number): number => sum(counts) / (worth + sum(counts))

/** Standard deviation of a learned share, which rests on `entries` of prior and log together. */
export const shareSd = (share: number, entries: number): number => Math.sqrt((share * (1 - share)) / (entries + 1))

/** Where a short circuit can be, as the log counts it: a run and one kind, or a load. Indices as in the plant. */
export interface Cell {
  readonly branch: number
  readonly kind: 'short-to-zero' | 'short-to-earth' | 'load-short'
  /** In `wiring.runs`, or in `loads` for `load-short`. */
  readonly item: number
  readonly moving: boolean
  /** Share of all short circuits of the machine before anything is read or learned. */
  readonly prior: number
}

/**
 * All cells of a machine. Shares of a Dirichlet add up to a Dirichlet of the same worth, so counts by cell are at the same time
 * counts by branch, by moving run or not, by run, by load and by kind.
 */
export const cellsOf = (plant: Plant): Cell[] => {
  const all = census(plant)
  const bonded = plant.machine.supply.zeroVoltBonded ?? true
  const toEarth = bonded ? SHORTS.toEarth : 0
  return plant.branches.flatMap((b, branch) => [
    ...b.wiring.runs.flatMap(({ run }, item): Cell[] => {
      const moving = run.moving ?? false
      const share = (run.length * (moving ? MOVING : 1)) / all.metres
      const conductor = (kind: Cell['kind'], of: number): Cell => ({ branch, kind, item, moving, prior: share * of })
      const toZero = conductor('short-to-zero', SHORTS.toZero + SHORTS.toEarth - toEarth)
      return bonded ? [toZero, conductor('short-to-earth', toEarth)] : [toZero]
    }),
    ...b.loads.map((_, item): Cell => ({ branch, kind: 'load-short', item, moving: false, prior: SHORTS.load / all.loads })),
  ])
}

/** A line of the log. Only what the technician confirmed is counted. */
export interface Logged {
  readonly finding: Pick<Finding, 'fault' | 'branch' | 'run' | 'load'>
  readonly confirmed: boolean
}
export interface Counts {
  /** One a cell, in the order of `cellsOf`; not whole where a finding left open which of several it was. */
  readonly cells: readonly number[]
  /** Confirmed findings that are in no cell: another kind of fault, or a branch that the machine no longer has. */
  readonly elsewhere: number
}

/** Short circuits as far as a finding names them; anything else the log keeps is no count of a cell. */
const KINDS: ReadonlySet<string> = new Set(['short', 'short-to-zero', 'short-to-earth', 'load-short'])

/**
 * Counts by cell. A finding that names only a branch, or only 'short', or a run that has been renamed since, is shared out over
 * the cells that it may mean, in the prior's proportion, so that it counts for its branch and says nothing further.
 */
export const findingsToCounts = (plant: Plant, log: readonly Logged[]): Counts => {
  const cells = cellsOf(plant)
  const counts = cells.map(() => 0)
  let elsewhere = 0
  for (const { finding, confirmed } of log) {
    if (!confirmed) continue
    const fitting = KINDS.has(finding.fault) ? fittingCells(plant, cells, finding) : []
    const weight = sum(fitting.map(k => cells[k]?.prior ?? 0))
    if (weight === 0) elsewhere += 1
    for (const k of fitting) counts[k] = (counts[k] ?? 0) + (weight === 0 ? 0 : (cells[k]?.prior ?? 0) / weight)
  }
  return { cells: counts, elsewhere }
}

const fittingCells = (plant: Plant, cells: readonly Cell[], { fault, branch, run, load }: Logged['finding']): number[] => {
  const of = (is: (cell: Cell) => boolean, among: readonly number[]): number[] => among.filter(k => is(cells[k] as Cell))
  const inBranch = of(
    cell => plant.branches[cell.branch]?.id === branch,
    cells.map((_, k) => k),
  )
  const itemOf = (cell: Cell): string | undefined => {
    const b = plant.branches[cell.branch]
    return cell.kind === 'load-short' ? b?.loads[cell.item]?.load.id : b?.wiring.runs[cell.item]?.run.id
  }
  const named = load ?? run
  const wanted = load === undefined ? 'run' : 'load'
  const item = of(cell => itemOf(cell) === named && (cell.kind === 'load-short' ? 'load' : 'run') === wanted, inBranch)
  const narrower = item.length > 0 ? item : inBranch
  const kind = of(cell => cell.kind === fault, narrower)
  return kind.length > 0 ? kind : narrower
}

/** Factors on the places of a prior, and how much of it the log makes. */
export interface Lesson {
  /** How many times as likely a cell has become. `item` and `kind` as in `Cell`. */
  readonly factor: (branch: number, kind: Cell['kind'], item: number) => number
  readonly share: number
}

/** What a machine's log teaches about its short circuits. */
export const lessonOf = (plant: Plant, log: readonly Logged[], worth = WORTH): Lesson => {
  const cells = cellsOf(plant)
  const counts = findingsToCounts(plant, log).cells
  const prior = cells.map(cell => cell.prior)
  const total = sum(prior)
  const after = learned(prior, counts, worth)
  const key = (branch: number, kind: Cell['kind'], item: number): string => `${branch} ${kind} ${item}`
  const factors = new Map(
    cells.map((cell, k) => [key(cell.branch, cell.kind, cell.item), cell.prior > 0 ? ((after[k] ?? 0) * total) / cell.prior : 1]),
  )
  return { factor: (...of) => factors.get(key(...of)) ?? 1, share: shareFromLog(counts, worth) }
}
