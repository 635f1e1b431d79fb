import { describe, expect, test } from 'vitest'
import {
  alphabetic,
  type Dictionary,
  entropy,
  greedy,
  huffman,
  lowerBound,
  optimal,
  orderCost,
  searchOrder,
  withObservation,
} from '../bench/dictionary.ts'
import { bestGroup, NEVER_POOL, nested } from '../bench/pool.ts'
import published from './dictionary.json' with { type: 'json' }
import { named } from './named.ts'

/** Half of the last digit where few are given; figures with six digits are held to that. */
const four = (x: number, as: number) => expect(Math.abs(x - as)).toBeLessThanOrEqual(0.5001e-4)
const exact = (x: number, as: number) => expect(Math.abs(x - as)).toBeLessThan(1e-6)

const dictionary = (priors: readonly number[], outcomes: readonly (readonly number[])[], costs?: readonly number[]): Dictionary => ({
  priors,
  trials: outcomes.map((outcome, i) => ({ cost: costs?.[i] ?? 1, outcome })),
})

describe(published.classic.source, () => {
  const { priors, outcomes, costs, byFirst, best } = published.classic
  test('the optimum by first test, with both best beginnings', () => {
    const plan = optimal(dictionary(priors, outcomes))
    exact(plan.cost, 2.18)
    for (const [i, cost] of byFirst.entries()) exact(plan.byFirst[i] ?? Number.NaN, cost)
    expect(plan.first).toEqual(best)
  })
  test.each(costs)('costs $costs: optimum $optimum, one look ahead $greedy', row => {
    const d = dictionary(priors, outcomes, row.costs)
    exact(optimal(d).cost, row.optimum)
    exact(greedy(d), row.greedy)
    expect(lowerBound(d)).toBeLessThanOrEqual(row.optimum)
  })
  test('entropy and Huffman length', () => {
    exact(entropy(priors), published.classic.entropy)
    exact(huffman(priors), published.classic.huffman)
    exact(lowerBound(dictionary(priors, outcomes)), published.classic.huffman)
  })
  test('known to be faulty, and with five equal faults', () => {
    const faulty = outcomes.map(row => row.slice(1))
    const known = dictionary(priors.slice(1), faulty)
    exact(optimal(known).cost, published.classic.knownFaulty.optimum)
    exact(greedy(known), published.classic.knownFaulty.optimum)
    exact(huffman(known.priors), published.classic.knownFaulty.huffman)
    const even = dictionary([1, 1, 1, 1, 1], faulty)
    for (const cost of [optimal(even).cost, greedy(even), huffman(even.priors)]) exact(cost, published.classic.uniformFaulty)
  })
})

test(published.gap.source, () => {
  const { priors, rows, optimum, greedy: greedyCost } = published.gap
  const d = dictionary(
    priors,
    [0, 1, 2, 3].map(trial => rows.map(row => Number(row[trial]))),
  )
  exact(optimal(d).cost, optimum)
  exact(greedy(d), greedyCost)
})

/** Every split into two of n states, the first state always on the 0 side. */
const everySplit = (n: number): number[][] =>
  Array.from({ length: 2 ** (n - 1) - 1 }, (_, i) => Array.from({ length: n }, (_, state) => ((2 * (i + 1)) >> state) & 1))

test.each(named(published.codes))('%s', (_, { priors, ...row }) => {
  exact(huffman(priors), row.huffman)
  four(entropy(priors), row.entropy)
  exact(optimal(dictionary(priors, everySplit(priors.length))).cost, row.huffman)
})

test(`${published.pooledSix.source}: one bad of six`, () => {
  const { priors, pooled, oneByOne } = published.pooledSix
  const [a = 0, of = 1] = pooled
  const single = priors.map((_, i) => priors.map((_, state) => Number(state === i)))
  exact(huffman(priors), a / of)
  exact(optimal(dictionary(priors, everySplit(6))).cost, a / of)
  exact(optimal(dictionary(priors, single)).cost, (oneByOne[0] ?? 0) / of)
})

