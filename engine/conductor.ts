// What a metre of copper conductor may have at most, by size, class and temperature.
import type { Conductor } from './machine.ts'
import { type Celsius, celsius, type OhmPerMetre, ohmPerMetre, type SquareMillimetre, squareMillimetre } from './quantities.ts'

/** Resistivity of standard annealed copper at 20 °C in Ω·mm²/m: IEC 60028:1925, 100 % IACS, exactly 1/58. */
export const COPPER_RESISTIVITY = 1 / 58
/** Temperature coefficient of resistance of copper at 20 °C, per kelvin: IEC 60028:1925; IEC 60228 Annex B. */
export const COPPER_PER_KELVIN = 0.00393
/** Real conductors lie 0 to 8 % under the table's maximum (common practice, no source). Factors on `resistancePerMetre`. */
export const TOLERANCE = { low: 0.92, high: 1 } as const
/** What stands in for a conductor that nobody has named: 0.75 mm², class 5 (common practice, no source). */
export const USUAL_CONDUCTOR = { area: 0.75, class: 5 } as const satisfies Conductor

export type ConductorClass = 1 | 2 | 5
export type Finish = 'plain' | 'metal-coated'

/** A size in mm² with its figures in Ω/km. */
interface Row {
  readonly area: number
  readonly plain: number
  readonly 'metal-coated': number
}
const row = (area: number, plain: number, coated: number): Row => ({ area, plain, 'metal-coated': coated })

/**
 * Classes 1 (solid) and 2 (stranded), which share their figures up to 25 mm². Maximum d.c. resistance at 20 °C in Ω/km,
 * IEC 60228:2004 Tables 1 and 2. Figures named in a row's comment were not confirmed in a published copy.
 */
const STIFF: readonly Row[] = [
  row(0.5, 36.0, 36.7), // from memory: 36.7
  row(0.75, 24.5, 24.8), // from memory: 24.5
  row(1, 18.1, 18.2),
  row(1.5, 12.1, 12.2), // from memory: both
  row(2.5, 7.41, 7.56), // from memory: 7.56
  row(4, 4.61, 4.7),
  row(6, 3.08, 3.11), // from memory: 3.11
  row(10, 1.83, 1.84), // from memory: 1.83
  row(16, 1.15, 1.16), // from memory: 1.16
  row(25, 0.727, 0.734), // from memory: 0.734 for class 1
]
/** Class 5 (flexible), likewise: IEC 60228:2004 Table 3; below 0.5 mm² DIN VDE 0295. */
const FLEXIBLE: readonly Row[] = [
  row(0.14, 134, 138),
  row(0.25, 76, 79),
  row(0.34, 53, 56),
  row(0.5, 39.0, 40.1),
  row(0.75, 26.0, 26.7),
  row(1, 19.5, 20.0),
  row(1.5, 13.3, 13.7), // from memory: 13.3
  row(2.5, 7.98, 8.21), // from memory: both
  row(4, 4.95, 5.09), // from memory: both
  row(6, 3.3, 3.39), // from memory: 3.3
  row(10, 1.91, 1.95), // from memory: both
  row(16, 1.21, 1.24),
  row(25, 0.78, 0.795),
]

/**
 * Stranded uncoated copper, Ω per 1000 ft at 75 °C: NFPA 70 (NEC) Chapter 9 Table 8. 10 AWG from memory.
 * These are the code's figures for the nominal size, not maxima; `TOLERANCE` is applied to them all the same.
 */
const STRANDED_AT_75: ReadonlyMap<number, number> = new Map([
  [18, 7.95],
  [16, 4.99],
  [14, 3.14],
  [12, 1.98],
  [10, 1.24],
  [8, 0.778],
])
/** Stranded over solid for other sizes: the largest such ratio in the same Table 8, 12 AWG, 1.98 over 1.93. */
const STRANDED_OVER_SOLID = 1.98 / 1.93
const METRES_PER_1000_FT = 304.8

/** R(at) over R(20 °C), linear: 1 + 0.00393 (at − 20) for copper. Good from −60 to 200 °C, where insulation ends anyway. */
export const temperatureFactor = (at: Celsius, perKelvin = COPPER_PER_KELVIN): number => 1 + perKelvin * (at - 20)

/** ASTM B258: A(n) = 0.012668 mm² × 92^((36 − n)/19.5); 1/0 to 4/0 are 0 to −3. */
export const areaOfAwg = (awg: number): SquareMillimetre => squareMillimetre((Math.PI / 4) * 0.127 ** 2 * 92 ** ((36 - awg) / 19.5))

/**
 * Maximum resistance per metre of one conductor at 20 °C. An area that stands in no table takes the larger R × A of its
 * two neighbours (past the ends: of the last row), so that the answer stays a maximum.
 */
export const maximumAt20 = (area: SquareMillimetre, of: ConductorClass = 5, finish: Finish = 'plain'): OhmPerMetre => {
  if (area === 0) throw new RangeError('a conductor has an area, found 0 mm²')
  const rows = of === 5 ? FLEXIBLE : STIFF
  const below = rows.findLast(row => row.area <= area) ?? rows[0]
  const above = rows.find(row => row.area >= area) ?? rows.at(-1)
  if (below === undefined || above === undefined) throw new RangeError(`no figures for class ${of}`)
  return ohmPerMetre(Math.max(below[finish] * below.area, above[finish] * above.area) / area / 1000)
}

const awgAt20 = (awg: number, stranded: boolean): number => {
  const solid = COPPER_RESISTIVITY / areaOfAwg(awg)
  if (!stranded) return solid
  const listed = STRANDED_AT_75.get(awg)
  return listed === undefined ? solid * STRANDED_OVER_SOLID : listed / METRES_PER_1000_FT / temperatureFactor(celsius(75))
}

/**
 * The highest resistance per metre of one of the run's two conductors; the loop has twice that. Where class or stranding is
 * not named the conductor counts as flexible, as is usual in machine wiring (common practice, no source).
 */
export const resistancePerMetre = (conductor: Conductor | undefined, at: Celsius): OhmPerMetre => {
  const named = conductor ?? USUAL_CONDUCTOR
  const at20 = 'awg' in named ? awgAt20(named.awg, named.stranded ?? true) : maximumAt20(squareMillimetre(named.area), named.class)
  return ohmPerMetre(at20 * temperatureFactor(at))
}
