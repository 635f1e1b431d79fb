// In which order to switch the branches on again, and how long to wait in between, so that in-rush stays within the supply's limit.
import type { Known } from './device.ts'
import { guessed, type Moment, peakOf, timeLine } from './inrush.ts'
import type { Machine } from './machine.ts'
import { type Plant, plantOf } from './plant.ts'

export interface PowerStep {
  readonly branch: string
  /** Seconds after the branch before. */
  readonly wait: number
  /** Seconds from the first. */
  readonly at: number
  /** A that the branch asks for at the moment of closing. */
  readonly peak: number
  /** Closed at any later time it would still take the supply to its limit. */
  readonly past: boolean
}
export interface PowerUp {
  readonly steps: readonly PowerStep[]
  /** What the supply may be asked for, A; undefined where its machine file does not say. */
  readonly limit?: number
  /** Within the limit throughout. 'not known' where the limit is, or where in-rush figures are only usual ones. */
  readonly fits: 'yes' | 'no' | 'not known'
  /** By the usual figures, where those decide. */
  readonly fitsAsUsual: boolean | undefined
  /** Seconds that the supply spends at its limit. */
  readonly atLimit: number
  /** Lowest voltage between the buses once the first branch is on, V. */
  readonly lowest: number
  readonly line: readonly Moment[]
  /** Loads whose in-rush is a usual figure, as `branch/load`. */
  readonly guessed: readonly string[]
}

/** What is asked of the supply, in A: a stated limit, else its rated current. A reserve counts as long as an in-rush lasts. */
const limitFor = ({ supply }: Machine, known: Known): number | undefined => {
  const limit = supply.limit?.current ?? supply.ratedCurrent
  const { reserve } = known
  return reserve !== undefined && reserve.seconds >= SETTLED ? Math.max(reserve.current, limit ?? 0) : limit
}
/** After this an in-rush has died away: five times its longest time constant here, 0.2 s. */
const SETTLED = 1
/** Waits that are tried, s: what a hand or a sequencer can keep. */
const WAITS = [0, 0.05, 0.1, 0.2, 0.5, SETTLED] as const

interface Alone {
  readonly branch: string
  readonly plant: Plant
  readonly peak: number
}
const byPeak = (machine: Machine, known: Known): readonly Alone[] =>
  machine.branches
    .map(b => {
      const plant = plantOf({ ...machine, branches: [b] })
      return { branch: b.id, plant, peak: peakOf(plant, b.id, known) }
    })
    .sort((x, y) => y.peak - x.peak)

/** Branch ids in the order to close: the greatest in-rush first, while least else draws from the supply. */
export const orderOf = (machine: Machine, known: Known = {}): readonly string[] => byPeak(machine, known).map(({ branch }) => branch)

/** Greatest current from a moment on: a time line's tail, so that a wait can be tried by looking up. */
const at = (line: readonly Moment[], seconds: number): number => (line.find(m => m.seconds >= seconds) ?? line.at(-1))?.ampere ?? 0

interface Running {
  readonly line: readonly Moment[]
  readonly from: number
}
const GRID = [0.00002, 0.0005, 0.001, 0.002, 0.004, 0.008, 0.016, 0.03, 0.06, 0.12, 0.25, 0.5, SETTLED]
/** Together, each as if alone on a supply that does not give way: on the safe side, since voltage never rises above that. */
const greatest = (running: readonly Running[], from: number): number =>
  Math.max(...GRID.map(t => running.reduce((sum, r) => sum + (from + t < r.from ? 0 : at(r.line, from + t - r.from)), 0)))

/** How long to wait after `last` for this branch; `past` where no wait is long enough. */
const waitFor = (running: readonly Running[], line: readonly Moment[], last: number, limit: number): { wait: number; past: boolean } => {
  for (const wait of WAITS) if (greatest([...running, { line, from: last + wait }], last + wait) <= limit) return { wait, past: false }
  return { wait: running.length === 0 ? 0 : SETTLED, past: true }
}

export const powerUp = (machine: Machine, known: Known = {}): PowerUp => {
  const plant = plantOf(machine)
  const limit = limitFor(machine, known)
  const running: Running[] = []
  const steps: PowerStep[] = []
  for (const { branch, peak, plant: alone } of byPeak(machine, known)) {
    const line = timeLine(alone, [{ branch, at: 0 }], SETTLED, Infinity, known)
    const last = steps.at(-1)?.at ?? 0
    // With no limit known each waits until the one before has settled.
    const { wait, past } =
      limit === undefined ? { wait: steps.length === 0 ? 0 : SETTLED, past: false } : waitFor(running, line, last, limit)
    running.push({ line, from: last + wait })
    steps.push({ branch, wait, at: last + wait, peak, past })
  }
  const whole = timeLine(plant, steps, (steps.at(-1)?.at ?? 0) + SETTLED, limit ?? Infinity, known)
  const atLimit = whole.reduce((sum, m, i) => sum + (m.limited ? m.seconds - (whole[i - 1]?.seconds ?? 0) : 0), 0)
  const unsure = guessed(plant, known)
  const told = machine.branches.every(b => (b.loads ?? []).length > 0 && (b.loads ?? []).every(l => l.watts !== undefined))
  const within = atLimit === 0 && steps.every(s => !s.past)
  const sure = limit !== undefined && unsure.length === 0 && told
  return {
    steps,
    ...(limit === undefined ? {} : { limit }),
    fits: sure ? (within ? 'yes' : 'no') : 'not known',
    fitsAsUsual: limit === undefined ? undefined : within,
    atLimit,
    lowest: Math.min(...whole.map(m => m.volts)),
    line: whole,
    guessed: unsure,
  }
}
