/** A seeded source of chance: the same seed gives the same numbers on every machine. */
export interface Chance {
  /** Evenly from 0 up to, not including, 1. */
  next(): number
  between(low: number, high: number): number
  /** Evenly in the logarithm. */
  logBetween(low: number, high: number): number
  /** A whole number from low to high, both included. */
  whole(low: number, high: number): number
  yes(share: number): boolean
  pick<T>(of: readonly T[]): T
  /** An index into the weights, as likely as its weight. */
  weighted(weights: readonly number[]): number
}

/** mulberry32: 32 bits of state, public domain, written from memory. */
export const chance = (seed: number): Chance => {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1))
  const between = (low: number, high: number): number => low + next() * (high - low)
  return {
    next,
    between,
    logBetween: (low, high) => Math.exp(between(Math.log(low), Math.log(high))),
    whole,
    yes: share => next() < share,
    pick: of => {
      const one = of[whole(0, of.length - 1)]
      if (one === undefined) throw new RangeError('nothing to pick from')
      return one
    },
    weighted: weights => {
      let left = next() * weights.reduce((sum, w) => sum + w, 0)
      for (const [i, w] of weights.entries()) {
        left -= w
        if (left < 0) return i
      }
      return weights.length - 1
    },
  }
}

/** A second seed from a first and a number, far from its neighbours (golden ratio hash, from memory). */
export const seedOf = (seed: number, n: number): number => (Math.imul(seed ^ (n * 0x9e3779b1), 0x85ebca6b) ^ (n << 7)) >>> 0
