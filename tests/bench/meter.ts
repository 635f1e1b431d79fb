import type { Chance } from './random.ts'
import type { MeterTruth, RangeTruth } from './truth.ts'

/** A range: it shows up to `upTo`, in steps. */
interface Range {
  readonly upTo: number
  readonly step: number
}
interface Limits {
  readonly percent: number
  readonly counts: number
  readonly ranges: readonly Range[]
}

// The meter that a technician has if none is named.
export const VOLT: Limits = {
  percent: 0.5,
  counts: 3,
  ranges: [
    { upTo: 0.6, step: 0.0001 },
    { upTo: 6, step: 0.001 },
    { upTo: 60, step: 0.01 },
    { upTo: 600, step: 0.1 },
  ],
}
export const OHM: Limits = {
  percent: 0.8,
  counts: 3,
  ranges: [
    { upTo: 600, step: 0.1 },
    { upTo: 6e3, step: 1 },
    { upTo: 60e3, step: 10 },
    { upTo: 600e3, step: 100 },
    { upTo: 6e6, step: 1e3 },
    { upTo: 40e6, step: 1e4 },
  ],
}
export const CLAMP: Limits = { percent: 2, counts: 5, ranges: [{ upTo: 600, step: 0.01 }] }
export const SERIES: Limits = { percent: 1, counts: 3, ranges: [{ upTo: 10, step: 0.001 }] }

/** Gain and offset of one range for the whole session: rectangular within the limits, all counts but one. */
const rangeTruth = (limits: Limits, chance: Chance): RangeTruth => ({
  gain: chance.between(-limits.percent, limits.percent) / 100,
  offset: chance.between(1 - limits.counts, limits.counts - 1),
})
export const inventMeter = (chance: Chance): MeterTruth => ({
  volt: VOLT.ranges.map(() => rangeTruth(VOLT, chance)),
  ohm: OHM.ranges.map(() => rangeTruth(OHM, chance)),
  clamp: rangeTruth(CLAMP, chance),
  series: rangeTruth(SERIES, chance),
  leads: chance.between(0.1, 0.4),
  zeroed: chance.between(-0.06, 0.06),
})

/** What the display shows for a true value: the lowest range that holds it, gain, offset, one fresh count, rounded to a step. */
export const display = (limits: Limits, truths: readonly RangeTruth[], value: number, chance: Chance): number | 'OL' => {
  const which = limits.ranges.findIndex(r => Math.abs(value) < r.upTo)
  const range = limits.ranges[which]
  if (range === undefined) return 'OL'
  const own = truths[which] ?? { gain: 0, offset: 0 }
  const off = own.offset + chance.between(-1, 1)
  const steps = Math.round((value * (1 + own.gain)) / range.step + off)
  return Number((steps * range.step).toFixed(4))
}
