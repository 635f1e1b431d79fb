// What a meter's display can be trusted for: the step it shows in and the limits of its error.
import type { Accuracy, Checked, Kit } from './machine.ts'

/** `amp` is the clamp, `series` the meter in series with the injector. Values in Ω, V, A. */
export type MeterQuantity = 'ohm' | 'volt' | 'amp' | 'series'
/** A range of the display: it reaches up to `upTo` and shows steps of `step`, both in the quantity's unit. */
interface Range {
  readonly upTo: number
  readonly step: number
}
interface Scale {
  readonly percent: number
  readonly counts: number
  readonly ranges: readonly Range[]
  /** Values outside are no reading of this job, but a slip of the finger. */
  readonly lowest: number
  readonly highest: number
}
export type Meter = Readonly<Record<MeterQuantity, Scale>>

const range = (upTo: number, step: number): Range => ({ upTo, step })

/** An ordinary hand-held meter of 6000 counts and a d.c. clamp (common practice, no source). */
const USUAL: Meter = {
  ohm: {
    percent: 0.8,
    counts: 3,
    lowest: -1,
    highest: 40e6,
    ranges: [range(600, 0.1), range(6e3, 1), range(60e3, 10), range(600e3, 100), range(6e6, 1e3), range(40e6, 10e3)],
  },
  volt: {
    percent: 0.5,
    counts: 3,
    lowest: -1000,
    highest: 1000,
    ranges: [range(0.6, 0.0001), range(6, 0.001), range(60, 0.01), range(600, 0.1), range(1000, 1)],
  },
  amp: { percent: 2, counts: 5, lowest: -1000, highest: 1000, ranges: [range(1000, 0.01)] },
  series: { percent: 1, counts: 3, lowest: -1000, highest: 1000, ranges: [range(1000, 0.001)] },
}

const scaleOf = (usual: Scale, own: Accuracy | undefined): Scale => {
  const finest = usual.ranges[0]
  const finer = own?.resolution === undefined || finest === undefined ? 1 : own.resolution / finest.step
  return {
    ...usual,
    percent: own?.percent ?? usual.percent,
    counts: own?.counts ?? usual.counts,
    ranges: usual.ranges.map(({ upTo, step }) => range(upTo, step * finer)),
  }
}

/** The kit's meter. Its resolution is the step of the finest range; the coarser ranges' steps scale with it. */
export const meterOf = (kit: Kit): Meter => ({
  ohm: scaleOf(USUAL.ohm, kit.meter?.ohm),
  volt: scaleOf(USUAL.volt, kit.meter?.volt),
  amp: scaleOf(USUAL.amp, kit.meter?.amp),
  series: scaleOf(USUAL.series, kit.meter?.series),
})

/** The smallest step that the display shows at this value, in the quantity's unit. */
export const step = (meter: Meter, quantity: MeterQuantity, value: number): number => {
  const { ranges } = meter[quantity]
  const inUse = ranges.find(({ upTo }) => Math.abs(value) <= upTo) ?? ranges.at(-1)
  if (inUse === undefined) throw new RangeError(`a meter has at least one range for ${quantity}`)
  return inUse.step
}

/** The half-width a = percent of the reading + counts × step, either way: what the maker promises of any one reading. */
export const limit = (meter: Meter, quantity: MeterQuantity, value: number): number =>
  (meter[quantity].percent / 100) * Math.abs(value) + meter[quantity].counts * step(meter, quantity, value)

/** The maker says no word on the distribution, so it counts as rectangular: u = a/√3 (JCGM 100:2008, 4.3.7). */
export const rectangular = (halfWidth: number): number => halfWidth / Math.sqrt(3)

export const standardUncertainty = (meter: Meter, quantity: MeterQuantity, value: number): number =>
  rectangular(limit(meter, quantity, value))

/** Standard deviations of a reading's three errors; as independent errors they add in squares: (gain·v)² + offset² + fresh². */
export interface Split {
  /** Relative, one value for meter and range the whole session. */
  readonly gain: number
  /** In the quantity's unit, one value for meter and range the whole session. */
  readonly offset: number
  /** In the quantity's unit, anew with each reading: the last count and the display's rounding. */
  readonly fresh: number
}

/**
 * The limit taken apart by what repeating averages away, which is `fresh` alone. Of the counts one is fresh and the others
 * are offset (common practice, no source). All parts at their worst together reach the limit and half a step of rounding;
 * with 2 counts or more their standard deviation is 0.6 to 1 times `standardUncertainty`, since that takes the whole limit
 * for one error, and three independent ones are seldom at their worst at once.
 */
export const split = (meter: Meter, quantity: MeterQuantity, value: number): Split => {
  const { percent, counts } = meter[quantity]
  const oneStep = step(meter, quantity, value)
  return {
    gain: rectangular(percent / 100),
    offset: rectangular(Math.max(counts - 1, 0) * oneStep),
    fresh: Math.hypot(rectangular(Math.min(counts, 1) * oneStep), rectangular(oneStep / 2)),
  }
}

const MEANT: Readonly<Record<MeterQuantity, { readonly unit: string; readonly name: string }>> = {
  ohm: { unit: 'Ω', name: 'a resistance' },
  volt: { unit: 'V', name: 'a voltage' },
  amp: { unit: 'A', name: 'a current' },
  series: { unit: 'A', name: 'a current' },
}

/** Refuses what no display of this meter shows on this job. `OL` is not a number and does not come here. */
export const plausible = (meter: Meter, quantity: MeterQuantity, value: number): Checked<number> => {
  const { lowest, highest } = meter[quantity]
  if (value >= lowest && value <= highest) return { ok: true, value }
  const { unit, name } = MEANT[quantity]
  const past = quantity === 'ohm' && value > highest ? '; past that the display says OL' : ''
  const found = String(value)
  return {
    ok: false,
    field: 'value',
    found,
    message: `value is ${found}, but ${name} read here lies from ${lowest} to ${highest} ${unit}${past}.`,
  }
}