describe('a run of wire with joints to test at', () => {
  /** Expected tests when each is taken where `cut` says, within the stretch that is left. */
  const cutting = (priors: readonly number[], cut: (stretch: readonly number[]) => number): number => {
    if (priors.length <= 1) return 0
    const at = cut(priors)
    const sum = priors.reduce((total, p) => total + p, 0)
    return sum + cutting(priors.slice(0, at), cut) + cutting(priors.slice(at), cut)
  }
  const mostEven = (stretch: readonly number[]): number => {
    const total = stretch.reduce((a, b) => a + b, 0)
    const off = (at: number) => Math.abs(total / 2 - stretch.slice(0, at).reduce((a, b) => a + b, 0))
    return stretch.slice(1).reduce((best, _, i) => (off(i + 1) < off(best) - 1e-12 ? i + 1 : best), 1)
  }
  test.each(named(published.chains))('%s', (_, { priors, ...row }) => {
    const total = priors.reduce((a, b) => a + b, 0)
    const joints = priors.slice(1).map((_, i) => priors.map((_, state) => Number(state > i)))
    exact(alphabetic(priors), row.optimum)
    exact(optimal(dictionary(priors, joints)).cost, row.optimum)
    exact(huffman(priors), row.huffman)
    four(entropy(priors), row.entropy)
    exact(cutting(priors, stretch => Math.ceil(stretch.length / 2)) / total, row.byCount)
    exact(cutting(priors, mostEven) / total, row.byProbability)
    exact(cutting(priors, () => 1) / total, row.fromOneEnd)
  })
  test('alike in number n: k + 2(n − 2^k)/n, and from one end (n − 1)(n + 2)/(2n)', () => {
    for (let n = 2; n <= 15; n++) {
      const k = Math.floor(Math.log2(n))
      const even = Array<number>(n).fill(1)
      exact(alphabetic(even), k + (2 * (n - 2 ** k)) / n)
      exact(cutting(even, () => 1) / n, ((n - 1) * (n + 2)) / (2 * n))
    }
  })
})

describe(published.repair.source, () => {
  const { priors, costs, observation, ...row } = published.repair
  test('by probability over cost', () => {
    expect(searchOrder(priors, costs).order).toEqual(row.order)
    exact(searchOrder(priors, costs).cost, row.optimum)
    exact(orderCost([0, 1, 2, 3], priors, costs), row.byProbability)
    exact(orderCost([3, 1, 2, 0], priors, costs), row.byCost)
  })
  test('of all 24 orders none is better, and the worst is as bad as told', () => {
    const orders = (left: readonly number[]): number[][] =>
      left.length === 0 ? [[]] : left.flatMap(x => orders(left.filter(y => y !== x)).map(rest => [x, ...rest]))
    const all = orders([0, 1, 2, 3]).map(order => orderCost(order, priors, costs))
    expect(all).toHaveLength(24)
    exact(Math.min(...all), row.optimum)
    exact(Math.max(...all), row.worst)
  })
  test.each(observation.at)('with an observation that costs $cost: $expected', at => {
    const plan = withObservation(priors, costs, { cost: at.cost, outcome: observation.outcome })
    exact(plan.cost, at.expected)
    expect(plan.first).toBe(at.first)
  })
})

describe('several branches at once', () => {
  test.each(published.dorfman.rows)(
    `${published.dorfman.source}: chance %f, groups of %i, %f tests a branch`,
    (p = 0, size = 0, tests = 0) => {
      expect(bestGroup(p).size).toBe(size)
      four(bestGroup(p).tests, tests)
    },
  )
  test('from 38.2 in 100 on no group is better than one by one (Ungar 1960)', () => {
    exact(NEVER_POOL, 0.381966)
    for (const [p, pooled] of [
      [NEVER_POOL - 1e-6, true],
      [NEVER_POOL + 1e-6, false],
    ] as const)
      for (const n of [2, 5]) expect(nested(p, n) < n).toBe(pooled)
  })
  test.each(published.nested.rows)(`${published.nested.source}: %i branches, chance %f: %f`, (n = 0, p = 0, tests = 0) => {
    four(nested(p, n), tests)
  })
  test.each(published.nested.floor)('ten branches with chance %f: no plan under the entropy, %f', (p = 0, floor = 0) => {
    four(10 * entropy([p, 1 - p]), floor)
    expect(nested(p, 10)).toBeGreaterThan(floor)
  })
  test.each(published.anyPools.rows)(`${published.anyPools.source}: $chances need $tests`, ({ chances, tests }) => {
    const states = Array.from({ length: 2 ** chances.length }, (_, state) => state)
    const priors = states.map(state => chances.reduce((product, p, i) => product * ((state >> i) & 1 ? p : 1 - p), 1))
    const pools = states.slice(1).map(pool => states.map(state => Number((state & pool) !== 0)))
    four(optimal(dictionary(priors, pools)).cost, tests)
  })
})
