import { expect, test } from 'vitest'
import { normalBelow, quantileWithin } from '../../engine/normal.ts'

// Abramowitz and Stegun, Handbook of Mathematical Functions, Table 26.1 (P(x)) and 26.2 (quantiles).
test.each([
  [0, 0.5],
  [0.5, 0.691462461],
  [1, 0.841344746],
  [1.96, 0.975002105],
  [3, 0.998650102],
  [-1, 1 - 0.841344746],
  [-1.644853627, 0.05],
  [-2.326347874, 0.01],
])('below %s lies %s of a standard normal, within 1.5e-7', (z, share) => {
  expect(Math.abs(normalBelow(z) - share)).toBeLessThan(1.5e-7)
})

const WIDE = [-1e3, 1e3] as const
test('one normal with room on both sides: the quantiles of the table, stretched and moved', () => {
  for (const [q, z] of [
    [0.5, 0],
    [0.975, 1.959963985],
    [0.05, -1.644853627],
  ] as const)
    expect(quantileWithin([{ share: 1, mean: 7, sd: 2 }], q, ...WIDE)).toBeCloseTo(7 + 2 * z, 5)
})

test('shares need not add up to one, and half of two far parts lies between them by their shares', () => {
  const parts = [
    { share: 3, mean: 10, sd: 0.1 },
    { share: 1, mean: 20, sd: 0.1 },
  ]
  // Three quarters lie at 10: the median is the two-thirds quantile of that part, z = 0.4307.
  expect(quantileWithin(parts, 0.5, 0, 30)).toBeCloseTo(10 + 0.1 * 0.4307, 4)
  // From three quarters on it is the part at 20: 0.875 is its own median.
  expect(quantileWithin(parts, 0.875, 0, 30)).toBeCloseTo(20, 4)
})

test('cut at its own mean, what is left is half a normal: its median lies at the 0.75 quantile, z = 0.6745', () => {
  const part = [{ share: 0.4, mean: 5, sd: 1 }]
  expect(quantileWithin(part, 0.5, 5, 1e3)).toBeCloseTo(5.6745, 4)
  expect(quantileWithin(part, 0.5, -1e3, 5)).toBeCloseTo(4.3255, 4)
  expect(quantileWithin(part, 0, 5, 9)).toBeCloseTo(5, 6)
  expect(quantileWithin(part, 1, 1, 5)).toBeCloseTo(5, 6)
})

test('where nothing of it lies within, the nearer end; with parts on both sides, the lower one', () => {
  const at = (...means: number[]) =>
    quantileWithin(
      means.map(mean => ({ share: 1, mean, sd: 0.01 })),
      0.5,
      10,
      20,
    )
  expect([at(3), at(40), at(3, 40), at(40, 50)]).toEqual([10, 20, 10, 20])
})

test('a part without any width lies where it lies', () => {
  expect(quantileWithin([{ share: 1, mean: 12, sd: 0 }], 0.5, 10, 20)).toBeCloseTo(12, 6)
})
