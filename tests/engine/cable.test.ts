import { expect, test } from 'vitest'
import { cableOf, DEAD_SHORT, meanOf, USUAL_FAULT, varianceOf } from '../../engine/cable.ts'
import { type Errors, instrumentOf, propagated } from '../../engine/instrument.ts'
import { estimate } from '../../engine/method.ts'

/** 0.75 mm², class 5: IEC 60228:2004 Table 3. */
const MOST = 0.026

test('a cable has 0.92 to 1 of the maximum, 10 to 30 °C unless its temperature is told', () => {
  const cable = cableOf({ conductor: { area: 0.75 }, length: 30 })
  expect(cable.core).toBeCloseTo(0.96 * MOST, 12)
  expect(cable.loop).toBeCloseTo(2 * cable.core, 12)
  expect(cable.spread).toBeCloseTo(Math.hypot(0.04 / 0.96, 0.0393) / Math.sqrt(3), 12)
  expect(cable.leastLoop).toBeCloseTo(2 * 0.92 * MOST * (1 - 0.0393), 12)
  const warm = cableOf({ conductor: { area: 0.75 }, length: 30, temperature: 40 })
  expect(warm.core).toBeCloseTo(0.96 * MOST * 1.0786, 12)
  expect(warm.spread).toBeCloseTo(Math.hypot(0.04 / 0.96, 0.00786) / Math.sqrt(3), 12)
})
test('a length off by 5 % counts half in two-ended ohms, and not at all where it was measured', () => {
  const u = (lengthPercent: number) =>
    estimate({ method: 'two-ends', near: 0.85, far: 0.85 }, cableOf({ length: 60, lengthPercent }), instrumentOf({})).standardUncertainty
  expect(cableOf({ length: 60, lengthPercent: 5 }).lengthSd).toBeCloseTo(3 / Math.sqrt(3), 12)
  expect(u(5) ** 2 - u(0) ** 2).toBeCloseTo(3 / 4, 9)
})
test('of an ohm reading, offset and leads are common, one count and the contact its own', () => {
  const { gain, common, own, limit } = instrumentOf({}).ohm(1)
  expect(gain).toBeCloseTo(0.008 / Math.sqrt(3), 12)
  expect(common).toBeCloseTo(Math.hypot(0.2, 0.06) / Math.sqrt(3), 12)
  expect(own).toBeCloseTo(Math.hypot(0.1, 0.05, 0.02) / Math.sqrt(3), 12)
  expect(limit).toBeCloseTo(0.308 + 0.06 + 0.02, 12)
})
test('volts and amperes know no leads, and the kit names the meter', () => {
  const tools = instrumentOf({ meter: { volt: { counts: 1 } } })
  expect(tools.volt(0.1).common).toBe(0)
  expect(tools.volt(0.1).limit).toBeCloseTo(0.0006, 12)
  expect(tools.ampere(1).limit).toBeCloseTo(0.013, 12)
  expect(instrumentOf({}, 'amp').ampere(1).limit).toBeCloseTo(0.07, 12)
})

test('what the fault may have: 0.005 to 0.3 Ω, evenly in the logarithm, in twenty parts alike', () => {
  expect(USUAL_FAULT).toHaveLength(20)
  for (const { share } of USUAL_FAULT) expect(share).toBeCloseTo(0.05, 12)
  // Mean of a log-uniform: (0.3 − 0.005) / ln 60; mean square: (0.3² − 0.005²) / (2 ln 60).
  const mean = 0.295 / Math.log(60)
  expect(meanOf(USUAL_FAULT)).toBeCloseTo(mean, 3)
  expect(varianceOf(USUAL_FAULT)).toBeCloseTo((0.3 ** 2 - 0.005 ** 2) / 2 / Math.log(60) - mean ** 2, 4)
  expect([meanOf(DEAD_SHORT), varianceOf(DEAD_SHORT)]).toEqual([0, 0])
})
test('mean and variance of a mixture, by hand; its shares need not add up to one', () => {
  const parts = [
    { share: 3, mean: 1, sd: 0.5 },
    { share: 1, mean: 5, sd: 1 },
  ]
  // (3 × 1 + 5) / 4 = 2; (3 × (0.25 + 1) + 1 + 9) / 4 = 3.4375.
  expect([meanOf(parts), varianceOf(parts)]).toEqual([2, 3.4375])
})

const errors = (range: number, more: Partial<Errors>): Errors => ({ gain: 0, common: 0, own: 0, range, limit: 0, ...more })
test('own errors add in squares, offset and gain of one range move its readings together, those of another apart (JCGM 100:2008, 5.2)', () => {
  const term = (per: number, value: number, range: number, more: Partial<Errors>) => ({ per, value, errors: errors(range, more) })
  expect(propagated([term(3, 10, 1, { own: 0.1 }), term(-4, 20, 1, { own: 0.1 })])).toBeCloseTo(0.09 + 0.16, 12)
  // An offset cancels in a difference, and counts twice in a sum.
  expect(propagated([term(1, 10, 1, { common: 0.2 }), term(-1, 20, 1, { common: 0.2 })])).toBeCloseTo(0, 12)
  expect(propagated([term(1, 10, 1, { common: 0.2 }), term(1, 20, 1, { common: 0.2 })])).toBeCloseTo(0.16, 12)
  expect(propagated([term(1, 10, 1, { common: 0.2 }), term(-1, 20, 2, { common: 0.2 })])).toBeCloseTo(0.08, 12)
  // A gain cancels in a ratio: by 1/20 of 10 and −10/20² of 20.
  expect(propagated([term(1 / 20, 10, 1, { gain: 0.01 }), term(-10 / 400, 20, 1, { gain: 0.01 })])).toBeCloseTo(0, 12)
  expect(propagated([term(1 / 20, 10, 1, { gain: 0.01 }), term(-10 / 400, 20, 2, { gain: 0.01 })])).toBeCloseTo(2 * 0.005 ** 2, 12)
  expect(propagated([term(2, 3, 1, { own: 0.1, common: 0.2, gain: 0.01 })])).toBeCloseTo(0.04 + 0.16 + 0.0036, 12)
  expect(propagated([])).toBe(0)
})
test('readings of one range share its name, those of two do not', () => {
  const { ohm, volt } = instrumentOf({})
  expect([ohm(1).range === ohm(500).range, ohm(1).range === ohm(5000).range, volt(0.5).range === volt(5).range]).toEqual([
    true,
    false,
    false,
  ])
})
