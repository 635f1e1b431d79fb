// Where in the branch: of all readings that the kit allows, the one after which going to look costs least, itself included.
import type { Belief, OfBranch } from './belief.ts'
import { type Chain, foresee, type Next, shared } from './chain.ts'
import { COST, costOf } from './cost.ts'
import { weights } from './locate.ts'
import { positionsAfter } from './narrow.ts'
import { IN_LOAD } from './place.ts'
import { byExpected, type Item, type Plan, possible, type Situation, searchCost } from './plan.ts'
import type { PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import { predictedFor, type Row, type Stand, standOf } from './reading.ts'
import type { Read, Step } from './step.ts'
import { keyOf, toCutOff, toInjected } from './way.ts'

/** Places kept for choosing, and how many of them are tried as the truth. */
const KEPT = 120
const TRUTHS = 24
/**
 * Seconds that a vain walk counts for beyond its steps: the way back, the doubt (common practice, no source). Set on the
 * bench, seeds 305 and 306, so that nineteen of twenty first findings are right: it costs a few seconds a machine.
 */
const VAIN = { injector: 400, meterAlone: 1200 } as const

/** The likeliest places of a branch, thinned evenly by weight; `w` sums to 1. */
interface Thinned {
  readonly which: Int32Array
  readonly w: Float64Array
  readonly chain: Chain
  readonly item: Int32Array
  readonly at: Float64Array
  readonly inLoad: Uint8Array
}

const thin = (own: OfBranch, w: Float64Array): Thinned => {
  const total = w.reduce((sum, v) => sum + v, 0)
  const count = new Map<number, number>()
  let sum = 0,
    k = 0
  for (let j = 0; j < w.length; j++) {
    sum += w[j] as number
    while (k < KEPT && sum / total >= (k + 0.5) / KEPT) {
      count.set(j, (count.get(j) ?? 0) + 1)
      k++
    }
  }
  const which = Int32Array.from(count.keys())
  const n = which.length
  const c = own.chain
  const m = c.rows.length
  const width = (m * (m + 1)) / 2
  const pick = (a: Float64Array, by: number) => {
    const out = new Float64Array(n * by)
    which.forEach((j, i) => {
      out.set(a.subarray(j * by, (j + 1) * by), i * by)
    })
    return out
  }
  const kept = new Uint8Array(n * m)
  which.forEach((j, i) => {
    kept.set(c.kept.subarray(j * m, (j + 1) * m), i * m)
  })
  const chain: Chain = {
    ...c,
    places: n,
    root: pick(c.root, width),
    left: pick(c.left, m),
    kept,
    rows: c.rows.map(r => ({ ...r, mean: pick(r.mean, 1), fresh: pick(r.fresh, 1), slope: pick(r.slope, c.dims) })),
    atSd: pick(own.places.atSd, 1),
    ohmSd: pick(own.places.ohmSd, 1),
    log: new Float64Array(n),
    wrong: new Float64Array(n),
  }
  return {
    which,
    chain,
    w: Float64Array.from(which, j => (count.get(j) ?? 0) / Math.max(k, 1)),
    item: Int32Array.from(which, j => own.places.item[j] as number),
    at: Float64Array.from(which, j => own.places.at[j] as number),
    inLoad: Uint8Array.from(which, j => (own.places.kind[j] === IN_LOAD ? 1 : 0)),
  }
}

/** What is left to look at: per run its probability, and the metres that hold 95 of 100 of it. */
interface Left {
  p: number
  sum: number
  squares: number
  load: boolean
}
const outlook = (t: Thinned, w: Float64Array, left: Map<number, Left>, vain: number): { cost: number; best: number; metres: number } => {
  for (const x of left.values()) x.p = x.sum = x.squares = 0
  let total = 0
  for (let j = 0; j < w.length; j++) {
    const v = w[j] as number
    if (v === 0) continue
    const key = ((t.item[j] as number) << 1) | (t.inLoad[j] as number)
    const x = left.get(key) ?? { p: 0, sum: 0, squares: 0, load: t.inLoad[j] === 1 }
    left.set(key, x)
    const at = t.at[j] as number,
      sd = (t.chain.atSd[j] as number) * 0.6
    x.p += v
    x.sum += v * at
    x.squares += v * (at * at + sd * sd)
    total += v
  }
  const items: (Item & { metres: number })[] = []
  for (const x of left.values()) {
    if (x.p < 1e-4 * total) continue
    const mean = x.sum / x.p
    const metres = x.load ? 0 : 3.92 * Math.sqrt(Math.max(x.squares / x.p - mean * mean, 0))
    items.push({ p: x.p / total, cost: COST.goAndLook + COST.metre * metres, metres })
  }
  const cost = searchCost(items, vain)
  return { cost, best: Math.max(...items.map(x => x.p), 0), metres: items.reduce((sum, x) => sum + x.metres, 0) }
}

/** One or two readings that follow each other. */
interface Look {
  readonly rows: readonly Row[]
}

const covariance = (c: Chain, a: Row, b: Row, j: number, lineA: Float64Array, lineB: Float64Array): number => {
  let sum = shared(a, b, j, c.dims, c.spread, c.atSd[j] as number, c.ohmSd[j] as number)
  for (let i = 0; i < c.rows.length; i++) sum -= (lineA[i] as number) * (lineB[i] as number)
  return sum
}

/** What looking would cost after the readings, for each place that may be the true one, and the metres to look at on average. */
const afterReadings = (t: Thinned, { rows }: Look, truths: readonly number[], vain: number): { costs: Float64Array; metres: number } => {
  const n = t.which.length,
    m = t.chain.rows.length
  const first = rows[0] as Row,
    second = rows[1]
  const m1 = new Float64Array(n),
    v1 = new Float64Array(n),
    m2 = new Float64Array(n),
    v2 = new Float64Array(n),
    k = new Float64Array(n)
  const lineA = new Float64Array(m),
    lineB = new Float64Array(m)
  for (let j = 0; j < n; j++) {
    const a: Next = foresee(t.chain, first, j, lineA)
    m1[j] = a.mean
    v1[j] = a.variance
    if (second === undefined) continue
    const b = foresee(t.chain, second, j, lineB)
    const c = covariance(t.chain, second, first, j, lineB, lineA)
    m2[j] = b.mean
    k[j] = c / a.variance
    v2[j] = Math.max(b.variance - (c * c) / a.variance, (second.fresh[j] as number) * 0.5, 1e-14)
  }
  const w = new Float64Array(n)
  const left = new Map<number, Left>()
  const costs = new Float64Array(truths.length)
  let metres = 0,
    total = 0
  for (const [i, truth] of truths.entries()) {
    for (let j = 0; j < n; j++) {
      const off = (m1[truth] as number) - (m1[j] as number)
      let e = (off * off) / (v1[j] as number)
      let scale = Math.sqrt(v1[j] as number)
      if (second !== undefined) {
        const off2 = (m2[truth] as number) - (m2[j] as number) - (k[j] as number) * off
        e += (off2 * off2) / (v2[j] as number)
        scale *= Math.sqrt(v2[j] as number)
      }
      w[j] = e > 60 ? 0 : ((t.w[j] as number) * Math.exp(-0.5 * e)) / scale
    }
    const o = outlook(t, w, left, vain)
    const weight = t.w[truth] as number
    costs[i] = o.cost
    metres += weight * o.metres
    total += weight
  }
  return { costs, metres: metres / total }
}

/** A plan under consideration: its own seconds, those to come back from it, and what looking costs then, by which place is true. */
interface Draft {
  readonly steps: readonly Step[]
  readonly own: number
  readonly back: number
  readonly costs: Float64Array
  readonly why: Plan['why']
}

/**
 * Seconds to the place by each plan. After its readings the better of two is done: going to look, or what another plan adds to
 * it. So a cheap reading is worth having even where one in two of its answers leaves everything open. What the other plan leaves
 * is reckoned without the readings of the first: a bound from above.
 */
const withAnotherAfter = (drafts: readonly Draft[], weight: readonly number[], seconds: (step: Step) => number): Plan[] => {
  const total = weight.reduce((sum, w) => sum + w, 0)
  const mean = (costs: ArrayLike<number>, most: number): number =>
    weight.reduce((sum, w, i) => sum + w * Math.min(costs[i] as number, most), 0) / total
  const alone = drafts.map(d => mean(d.costs, Infinity))
  const keys = drafts.map(d => d.steps.map(keyOf))
  return drafts.map((d, a) => {
    const done = new Set(keys[a])
    let most = Infinity
    drafts.forEach((then, b) => {
      if (a === b) return
      const more = then.steps.reduce((sum, step, i) => sum + (done.has((keys[b] as string[])[i] as string) ? 0 : seconds(step)), 0)
      most = Math.min(most, more + Math.max(0, then.back - d.back) + (alone[b] as number))
    })
    return { steps: d.steps, expected: d.own + d.back + mean(d.costs, most), why: d.why }
  })
}

const volt = (red: string, black: string): Read => ({ kind: 'read', meter: 'volt', red, black })
const ohm = (place: string): Read => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })

