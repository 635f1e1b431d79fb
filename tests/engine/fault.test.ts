import { expect, test } from 'vitest'
import { CONDUCTOR_SHORT_OHM, LOAD_SHORT_OHM, ohmBins, SHARES, SHORTS } from '../../engine/fault.ts'

test.each(Object.entries(SHARES))('%s: the causes share 1', (_, s) => {
  expect(Object.values(s).reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 12)
  // An open conductor or a supply set low leaves no machine all dead; every other cause stays possible.
  const { open, poorJoint, supplyLow, ...always } = s
  expect(Math.min(open, poorJoint, supplyLow)).toBeGreaterThanOrEqual(0)
  expect(Math.min(...Object.values(always))).toBeGreaterThan(0)
})

test('of 17 short circuits 11 go to 0 V, 3 to earth and 3 are inside a load', () => {
  expect([SHORTS.toZero, SHORTS.toEarth, SHORTS.load].map(x => 17 * x)).toEqual([11, 3, 3].map(x => expect.closeTo(x, 12)))
})

test.each([
  ['conductor', CONDUCTOR_SHORT_OHM, 0.005, 0.3],
  ['load', LOAD_SHORT_OHM, 0.02, 0.5],
] as const)('a %s short is even in its logarithm, and the bins keep its mean and spread', (_, range, low, high) => {
  expect(range).toEqual({ low, high })
  // Of a value whose logarithm is even: E[x] = (b − a)/ln(b/a), E[x²] = (b² − a²)/(2 ln(b/a)); summed here from a fine grid.
  const N = 200_000
  let first = 0
  let second = 0
  for (let i = 0; i < N; i++) {
    const x = low * (high / low) ** ((i + 0.5) / N)
    first += x / N
    second += (x * x) / N
  }
  for (const count of [1, 2, 5, 9]) {
    const bins = ohmBins(range, count)
    expect(bins.length).toBe(count)
    expect(bins.reduce((sum, b) => sum + b.mean / count, 0)).toBeCloseTo(first, 8)
    expect(bins.reduce((sum, b) => sum + (b.mean ** 2 + b.sd ** 2) / count, 0)).toBeCloseTo(second, 8)
  }
  const bins = ohmBins(range, 5)
  bins.forEach((b, i) => {
    const [from, to] = [i / 5, (i + 1) / 5].map(q => low * (high / low) ** q)
    expect(b.mean).toBeGreaterThan(from ?? Number.NaN)
    expect(b.mean).toBeLessThan(to ?? Number.NaN)
    // A bin of width w spreads about as much as an even one, w/√12.
    expect(b.sd / (((to ?? 0) - (from ?? 0)) / Math.sqrt(12))).toBeCloseTo(1, 1)
  })
})
