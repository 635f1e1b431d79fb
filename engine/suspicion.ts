// Single faults other than a short circuit, each with its circuit: conductors open or badly joined, a supply set low.
import { branchOfPoint, circuitOf, energise, faulty, ohmBetween, probeAt, voltageAt } from './circuit.ts'
import { MOVING, POOR_JOINT_OHM, type Shares } from './fault.ts'
import type { Plant, PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import { type Sound, soundOf } from './sound.ts'
import type { ProbeRead, Read } from './step.ts'

export interface Suspicion {
  readonly fault: 'open-plus' | 'open-zero' | 'poor-joint' | 'supply-low' | 'device-open'
  /** Index of the branch, and of the run in its wiring; neither for the supply, no run for a device. */
  readonly branch?: number
  readonly run?: number
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
  return [...inRuns, ...LOW.map(volts => ({ fault: 'supply-low' as const, volts, prior: shares.supplyLow / LOW.length }))].filter(
    s => s.prior > 0,
  )
}

const circuitWith = (plant: Plant, p: Positions, s: Suspicion | undefined, detail: number | undefined) => {
  const low =
    s?.volts === undefined ? plant : { ...plant, machine: { ...plant.machine, supply: { ...plant.machine.supply, setVoltage: s.volts } } }
  const c = circuitOf(low, p, detail)
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

/** What an ohmmeter meets between the probes with a suspicion true: the loads that it can still see. */
export const seenLoads = (plant: Plant, p: Positions, read: ProbeRead, s?: Suspicion): Sound => {
  const b = touched(plant, read)
  const c = circuitWith(plant, p, s, b?.index ?? s?.branch ?? 0)
  const ohm = ohmBetween(c, probeAt(c, p, read.red), probeAt(c, p, read.black))
  const all = b === undefined ? undefined : soundOf(b, p)
  const siemens = 1 / ohm
  // The loads' own spread goes with what of them is still seen.
  const share = all === undefined || all.siemens === 0 ? 0.1 : all.sd / all.siemens
  return {
    siemens,
    sd: share * siemens + 1e-9,
    openChance: siemens < 1e-7 ? 0.95 : (all?.openChance ?? 0.01),
    untold: all?.untold ?? 0,
  }
}

/** Standard deviation of a live voltage about what the circuit says: set voltage, load currents and the meter, V. */
export const LIVE_SPREAD = 0.5
