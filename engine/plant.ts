// The machine prepared for reckoning: every run, device and load as a resistance at its place in the tree.
import { resistancePerMetre } from './conductor.ts'
import type { Load, Machine } from './machine.ts'
import { type Celsius, celsius } from './quantities.ts'
import { TERMINALS, type Wiring, wiringOf } from './wiring.ts'

/** What is not in the machine file: the figures that a calculation assumes, or that a known circuit states. */
export interface Figures {
  /** Of the table's maximum resistance, what this run's conductors have. */
  readonly scale: (run: string) => number
  readonly temperature: Celsius
  /** Path from a conductor short to earth back to the bond, Ω. */
  readonly earthOhm: number
  /** An electronic load to an ohmmeter, Ω. */
  readonly electronicOhm: number
  /** A device's own resistance, Ω; from its rating where it is not given. */
  readonly deviceOhm?: (branch: string) => number
}
/** Means of what real machines show: conductors 4 % under the maximum, 20 °C (common practice, no source). */
export const USUAL_FIGURES: Figures = { scale: () => 0.96, temperature: celsius(20), earthOhm: 0.05, electronicOhm: 40_000 }

/** From a short circuit to earth back to a 0 V that is said to float: by a screen somewhere on the machine, Ω (common practice, no source). */
const BY_SCREEN = 0.8
export const isBonded = ({ machine }: Plant): boolean => machine.supply.zeroVoltBonded ?? true
/** Path from a conductor short to earth back to the 0 V bus, Ω. */
export const earthPath = (plant: Plant): number => (isBonded(plant) ? plant.figures.earthOhm : BY_SCREEN)

/** V that watts refer to, and of a supply of which nothing is told. */
export const RATED = 24
/** V that the supply holds: as set, else as rated. */
export const voltsOf = ({ supply }: Machine): number => supply.setVoltage ?? supply.ratedVoltage ?? RATED
/** A limit that nobody has told, in times the rated current (common practice, no source). */
const USUAL_LIMIT = 1.3
/** Most that the supply gives, A; undefined where nobody has told. */
export const limitOf = ({ supply: { limit, ratedCurrent } }: Machine): number | undefined =>
  limit?.current ?? (ratedCurrent === undefined ? undefined : USUAL_LIMIT * ratedCurrent)

/** Small resistances that every cabinet has, in Ω (common practice, no source). */
export const CABINET = {
  /** A conductor's joint at a run's near end. */
  joint: 0.0005,
  /** From a branch's 0 V terminal to the 0 V bus. */
  zeroLink: 0.003,
  /** Each conductor from the supply to the bus. */
  supplyLead: 0.002,
  /** From the 0 V bus to earth. */
  bond: 0.02,
  /** Inside the supply, and across its output while it is off. */
  supplyInside: 0.01,
  supplyOff: 3300,
  /** What stands for an open contact, for a broken conductor and for sound insulation of the whole machine. */
  open: 1e12,
  broken: 1e9,
  insulation: 1e11,
} as const

/** A device's own resistance: about 0.25 Ω over its rating, and 5 mΩ of terminals (common practice, no source). */
const deviceOhm = (rating: number | undefined): number => 0.25 / (rating ?? 6) + 0.005

export interface PlantLoad {
  readonly load: Load
  /** Run at whose far end it sits; −1 at the terminals. */
  readonly run: number
  /** To an ohmmeter, S; and how far off that may be (one standard deviation). */
  readonly siemens: number
  readonly siemensSd: number
  /** In service, S, for what draws by voltage; A for what draws a steady current. */
  readonly liveSiemens: number
  readonly liveAmpere: number
}
export interface PlantBranch {
  readonly id: string
  readonly index: number
  readonly wiring: Wiring
  /** Ω of one conductor of each run, in the order of `wiring.runs`. */
  readonly runOhm: Float64Array
  readonly deviceOhm: number
  readonly loads: readonly PlantLoad[]
}
export interface Plant {
  readonly machine: Machine
  readonly figures: Figures
  readonly branches: readonly PlantBranch[]
  readonly indexOf: ReadonlyMap<string, number>
}

// A coil is its winding. A lamp is cold to an ohmmeter, a tenth or so of its hot resistance (common practice, no source); a
// motor's winding likewise far below its running figure. An electronic load is some kilohm to open.
const loadOf = (load: Load, wiring: Wiring, figures: Figures): PlantLoad => {
  const hot = (load.watts ?? 5) / RATED ** 2
  const named = load.watts === undefined ? 0.7 : 0.1
  const run = load.at === TERMINALS ? -1 : (wiring.arriving.get(load.at) ?? 0)
  switch (load.kind) {
    case 'coil':
      return { load, run, siemens: hot, siemensSd: named * hot, liveSiemens: hot, liveAmpere: 0 }
    case 'lamp':
      return { load, run, siemens: 6 * hot, siemensSd: 3.5 * hot, liveSiemens: hot, liveAmpere: 0 }
    case 'motor':
      return { load, run, siemens: 4 * hot, siemensSd: 3.5 * hot, liveSiemens: hot, liveAmpere: 0 }
    case 'electronic':
      return { load, run, siemens: 1 / figures.electronicOhm, siemensSd: 1 / 5000, liveSiemens: 0, liveAmpere: (load.watts ?? 5) / RATED }
  }
}

export const plantOf = (machine: Machine, figures: Figures = USUAL_FIGURES): Plant => {
  const branches = machine.branches.map((branch, index): PlantBranch => {
    const wiring = wiringOf(branch)
    const runOhm = Float64Array.from(
      wiring.runs,
      ({ run }) =>
        resistancePerMetre(run.conductor, run.temperature === undefined ? figures.temperature : celsius(run.temperature)) *
        run.length *
        figures.scale(run.id),
    )
    const loads = [...wiring.loads.values()].flat().map(load => loadOf(load, wiring, figures))
    return {
      id: branch.id,
      index,
      wiring,
      runOhm,
      deviceOhm: figures.deviceOhm?.(branch.id) ?? deviceOhm(branch.protection?.rating),
      loads,
    }
  })
  return { machine, figures, branches, indexOf: new Map(branches.map(b => [b.id, b.index])) }
}

/** The branch of that id; an unknown id is a mistake of the caller. */
export const branchOf = (plant: Plant, id: string): PlantBranch => {
  const branch = plant.branches[plant.indexOf.get(id) ?? -1]
  if (branch === undefined) throw new RangeError(`no branch ${id} in machine ${plant.machine.id}`)
  return branch
}
