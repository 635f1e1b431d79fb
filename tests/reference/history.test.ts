import { expect, test } from 'vitest'
import { learned, shareSd } from '../../engine/history.ts'
import published from './history.json' with { type: 'json' }
import { named } from './named.ts'

const total = (of: readonly number[]) => of.reduce((sum, x) => sum + x, 0)

/**
 * Value below which share `q` of a Beta(a, b) lies: its density summed in x = sin²(t), where it is smooth even for a or b of 1/2.
 */
const betaQuantile = (a: number, b: number, q: number): number => {
  const steps = 100_000
  const mode = Math.min(Math.max((a - 0.5) / (a + b - 1), 1e-12), 1 - 1e-12)
  const log = (x: number) => (a - 0.5) * Math.log(x) + (b - 0.5) * Math.log(1 - x)
  const x = (step: number) => Math.sin((step / steps) * (Math.PI / 2)) ** 2
  const mass = Array.from({ length: steps }, (_, i) => Math.exp(log(x(i + 0.5)) - log(mode)))
  let left = q * total(mass)
  const at = mass.findIndex(m => {
    left -= m
    return left < 0
  })
  return x(at + 1 + left / (mass[at] ?? 1))
}

test.each(named(published.beta))('%s', (_, row) => {
  const worth = total(row.prior)
  const entries = worth + total(row.counts)
  const [mean = 0] = learned(row.prior, row.counts, worth)
  expect(Math.abs(mean - row.mean)).toBeLessThan(0.51 * 10 ** -row.meanTo)
  if ('sd' in row) expect(shareSd(mean, entries)).toBeCloseTo(row.sd ?? 0, 5)
  const [a, b] = [mean * entries, (1 - mean) * entries]
  expect(Math.abs(betaQuantile(a, b, (1 - row.share) / 2) - row.low)).toBeLessThan(10 ** -row.to)
  expect(Math.abs(betaQuantile(a, b, (1 + row.share) / 2) - row.high)).toBeLessThan(10 ** -row.to)
})
test(`${published.poll.source}: difference of the first two shares`, () => {
  const { counts, mean, sd } = published.poll
  const [first = 0, second = 0] = learned([1, 1, 1], counts, 3)
  const entries = 3 + total(counts)
  expect(first - second).toBeCloseTo(mean, 4)
  // Shares of a Dirichlet: cov = −m₁m₂/(n + 1).
  const variance = shareSd(first, entries) ** 2 + shareSd(second, entries) ** 2 + (2 * first * second) / (entries + 1)
  expect(Math.sqrt(variance)).toBeCloseTo(sd, 4)
})
test(`${published.small.source}: prior 4 2 2 1 1, log 6 1 0 0 3`, () => {
  const { alpha, counts, means } = published.small
  for (const [k, mean] of learned(alpha, counts, 10).entries()) expect(mean).toBeCloseTo(means[k] ?? 0, 12)
})
