import { expect, test } from 'vitest'
import { cableOf } from '../../engine/cable.ts'
import { instrumentOf } from '../../engine/instrument.ts'
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
