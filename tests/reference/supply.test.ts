import { describe, expect, test } from 'vitest'
import { capacityOf, K_PVC } from '../../engine/capacity.ts'
import { type ConductorClass, maximumAt20, resistancePerMetre } from '../../engine/conductor.ts'
import { meet, SOURCE_OHM, USUAL } from '../../engine/prospect.ts'
import { celsius, squareMillimetre } from '../../engine/quantities.ts'
import { LEAST_VOLTS, MOST_DROP } from '../../engine/service.ts'
import circuits from './circuit-examples.json' with { type: 'json' }
import { named } from './named.ts'
import published from './supply.json' with { type: 'json' }

test(`[${published.least.id}] ${published.least.standard}`, () => {
  expect(LEAST_VOLTS).toBe(published.least.volt)
  expect(24 * 0.85).toBeCloseTo(published.least.volt, 9)
})
test(`[${published.drop.id}] ${published.drop.standard}`, () => expect(100 * MOST_DROP).toBe(published.drop.percent))
test(`[${published.service.id}] ${published.service.standard}: a hot conductor here is within 4 % of it`, () => {
  for (const area of [1, 2.5, 4, 6, 16]) {
    const hot = resistancePerMetre({ area, class: 2 }, USUAL.hot) * area
    expect(Math.abs(hot / published.service.ohmSquareMillimetrePerMetre - 1)).toBeLessThan(0.04)
  }
})

/** A in a loop of this much Ω, the supply's own included. */
const inLoop = (volts: number, ohm: number): number => {
  const siemens = 1 / (ohm - SOURCE_OHM)
  return meet(volts, Infinity, siemens, 0).volts * siemens
}
describe('prospective current', () => {
  test.each(named(published.prospective))('%s', (_, row) => {
    const source = 'sourceOhm' in row ? (row.sourceOhm ?? 0) : row.volts / (row.ampereAtSource ?? Number.NaN)
    expect(Math.abs(inLoop(row.volts, source + (row.runOhm ?? 0)) - row.ampere)).toBeLessThan(0.05)
  })
  test.each(named(circuits.loops))('%s', (_, row) => {
    const run = maximumAt20(squareMillimetre(row.area), row.conductorClass as ConductorClass)
    expect(Math.abs(inLoop(row.volts, 2 * row.oneWay * run + row.sourceOhm) - row.currentAmpere)).toBeLessThan(0.006)
    const warm = resistancePerMetre({ area: row.area, class: row.conductorClass as ConductorClass }, celsius(40))
    expect(2 * row.oneWay * warm).toBeCloseTo(row.loopOhmAt40, 4)
  })
  test('past the limit it is the limit', () => {
    // 24 V in 0.5 Ω would be 48 A; a supply of 10 A gives 10 A at 10 × (0.5 − 0.014) = 4.86 V.
    const found = meet(24, 10, 1 / (0.5 - SOURCE_OHM), 0)
    expect([found.limited, found.volts]).toEqual([true, expect.closeTo(4.86, 9)])
  })
})

describe('what a conductor carries', () => {
  test.each(published.carries.rows)(`[${published.carries.id}] %s mm²: %s A`, (area, ampere) => {
    expect(capacityOf(area ?? 0, 30)).toBe(ampere)
    // Between two sizes the smaller one counts.
    expect(capacityOf((area ?? 0) * 1.05, 30)).toBe(ampere)
  })
  test.each(published.warmer.rows)(
    `[${published.warmer.id}] %s mm²: what warmer air leaves, to the ampere printed`,
    (_, at30 = 0, ...rest) => {
      for (const [i, printed] of rest.entries()) {
        const left = at30 * Math.sqrt((70 - (40 + 5 * i)) / 40)
        const ours = (at30 * (capacityOf(25, 40 + 5 * i) ?? 0)) / (capacityOf(25, 30) ?? 1)
        expect(ours).toBeCloseTo(left, 9)
        // Printed in whole amperes from a first column that was rounded too.
        expect(Math.abs(ours - printed)).toBeLessThan(1.1)
      }
    },
  )
  test('below the smallest size of the table it is not known', () => expect(capacityOf(0.34, 30)).toBeUndefined())
  test('[IEC 60364-4-43 Table 43A] k of PVC-insulated copper: 115, from 226 √ln((234.5 + 160)/(234.5 + 70))', () => {
    expect(K_PVC).toBeCloseTo(115, 0)
  })
})
