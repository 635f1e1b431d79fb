import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { limit, type MeterQuantity, meterOf, plausible, split, standardUncertainty, step } from '../../engine/meter.ts'

const SEED = 100
const usual = meterOf({})
const quantities = fc.constantFrom<MeterQuantity>('ohm', 'volt', 'amp', 'series')

describe('the display', () => {
  test.each<[MeterQuantity, number, number]>([
    ['ohm', 0, 0.1],
    ['ohm', -0.3, 0.1],
    ['ohm', 600, 0.1],
    ['ohm', 601, 1],
    ['ohm', 6001, 10],
    ['ohm', 100e3, 100],
    ['ohm', 1e6, 1e3],
    ['ohm', 39e6, 10e3],
    ['volt', 0.6, 0.0001],
    ['volt', -0.61, 0.001],
    ['volt', 24, 0.01],
    ['volt', 61, 0.1],
    ['volt', 700, 1],
    ['amp', 0.3, 0.01],
    ['amp', 40, 0.01],
    ['series', 1.05, 0.001],
  ])('%s at %d shows steps of %d', (quantity, value, expected) => {
    expect(step(usual, quantity, value)).toBeCloseTo(expected, 12)
  })
})

describe('the limit', () => {
  test.each<[MeterQuantity, number, number, string]>([
    ['ohm', 0.7, 0.3056, '0.8 % of 0.7 Ω and 3 counts of 0.1 Ω'],
    ['volt', 24, 0.15, '0.5 % of 24 V and 3 counts of 10 mV'],
    ['volt', -24, 0.15, 'the same either way round'],
    ['amp', 5, 0.15, '2 % of 5 A and 5 counts of 10 mA'],
    ['series', 1, 0.013, '1 % of 1 A and 3 counts of 1 mA'],
  ])('%s at %d is %d: %s', (quantity, value, expected) => {
    expect(limit(usual, quantity, value)).toBeCloseTo(expected, 9)
    expect(standardUncertainty(usual, quantity, value)).toBeCloseTo(expected / Math.sqrt(3), 9)
  })
})

describe("the kit's own meter", () => {
  test('a resolution is that of the finest range, and the coarser ranges scale with it', () => {
    const fine = meterOf({ meter: { ohm: { resolution: 0.01 } } })
    expect([step(fine, 'ohm', 5), step(fine, 'ohm', 5e3), step(fine, 'ohm', 5e6)]).toEqual([0.01, 0.1, 100].map(x => expect.closeTo(x, 9)))
  })
  test('percent and counts replace the usual ones; what is not named stays', () => {
    const own = meterOf({ meter: { ohm: { percent: 0.2 }, volt: { counts: 1 } } })
    expect(limit(own, 'ohm', 100)).toBeCloseTo(0.2 + 0.3, 9)
    expect(limit(own, 'volt', 10)).toBeCloseTo(0.05 + 0.01, 9)
    expect(limit(own, 'amp', 5)).toBe(limit(usual, 'amp', 5))
  })
})

describe('what repeating does not average away', () => {
  test('ohm at 100 Ω: 0.8 % gain, 2 counts of offset, 1 fresh count and the rounding', () => {
    const { gain, offset, fresh } = split(usual, 'ohm', 100)
    expect(gain).toBeCloseTo(0.008 / Math.sqrt(3), 12)
    expect(offset).toBeCloseTo(0.2 / Math.sqrt(3), 12)
    expect(fresh).toBeCloseTo(0.1 * Math.sqrt(1 / 3 + 1 / 12), 12)
  })
  test('a meter without counts still rounds', () => {
    const { offset, fresh } = split(meterOf({ meter: { volt: { counts: 0 } } }), 'volt', 10)
    expect(offset).toBe(0)
    expect(fresh).toBeCloseTo(0.01 / Math.sqrt(12), 12)
  })
  test(`together 0.6 to 1 times the uncertainty that takes the limit for one error (seed ${SEED})`, () => {
    const readings = fc.double({ min: -1000, max: 1000, noNaN: true })
    fc.assert(
      fc.property(
        quantities,
        readings,
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.integer({ min: 2, max: 50 }),
        (quantity, value, percent, counts) => {
          const meter = meterOf({ meter: { [quantity]: { percent, counts } } })
          const { gain, offset, fresh } = split(meter, quantity, value)
          const ratio = Math.hypot(gain * value, offset, fresh) / standardUncertainty(meter, quantity, value)
          expect(ratio).toBeGreaterThan(0.6)
          expect(ratio).toBeLessThanOrEqual(1)
        },
      ),
      { seed: SEED },
    )
  })
})

describe('a slip of the finger is refused', () => {
  test.each<[MeterQuantity, number]>([
    ['ohm', -1.1],
    ['ohm', 40e6 + 1],
    ['volt', 1000.1],
    ['volt', -2400],
    ['amp', 1001],
    ['series', -1001],
    ['ohm', Number.NaN],
    ['volt', Number.POSITIVE_INFINITY],
  ])('%s: %d', (quantity, value) => {
    const answer = plausible(usual, quantity, value)
    expect(answer).toMatchObject({ ok: false, field: 'value', found: String(value) })
    expect(answer.ok ? '' : answer.message).toContain(`value is ${value}`)
  })
  test.each<[MeterQuantity, number]>([
    ['ohm', -1],
    ['ohm', 40e6],
    ['volt', -24.1],
    ['amp', 0],
  ])('but not %s: %d', (quantity, value) => {
    expect(plausible(usual, quantity, value)).toEqual({ ok: true, value })
  })
  test.each<[MeterQuantity, number, string]>([
    ['ohm', -2, 'value is -2, but a resistance read here lies from -1 to 40000000 Ω.'],
    ['volt', 1000.5, 'value is 1000.5, but a voltage read here lies from -1000 to 1000 V.'],
    ['amp', -1001, 'value is -1001, but a current read here lies from -1000 to 1000 A.'],
    ['series', 1001, 'value is 1001, but a current read here lies from -1000 to 1000 A.'],
  ])('%s %d in one sentence', (quantity, value, says) => {
    const answer = plausible(usual, quantity, value)
    expect(answer.ok ? '' : answer.message).toBe(says)
  })
  test('a current in series may flow either way', () => {
    for (const value of [-1000, -1, 1000]) expect(plausible(usual, 'series', value)).toEqual({ ok: true, value })
  })
  test('past the top of the ohm ranges the message says what the display would', () => {
    const answer = plausible(usual, 'ohm', 5e7)
    expect(answer.ok ? '' : answer.message).toBe(
      'value is 50000000, but a resistance read here lies from -1 to 40000000 Ω; past that the display says OL.',
    )
  })
})
