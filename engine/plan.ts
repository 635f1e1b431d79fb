// A plan: the steps up to and including the answer that is worth having, what it will cost, and why, in facts.

import type { Positions } from './positions.ts'
import type { Read, Step } from './step.ts'
import { keyOf, type State } from './way.ts'

export interface Why {
  readonly key: string
  readonly facts: Readonly<Record<string, string | number>>
}
export interface Plan {
  readonly steps: readonly Step[]
  readonly expected: number
  readonly why: Why
}

/**
 * Shortest first, to the microsecond. Below that a sum depends on how a program's engine reckons logarithms: two phones that replay
 * the same events must take the same step, so plans as good as each other stand in the order in which they were thought of.
 */
export const byExpected = (a: Plan, b: Plan): number => Math.round(1e6 * a.expected) - Math.round(1e6 * b.expected)

/** One reading of ohms and what it showed. */
export interface Ohms {
  readonly read: Read
  readonly shown: number | 'OL'
}

/** Where the technician and the machine are. */
export interface Situation extends State {
  /** How the devices were found, and are to be put back; without it nothing is switched on again to read voltages. */
  readonly found?: Positions
  /** Keys of steps that could not be done. */
  readonly setAside: ReadonlySet<string>
  /** Keys of looks and readings already taken in the present state of knowledge; those under voltage also with what was closed. */
  readonly taken: ReadonlySet<string>
  /** Ohms read in the search, in their order. */
  readonly ohms?: readonly Ohms[]
}
export const possible = (s: Situation, steps: readonly Step[]): boolean => steps.every(step => !s.setAside.has(keyOf(step)))

/** Items in the order in which looking at them costs least: likeliest for its cost first (theory of search; Kadane and Simon 1977). */
export interface Item {
  readonly p: number
  readonly cost: number
}

/**
 * Expected cost of trying items one after the other until one succeeds: each is tried only if all before failed.
 * `miss` is what a vain try costs on top. Sorts in place. Probabilities may sum to less than 1.
 */
export const searchCost = (items: Item[], miss: number): number => {
  items.sort((a, b) => b.p / b.cost - a.p / a.cost)
  let left = items.reduce((sum, x) => sum + x.p, 0)
  let cost = 0
  items.forEach((x, i) => {
    cost += left * (x.cost + (i > 0 ? miss : 0))
    left -= x.p
  })
  return cost
}
