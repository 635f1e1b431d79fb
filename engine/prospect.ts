// The current that a short circuit would draw through its branch's device: between the lowest and the highest it can be.
import { branchAlone, farEnd, within } from './circuit.ts'
import { TOLERANCE } from './conductor.ts'
import { gather, type Ladder, solve, through } from './ladder.ts'
import type { Machine, Run } from './machine.ts'
import { CABINET, type Plant, type PlantBranch, plantOf, RATED, USUAL_FIGURES, voltsOf } from './plant.ts'
import { asFound } from './positions.ts'
import { type Celsius, celsius } from './quantities.ts'

/** What the reckoning takes for granted; each can be set otherwise. */
export interface Assumed {
  /** The time that counts, s. 5 s: up to there a conductor's heating is reckoned without loss (IEC 60364-4-43 434.5.2, number from memory). */
  readonly within: number
  /** Conductor in service: 70 °C, what PVC insulation bears (IEC 60364-5-52, from memory). */
  readonly hot: Celsius
  /** Conductor of a cold machine: 5 °C, the lowest air temperature that IEC 60204-1 4.4.3 reckons with (from memory). */
  readonly cold: Celsius
  /** Air around the cables: 40 °C, the highest that IEC 60204-1 4.4.3 reckons with (from memory). */
  readonly ambient: Celsius
  /** Of the short circuit itself, Ω. 0: of negligible impedance, which is what 'prospective' means. */
  readonly faultOhm: number
}
export const USUAL: Assumed = { within: 5, hot: celsius(70), cold: celsius(5), ambient: celsius(40), faultOhm: 0 }

/** A branch in service as the bus sees it: S of what draws by voltage, A of what draws a steady current. */
interface Draw {
  readonly siemens: number
  readonly ampere: number
}
/** One end of what may be: the highest or the lowest current. */
export interface Extreme {
  readonly plant: Plant
  readonly volts: number
  /** What the supply gives at most, A. */
  readonly limit: number
  /** The branch's own loads, which draw through the device too; without them the current is lower. */
  readonly ownLoads: boolean
  /** By branch index, what takes its share of the limit; undefined where nobody knows. */
  readonly others: readonly (Draw | undefined)[]
  readonly faultOhm: number
}

/** Electronic loads draw their rated current from 16 V on, nothing below 15 V, a straight line between (common practice, no source). */
const DRAW_FROM = 15
const DRAW_FULL = 16
/** A short of no resistance at all, Ω: little enough beside the milliohms of a joint. */
const BOLTED = 1e-6

/** The node of a branch's terminals in `inService`. */
export const FIRST = 2

const closed = (plant: Plant) => asFound(plant.branches.map(b => b.id))

/** Puts `ampere` into a node's plus and takes it out of its 0 V. */
export const feedIn = (l: Ladder, node: number, ampere: number): void => {
  l.intoPlus[node] = (l.intoPlus[node] as number) + ampere
  l.intoZero[node] = (l.intoZero[node] as number) - ampere
}

/** Node voltages of a ladder whose root is held at `volts` and draws `ampere`; the 0 V of the root is what they are counted from. */
export const hold = (l: Ladder, volts: number, ampere: number): void => {
  // Stiff enough to hold the voltage, soft enough to lose no digits.
  const siemens = 1000
  l.across[0] = (l.across[0] as number) + siemens
  feedIn(l, 0, siemens * volts + ampere)
  l.zeroEarth[0] = 1
  solve(l)
}

/** A ladder of the branch alone, its terminals as the root, loads as in service with their full current. */
export const inService = (plant: Plant, b: PlantBranch, loads = true): Ladder => {
  const l = branchAlone(b, closed(plant))
  for (const { run, siemens, liveSiemens, liveAmpere } of b.loads) {
    const node = farEnd(FIRST, run)
    l.across[node] = (l.across[node] as number) - siemens + (loads ? liveSiemens : 0)
    if (loads) feedIn(l, node, -liveAmpere)
  }
  return l
}
const seen = (plant: Plant, b: PlantBranch): Draw => {
  const port = through(gather(inService(plant, b)), b.deviceOhm, CABINET.zeroLink)
  return { siemens: port.across, ampere: -port.plus }
}

/** What a sound branch draws; where its loads are not known its device's rating is the most that it draws for long. */
const drawOf = (plant: Plant, b: PlantBranch): Draw | undefined => {
  const branch = plant.machine.branches[b.index]
  const told = (branch?.loads ?? []).length > 0 && b.loads.every(({ load }) => load.watts !== undefined)
  if (told) return seen(plant, b)
  const rating = branch?.protection?.rating
  return rating === undefined ? undefined : { siemens: rating / RATED, ampere: 0 }
}

const atTemperature = (machine: Machine, of: (run: Run) => number): Machine => ({
  ...machine,
  branches: machine.branches.map(b =>
    b.wiring === undefined ? b : { ...b, wiring: b.wiring.map(run => ({ ...run, temperature: of(run) })) },
  ),
})

