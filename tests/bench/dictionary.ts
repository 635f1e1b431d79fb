// Choosing tests over a short list of causes, exactly: the yardstick that every quicker choice is measured against.

/** A test: what it costs, and the outcome that each state would give, as a whole number from 0. */
export interface Trial {
  readonly cost: number
  readonly outcome: readonly number[]
}
/** Exactly one state is true; `priors` are weights and need not sum to 1. Outcomes carry no noise. */
export interface Dictionary {
  readonly priors: readonly number[]
  readonly trials: readonly Trial[]
}
export interface Plan {
  /** Expected cost until one state is left, or none that a test tells apart. */
  readonly cost: number
  /** The same by the test taken first; infinite for one that tells nothing. */
  readonly byFirst: readonly number[]
  /** Every test that is best to begin with; none where nothing is left to tell. */
  readonly first: readonly number[]
}

/** 2^15 sets of states with 40 tests took 0.06 s on a small desk computer. */
export const MOST_STATES = 15
/** Costs this close count as equal. */
const TIE = 1e-9

const sum = (of: readonly number[]): number => of.reduce((total, x) => total + x, 0)

/** Splits sets of states, which are bit masks: bit i is state i. */
class Split {
  readonly all: number
  readonly #priors: readonly number[]
  readonly #masks: readonly (readonly number[])[]

  constructor({ priors, trials }: Dictionary) {
    if (priors.length === 0 || priors.length > MOST_STATES) throw new RangeError(`1 to ${MOST_STATES} states, found ${priors.length}`)
    this.all = 2 ** priors.length - 1
    this.#priors = priors
    this.#masks = trials.map(({ outcome }) => {
      if (outcome.length !== priors.length) throw new RangeError(`an outcome for each of ${priors.length} states, found ${outcome.length}`)
      const masks = new Map<number, number>()
      for (const [state, seen] of outcome.entries()) masks.set(seen, (masks.get(seen) ?? 0) | (1 << state))
      return [...masks.values()]
    })
  }

  weight(states: number): number {
    return this.#priors.reduce((total, p, state) => ((states >> state) & 1 ? total + p : total), 0)
  }

  /** What the test leaves of these states, one set an outcome; undefined where it tells nothing. */
  parts(states: number, trial: number): readonly number[] | undefined {
    const parts = (this.#masks[trial] ?? []).map(mask => mask & states).filter(part => part !== 0)
    return parts.length > 1 ? parts : undefined
  }
}

/**
 * The cheapest way to tell the states apart: J(S) = min over tests of cost × P(S) + Σ J(parts of S), with J = 0 where nothing
 * can be told. Exact; at most 2^states sets (Pattipati & Alexandridis 1990, from memory, for the model).
 */
export const optimal = (dictionary: Dictionary): Plan => {
  const { trials } = dictionary
  const split = new Split(dictionary)
  const known = new Float64Array(split.all + 1).fill(Number.NaN)
  const beginning = (states: number, trial: number, weight: number): number => {
    const parts = split.parts(states, trial)
    return parts === undefined
      ? Number.POSITIVE_INFINITY
      : parts.reduce((total, part) => total + best(part), (trials[trial]?.cost ?? 0) * weight)
  }
  const best = (states: number): number => {
    const before = known[states]
    if (before !== undefined && !Number.isNaN(before)) return before
    const weight = split.weight(states)
    const least = trials.reduce((least, _, trial) => Math.min(least, beginning(states, trial, weight)), Number.POSITIVE_INFINITY)
    const cost = Number.isFinite(least) ? least : 0
    known[states] = cost
    return cost
  }
  const weight = split.weight(split.all)
  const byFirst = trials.map((_, trial) => beginning(split.all, trial, weight) / weight)
  const cost = best(split.all) / weight
  return { cost, byFirst, first: byFirst.flatMap((by, trial) => (by <= cost + TIE ? [trial] : [])) }
}

/** Entropy in bits of weights, which need not sum to 1. */
export const entropy = (weights: readonly number[]): number => {
  const total = sum(weights)
  return weights.reduce((bits, w) => (w > 0 ? bits - (w / total) * Math.log2(w / total) : bits), 0)
}

/** Expected cost of taking, each time, the test with most information per cost; of equals the one listed first. */
export const greedy = (dictionary: Dictionary): number => {
  const { trials } = dictionary
  const split = new Split(dictionary)
  const going = (states: number): number => {
    let most = -1
    let taken: { readonly cost: number; readonly parts: readonly number[] } | undefined
    for (const [trial, { cost }] of trials.entries()) {
      const parts = split.parts(states, trial)
      const gain = parts === undefined ? -1 : entropy(parts.map(part => split.weight(part))) / cost
      if (parts === undefined || gain <= most + TIE) continue
      most = gain
      taken = { cost, parts }
    }
    return taken === undefined ? 0 : taken.parts.reduce((total, part) => total + going(part), taken.cost * split.weight(states))
  }
  return going(split.all) / split.weight(split.all)
}

