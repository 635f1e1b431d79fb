// From belief to a place that a hand can find: the run or load, and the stretch of it that holds the fault in 95 of 100.

import { type Belief, flickerLogs, placeLogs, shares } from './belief.ts'
import { within } from './chain.ts'
import { OVERLOAD_FROM } from './fault.ts'
import { normalBelow } from './normal.ts'
import { IN_LOAD, TO_ZERO } from './place.ts'
import { branchOf, type PlantBranch } from './plant.ts'
import { AT, FAULT_OHM } from './reading.ts'
import type { Finding, Interval } from './step.ts'

/** A run or a load that may hold the fault. `p` of 1 over the whole machine. */
export interface Spot {
  readonly branch: string
  readonly run?: string
  readonly load?: string
  readonly p: number
  /** Of it, the share that is a short circuit to 0 V rather than to earth. */
  readonly toZero: number
  /** Of it, the share that comes and goes. */
  readonly flicker: number
  readonly alongRun?: Interval
  readonly fromTerminals: Interval
  readonly loopOhm: Interval
  readonly faultOhm: Interval
}

/** A mixture of normals: weights, means, standard deviations. */
interface Mixture {
  readonly w: number[]
  readonly m: number[]
  readonly s: number[]
}

/** The value below which share `q` of a mixture lies. Each part is cut to `low`..`high` on its own and keeps its whole weight there. */
const quantile = ({ w, m, s }: Mixture, q: number, low: number, high: number): number => {
  const part = w.map((_, i) => {
    const sd = Math.max(s[i] as number, 1e-6)
    const a = normalBelow((low - (m[i] as number)) / sd),
      b = normalBelow((high - (m[i] as number)) / sd)
    return { a, b, sd }
  })
  const total = w.reduce((sum, x) => sum + x, 0)
  let from = low,
    to = high
  for (let step = 0; step < 40; step++) {
    const middle = (from + to) / 2
    let below = 0
    for (let i = 0; i < w.length; i++) {
      const { a, b, sd } = part[i] as { a: number; b: number; sd: number }
      const at = Math.min(Math.max(normalBelow((middle - (m[i] as number)) / sd), a), b)
      below += (w[i] as number) * (b - a < 1e-9 ? (middle > (m[i] as number) ? 1 : 0) : (at - a) / (b - a))
    }
    if (below < q * total) from = middle
    else to = middle
  }
  return (from + to) / 2
}

const interval = (x: Mixture, low: number, high: number): Interval => ({
  best: quantile(x, 0.5, low, high),
  low: quantile(x, 0.025, low, high),
  high: quantile(x, 0.975, low, high),
})

/** Figures to the centimetre and to the milliohm: finer than any of it is known. */
const rounded = (i: Interval, per: number): Interval => ({
  best: Math.round(i.best * per) / per,
  low: Math.floor(i.low * per) / per,
  high: Math.ceil(i.high * per) / per,
})
const shift = (i: Interval, by: number): Interval => ({ best: i.best + by, low: i.low + by, high: i.high + by })

/** Loop resistance at the terminals of a fault at a place: out and back along the path, and through the fault, Ω. */
const loopOf = (b: PlantBranch, run: number, at: number, toZero: boolean, ohm: number): number => {
  let loop = ohm
  for (let k = run, here = at; k >= 0; k = b.wiring.runs[k]?.parent ?? -1, here = b.wiring.runs[k]?.run.length ?? 0) {
    const length = b.wiring.runs[k]?.run.length ?? 1
    loop += ((toZero ? 2 : 1) * (b.runOhm[k] as number) * here) / length
  }
  return loop
}

/** Weights of the places of a branch, of 1 over the whole machine. */
export const weights = (belief: Belief, b: number): Float64Array => {
  const { evidence } = shares(belief)
  return placeLogs(belief, b).map(v => Math.exp(v - evidence))
}

