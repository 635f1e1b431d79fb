// Where a falling line and a level meet, and how far off that is: by hand, with a meter whose errors are round numbers.
import { expect, test } from 'vitest'
import type { Cable } from '../../engine/cable.ts'
import type { Errors, Instrument } from '../../engine/instrument.ts'
import { type Tap, throughTaps } from '../../engine/taps.ts'

const meter = (volt: Partial<Errors> = {}, ampere: Partial<Errors> = {}): Instrument => {
  const none: Errors = { gain: 0, common: 0, own: 0, range: 1, limit: 0 }
  return { ohm: () => none, volt: () => ({ ...none, ...volt }), ampere: () => ({ ...none, range: 2, ...ampere }) }
}
/** 40 m of 0.04 Ω a metre out and back, known to 2 %. */
const cable: Cable = { length: 40, lengthSd: 0, core: 0.02, loop: 0.04, spread: 0.02, leastLoop: 0.036 }
/** A fault of 0.1 Ω at 25 m. */
const shown = (places: readonly number[], ampere = 1, loop = 0.04): Tap[] =>
  places.map(at => ({ at, volts: ampere * (0.1 + loop * Math.max(25 - at, 0)) }))

test.each([1, 2, 0.5])('%d A: the place, the fault, and the loop where it was read at the near end', ampere => {
  const raw = throughTaps(shown([0, 10, 20, 30, 40], ampere), ampere, cable, meter({ own: 1e-6 }))
  expect(raw.place).toBeCloseTo(25, 6)
  expect(raw.faultOhm).toBeCloseTo(0.1, 9)
  expect(raw.loopOhm).toBeCloseTo(1.1, 9)
  expect('loopOhm' in throughTaps(shown([5, 10, 30, 40], ampere), ampere, cable, meter({ own: 1e-6 }))).toBe(false)
})

test('in whatever order the junctions were read, and the list stays as it was', () => {
  const mixed = shown([30, 0, 40, 20, 10])
  const before = [...mixed]
  const tools = meter({ own: 1e-3 })
  expect(throughTaps(mixed, 1, cable, tools)).toEqual(throughTaps(shown([0, 10, 20, 30, 40]), 1, cable, tools))
  expect(mixed).toEqual(before)
})

test('the slope is the taps’ own where they are many and exact, the cable’s where there is one or the meter tells nothing', () => {
  // The cable is a quarter more than its data say.
  const place = (places: readonly number[], own: number) => throughTaps(shown(places, 1, 0.05), 1, cable, meter({ own })).place
  expect(place([0, 10, 20, 30, 40], 1e-6)).toBeCloseTo(25, 4)
  // One tap before the fault, 1.35 V: (1.35 − 0.1)/0.04.
  expect(place([0, 30, 40], 1e-6)).toBeCloseTo(31.25, 6)
  // No error at all leaves nothing to weigh by: from the middle, 10 m and 0.85 V, down to 0.1 V by 0.04 V a metre.
  expect(place([0, 10, 20, 30, 40], 0)).toBeCloseTo(10 + 0.75 / 0.04, 6)
})

test('the slope in between: weighed by the inverse of the variances', () => {
  // Three taps 10 m apart: Σ(x − x̄)² = 200 m². With 0.01 V of noise the slope is known to 0.01/√200 V/m, by the data to 2 % of 0.04 V/m.
  const [byTaps, byData] = [200 / 0.01 ** 2, 1 / (0.02 * 0.04) ** 2]
  const slope = (byTaps * 0.05 + byData * 0.04) / (byTaps + byData)
  const raw = throughTaps(shown([0, 10, 20, 30, 40], 1, 0.05), 1, cable, meter({ own: 0.01 }))
  expect(raw.place).toBeCloseTo(10 + 0.75 / slope, 6)
})

test('how far off: one tap of 0.01 V before the fault, two past it', () => {
  const off = (tools: Instrument, more: Partial<Cable> = {}) => throughTaps(shown([0, 30, 40]), 1, { ...cable, ...more }, tools).variance
  // (0.01² + 0.01²/2)/0.04² by the meter, and 2 % of 25 m by the cable's data.
  const meterOnly = (1.5 * 0.01 ** 2) / 0.04 ** 2
  expect(off(meter({ own: 0.01 }))).toBeCloseTo(meterOnly + 0.5 ** 2, 9)
  // What all readings are off by together cancels in the difference.
  expect(off(meter({ own: 0.01, common: 0.02 }))).toBeCloseTo(meterOnly + 0.5 ** 2, 9)
  // The drawing may be off by 0.4 m in 40 m: 0.25 m at 25 m. The current by 1 %.
  expect(off(meter({ own: 0.01 }), { lengthSd: 0.4 })).toBeCloseTo(meterOnly + 0.5 ** 2 + 0.25 ** 2, 9)
  expect(off(meter({ own: 0.01 }, { gain: 0.01 }))).toBeCloseTo(meterOnly + 0.5 ** 2 + 0.25 ** 2, 9)
})

test('the fault is as well known as the level past it, over the current', () => {
  const off = (places: readonly number[], ampere: number, common: number) =>
    throughTaps(shown(places, ampere), ampere, cable, meter({ own: 0.01, common })).faultVariance
  expect(off([0, 30, 40], 1, 0)).toBeCloseTo(0.01 ** 2 / 2, 9)
  expect(off([0, 40], 1, 0)).toBeCloseTo(0.01 ** 2, 9)
  expect(off([0, 30, 40], 1, 0.02)).toBeCloseTo(0.01 ** 2 / 2 + 0.02 ** 2, 9)
  expect(off([0, 30, 40], 2, 0.02)).toBeCloseTo((0.01 ** 2 / 2 + 0.02 ** 2) / 4, 9)
})

test('fewer than two places are no line', () => {
  for (const places of [[], [10], [10, 10]])
    expect(() => throughTaps(shown(places), 1, cable, meter({ own: 0.01 }))).toThrow('taps at two places at least')
})
