import { describe, expect, test } from 'vitest'
import { limit, meterOf, rectangular, standardUncertainty, step } from '../../engine/meter.ts'
import published from './meter.json' with { type: 'json' }
import { named } from './named.ts'

describe('a meter by its data sheet', () => {
  test.each(named(published.limits))('%s', (_, row) => {
    const meter = meterOf({ meter: { volt: { percent: row.percent, counts: row.counts } } })
    expect(step(meter, 'volt', row.volt)).toBeCloseTo(row.step, 12)
    expect(limit(meter, 'volt', row.volt)).toBeCloseTo(row.limit, 9)
    expect(standardUncertainty(meter, 'volt', row.volt)).toBeCloseTo(row.uncertainty, row.uncertainty < 0.1 ? 6 : 4)
  })
  test(`[${published.rule.id}] ${published.rule.standard}: a = percent of reading + counts × step, u = a/√3`, () => {
    const meter = meterOf({ meter: { ohm: { percent: 1, counts: 4, resolution: 0.1 } } })
    for (const [ohms, a] of [
      [0, 0.4],
      [-0.5, 0.405],
      [12.3, 0.523],
      [600, 6.4],
      [1000, 14],
    ] as const) {
      expect(limit(meter, 'ohm', ohms)).toBeCloseTo(a, 9)
      expect(standardUncertainty(meter, 'ohm', ohms) * Math.sqrt(3)).toBeCloseTo(a, 9)
    }
  })
  test.each(named(published.rectangular))('%s: k·u spans its share of a rectangular error', (_, row) => {
    expect(row.k * rectangular(1)).toBeCloseTo(row.percent / 100, row.k === 1 ? 4 : 3)
  })
})