/** Runs and loads of a branch with their intervals, likeliest first. */
export const spots = (belief: Belief, branch: string, atLeast = 1e-4): Spot[] => {
  const b = branchOf(belief.plant, branch)
  const own = belief.branches[b.index]
  if (own === undefined) return []
  const { places, chain } = own
  const w = weights(belief, b.index)
  const all = placeLogs(belief, b.index)
  const comes = flickerLogs(belief, b.index).map((v, j) => Math.exp(v - (all[j] as number)))
  const groups = new Map<string, number[]>()
  for (let j = 0; j < places.count; j++) {
    const key = `${places.kind[j] === IN_LOAD ? 'load' : 'run'} ${places.item[j]}`
    groups.set(key, [...(groups.get(key) ?? []), j])
  }
  const total = w.reduce((sum, x) => sum + x, 0)
  const found: Spot[] = []
  for (const members of groups.values()) {
    const p = members.reduce((sum, j) => sum + (w[j] as number), 0)
    if (p < atLeast * total || p === 0) continue
    // Places of no weight say nothing of the interval and cost time.
    const kept = members.filter(j => (w[j] as number) > 1e-5 * p)
    const first = kept[0] as number
    const item = places.item[first] as number
    const inLoad = places.kind[first] === IN_LOAD
    const along: Mixture = { w: [], m: [], s: [] },
      fault: Mixture = { w: [], m: [], s: [] },
      loop: Mixture = { w: [], m: [], s: [] }
    let toZero = 0
    let flicker = 0
    const load = inLoad ? b.loads[item] : undefined
    const run = inLoad ? (load?.run ?? -1) : item
    const length = b.wiring.runs[run]?.run.length ?? 0
    for (const j of kept) {
      const x = within(chain, j, AT),
        ohm = within(chain, j, FAULT_OHM)
      const weight = w[j] as number
      const at = inLoad ? length : Math.min(Math.max((places.at[j] as number) + x.shift, 0), length)
      const ohms = Math.max((places.ohm[j] as number) + ohm.shift, 0)
      const zero = inLoad || places.kind[j] === TO_ZERO
      if (zero) toZero += weight
      flicker += weight * (comes[j] as number)
      along.w.push(weight)
      along.m.push(at)
      along.s.push(Math.sqrt(x.variance))
      fault.w.push(weight)
      fault.m.push(ohms)
      fault.s.push(Math.sqrt(ohm.variance))
      loop.w.push(weight)
      loop.m.push(loopOf(b, run, at, zero, ohms))
      loop.s.push(0.03 * loopOf(b, run, at, zero, 0) + 0.005)
    }
    const alongRun = rounded(interval(along, 0, Math.max(length, 1e-3)), 100)
    const startsAt = b.wiring.runs[run]?.startsAt ?? 0
    found.push({
      branch,
      p,
      toZero: toZero / p,
      flicker: flicker / p,
      // Only a finding asks for ohms, and of one spot: their intervals are half of the arithmetic.
      get loopOhm() {
        return rounded(interval(loop, 0, 100), 1000)
      },
      get faultOhm() {
        return rounded(interval(fault, 0, 10), 1000)
      },
      ...(inLoad ? { load: load?.load.id ?? '' } : { run: b.wiring.runs[item]?.run.id ?? '', alongRun }),
      fromTerminals: inLoad
        ? { best: startsAt + length, low: startsAt + length, high: startsAt + length }
        : rounded(shift(alongRun, startsAt), 100),
    })
  }
  return found.sort((x, y) => y.p - x.p)
}

/** What the technician is sent to look at. Kinds are named only where the readings tell them apart. */
export const findingOf = (spot: Spot, named: boolean): Finding => {
  if (!named) return { fault: 'short', branch: spot.branch, probability: spot.p }
  const figures = { fromTerminals: spot.fromTerminals, loopOhm: spot.loopOhm, faultOhm: spot.faultOhm, probability: spot.p }
  if (spot.load !== undefined) {
    const fault = spot.faultOhm.best < OVERLOAD_FROM ? 'load-short' : 'overload'
    return { fault, branch: spot.branch, load: spot.load, ...figures }
  }
  const fault = spot.flicker > 0.5 ? 'intermittent' : spot.toZero > 0.9 ? 'short-to-zero' : spot.toZero < 0.1 ? 'short-to-earth' : 'short'
  return {
    fault,
    branch: spot.branch,
    ...(spot.run === undefined ? {} : { run: spot.run }),
    ...(spot.alongRun === undefined ? {} : { alongRun: spot.alongRun }),
    ...figures,
  }
}
