// What a conductor may carry for good, and what heat it bears for a moment.
import { areaOfAwg } from './conductor.ts'
import type { Conductor } from './machine.ts'

/**
 * A by area in mm²: DIN VDE 0298-4 Table 11, multi-core PVC cable with two or three loaded cores on a surface, air at 30 °C
 * (as two cable makers print it). Bundled, or in a full duct, a cable carries less.
 */
const AT_30: readonly (readonly [area: number, ampere: number])[] = [
  [0.5, 9],
  [0.75, 12],
  [1, 15],
  [1.5, 18],
  [2.5, 26],
  [4, 34],
  [6, 44],
  [10, 61],
  [16, 82],
  [25, 108],
]
/** Standard areas in mm², smallest first. */
export const AREAS: readonly number[] = AT_30.map(([area]) => area)
/** What PVC bears for good, °C, and at the end of a short circuit: IEC 60364-4-43 Table 43A. */
const PVC = { steady: 70, shortly: 160 } as const
const TABLE_AIR = 30

/**
 * A that a conductor carries for good in air of `ambient` °C; undefined below the smallest area of the table. Heating goes with
 * the square of the current, so the factor is √((70 − ambient) / (70 − 30)): 0.87 at 40 °C.
 */
export const capacityOf = (area: number, ambient: number): number | undefined => {
  const listed = AT_30.findLast(([listed]) => listed <= area * 1.0001)
  return listed === undefined ? undefined : listed[1] * Math.sqrt(Math.max(0, PVC.steady - ambient) / (PVC.steady - TABLE_AIR))
}

export const areaOf = (conductor: Conductor | undefined): number | undefined =>
  conductor === undefined ? undefined : 'area' in conductor ? conductor.area : areaOfAwg(conductor.awg)

/** Of copper, A·√s/mm²: IEC 60949. Zero resistance at −234.5 °C: IEC 60228 Annex B. */
const COPPER = 226
const ZERO_AT = 234.5
/** k of PVC-insulated copper, 115 A·√s/mm² (IEC 60364-4-43 Table 43A), as it follows from copper's constant and 70 to 160 °C. */
export const K_PVC = COPPER * Math.sqrt(Math.log((ZERO_AT + PVC.shortly) / (ZERO_AT + PVC.steady)))
/** Up to here no heat is reckoned to leave the conductor, s: IEC 60364-4-43 434.5.2 (number from memory). */
export const ADIABATIC = 5

/** Seconds for which a conductor of `area` mm² bears `ampere`; good up to `ADIABATIC`, on the safe side past it. */
export const bears = (area: number, ampere: number): number => (K_PVC * area) ** 2 / ampere ** 2
