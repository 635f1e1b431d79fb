// How far off a reading may be, taken apart by what it shares with the other readings, and what that makes of a result.
import type { Kit } from './machine.ts'
import { limit, type MeterQuantity, meterOf, rectangular, split } from './meter.ts'

/** Standard uncertainties of one reading, in its unit; `gain` is relative. */
export interface Errors {
  /** Shared with every reading of the same range: cancels in a ratio. */
  readonly gain: number
  /** Likewise: cancels in a difference. */
  readonly common: number
  /** This reading's alone. */
  readonly own: number
  /** Names the range. */
  readonly range: number
  /** Half-width of all of it together. */
  readonly limit: number
}
export type Instrument = Readonly<Record<'ohm' | 'volt' | 'ampere', (value: number) => Errors>>

/** Half-widths in Ω: what zeroing leaves of the leads, and what a contact varies from one reading to the next (common practice, no source). */
const ZEROED = 0.06
const CONTACT = 0.02

/** The kit's meter with zeroed leads. Current by the meter in series with the injector, or by the clamp. */
export const instrumentOf = (kit: Kit, ampere: 'series' | 'amp' = 'series'): Instrument => {
  const meter = meterOf(kit)
  const errors =
    (quantity: MeterQuantity, zeroed = 0, contact = 0) =>
    (value: number): Errors => {
      const { gain, offset, fresh } = split(meter, quantity, value)
      return {
        gain,
        common: Math.hypot(offset, rectangular(zeroed)),
        own: Math.hypot(fresh, rectangular(contact)),
        // The offset follows the range's step, and so names it.
        range: offset,
        limit: limit(meter, quantity, value) + zeroed + contact,
      }
    }
  return { ohm: errors('ohm', ZEROED, CONTACT), volt: errors('volt'), ampere: errors(ampere) }
}

/** A reading in a result: by how much the result moves with it. */
export interface Term {
  readonly per: number
  readonly value: number
  readonly errors: Errors
}

/** First-order variance of a result: own errors add in squares; gain and offset of a range move all its readings together (JCGM 100:2008, 5.2). */
export const propagated = (terms: readonly Term[]): number => {
  const own = terms.reduce((sum, { per, errors }) => sum + (per * errors.own) ** 2, 0)
  const shared = [...new Set(terms.map(({ errors }) => errors.range))].map(range => {
    const within = terms.filter(({ errors }) => errors.range === range)
    const common = within.reduce((sum, { per, errors }) => sum + per * errors.common, 0)
    const gain = within.reduce((sum, { per, value, errors }) => sum + per * value * errors.gain, 0)
    return common ** 2 + gain ** 2
  })
  return shared.reduce((sum, x) => sum + x, own)
}
