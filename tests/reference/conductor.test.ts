import { describe, expect, test } from 'vitest'
import { areaOfAwg, COPPER_RESISTIVITY, type ConductorClass, type Finish, maximumAt20, resistancePerMetre } from '../../engine/conductor.ts'
import { celsius, squareMillimetre } from '../../engine/quantities.ts'
import published from './conductor.json' with { type: 'json' }
import { named } from './named.ts'

const PER_1000_FT = 304.8

describe('maximum resistance of a conductor at 20 °C', () => {
  test.each(named(published.maximum))('%s', (_, row) => {
    const engine = maximumAt20(squareMillimetre(row.area), row.conductorClass as ConductorClass, row.finish as Finish)
    expect(engine * 1000).toBeCloseTo(row.ohmPerKm, 9)
  })
  test.each(named(published.maximum.filter(row => row.finish === 'plain')))('%s: the same through a run of the machine', (_, row) => {
    const run = { area: row.area, class: row.conductorClass as ConductorClass }
    expect(resistancePerMetre(run, celsius(20)) * 1000).toBeCloseTo(row.ohmPerKm, 9)
  })
})

describe('AWG', () => {
  test(`[${published.gauge.id}] ${published.gauge.standard}: area by the 39th root of 92`, () => {
    const { millimetreAt36, squareMillimetreAt36, ratio } = published.gauge
    expect(areaOfAwg(36)).toBeCloseTo(squareMillimetreAt36, 6)
    expect(areaOfAwg(36)).toBeCloseTo((Math.PI / 4) * millimetreAt36 ** 2, 12)
    expect(areaOfAwg(36 - 39) / areaOfAwg(36)).toBeCloseTo(ratio ** 2, 6)
    for (const n of [-3, -2, -1, 0, 18]) expect(areaOfAwg(n) / (squareMillimetreAt36 * ratio ** ((36 - n) / 19.5))).toBeCloseTo(1, 4)
  })
  test.each(named(published.sizes))('%s: area', (_, row) => {
    expect(areaOfAwg(row.awg) / row.area).toBeCloseTo(1, 3)
    // One unit in the fifth decimal: the printed inches are partly cut off, not rounded.
    const inch = Math.sqrt((4 * areaOfAwg(row.awg)) / Math.PI) / 25.4
    expect(Math.abs(inch - row.diameterInch)).toBeLessThan(1e-5)
    expect((1000 * inch) ** 2 / row.circularMils).toBeCloseTo(1, 3)
  })
  test.each(named(published.sizes))('%s: solid resistance at 20 °C within 0.1 %%', (_, row) => {
    const solid = resistancePerMetre({ awg: row.awg, stranded: false }, celsius(20))
    expect(Math.abs((solid * 1000) / row.ohmPerKm - 1)).toBeLessThan(0.001)
    expect(Math.abs((solid * PER_1000_FT) / row.ohmPer1000ft - 1)).toBeLessThan(0.001)
    expect(solid * areaOfAwg(row.awg)).toBeCloseTo(COPPER_RESISTIVITY, 12)
  })
  test.each(named(published.at75))('%s: within half of the last digit printed', (_, row) => {
    const engine = resistancePerMetre({ awg: row.awg, stranded: row.stranded }, celsius(75))
    expect(Math.abs(engine * PER_1000_FT - row.ohmPer1000ft)).toBeLessThan(row.ohmPer1000ft < 1 ? 0.0006 : 0.006)
  })
})
