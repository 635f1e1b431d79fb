// What shows under voltage only: a load that draws too much, a diode that conducts, too much all together or at once. Ohms are
// right there, so what is left is to go and look at the likeliest load, or first to switch on with some devices open and see
// whether the supply stays up, whichever is expected to cost less.
import type { Belief, Shared } from './belief.ts'
import { COST, costOf } from './cost.ts'
import { positionsAfter } from './narrow.ts'
import { byExpected, type Item, type Plan, possible, type Situation, searchCost } from './plan.ts'
import type { Plant } from './plant.ts'
import type { Positions } from './positions.ts'
import type { Finding, Interval, Look, Read, Step } from './step.ts'
import { holdsDown, isTraced, type Suspicion } from './suspicion.ts'
import { liveKeyOf, toRestored } from './way.ts'

/** Seconds that a vain look counts for beyond its steps (common practice, no source). */
const VAIN = 60
/** Chance that a lamp or a voltage after switching on says the opposite (common practice, no source). */
const ASTRAY = 0.03
/** Largest group of devices that is left open in one trial. */
const LARGEST = 12
/** Loads that hold less than this are left for later. */
const LEAST = 0.003

interface Held {
  readonly x: Suspicion
  readonly w: number
}

/** What shows under voltage only, with its weight; another supply that feeds a branch is no part of it. */
export const shownLive = (belief: Belief, shared: Shared): Held[] =>
  belief.suspicions
    .map((x, i): Held => ({ x, w: shared.suspected[i] as number }))
    .filter(({ x, w }) => !isTraced(x) && x.fault !== 'backfeed' && w > 1e-5)

const pointAt = (metres: number): Interval => ({ best: metres, low: metres, high: metres })

/** One finding for each load and one for what lies at the supply, likeliest first: who looks for one fault there sees the others. */
export const liveFindings = (belief: Belief, held: readonly Held[]): Finding[] => {
  const groups = new Map<string, { faults: Map<Suspicion['fault'], number>; x: Suspicion; p: number }>()
  for (const { x, w } of held) {
    const key = `${x.branch} ${x.load}`
    const group = groups.get(key) ?? { faults: new Map(), x, p: 0 }
    group.faults.set(x.fault, (group.faults.get(x.fault) ?? 0) + w)
    groups.set(key, { ...group, p: group.p + w })
  }
  return [...groups.values()]
    .map(({ faults, x, p }): Finding => {
      const fault = [...faults].reduce((a, b) => (b[1] > a[1] ? b : a))[0]
      const b = belief.plant.branches[x.branch ?? -1]
      const load = b?.loads[x.load ?? -1]
      if (b === undefined || load === undefined) return { fault, probability: p }
      if (b.wiring.unknown) return { fault, branch: b.id, probability: p }
      return {
        fault,
        branch: b.id,
        load: load.load.id,
        fromTerminals: pointAt(b.wiring.runs[load.run]?.endsAt ?? 0),
        probability: p,
      }
    })
    .sort((a, b) => b.probability - a.probability)
}

const lookingCost = (held: readonly Held[], w: readonly number[]): number => {
  const items = new Map<string, Item & { p: number }>()
  held.forEach(({ x }, i) => {
    const key = `${x.branch} ${x.load}`
    const item = items.get(key) ?? { p: 0, cost: COST.goAndLook }
    items.set(key, { ...item, p: item.p + (w[i] as number) })
  })
  return searchCost([...items.values()], VAIN)
}

/** Does the lamp alone tell a supply at its limit from one that holds? Where a constant current is limited, a voltage must. */
const tellsByLamp = (plant: Plant): boolean => ['hiccup', 'latch-off'].includes(plant.machine.supply.limit?.mode ?? '')
const LAMP: Look = { kind: 'look', look: 'supply-lamp' }
const BUS: Read = { kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus.zero' }

/** Supply off, these devices open and all others as found, supply on, seen or read, and off again. */
const trial = (s: Situation, found: Positions, open: ReadonlySet<string>, seen: Step): Step[] => {
  const p = s.positions
  const touched = p.openedRuns.length > 0 || p.unplugged.length > 0 || p.injector !== undefined || p.bus === 'opened' || p.bond === 'opened'
  const off: Step[] = p.supply === 'on' ? [{ kind: 'act', act: { act: 'supply', to: 'off' } }] : []
  // Runs and plugs first, in a dead circuit; of the devices only those change that differ.
  const before = touched ? toRestored(s, p) : off
  const switched = Object.keys(p.devices).flatMap((branch): Step[] => {
    const to = open.has(branch) ? 'open' : 'closed'
    if (p.devices[branch] === to || p.devices[branch] === 'tripped' || (to === 'closed' && found.devices[branch] !== 'closed')) return []
    return [{ kind: 'act', act: { act: 'device', branch, to } }]
  })
  return [...before, ...switched, { kind: 'act', act: { act: 'supply', to: 'on' } }, seen]
}

/** The best trial with some devices open, if one is worth more than it costs; and what going to look now would cost. */
const liveTrial = (belief: Belief, held: readonly Held[], s: Situation): { plan: Plan | undefined; now: number } => {
  const total = held.reduce((sum, x) => sum + x.w, 0)
  const w = held.map(x => x.w / total)
  const now = lookingCost(held, w)
  const { found } = s
  if (found === undefined) return { plan: undefined, now }
  const { plant } = belief
  const byBranch = plant.branches
    .map(({ id, index }) => ({ id, p: held.reduce((sum, { x }, i) => sum + (x.branch === index ? (w[i] as number) : 0), 0) }))
    .filter(({ id }) => s.positions.devices[id] !== 'tripped' && found.devices[id] === 'closed')
    .sort((a, b) => b.p - a.p)
  const seen = tellsByLamp(plant) ? LAMP : BUS
  const plans: Plan[] = []
  for (let k = 0; k <= Math.min(byBranch.length - 1, LARGEST); k++) {
    const steps = trial(s, found, new Set(byBranch.slice(0, k).map(x => x.id)), seen)
    const at = positionsAfter(s.positions, steps)
    // Switched on once more with the same devices closed, it would tell the same.
    if (!possible(s, steps) || s.taken.has(liveKeyOf(seen, at))) continue
    const down = held.map(({ x }) => holdsDown(plant, at, x) * (1 - 2 * ASTRAY) + ASTRAY)
    const isDown = w.map((v, i) => v * (down[i] as number))
    const isUp = w.map((v, i) => v * (1 - (down[i] as number)))
    const cost = steps.reduce((sum, x) => sum + costOf(plant, x), 0) + COST.supply
    const expected = cost + lookingCost(held, isDown) + lookingCost(held, isUp)
    const count = byBranch.length - k
    plans.push({
      steps: [...steps, { kind: 'act', act: { act: 'supply', to: 'off' } }],
      expected,
      why: { key: 'live-trial', facts: { count, before: Math.round(now), after: Math.round(expected - cost) } },
    })
  }
  return { plan: plans.sort(byExpected)[0], now }
}

/** Going to look at the likeliest load, or a trial first. */
export const underVoltage = (belief: Belief, shared: Shared, s: Situation): Plan | Finding | undefined => {
  const held = shownLive(belief, shared)
  if (held.length === 0) return undefined
  const { plan, now } = liveTrial(belief, held, s)
  const best = liveFindings(belief, held).find(f => f.probability > LEAST && possible(s, [{ kind: 'finding', finding: f }]))
  return plan !== undefined && (plan.expected < now || best === undefined) ? plan : best
}