/** Lowest: hot conductors at the table's maximum, all other loads on. */
export const lowest = (machine: Machine, limit: number, assumed: Assumed): Extreme => {
  const hot = atTemperature(machine, run => Math.max(run.temperature ?? assumed.hot, assumed.hot))
  const plant = plantOf(hot, { ...USUAL_FIGURES, scale: () => TOLERANCE.high, temperature: assumed.hot })
  const others = plant.branches.map(b => drawOf(plant, b))
  return { plant, volts: voltsOf(machine), limit, ownLoads: false, others, faultOhm: assumed.faultOhm }
}
/** Highest: cold conductors as far under the maximum as real ones lie, other branches drawing nothing. */
export const highest = (machine: Machine, limit: number, assumed: Assumed): Extreme => {
  const cold = atTemperature(machine, run => Math.min(run.temperature ?? assumed.cold, assumed.cold))
  const plant = plantOf(cold, { ...USUAL_FIGURES, scale: () => TOLERANCE.low, temperature: assumed.cold })
  const others = plant.branches.map(() => ({ siemens: 0, ampere: 0 }))
  return { plant, volts: voltsOf(machine), limit, ownLoads: true, others, faultOhm: 0 }
}
/** The circuit as it is known to be: every conductor and load as in `plant`. */
export const exact = (plant: Plant, volts: number, limit: number, faultOhm: number): Extreme => ({
  plant,
  volts,
  limit,
  ownLoads: true,
  others: plant.branches.map(b => seen(plant, b)),
  faultOhm,
})

export interface Current {
  /** Through the branch's device, A. */
  readonly ampere: number
  /** Between the buses, V. */
  readonly volts: number
  /** The supply is at its limit. */
  readonly limited: boolean
  /** Electronic loads are on the way between full current and none. */
  readonly between: boolean
}

export const SOURCE_OHM = CABINET.supplyInside + 2 * CABINET.supplyLead

/** Where supply and loads meet: all loads together draw `siemens` × V and, above 16 V, `ampere`. */
export const meet = (volts: number, limit: number, siemens: number, ampere: number): Omit<Current, 'ampere'> => {
  const settle = (g: number, j: number) => {
    const free = (volts - SOURCE_OHM * j) / (1 + SOURCE_OHM * g)
    const held = (limit - j) / g
    return { volts: Math.min(free, held), limited: held < free }
  }
  const full = settle(siemens, ampere)
  if (full.volts >= DRAW_FULL) return { ...full, between: false }
  const slope = ampere / (DRAW_FULL - DRAW_FROM)
  const ramp = settle(siemens + slope, -slope * DRAW_FROM)
  if (ampere > 0 && ramp.volts > DRAW_FROM) return { ...ramp, between: ramp.volts < DRAW_FULL }
  return { ...settle(siemens, 0), between: false }
}

const shareOf = (volts: number): number => Math.min(1, Math.max(0, (volts - DRAW_FROM) / (DRAW_FULL - DRAW_FROM)))

const meetWith = (x: Extreme, b: PlantBranch, own: Draw): Current => {
  const others = x.others.filter((_, i) => i !== b.index)
  // An unknown share of the limit may be all of it.
  if (Number.isFinite(x.limit) && others.includes(undefined)) return { ampere: 0, volts: 0, limited: true, between: false }
  const sum = (of: (d: Draw) => number) => others.reduce((total, d) => total + (d === undefined ? 0 : of(d)), 0)
  const point = meet(x.volts, x.limit, own.siemens + sum(d => d.siemens), own.ampere + sum(d => d.ampere))
  return { ...point, ampere: own.siemens * point.volts + own.ampere * shareOf(point.volts) }
}

/** Leaves out those of the branch's electronic loads that the short starves, one round after another, till none is left over. */
const withShort = (x: Extreme, b: PlantBranch, short: (l: Ladder) => void): Current => {
  const hungry = new Set<number>()
  for (;;) {
    const l = inService(x.plant, b, x.ownLoads)
    for (const [i, { run, liveAmpere }] of b.loads.entries()) if (hungry.has(i)) feedIn(l, farEnd(FIRST, run), liveAmpere)
    short(l)
    const port = through(gather(l), b.deviceOhm, CABINET.zeroLink)
    const found = meetWith(x, b, { siemens: port.across, ampere: -port.plus })
    if (!x.ownLoads || b.loads.every(({ liveAmpere }, i) => liveAmpere === 0 || hungry.has(i))) return found
    const before = hungry.size
    hold(l, found.volts - found.ampere * (b.deviceOhm + CABINET.zeroLink), found.ampere)
    for (const [i, { run, liveAmpere }] of b.loads.entries()) {
      const node = farEnd(FIRST, run)
      if (liveAmpere > 0 && (l.plus[node] as number) - (l.zero[node] as number) < DRAW_FULL) hungry.add(i)
    }
    if (hungry.size === before) return found
  }
}

/** The current with plus and 0 V of a run shorted `at` metres from its near end. */
export const currentAt = (x: Extreme, b: PlantBranch, run: number, at: number): Current => {
  const [ohm, length] = [b.runOhm[run], b.wiring.runs[run]?.run.length]
  if (ohm === undefined || length === undefined) throw new RangeError(`no run ${run} in branch ${b.id}`)
  const near = (ohm * at) / length
  return withShort(x, b, l => {
    const node = within(FIRST, run)
    l.plusOhm[node] = l.zeroOhm[node] = near
    l.plusOhm[node + 1] = l.zeroOhm[node + 1] = ohm - near
    l.across[node] = 1 / Math.max(x.faultOhm, BOLTED)
  })
}

/** The current with the short at the branch's own terminals in the cabinet. */
export const currentAtTerminals = (x: Extreme, b: PlantBranch): Current =>
  withShort(x, b, l => {
    l.across[FIRST] = (l.across[FIRST] as number) + 1 / Math.max(x.faultOhm, BOLTED)
  })

/** What the supply certainly gives, and at most, A. A supply certainly gives its rated current; with no figure it may give any. */
export const limitsOf = ({ supply }: Machine, seconds: number): { low: number; high: number } => {
  const limit = supply.limit?.current
  const low = limit ?? supply.ratedCurrent ?? 0
  const { reserve } = supply
  if (reserve === undefined) return { low, high: limit ?? Infinity }
  return {
    low: reserve.seconds >= seconds ? Math.max(low, reserve.current) : low,
    high: Math.max(limit ?? Infinity, reserve.current),
  }
}
