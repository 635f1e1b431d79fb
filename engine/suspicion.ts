// Single faults other than a short circuit: conductors open or badly joined, a supply set low, what shows under voltage only,
// and another supply.
import { branchOfPoint, circuitOf, energise, faulty, ohmBetween, probeAt, runAt, voltageAt } from './circuit.ts'
import { MOVING, POOR_JOINT_OHM, type Shares } from './fault.ts'
import type { Load } from './machine.ts'
import { limitOf, type Plant, type PlantBranch } from './plant.ts'
import { asFound, type Positions } from './positions.ts'
import { below, type Sound, soundFrom } from './sound.ts'
import type { ProbeRead, Read } from './step.ts'

export interface Suspicion {
  readonly fault:
    | 'open-plus'
    | 'open-zero'
    | 'poor-joint'
    | 'supply-low'
    | 'device-open'
    | 'overload'
    | 'in-rush'
    | 'swapped'
    | 'diode'
    | 'backfeed'
  /** Index of the branch, of the run in its wiring, of the load among its loads; none of them for what lies at the supply. */
  readonly branch?: number
  readonly run?: number
  readonly load?: number
  /** It holds the supply down while its load is joined and its device closed, though its ohms are right. */
  readonly holds?: boolean
  /** Ω of a poor joint; V that a supply gives that is set low. */
  readonly ohm?: number
  readonly volts?: number
  /** Of 1 over everything, before anything is read. */
  readonly prior: number
}

/** Voltages of a supply that is adjusted low or ailing, V, equally likely (common practice, no source). */
const LOW = [14, 17, 20] as const

/** Half of all broken conductors break at a joint or terminal, half along the cable, six times as often where it moves (common practice, no source). */
const runWeights = (plant: Plant): number[][] => {
  const metres = (b: PlantBranch) => b.wiring.runs.map(({ run }) => run.length * (run.moving ? MOVING : 1))
  const all = plant.branches.map(metres)
  const length = all.flat().reduce((sum, x) => sum + x, 0)
  const count = all.flat().length
  return all.map(runs => runs.map(x => 0.5 / count + (0.5 * x) / length))
}

/** How often which load jams, ails or is overloaded without its ohms telling (common practice, no source). */
const JAMS: Readonly<Record<Load['kind'], number>> = { motor: 4, electronic: 2, lamp: 0.5, coil: 0.5 }

/** What lies in a load: one that draws too much under voltage, a coil's diode that conducts, a load wired the wrong way round. */
const inLoads = (plant: Plant, shares: Shares): Suspicion[] => {
  const loads = plant.branches.flatMap(b => b.loads.map(({ load }, i) => ({ at: { branch: b.index, load: i }, kind: load.kind })))
  const jams = loads.reduce((sum, x) => sum + JAMS[x.kind], 0)
  const even = shares.polarity / (2 * Math.max(1, loads.length))
  return loads.flatMap(({ at, kind }): Suspicion[] => {
    const hot: Suspicion = { fault: 'overload', ...at, holds: true, prior: (shares.hotLoad * JAMS[kind]) / jams }
    // Swapped, an electronic load is out of service; a coil works, but for its diode, which then conducts.
    if (kind !== 'coil') return [hot, { fault: 'swapped', ...at, holds: false, prior: 2 * even }]
    return [hot, { fault: 'swapped', ...at, holds: true, prior: even }, { fault: 'diode', ...at, holds: true, prior: even }]
  })
}

/** Of the other supplies, those on the bus itself: a second one beside the machine's own, or a buffer (common practice, no source). */
const AT_BUS = 0.3

/** Which suspicions voltages and ohms along the wiring can trace. */
const TRACED: readonly string[] = ['open-plus', 'open-zero', 'poor-joint', 'supply-low', 'device-open']
export const isTraced = (x: Suspicion): boolean => TRACED.includes(x.fault)