/** Expected number of tests where any group of states can be tested for at once: the Huffman code, with `ways` outcomes a test. */
export const huffman = (priors: readonly number[], ways = 2): number => {
  const heap = [...priors]
  // So many empty states that every joining takes `ways` of them, as the best code does.
  while (heap.length > 1 && (heap.length - 1) % (ways - 1) !== 0) heap.push(0)
  let joined = 0
  while (heap.length > 1) {
    heap.sort((a, b) => a - b)
    const least = sum(heap.splice(0, ways))
    joined += least
    heap.push(least)
  }
  return joined / sum(priors)
}

/** The same where a test can only tell what lies left of a joint from what lies right of it: the best alphabetic tree, O(n³). */
export const alphabetic = (priors: readonly number[]): number => {
  const n = priors.length
  const cost = Array.from({ length: n + 1 }, () => new Float64Array(n + 1))
  const of = (from: number, to: number): number => cost[from]?.[to] ?? 0
  for (let width = 2; width <= n; width++)
    for (let from = 0; from + width <= n; from++) {
      const to = from + width
      let least = Number.POSITIVE_INFINITY
      for (let joint = from + 1; joint < to; joint++) least = Math.min(least, of(from, joint) + of(joint, to))
      const row = cost[from]
      if (row !== undefined) row[to] = least + sum(priors.slice(from, to))
    }
  return of(0, n) / sum(priors)
}

/**
 * No plan costs less: with W the Huffman length and k its whole part, the k cheapest tests and W − k of the next (Pattipati &
 * Alexandridis 1990, from memory). States that no test tells apart count as one.
 */
export const lowerBound = ({ priors, trials }: Dictionary): number => {
  const alike = new Map<string, number>()
  for (const [state, p] of priors.entries()) {
    const seen = trials.map(({ outcome }) => outcome[state]).join(' ')
    alike.set(seen, (alike.get(seen) ?? 0) + p)
  }
  const ways = Math.max(2, ...trials.map(({ outcome }) => new Set(outcome).size))
  const length = huffman([...alike.values()], ways)
  const k = Math.floor(length)
  const costs = trials.map(({ cost }) => cost).sort((a, b) => a - b)
  return sum(costs.slice(0, k)) + (length - k) * (costs[k] ?? 0)
}

/** Causes in the order to try them, and what that costs on average. */
export interface Search {
  readonly order: readonly number[]
  readonly cost: number
}

/**
 * Repair actions by falling probability over cost (Kadane & Simon 1977). The best order if there is one cause, each action mends
 * its own cause for sure, costs stand whatever the order, and the machine is tried after each.
 */
export const searchOrder = (priors: readonly number[], costs: readonly number[]): Search => {
  const worth = (cause: number): number => (priors[cause] ?? 0) / (costs[cause] ?? 1)
  const order = priors.map((_, cause) => cause).sort((a, b) => worth(b) - worth(a) || a - b)
  return { order, cost: orderCost(order, priors, costs) }
}

/** Expected cost of a given order: an action is paid for unless the cause came before it. */
export const orderCost = (order: readonly number[], priors: readonly number[], costs: readonly number[]): number => {
  const total = sum(priors)
  let left = total
  let spent = 0
  for (const cause of order) {
    spent += left * (costs[cause] ?? 0)
    left -= priors[cause] ?? 0
  }
  return spent / total
}

/** What is best to do first: repair that cause, or look; and the expected cost from there. */
export interface Repair {
  readonly cost: number
  readonly first: number | 'observe'
}

/** Repair actions as in `searchOrder`, and one observation that may be made at any time, once. Exact over all sets of causes left. */
export const withObservation = (priors: readonly number[], costs: readonly number[], observation: Trial): Repair => {
  const split = new Split({ priors, trials: [observation] })
  const causes = priors.map((_, cause) => cause)
  const within = (set: number): readonly number[] => causes.filter(cause => (set >> cause) & 1)
  const seen = (set: number): number => {
    const left = within(set)
    const pick = (of: readonly number[]): readonly number[] => left.map(cause => of[cause] ?? 0)
    return searchOrder(pick(priors), pick(costs)).cost * split.weight(set)
  }
  const known = new Map<number, Repair>([[0, { cost: 0, first: 'observe' }]])
  const best = (set: number): Repair => {
    const before = known.get(set)
    if (before !== undefined) return before
    const weight = split.weight(set)
    const looking = (split.parts(set, 0) ?? [set]).reduce((total, part) => total + seen(part), observation.cost * weight)
    const options: Repair[] = within(set).map(cause => ({
      cost: (costs[cause] ?? 0) * weight + best(set & ~(1 << cause)).cost,
      first: cause,
    }))
    const least = [...options, { cost: looking, first: 'observe' as const }].reduce((a, b) => (b.cost < a.cost - TIE ? b : a))
    known.set(set, least)
    return least
  }
  const { cost, first } = best(split.all)
  return { cost: cost / split.weight(split.all), first }
}
