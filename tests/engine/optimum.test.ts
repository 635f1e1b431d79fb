import { expect, test } from 'vitest'
import { COST } from '../../engine/cost.ts'
import { againstOptimum, optimum } from '../bench/optimum.ts'

test('by hand: two branches alike need one reading past one device, 21 s; of three the third is left after 28 s in the mean', () => {
  expect(optimum([0.5, 0.5])).toBeCloseTo(COST.readInCabinet + COST.device, 9)
  // The first reading 21 s; in 2 of 3 cases a second one, 21 s.
  expect(optimum([1 / 3, 1 / 3, 1 / 3])).toBeCloseTo(21 + (2 / 3) * 21, 9)
})

const SEED = 61
test(`on 30 machines of 3 to 6 branches (seed ${SEED}) the mean time to the branch is within 5 % of the exact optimum`, () => {
  const { engine, exact } = againstOptimum(30, SEED)
  expect(engine / exact).toBeLessThan(1.05)
  // A branch counts as known at 85 of 100, a little before only one is left.
  expect(engine / exact).toBeGreaterThan(0.9)
})
