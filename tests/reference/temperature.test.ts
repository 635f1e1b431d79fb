import { describe, expect, test } from 'vitest'
import { COPPER_PER_KELVIN, COPPER_RESISTIVITY, temperatureFactor } from '../../engine/conductor.ts'
import { celsius } from '../../engine/quantities.ts'
import { named } from './named.ts'
import published from './temperature.json' with { type: 'json' }

const at = (t: number, perKelvin = COPPER_PER_KELVIN) => temperatureFactor(celsius(t), perKelvin)
const constant = (id: string): number => {
  const row = published.constants.find(one => one.id === id)
  if (row === undefined) throw new Error(`no published constant ${id}`)
  return row.value
}

describe('copper', () => {
  const engineSays: Record<string, () => number> = {
    'cu-rho20': () => COPPER_RESISTIVITY,
    'cu-sigma20': () => 1 / COPPER_RESISTIVITY,
    'cu-alpha20': () => COPPER_PER_KELVIN,
    // Mass resistivity is resistivity times density: each of the two published figures checks the engine's through the other.
    'cu-density': () => constant('cu-massrho') / COPPER_RESISTIVITY,
    'cu-massrho': () => COPPER_RESISTIVITY * constant('cu-density'),
  }
  test.each(named(published.constants))('%s', (_, { id, value }) => {
    expect(Math.abs((engineSays[id]?.() ?? Number.NaN) / value - 1)).toBeLessThan(5e-5)
  })
})

describe('temperature', () => {
  test.each(named(published.formulas))('%s: R20 from Rt by the intercept', (_, { intercept, perKelvin }) => {
    for (const t of [0, 5, 40, 60, 90]) expect(1 / at(t, perKelvin)).toBeCloseTo((intercept + 20) / (intercept + t), 3)
  })
  const { nec } = published
  test.each(nec.metals)(`[${nec.id}] ${nec.standard}: $at20 at 20 °C is $at75 at 75 °C`, ({ at20, at75 }) => {
    expect((at(76, at20) - at(75, at20)) / at(75, at20)).toBeCloseTo(at75, 5)
  })
  test.each(named(published.kt))('%s', (_, row) => {
    expect(1 / at(row.celsius)).toBeCloseTo(row.exact, 4)
    // The printed list rounds to 0.004 per kelvin; the two differ by up to 0.3 % at 60 °C.
    expect(Math.abs(1 / at(row.celsius) / row.listed - 1)).toBeLessThan(0.003)
  })
  test.each(named(published.onTable8))('%s: over 75 °C', (_, row) => {
    expect(Math.abs(at(row.celsius) / at(75) - row.factorOn75)).toBeLessThan(2e-4)
  })
  test.each(named(published.on20))('%s: over 20 °C', (_, row) => {
    expect(at(row.celsius)).toBeCloseTo(row.factorOn20, 6)
  })
})
