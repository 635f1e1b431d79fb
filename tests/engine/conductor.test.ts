import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { areaOfAwg, COPPER_RESISTIVITY, maximumAt20, resistancePerMetre, TOLERANCE, temperatureFactor } from '../../engine/conductor.ts'
import { type Celsius, celsius, metre, type Ohm, type OhmPerMetre, ohm, ohmPerMetre, squareMillimetre } from '../../engine/quantities.ts'

const SEED = 60228
const at20 = celsius(20)
const areas = fc.double({ min: 0.05, max: 400, noNaN: true })
const classes = fc.constantFrom(1 as const, 2 as const, 5 as const)

describe('what is not named', () => {
  test('an unknown conductor counts as 0.75 mm², class 5: 26 Ω/km by IEC 60228', () => {
    expect(resistancePerMetre(undefined, at20)).toBeCloseTo(0.026, 12)
  })
  test('an area without class counts as flexible', () => {
    expect(resistancePerMetre({ area: 2.5 }, at20)).toBe(resistancePerMetre({ area: 2.5, class: 5 }, at20))
    expect(resistancePerMetre({ area: 2.5 }, at20)).toBeGreaterThan(resistancePerMetre({ area: 2.5, class: 2 }, at20))
  })
  test('a gauge without stranding counts as stranded', () => {
    expect(resistancePerMetre({ awg: 18 }, at20)).toBe(resistancePerMetre({ awg: 18, stranded: true }, at20))
    expect(resistancePerMetre({ awg: 18 }, at20)).toBeGreaterThan(resistancePerMetre({ awg: 18, stranded: false }, at20))
  })
})

// NFPA 70 (NEC) Chapter 9 Table 8, stranded uncoated copper, Ω per 1000 ft at 75 °C; 10 AWG from memory. 1000 ft are 304.8 m.
test.each([
  [18, 7.95],
  [16, 4.99],
  [14, 3.14],
  [12, 1.98],
  [10, 1.24],
  [8, 0.778],
])('%s AWG stranded has %s Ω in 1000 ft at 75 °C', (awg, ohms) => {
  expect(resistancePerMetre({ awg, stranded: true }, celsius(75)) * 304.8).toBeCloseTo(ohms, 9)
})

test('what is no value is refused with its unit', () => {
  const refusals: readonly (readonly [(x: number) => number, string])[] = [
    [ohm, 'Ω'],
    [metre, 'm'],
    [ohmPerMetre, 'Ω/m'],
    [squareMillimetre, 'mm²'],
  ]
  for (const [unit, symbol] of refusals) {
    expect(unit(0)).toBe(0)
    for (const x of [-1e-9, Number.NaN, Number.POSITIVE_INFINITY]) expect(() => unit(x)).toThrow(`not a value in ${symbol}: ${x}`)
  }
  expect(celsius(-40)).toBe(-40)
  for (const x of [Number.NaN, Number.NEGATIVE_INFINITY]) expect(() => celsius(x)).toThrow(`not a value in °C: ${x}`)
})

describe('a figure that stands in no table', () => {
  test('takes the larger R × A of its neighbours: 0.6 mm² lies between 0.5 and 0.75, both 19.5 Ω·mm²/km', () => {
    expect(resistancePerMetre({ area: 0.6, class: 5 }, at20)).toBeCloseTo(0.0195 / 0.6, 12)
  })
  test('3 mm², class 5: 2.5 × 7.98 = 19.95 is larger than 4 × 4.95 = 19.8', () => {
    expect(resistancePerMetre({ area: 3, class: 5 }, at20)).toBeCloseTo(0.01995 / 3, 12)
  })
  test('past the ends the last row counts on: 50 mm², class 2, and 0.14 mm², class 1', () => {
    expect(maximumAt20(squareMillimetre(50), 2)).toBeCloseTo((0.727 * 25) / 50 / 1000, 12)
    expect(maximumAt20(squareMillimetre(0.14), 1)).toBeCloseTo(18 / 0.14 / 1000, 12)
  })
  test(`any area and class has 1 to 1.16 times the resistance of ideal copper (seed ${SEED})`, () => {
    fc.assert(
      fc.property(areas, classes, (area, of) => {
        const overIdeal = (resistancePerMetre({ area, class: of }, at20) * area) / COPPER_RESISTIVITY
        return overIdeal >= 1 && overIdeal <= 1.16
      }),
      { seed: SEED },
    )
  })
  test('a stranded gauge of no table lies 2 to 3 % above solid', () => {
    for (const awg of [30, 26, 24, 22, 20, 4, 0, -3]) {
      const ratio = resistancePerMetre({ awg, stranded: true }, at20) / resistancePerMetre({ awg, stranded: false }, at20)
      expect(ratio).toBeGreaterThan(1.02)
      expect(ratio).toBeLessThan(1.03)
    }
  })
  test('a conductor without area is a mistake, not an infinite resistance', () => {
    expect(() => resistancePerMetre({ area: 0 }, at20)).toThrow(/0 mm²/)
  })
})

describe('temperature', () => {
  test('10 K more is 3.93 % more than at 20 °C', () => {
    expect(temperatureFactor(celsius(30))).toBeCloseTo(1.0393, 12)
  })
  test(`resistance over resistance at 20 °C is the factor, for every conductor (seed ${SEED})`, () => {
    fc.assert(
      fc.property(areas, classes, fc.double({ min: -60, max: 200, noNaN: true }), (area, of, t) => {
        const conductor = { area, class: of }
        const ratio = resistancePerMetre(conductor, celsius(t)) / resistancePerMetre(conductor, at20)
        expect(ratio).toBeCloseTo(temperatureFactor(celsius(t)), 12)
      }),
      { seed: SEED },
    )
  })
})

test('real conductors lie 0 to 8 % under the maximum', () => {
  expect(TOLERANCE).toEqual({ low: 0.92, high: 1 })
})

test('three gauges up the area halves, nearly', () => {
  expect(areaOfAwg(18) / areaOfAwg(21)).toBeCloseTo(2.005, 3)
})

test('units are kept apart by the compiler', () => {
  const perMetre: OhmPerMetre = resistancePerMetre(undefined, at20)
  // @ts-expect-error a bare number has no unit
  resistancePerMetre(undefined, 20)
  // @ts-expect-error metres are no temperature
  resistancePerMetre(undefined, metre(20))
  // @ts-expect-error ohm per metre is not ohm
  const whole: Ohm = perMetre
  // @ts-expect-error ohm is no temperature
  const warm: Celsius = ohm(20)
  // @ts-expect-error there is no class 3
  resistancePerMetre({ area: 1, class: 3 }, at20)
  expect([whole, warm]).toEqual([perMetre, 20])
})
