// A cable between two points that a probe can reach, as the methods that find a place on it need it.
import { COPPER_PER_KELVIN, resistancePerMetre, TOLERANCE } from './conductor.ts'
import { CONDUCTOR_SHORT_OHM, ohmBins } from './fault.ts'
import type { Conductor } from './machine.ts'
import { rectangular } from './meter.ts'
import type { Part } from './normal.ts'
import { celsius } from './quantities.ts'

export interface Cable {
  /** Metres, and how well they are known (standard uncertainty). */
  readonly length: number
  readonly lengthSd: number
  /** Ω per metre of one core, and out and back. */
  readonly core: number
  readonly loop: number
  /** Relative standard uncertainty of both, common to all readings of the cable: tolerance and temperature. */
  readonly spread: number
  /** The lowest that `loop` can be. */
  readonly leastLoop: number
}

export interface CableFacts {
  readonly conductor?: Conductor
  readonly length: number
  /** Of the length, either way: how far the drawing may be off; 0 where the length was measured. */
  readonly lengthPercent?: number
  /** °C where it is known; 20 where not. */
  readonly temperature?: number
  /** Ω per metre of the way back where that is not a second, equal core. */
  readonly back?: number
}

/** The cable may be so much warmer or colder than thought, in kelvin (common practice, no source); a fifth where it was told. */
const KELVIN_OFF = 10

export const cableOf = ({ conductor, length, lengthPercent = 0, temperature, back }: CableFacts): Cable => {
  const most = resistancePerMetre(conductor, celsius(temperature ?? 20))
  const middle = (TOLERANCE.low + TOLERANCE.high) / 2
  const core = most * middle
  const kelvin = temperature === undefined ? KELVIN_OFF : KELVIN_OFF / 5
  const warmth = kelvin * COPPER_PER_KELVIN
  return {
    length,
    lengthSd: rectangular((lengthPercent / 100) * length),
    core,
    loop: core + (back ?? core),
    spread: Math.hypot(rectangular((TOLERANCE.high - TOLERANCE.low) / 2 / middle), rectangular(warmth)),
    leastLoop: (core + (back ?? core)) * (TOLERANCE.low / middle) * (1 - warmth),
  }
}

/** What the fault itself may have, in Ω, before anything is read: a mixture of narrow normals. */
export type FaultOhm = readonly Part[]
export const DEAD_SHORT: FaultOhm = [{ share: 1, mean: 0, sd: 0 }]
const BINS = 20
export const USUAL_FAULT: FaultOhm = ohmBins(CONDUCTOR_SHORT_OHM, BINS).map(bin => ({ ...bin, share: 1 / BINS }))

export const meanOf = (parts: readonly Part[]): number =>
  parts.reduce((sum, { share, mean }) => sum + share * mean, 0) / parts.reduce((sum, { share }) => sum + share, 0)
export const varianceOf = (parts: readonly Part[]): number => {
  const mean = meanOf(parts)
  return meanOf(parts.map(part => ({ ...part, mean: part.sd ** 2 + (part.mean - mean) ** 2 })))
}
