import { describe, expect, test } from 'vitest'
import { COPPER_RESISTIVITY, type ConductorClass, maximumAt20, resistancePerMetre, temperatureFactor } from '../../engine/conductor.ts'
import { celsius, squareMillimetre } from '../../engine/quantities.ts'
import published from './circuit-examples.json' with { type: 'json' }
import { named } from './named.ts'

describe('published voltage drops over both conductors', () => {
  test.each(named(published.drops))('%s', (_, row) => {
    const metres = row.oneWay ?? (row.lengthFeet ?? 0) * 0.3048
    const perMetre =
      row.awg === undefined
        ? (COPPER_RESISTIVITY / (row.area ?? 0)) * temperatureFactor(celsius(row.celsius ?? 20))
        : resistancePerMetre({ awg: row.awg, stranded: true }, celsius(75))
    expect(perMetre * 2 * metres * row.ampere).toBeCloseTo(row.dropVolt, 3)
  })
})

describe('resistivities that others reckon with', () => {
  const resistivity = (id: string) => published.service.find(row => row.id === id)?.value ?? Number.NaN
  test('[elv-0164] trade formula, not a standard: 5 % below copper at 20 °C, so it understates the drop', () => {
    expect(resistivity('elv-0164') / COPPER_RESISTIVITY).toBeCloseTo(0.951, 3)
  })
  test.each([1, 2.5, 4, 6, 16])('[rho1] IEC 60364-5-52:2009 Annex G: 1.25 times class 2 at 20 °C within 3 %%, %s mm²', area => {
    const service = 1.25 * maximumAt20(squareMillimetre(area), 2) * area
    expect(Math.abs(service / resistivity('rho1') - 1)).toBeLessThan(0.03)
  })
})

describe('loops', () => {
  test.each(named(published.loops))('%s', (_, row) => {
    const run = { area: row.area, class: row.conductorClass as ConductorClass }
    const loop = (t: number) => 2 * row.oneWay * resistancePerMetre(run, celsius(t))
    expect(loop(20)).toBeCloseTo(row.loopOhm, 9)
    expect(loop(40) / row.loopOhmAt40).toBeCloseTo(1, 4)
    expect(Math.abs(row.volts / (loop(20) + row.sourceOhm) - row.currentAmpere)).toBeLessThan(0.006)
  })
})