/** Share of the limit that the loads draw where nobody has told one of them (common practice, no source). */
const USUAL_SHARE = 0.7
/** A with every load on whose device is closed. */
const drawn = (plant: Plant, p: Positions): number => {
  const limit = limitOf(plant.machine)
  // A branch whose loads nobody has told counts like the next one.
  const untold = limit === undefined ? 1 : (USUAL_SHARE * limit) / plant.branches.length
  return plant.branches.reduce((sum, b) => {
    if (p.devices[b.id] !== 'closed') return sum
    if (b.wiring.unknown) return sum + untold
    const plugged = b.loads.filter(({ load }) => !p.unplugged.includes(`${b.id}/${load.id}`))
    return sum + plugged.reduce((own, x) => own + x.liveAmpere + 24 * x.liveSiemens, 0)
  }, 0)
}

/** Shares of the whole load that hold the supply down: where nobody can tell, and how wide the doubt is (common practice, no source). */
const HELD_FROM = { overload: 0.85, 'in-rush': 0.75 } as const
const HELD_WIDTH = 0.08

/** Most that one load takes too much, A (common practice, no source). */
const MOST_TOO_MUCH = 24
/** Of the limit, the least that one load has to take too much to be noticed at all (common practice, no source). */
const LEAST_TOO_MUCH = 0.05
/** Chance that what is told of loads and limit is not how they are: the load's own ohms, say (common practice, no source). */
const MISTOLD = 0.05

/** Chance that what one load takes too much still holds the supply down with fewer loads on: any size of it from just enough upward, log-uniform. */
const stillTooMuch = (plant: Plant, p: Positions): number => {
  const all = drawn(plant, asFound(plant.branches.map(({ id }) => id)))
  const limit = limitOf(plant.machine) ?? all / USUAL_SHARE
  const enough = Math.max(limit - all, LEAST_TOO_MUCH * limit)
  const needed = Math.max(limit - drawn(plant, p), enough)
  const most = Math.max(MOST_TOO_MUCH, 2 * enough)
  return Math.max(MISTOLD, Math.log(most / needed) / Math.log(most / enough))
}

/** Chance that a suspicion, if true, holds the supply down in this state of the machine. */
export const holdsDown = (plant: Plant, p: Positions, x: Suspicion): number => {
  // Another supply may feed a branch whatever else is wrong; by itself it explains neither.
  if (x.fault === 'backfeed') return 0.5
  if (isTraced(x)) return 0
  const b = x.branch === undefined ? undefined : plant.branches[x.branch]
  if (b !== undefined) {
    const load = b.loads[x.load ?? -1]?.load.id
    if (!x.holds || p.devices[b.id] !== 'closed' || p.unplugged.includes(`${b.id}/${load}`)) return 0
    return x.fault === 'overload' ? stillTooMuch(plant, p) : 1
  }
  const all = drawn(plant, asFound(plant.branches.map(({ id }) => id)))
  if (all === 0) return 0
  const { limit } = plant.machine.supply
  const from =
    x.fault === 'overload' && limit?.current !== undefined
      ? Math.min(limit.current / all, HELD_FROM.overload)
      : HELD_FROM[x.fault === 'in-rush' ? 'in-rush' : 'overload']
  return below((drawn(plant, p) / all - from) / HELD_WIDTH)
}

export const suspicionsOf = (plant: Plant, shares: Shares): Suspicion[] => {
  const weights = runWeights(plant)
  const inRuns = plant.branches.flatMap(b =>
    b.wiring.runs.flatMap((_, run): Suspicion[] => {
      const w = weights[b.index]?.[run] as number
      const at = { branch: b.index, run }
      const joints = POOR_JOINT_OHM.map(ohm => ({
        fault: 'poor-joint' as const,
        ...at,
        ohm,
        prior: (shares.poorJoint * w) / POOR_JOINT_OHM.length,
      }))
      return [
        { fault: 'open-plus', ...at, prior: (shares.open * w) / 2 },
        { fault: 'open-zero', ...at, prior: (shares.open * w) / 2 },
        ...joints,
      ]
    }),
  )
  const atSupply: Suspicion[] = [
    ...LOW.map(volts => ({ fault: 'supply-low' as const, volts, prior: shares.supplyLow / LOW.length })),
    { fault: 'overload', prior: shares.all },
    { fault: 'in-rush', prior: shares.inRush },
  ]
  const fed: Suspicion[] = [
    ...plant.branches.map(
      ({ index }) => ({ fault: 'backfeed', branch: index, prior: ((1 - AT_BUS) * shares.backfeed) / plant.branches.length }) as const,
    ),
    { fault: 'backfeed', prior: AT_BUS * shares.backfeed },
  ]
  return [...inRuns, ...inLoads(plant, shares), ...fed, ...atSupply].filter(s => s.prior > 0)
}