/** Plans that narrow the place within a branch whose wiring is known, best first; and what going to look now would cost. */
export const pinpointing = (belief: Belief, b: PlantBranch, s: Situation): { plans: Plan[]; now: number; best: number; metres: number } => {
  const { plant, kit } = belief
  const own = belief.branches[b.index] as OfBranch
  const t = thin(own, weights(belief, b.index))
  const vain = kit.injector === undefined ? VAIN.meterAlone : VAIN.injector
  const now = outlook(t, t.w, new Map(), vain)
  const step = Math.max(1, t.which.length / TRUTHS)
  const truths: number[] = []
  for (let i = 0; i < t.which.length; i += step) truths.push(Math.floor(i))
  const drafts: Draft[] = []
  // What the best plan of either sort would leave, for whoever asks why this one: by ohms, or by a current and volts.
  const leaves: { ohm?: number; fed?: number } = {}
  const before = Math.round(now.metres)

  // Many plans share a state of the machine, and a reading in it: both are reckoned once.
  const stands = new Map<Positions, { stand: Stand; rows: Map<string, Row> }>()
  const rowOf = (read: Read, positions: Positions, zeroed: boolean): Row => {
    const known = stands.get(positions) ?? { stand: standOf(plant, b, positions, kit), rows: new Map<string, Row>() }
    stands.set(positions, known)
    const key = `${keyOf(read)} ${zeroed}`
    const row = known.rows.get(key) ?? predictedFor(known.stand, own.places, { read, positions, zeroed }, t.which, 0)
    known.rows.set(key, row)
    return row
  }

  const consider = (
    way: readonly Step[],
    reads: readonly Read[],
    at: Positions,
    back: number,
    key: string,
    facts: Record<string, string | number> = {},
    zeroed = s.zeroed,
  ): void => {
    const steps: Step[] = [...way, ...reads]
    if (!possible(s, steps) || reads.every(r => s.taken.has(keyOf(r)) && way.length === 0)) return
    const rows = reads.map(read => rowOf(read, at, zeroed))
    const then = afterReadings(t, { rows }, truths, vain)
    const own = steps.reduce((sum, x) => sum + costOf(plant, x), 0)
    const sort = at.injector === undefined ? 'ohm' : 'fed'
    leaves[sort] = Math.min(leaves[sort] ?? Infinity, Math.round(then.metres))
    drafts.push({
      steps,
      own,
      back,
      costs: then.costs,
      why: { key, facts: { branch: b.id, before, after: Math.round(then.metres), ...facts } },
    })
  }

  const junctions = b.wiring.runs.map(r => r.far)
  const amp: Read = { kind: 'read', meter: 'amp', branch: b.id }
  if (kit.injector !== undefined) {
    const on = s.positions.injector?.branch === b.id
    const into = s.positions.injector?.into ?? 'zero'
    const way = toInjected(s, b.id, into)
    const at = positionsAfter(s.positions, way)
    // The source goes off before anybody goes to look. Proving dead again comes after the place is found: half of it counts, as
    // the choice is for time to the place first and for the machine running again second.
    const back = on ? 0 : COST.inject + COST.proveDead / 2
    const key = on ? 'narrow' : 'inject'
    const near = volt(`${b.id}.plus`, `${b.id}.zero`)
    if (!on) {
      consider(way, [near, amp], at, back, key)
      for (const j of junctions) consider(way, [near, volt(`${b.id}/${j}.plus`, `${b.id}/${j}.zero`)], at, back, key)
    } else {
      const untaken = [
        near,
        amp,
        volt('earth', `${b.id}.zero`),
        ...junctions.map(j => volt(`${b.id}/${j}.plus`, `${b.id}/${j}.zero`)),
      ].filter(r => !s.taken.has(keyOf(r)))
      for (const r of untaken)
        consider(way, [r], at, back, r.meter === 'amp' ? 'current' : r.black === `${b.id}.zero` && r.red === 'earth' ? 'kind' : key)
      if (untaken.includes(amp)) for (const r of untaken) if (r !== amp) consider(way, [amp, r], at, back, 'current')
    }
  }
  const way = toCutOff(s, [b.id])
  const at = positionsAfter(s.positions, way)
  if (!s.taken.has(keyOf(ohm(b.id)))) consider(way, [ohm(b.id)], at, 0, 'narrow')
  for (const j of junctions) if (!s.taken.has(keyOf(ohm(`${b.id}/${j}`)))) consider(way, [ohm(`${b.id}/${j}`)], at, 0, 'narrow')
  for (const { run } of b.wiring.runs) {
    if (s.positions.openedRuns.includes(`${b.id}/${run.id}`)) continue
    const steps: Step[] = [...way, { kind: 'act', act: { act: 'run', branch: b.id, run: run.id, to: 'opened' } }]
    consider(steps, [ohm(b.id)], positionsAfter(s.positions, steps), COST.run, 'narrow')
  }
  for (const { load } of b.loads) {
    if (load.pluggable === false || s.positions.unplugged.includes(`${b.id}/${load.id}`)) continue
    const steps: Step[] = [...way, { kind: 'act', act: { act: 'load', branch: b.id, load: load.id, to: 'unplugged' } }]
    consider(steps, [ohm(b.id)], positionsAfter(s.positions, steps), COST.load, 'load-aside', { load: load.id })
  }
  if (!s.zeroed) consider([...way, { kind: 'act', act: { act: 'zero-leads' } }], [ohm(b.id)], at, 0, 'zero-leads', {}, true)
  const plans = withAnotherAfter(
    drafts,
    truths.map(j => t.w[j] as number),
    step => costOf(plant, step),
  )
  const withBoth = plans.map(plan => ({ ...plan, why: { ...plan.why, facts: { ...plan.why.facts, ...leaves } } }))
  return { plans: withBoth.sort(byExpected), now: now.cost, best: now.best, metres: now.metres }
}
