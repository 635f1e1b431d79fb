// Laws of the choice over made-up dictionaries, and a slow twin that knows no bit masks and remembers nothing.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  alphabetic,
  type Dictionary,
  entropy,
  greedy,
  huffman,
  lowerBound,
  MOST_STATES,
  optimal,
  searchOrder,
  withObservation,
} from '../bench/dictionary.ts'

const SEED = 12
const weight = fc.double({ min: 0.01, max: 1, noNaN: true })
const weights = (most: number) => fc.array(weight, { minLength: 1, maxLength: most })
const dictionaries = (outcomes: number): fc.Arbitrary<Dictionary> =>
  weights(6).chain(priors =>
    fc.record({
      priors: fc.constant(priors),
      trials: fc.array(
        fc.record({
          cost: fc.double({ min: 0.1, max: 5, noNaN: true }),
          outcome: fc.array(fc.integer({ min: 0, max: outcomes - 1 }), { minLength: priors.length, maxLength: priors.length }),
        }),
        { maxLength: 5 },
      ),
    }),
  )

const slow = ({ priors, trials }: Dictionary): number => {
  const going = (left: readonly number[]): number => {
    const total = left.reduce((sum, state) => sum + (priors[state] ?? 0), 0)
    const options = trials.flatMap(({ cost, outcome }) => {
      const groups = new Map<number | undefined, number[]>()
      for (const state of left) groups.set(outcome[state], [...(groups.get(outcome[state]) ?? []), state])
      return groups.size < 2 ? [] : [cost * total + [...groups.values()].reduce((sum, group) => sum + going(group), 0)]
    })
    return options.length === 0 ? 0 : Math.min(...options)
  }
  return going(priors.map((_, state) => state)) / priors.reduce((sum, p) => sum + p, 0)
}

test(`[seed ${SEED}] the optimum is the slow twin's, and stands between its bound and the greedy cost`, () => {
  fc.assert(
    fc.property(dictionaries(3), d => {
      const { cost, byFirst, first } = optimal(d)
      expect(cost).toBeCloseTo(slow(d), 9)
      expect(lowerBound(d)).toBeLessThanOrEqual(cost + 1e-9)
      expect(cost).toBeLessThanOrEqual(greedy(d) + 1e-9)
      for (const trial of first) expect(byFirst[trial]).toBeCloseTo(cost, 9)
      expect(first.length > 0).toBe(cost > 0)
    }),
    { seed: SEED, numRuns: 300 },
  )
})
test(`[seed ${SEED}] entropy ≤ Huffman ≤ alphabetic < entropy + 2, and Huffman ≤ the optimum of any tests that tell all apart`, () => {
  fc.assert(
    fc.property(dictionaries(2), ({ priors, trials }) => {
      const code = huffman(priors)
      expect(entropy(priors)).toBeLessThanOrEqual(code + 1e-9)
      expect(code).toBeLessThanOrEqual(alphabetic(priors) + 1e-9)
      expect(alphabetic(priors)).toBeLessThan(entropy(priors) + 2)
      const one = priors.map((_, i) => ({ cost: 1, outcome: priors.map((_, state) => Number(state === i)) }))
      const all = optimal({ priors, trials: [...trials.map(trial => ({ ...trial, cost: 1 })), ...one] })
      expect(code).toBeLessThanOrEqual(all.cost + 1e-9)
    }),
    { seed: SEED, numRuns: 200 },
  )
})
test(`[seed ${SEED}] an observation never costs more than to do without it, and a dear one is left out`, () => {
  const cases = weights(5).chain(priors =>
    fc.record({
      priors: fc.constant(priors),
      costs: fc.array(fc.double({ min: 0.1, max: 9, noNaN: true }), { minLength: priors.length, maxLength: priors.length }),
      outcome: fc.array(fc.integer({ min: 0, max: 1 }), { minLength: priors.length, maxLength: priors.length }),
      cost: fc.double({ min: 0.01, max: 9, noNaN: true }),
    }),
  )
  fc.assert(
    fc.property(cases, ({ priors, costs, outcome, cost }) => {
      const without = searchOrder(priors, costs).cost
      expect(withObservation(priors, costs, { cost, outcome }).cost).toBeLessThanOrEqual(without + 1e-9)
      expect(withObservation(priors, costs, { cost: 100, outcome }).cost).toBeCloseTo(without, 9)
    }),
    { seed: SEED, numRuns: 200 },
  )
})
test('three outcomes a test: nine alike take two tests', () => {
  const trials = [1, 3].map(step => ({ cost: 1, outcome: Array.from({ length: 9 }, (_, state) => Math.floor(state / step) % 3) }))
  const d = { priors: Array<number>(9).fill(1), trials }
  expect(optimal(d)).toEqual({ cost: 2, byFirst: [2, 2], first: [0, 1] })
  expect(lowerBound(d)).toBeCloseTo(2, 12)
})
test('what no test tells apart costs nothing more', () => {
  expect(optimal({ priors: [1, 1], trials: [{ cost: 7, outcome: [0, 0] }] })).toEqual({
    cost: 0,
    byFirst: [Number.POSITIVE_INFINITY],
    first: [],
  })
  expect(lowerBound({ priors: [1, 1], trials: [{ cost: 7, outcome: [0, 0] }] })).toBe(0)
  // The first two count as one of 10: 12 for the first test, 2 of 12 need the second.
  const trials = [
    { cost: 1, outcome: [0, 0, 1, 1] },
    { cost: 1, outcome: [0, 0, 0, 1] },
  ]
  expect(lowerBound({ priors: [5, 5, 1, 1], trials })).toBeCloseTo(14 / 12, 12)
  expect(optimal({ priors: [5, 5, 1, 1], trials }).cost).toBeCloseTo(14 / 12, 12)
})
test('too many states, or an outcome too few, is a mistake of the caller', () => {
  expect(() => optimal({ priors: Array<number>(MOST_STATES + 1).fill(1), trials: [] })).toThrow('found 16')
  expect(() => optimal({ priors: [], trials: [] })).toThrow('found 0')
  expect(() => optimal({ priors: [1, 1], trials: [{ cost: 1, outcome: [0] }] })).toThrow('found 1')
})