const circuitWith = (plant: Plant, p: Positions, s: Suspicion | undefined, detail: number | undefined) => {
  // No limit: what holds the supply down has a density of its own, and a limit reckoned from the loads' sum would do it again.
  const { limit: _, ratedCurrent: __, ...rest } = plant.machine.supply
  const supply = s?.volts === undefined ? rest : { ...rest, setVoltage: s.volts }
  const c = circuitOf({ ...plant, machine: { ...plant.machine, supply } }, p, detail)
  const b = s?.branch === undefined ? undefined : plant.branches[s.branch]
  const run = b === undefined || s?.run === undefined ? undefined : b.wiring.runs[s.run]
  if (b === undefined || run === undefined || c.base[b.index] === undefined || s === undefined) return c
  return faulty(c, { kind: s.fault, branch: b.id, run: run.run.id, at: run.run.length / 2, ...(s.ohm === undefined ? {} : { ohm: s.ohm }) })
}

/** The id of the run that a suspicion lies in. */
export const runId = (plant: Plant, x: Suspicion): string | undefined =>
  x.branch === undefined || x.run === undefined ? undefined : plant.branches[x.branch]?.wiring.runs[x.run]?.run.id

/** The branch that a reading touches; undefined at bus and supply. */
export const touched = (plant: Plant, read: Read): PlantBranch | undefined => {
  const id = read.meter === 'amp' ? read.branch : (branchOfPoint(read.red) ?? branchOfPoint(read.black))
  return plant.branches[plant.indexOf.get(id ?? '') ?? -1]
}

/** V between the probes with the supply on and a suspicion true (or nothing wrong), in the detail of the branch touched. */
export const liveVolts = (plant: Plant, p: Positions, read: ProbeRead, s?: Suspicion): number => {
  const b = touched(plant, read)
  if (s?.fault === 'device-open' && s.branch === b?.index) return 0
  const c = circuitWith(plant, p, s, b?.index ?? s?.branch ?? 0)
  energise(c, p)
  return voltageAt(c.ladder, probeAt(c, p, read.red)) - voltageAt(c.ladder, probeAt(c, p, read.black))
}

/** At the bus the spread of all loads together, as a share, and the chance that none of them shows (common practice, no source). */
const AT_BUS_SEEN = { share: 0.1, openChance: 0.01 } as const

/** What an ohmmeter meets between the probes with a suspicion true (or nothing wrong): the loads that it can still see. */
export const seenLoads = (plant: Plant, p: Positions, read: ProbeRead, s?: Suspicion): Sound => {
  const b = touched(plant, read)
  const c = circuitWith(plant, p, s, b?.index ?? s?.branch ?? 0)
  const siemens = 1 / ohmBetween(c, probeAt(c, p, read.red), probeAt(c, p, read.black))
  if (b === undefined)
    return { siemens, sd: AT_BUS_SEEN.share * siemens + 1e-9, openChance: siemens < NOTHING ? 0.95 : AT_BUS_SEEN.openChance, untold: 0 }
  const at = runAt(b, p, branchOfPoint(read.red) === undefined ? read.black : read.red)
  const broken = s?.branch === b.index && (s.fault === 'open-plus' || s.fault === 'open-zero') ? s.run : undefined
  const seen = soundFrom(b, p, siemens, at, broken)
  return siemens < NOTHING ? { ...seen, openChance: 0.95 } : seen
}
/** Less than this conducts nothing that a meter shows, S. */
const NOTHING = 1e-7

/** Standard deviation of a live voltage about what the circuit says: set voltage, load currents and the meter, V. */
export const LIVE_SPREAD = 0.5
