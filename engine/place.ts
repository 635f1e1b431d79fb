// Where in a branch a short circuit can be: its runs cut into cells, its loads, each with bins of the fault's resistance.
import {
  CHARRED,
  CONDUCTOR_SHORT_OHM,
  EARTHED_AFTER_ALL,
  LOAD_SHORT_OHM,
  MOVING,
  OVERLOAD_FROM,
  OVERLOAD_OHM,
  ohmBins,
  SHORTS,
} from './fault.ts'
import { isBonded, type Plant, type PlantBranch } from './plant.ts'

export const TO_ZERO = 0
export const TO_EARTH = 1
export const IN_LOAD = 2

/** The places of one branch, one array entry each. Within an entry place and resistance are taken as normal about its middle. */
export interface Places {
  readonly count: number
  /** TO_ZERO, TO_EARTH or IN_LOAD. */
  readonly kind: Uint8Array
  /** Index in `wiring.runs`, or in `loads` for IN_LOAD. */
  readonly item: Int32Array
  /** Middle of the cell in metres from the run's near end, and its standard deviation; 0 in a load. */
  readonly at: Float64Array
  readonly atSd: Float64Array
  /** The fault's own resistance in Ω, mean and standard deviation. */
  readonly ohm: Float64Array
  readonly ohmSd: Float64Array
  /** Share of all short circuits of the machine that fall here, before anything is read. */
  readonly prior: Float64Array
}

/** A load that draws too much, rather than one that is shorted. */
export const isOverload = ({ kind, ohm }: Places, j: number): boolean => kind[j] === IN_LOAD && (ohm[j] as number) > OVERLOAD_FROM

/** Cells no longer than this many metres, and no more than this many a run: finer tells nothing more, the spread within is kept. */
const CELL = 1.5
const MOST_CELLS = 24
const OHM_BINS = 5

/** Metres of run as the prior counts them: a moving one for six. */
const weight = (b: PlantBranch): number => b.wiring.runs.reduce((sum, { run }) => sum + run.length * (run.moving ? MOVING : 1), 0)

export interface Census {
  readonly metres: number
  readonly loads: number
}
export const census = (plant: Plant): Census => ({
  metres: plant.branches.reduce((sum, b) => sum + weight(b), 0),
  loads: plant.branches.reduce((sum, b) => sum + b.loads.length, 0),
})

const OVERLOAD_BINS = 4

/** Shares of the short circuits that are in conductors. A single one to earth draws nothing from a supply that really floats. */
export const conductorShares = (plant: Plant): { readonly toZero: number; readonly toEarth: number } => {
  const toEarth = SHORTS.toEarth * (isBonded(plant) ? 1 : EARTHED_AFTER_ALL)
  return { toZero: SHORTS.toZero + SHORTS.toEarth - toEarth, toEarth }
}

/**
 * All places of a branch.
 * `overloaded`: of 1, the share that is no short circuit but a load that draws too much: in a load too, of higher resistance.
 */
export const placesOf = (plant: Plant, b: PlantBranch, all: Census, overloaded = 0): Places => {
  const shorted = 1 - overloaded
  const rows: number[][] = []
  const { toZero, toEarth } = conductorShares(plant)
  const kinds = [
    { kind: TO_ZERO, share: toZero },
    { kind: TO_EARTH, share: toEarth },
  ]
  const conductor = [
    ...ohmBins(CONDUCTOR_SHORT_OHM, OHM_BINS).map(bin => ({ ...bin, p: (1 - CHARRED.share) / OHM_BINS })),
    ...ohmBins(CHARRED, 1).map(bin => ({ ...bin, p: CHARRED.share })),
  ]
  b.wiring.runs.forEach(({ run }, item) => {
    const cells = Math.min(MOST_CELLS, Math.max(2, Math.ceil(run.length / CELL)))
    const width = run.length / cells
    const each = (shorted * width * (run.moving ? MOVING : 1)) / all.metres
    for (let i = 0; i < cells; i++)
      for (const { kind, share } of kinds)
        for (const { mean, sd, p } of conductor)
          rows.push([kind, item, (i + 0.5) * width, width / Math.sqrt(12), mean, sd, share * each * p])
  })
  b.loads.forEach((_, item) => {
    for (const { mean, sd } of ohmBins(LOAD_SHORT_OHM, OHM_BINS))
      rows.push([IN_LOAD, item, 0, 0, mean, sd, (shorted * SHORTS.load) / all.loads / OHM_BINS])
    if (overloaded === 0) return
    for (const { mean, sd } of ohmBins(OVERLOAD_OHM, OVERLOAD_BINS))
      rows.push([IN_LOAD, item, 0, 0, mean, sd, overloaded / all.loads / OVERLOAD_BINS])
  })
  const column = (k: number) => Float64Array.from(rows, r => r[k] as number)
  return {
    count: rows.length,
    kind: Uint8Array.from(column(0)),
    item: Int32Array.from(column(1)),
    at: column(2),
    atSd: column(3),
    ohm: column(4),
    ohmSd: column(5),
    prior: column(6),
  }
}
