// In which order to switch the branches on again, and how long to wait in between, so that in-rush stays within the supply's limit.
import { guessed, type Moment, peakOf, timeLine } from './inrush.ts'
import type { Branch, Load, Machine } from './machine.ts'
import { plantOf, RATED } from './plant.ts'
import { serviceOf } from './service.ts'

export interface PowerStep {
  readonly branch: string
  /** Branches of one group are closed together. The first group is closed without voltage and comes with the supply. */
  readonly group: number
  /** Seconds after the group before. */
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
const limitFor = ({ supply }: Machine): number | undefined => {
  const limit = supply.limit?.current ?? supply.ratedCurrent
  const { reserve } = supply
  return reserve !== undefined && reserve.seconds >= SETTLED ? Math.max(reserve.current, limit ?? 0) : limit
}
/** After this an in-rush has died away: five times its longest time constant here, 0.2 s. */
const SETTLED = 1
/** Waits that are tried, s: what a hand or a sequencer can keep. */
const WAITS = [0.05, 0.1, 0.2, 0.5, SETTLED] as const

interface Alone {
  readonly branch: string
  readonly peak: number
  readonly line: readonly Moment[]
  /** A fuse is fitted, and a wire joined, without voltage only: such a branch comes with the supply. */
  readonly withSupply: boolean
}
const comesWithSupply = ({ protection }: Branch): boolean => protection?.kind !== 'breaker' && protection?.kind !== 'electronic'

/** Those that come with the supply before those that can be switched; of each the greatest in-rush first. */
const inTurn = (machine: Machine): readonly Alone[] =>
  machine.branches
    .map((b): Alone => {
      const plant = plantOf({ ...machine, branches: [b] })
      const line = timeLine(plant, [{ branch: b.id, at: 0 }], SETTLED, Infinity)
      return { branch: b.id, peak: peakOf(plant, b.id), line, withSupply: comesWithSupply(b) }
    })
    .sort((x, y) => Number(y.withSupply) - Number(x.withSupply) || y.peak - x.peak)

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

interface Group {
  readonly at: number
  readonly wait: number
  readonly members: { branch: string; peak: number; past: boolean }[]
}
/** The first group that has room, else a new one after the shortest wait that gives it room. */
const placed = (machine: Machine, limit: number | undefined): readonly Group[] => {
  const groups: Group[] = [{ at: 0, wait: 0, members: [] }]
  const running: Running[] = []
  const room = (line: readonly Moment[], from: number): boolean =>
    limit !== undefined &&
    [from, ...groups.map(g => g.at).filter(later => later > from)].every(t => greatest([...running, { line, from }], t) <= limit)
  const join = (group: Group, { branch, peak, line }: Alone, past: boolean): void => {
    group.members.push({ branch, peak, past })
    running.push({ line, from: group.at })
  }
  for (const one of inTurn(machine)) {
    const [first] = groups
    const last = groups.at(-1)?.at ?? 0
    const isFirst = first !== undefined && (one.withSupply || first.members.length === 0)
    const found = isFirst ? first : groups.find(g => room(one.line, g.at))
    if (found !== undefined) {
      join(found, one, limit !== undefined && isFirst && !room(one.line, 0))
      continue
    }
    // With no limit known each waits until the one before has settled.
    const wait = limit === undefined ? SETTLED : WAITS.find(w => room(one.line, last + w))
    const next = { at: last + (wait ?? SETTLED), wait: wait ?? SETTLED, members: [] }
    groups.push(next)
    join(next, one, wait === undefined)
  }
  return groups.filter(g => g.members.length > 0)
}

/** The order, the groups and the waits, without the time line. */
const stepsOf = (machine: Machine): readonly PowerStep[] =>
  placed(machine, limitFor(machine)).flatMap(({ at, wait, members }, group) =>
    members.map((m, i): PowerStep => ({ ...m, group, at, wait: i === 0 ? wait : 0 })),
  )

export const powerUp = (machine: Machine): PowerUp => {
  const limit = limitFor(machine)
  const steps = stepsOf(machine)
  const whole = timeLine(plantOf(machine), steps, (steps.at(-1)?.at ?? 0) + SETTLED, limit ?? Infinity)
  const atLimit = whole.reduce((sum, m, i) => sum + (m.limited ? m.seconds - (whole[i - 1]?.seconds ?? 0) : 0), 0)
  const unsure = guessed(machine)
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

/** Switching on in groups: which branches stay open until the supply is on, in the order in which they are closed then. */
export interface Staged {
  readonly later: readonly PowerStep[]
  /** What all together would ask for at the first moment, and what the supply gives, A. */
  readonly asked: number
  readonly limit: number
}
/** With no in-rush where none is told: what is asked for then is asked for certainly. */
const surely = (load: Load): Load =>
  load.inRush !== undefined || load.watts === undefined ? load : { ...load, inRush: { peak: load.watts / RATED, seconds: 1e-5 } }

/**
 * Undefined where everything may come with the supply: together it stays within the limit, or nobody knows that it does not.
 * A usual in-rush figure proves nothing, so it counts only `asFound`, where in-rush was found to be the fault. A machine that
 * is overloaded at rest as well gains nothing by waiting.
 */
export const stagedFor = (machine: Machine, asFound = false): Staged | undefined => {
  const limit = limitFor(machine)
  if (limit === undefined) return undefined
  const certain = asFound
    ? machine
    : { ...machine, branches: machine.branches.map(b => ({ ...b, ...(b.loads && { loads: b.loads.map(surely) }) })) }
  const together = timeLine(
    plantOf(certain),
    machine.branches.map(b => ({ branch: b.id, at: 0 })),
    1e-4,
    Infinity,
  )
  const asked = Math.max(...together.map(m => m.ampere))
  if (asked <= limit || serviceOf(machine).ampere > limit) return undefined
  const later = stepsOf(machine).filter(s => s.group > 0)
  return later.length === 0 ? undefined : { later, asked, limit }
}
