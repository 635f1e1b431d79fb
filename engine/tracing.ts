// Where a conductor is open or badly joined: of the voltages and ohms along a branch, the one after which looking costs least.
import { type Belief, type Shared, shortSuspected } from './belief.ts'
import { COST, costOf, outside } from './cost.ts'
import { positionsAfter } from './narrow.ts'
import { byExpected, type Item, type Plan, possible, type Situation, searchCost } from './plan.ts'
import type { PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import { OHM_SPREAD } from './sound.ts'
import type { Finding, Interval, ProbeRead, Step } from './step.ts'
import { isTraced, LIVE_SPREAD, liveVolts, runId, type Suspicion, seenLoads } from './suspicion.ts'
import { keyOf, toCutOff, toLive } from './way.ts'

/** Branches looked into, and suspicions kept as possible truths. */
const BRANCHES = 3
const KEPT = 60
/** Seconds that a vain walk counts for beyond its steps (common practice, no source). */
const VAIN = 120

interface Held {
  readonly s: Suspicion
  readonly w: number
}

/** Suspicions, and devices open unseen, with their weights. */
const held = (belief: Belief, shared: Shared): Held[] => {
  const devices = belief.branches.map(
    (_, b): Held => ({ s: { fault: 'device-open', branch: b, prior: 0 }, w: shared.deviceOpen[b] as number }),
  )
  return [...belief.suspicions.map((s, i): Held => ({ s, w: shared.suspected[i] as number })), ...devices]
    .filter(x => x.w > 1e-5 && isTraced(x.s))
    .sort((a, b) => b.w - a.w)
}

const nameOf = (belief: Belief, { s }: Held): string =>
  `${s.fault === 'device-open' ? 'device' : ''} ${s.branch ?? 'supply'} ${runId(belief.plant, s) ?? ''}`

const lengthOf = (belief: Belief, { s }: Held): number =>
  s.branch === undefined || s.run === undefined ? 0 : (belief.plant.branches[s.branch]?.wiring.runs[s.run]?.run.length ?? 0)

/** What going to look costs with these weights: run by run, likeliest for its length first. */
const lookingCost = (belief: Belief, list: readonly Held[], w: readonly number[]): number => {
  const items = new Map<string, Item & { p: number }>()
  list.forEach((x, i) => {
    const name = nameOf(belief, x)
    const item = items.get(name) ?? { p: 0, cost: COST.goAndLook + COST.metre * lengthOf(belief, x) }
    items.set(name, { ...item, p: item.p + (w[i] as number) })
  })
  return searchCost([...items.values()], VAIN)
}

/** Mean and spread of what a reading is expected to be; ohms as conductance, in which loads add. */
interface Expected {
  readonly mean: number
  readonly sd: number
}
const expectedOf = (belief: Belief, at: Positions, read: ProbeRead, s: Suspicion | undefined): Expected => {
  if (read.meter === 'volt') {
    const volts = liveVolts(belief.plant, at, read, s)
    return { mean: volts, sd: Math.hypot(LIVE_SPREAD, 0.02 * volts) }
  }
  const loads = seenLoads(belief.plant, at, read, s?.fault === 'device-open' ? undefined : s)
  return { mean: loads.siemens, sd: Math.hypot(loads.sd, 0.02 * loads.siemens, loads.siemens ** 2 * OHM_SPREAD, 1e-6) }
}

const outsideOf = (steps: readonly Step[]): boolean => steps.some(x => x.kind === 'read' && x.meter !== 'amp' && outside(x.red))

/** Plans that trace an open conductor, best first, and what going to look now would cost. */
export const tracing = (belief: Belief, shared: Shared, s: Situation): { plans: Plan[]; now: number } => {
  const { plant } = belief
  const list = held(belief, shared).slice(0, KEPT)
  const total = list.reduce((sum, x) => sum + x.w, 0)
  const weights = list.map(x => x.w / total)
  const now = lookingCost(belief, list, weights)
  const byBranch = plant.branches.map(b => ({ b, p: list.reduce((sum, x) => sum + (x.s.branch === b.index ? x.w : 0), 0) }))
  const plans: Plan[] = []
  const consider = (b: PlantBranch, way: readonly Step[], read: ProbeRead, key: string): void => {
    const steps: Step[] = [...way, read]
    if (!possible(s, steps) || (way.length === 0 && s.taken.has(keyOf(read)))) return
    const at = positionsAfter(s.positions, way)
    const sound = expectedOf(belief, at, read, undefined)
    const what = list.map(({ s: x }) => (x.branch === b.index || x.branch === undefined ? expectedOf(belief, at, read, x) : sound))
    // A reading that is wrong may show anything: as much for every hypothesis, however sure it is of what it shows.
    const anything = 1e-3 / Math.max(...what.map(({ sd }) => sd))
    let then = 0
    list.forEach((_, truth) => {
      const shown = (what[truth] as Expected).mean
      const joint = weights.map((w, i) => {
        const { mean, sd } = what[i] as Expected
        const z = (shown - mean) / sd
        return w * ((0.98 * Math.exp(-0.5 * z * z)) / sd + anything)
      })
      const sum = joint.reduce((a, x) => a + x, 0)
      then +=
        (weights[truth] as number) *
        lookingCost(
          belief,
          list,
          joint.map(x => x / sum),
        )
    })
    const cost = steps.reduce((sum, x) => sum + costOf(plant, x), 0)
    const p = Math.round((100 * (byBranch[b.index]?.p ?? 0)) / total)
    plans.push({ steps, expected: cost + then, why: { key, facts: { branch: b.id, p, before: Math.round(now), after: Math.round(then) } } })
  }
  // Where a short circuit may well be there too, nobody walks out on the machine while it is fed.
  const risky = shortSuspected(belief, plant.branches, shared)
  const live = s.found !== undefined ? toLive(s, s.found) : s.positions.supply === 'on' ? [] : undefined
  for (const { b } of byBranch.sort((x, y) => y.p - x.p).slice(0, BRANCHES)) {
    const places = b.wiring.unknown ? [b.id] : [b.id, ...b.wiring.runs.map(({ far }) => `${b.id}/${far}`)]
    for (const place of places) {
      const read = (meter: 'volt' | 'ohm'): ProbeRead => ({ kind: 'read', meter, red: `${place}.plus`, black: `${place}.zero` })
      if (live !== undefined && (!risky || !outside(read('volt').red))) consider(b, live, read('volt'), 'trace-volts')
      consider(b, toCutOff(s, [b.id]), read('ohm'), 'trace-ohms')
    }
  }
  plans.sort(byExpected)
  // While no branch stands out, loads are counted by ohms from the cabinet, branch after branch: voltages out on the machine
  // cost a walk each, and to and fro between live and dead costs more than either.
  const clear = byBranch.some(({ p }) => p > 0.5 * total)
  const inCabinet = plans.filter(({ why, steps, expected }) => why.key === 'trace-ohms' && !outsideOf(steps) && expected < now)
  return { plans: clear || inCabinet.length === 0 ? plans : inCabinet, now }
}

const whole = (length: number, from: number): Interval => ({ best: from + length / 2, low: from, high: from + length })

/** What is likeliest, as a finding: the run where a conductor is open, with its whole length. */
export const traced = (belief: Belief, shared: Shared): Finding[] => {
  const groups = new Map<string, { first: Held; w: number; faults: Map<string, number> }>()
  for (const x of held(belief, shared)) {
    if (x.s.fault === 'device-open') continue
    const name = nameOf(belief, x)
    const group = groups.get(name) ?? { first: x, w: 0, faults: new Map() }
    group.faults.set(x.s.fault, (group.faults.get(x.s.fault) ?? 0) + x.w)
    groups.set(name, { ...group, w: group.w + x.w })
  }
  return [...groups.values()].map(({ first: { s }, w, faults }): Finding => {
    const fault = [...faults].reduce((a, b) => (b[1] > a[1] ? b : a))[0] as Suspicion['fault']
    const b = s.branch === undefined ? undefined : plantBranch(belief, s.branch)
    if (b === undefined) return { fault, probability: w }
    const placed = s.run === undefined || b.wiring.unknown ? undefined : b.wiring.runs[s.run]
    if (placed === undefined) return { fault, branch: b.id, probability: w }
    const { length } = placed.run
    return {
      fault,
      branch: b.id,
      run: placed.run.id,
      alongRun: whole(length, 0),
      fromTerminals: whole(length, placed.startsAt),
      probability: w,
    }
  })
}
const plantBranch = (belief: Belief, index: number): PlantBranch | undefined => belief.plant.branches[index]
