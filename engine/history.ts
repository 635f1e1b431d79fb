// What a machine's own log of confirmed findings does to the starting prior: a Dirichlet prior and counts.
import { MOVING, SHORTS } from './fault.ts'
import { census, conductorShares } from './place.ts'
import type { Plant } from './plant.ts'
import type { FaultKind, Finding } from './step.ts'
import type { Suspicion } from './suspicion.ts'

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

/** What a machine's log says was found there and confirmed, alike findings counted together. */
export interface Learned extends Pick<Finding, 'fault' | 'branch' | 'run' | 'load'> {
  /** How often, a whole number from 1. */
  readonly times: number
}

/** Where a fault can be, as the log counts it. Indices as in the plant. */
export interface Cell {
  readonly branch: number
  readonly kind: FaultKind
  /** In `wiring.runs`, or in `loads` for what lies in a load; neither for a device. */
  readonly run?: number
  readonly load?: number
  readonly moving: boolean
  /** Share of its group before anything is read or learned. */
  readonly prior: number
}

const CONDUCTOR: readonly FaultKind[] = ['open-plus', 'open-zero', 'poor-joint']
/** One that comes and goes is the same worn place, met at another moment. */
const SHORT: readonly FaultKind[] = ['short', 'short-to-zero', 'short-to-earth', 'load-short', 'intermittent']
/**
 * Faults that share a prior: a log tells where such a fault falls, not how often it is this kind rather than another one, which
 * the symptom says better. What breaks a conductor and what loosens it work at the same places, and so count together.
 */
export const groupOf = (fault: FaultKind): string => (SHORT.includes(fault) ? 'short' : CONDUCTOR.includes(fault) ? 'open' : fault)

/**
 * Where a short circuit can be: all such cells of a machine, of 1. Shares of a Dirichlet add up to a Dirichlet of the same worth,
 * so counts by cell are at the same time counts by branch, by moving run or not, by run, by load and by kind.
 */
export const shortCells = (plant: Plant): Cell[] => {
  const all = census(plant)
  const { toZero, toEarth } = conductorShares(plant)
  return plant.branches.flatMap((b, branch) => [
    ...b.wiring.runs.flatMap(({ run }, index): Cell[] => {
      const moving = run.moving ?? false
      const share = (run.length * (moving ? MOVING : 1)) / all.metres
      const conductor = (kind: FaultKind, of: number): Cell => ({ branch, kind, run: index, moving, prior: share * of })
      return [conductor('short-to-zero', toZero), conductor('short-to-earth', toEarth)]
    }),
    ...b.loads.map((_, load): Cell => ({ branch, kind: 'load-short', load, moving: false, prior: SHORTS.load / all.loads })),
  ])
}

/** Where a device may be found open: any branch alike. */
export const deviceCells = (plant: Plant): Cell[] =>
  plant.branches.map((_, branch) => ({ branch, kind: 'device-open', moving: false, prior: 1 / plant.branches.length }))

/** The same of other single faults that lie in a branch. */
export const suspicionCells = (plant: Plant, suspicions: readonly Suspicion[]): Cell[] =>
  suspicions.flatMap(({ fault, branch, run, load, prior }): Cell[] =>
    branch === undefined
      ? []
      : [
          {
            branch,
            kind: fault,
            ...(run === undefined ? {} : { run }),
            ...(load === undefined ? {} : { load }),
            moving: plant.branches[branch]?.wiring.runs[run ?? -1]?.run.moving ?? false,
            prior,
          },
        ],
  )

export interface Counts {
  /** One a cell, in its order; not whole where a finding left open which of several it was. */
  readonly cells: readonly number[]
  /** Findings that are in none of the cells: another kind of fault, or a branch that the machine no longer has. */
  readonly elsewhere: number
}

const fitting = (plant: Plant, cells: readonly Cell[], { fault, branch, run, load }: Learned): number[] => {
  const of = (is: (cell: Cell) => boolean, among: readonly number[]): number[] => among.filter(k => is(cells[k] as Cell))
  const inBranch = of(
    cell => groupOf(cell.kind) === groupOf(fault) && plant.branches[cell.branch]?.id === branch,
    cells.map((_, k) => k),
  )
  const isNamed = (cell: Cell): boolean => {
    const b = plant.branches[cell.branch]
    return load === undefined
      ? run !== undefined && b?.wiring.runs[cell.run ?? -1]?.run.id === run
      : b?.loads[cell.load ?? -1]?.load.id === load
  }
  const item = of(isNamed, inBranch)
  const narrower = item.length > 0 ? item : inBranch
  const kind = of(cell => cell.kind === fault, narrower)
  return kind.length > 0 ? kind : narrower
}

/**
 * Counts by cell. A finding that names only a branch, or only 'short', or a run that has been renamed since, is shared out over
 * the cells that it may mean, in the prior's proportion, so that it counts for its branch and says nothing further.
 */
export const countsOf = (plant: Plant, cells: readonly Cell[], log: readonly Learned[]): Counts => {
  const counts = cells.map(() => 0)
  let elsewhere = 0
  for (const entry of log) {
    const fits = fitting(plant, cells, entry)
    const weight = sum(fits.map(k => cells[k]?.prior ?? 0))
    if (weight === 0) elsewhere += entry.times
    else for (const k of fits) counts[k] = (counts[k] ?? 0) + (entry.times * (cells[k]?.prior ?? 0)) / weight
  }
  return { cells: counts, elsewhere }
}
