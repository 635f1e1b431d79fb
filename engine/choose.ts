// The next step: what narrows the fault down most for the least expected time to the place.
import { type Belief, type Shared, shares } from './belief.ts'
import { comesAndGoes } from './comesAndGoes.ts'
import { COST, costOf } from './cost.ts'
import { doubtedDevice } from './doubt.ts'
import { findingOf, spots } from './locate.ts'
import { narrowing } from './narrow.ts'
import { otherSupply } from './otherSupply.ts'
import { pinpointing } from './pinpoint.ts'
import { byExpected, type Plan, possible, type Situation } from './plan.ts'
import type { PlantBranch } from './plant.ts'
import type { Finding, Interval, Look, Step } from './step.ts'
import { isTraced } from './suspicion.ts'
import { traced, tracing } from './tracing.ts'
import { liveFindings, shownLive, underVoltage } from './underVoltage.ts'
import { keyOf } from './way.ts'

/** A branch this likely is measured for the place; below it the search for the branch goes on. */
const CLEAR = 0.85
/** With one device seen tripped: share of all short circuits of the other branches below which none is worth a reading (a bar of the project's own). */
const NOTHING_LEFT = 0.06
/** Share that short circuits hold in all, below which ohms are read only once nothing is left to look at (a bar of the project's own). */
const READABLE = 0.01
/** Going to look is offered at this chance of being right, or where no reading would help (a bar of the project's own). */
const SURE = 0.9
const NEARBY = 0.75

/** Nobody knows a chance finer than one in ten thousand. */
const finding = (f: Finding): Step => ({ kind: 'finding', finding: { ...f, probability: Math.round(1e4 * f.probability) / 1e4 } })
const lookAt = (belief: Belief, f: Finding): Plan => ({
  steps: [finding(f)],
  expected: costOf(belief.plant, finding(f)),
  why: { key: 'go-look', facts: { p: Math.round(100 * f.probability), seconds: Math.round(costOf(belief.plant, finding(f))) } },
})

/** Seconds of search that a look at the right place saves (common practice, no source). */
const SEARCH = 120

/** A supply of constant current holds the short circuit at a known current: volts at the bus tell its ohms, before it is switched off. */
const heldVolts = (belief: Belief, shared: Shared, s: Situation): Plan | undefined => {
  const { limit } = belief.plant.machine.supply
  const step: Step = { kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus.zero' }
  const short = shared.short.reduce((sum, x) => sum + x, 0)
  if (limit?.mode !== 'constant-current' || limit.current === undefined || short < HELD || s.taken.has(keyOf(step))) return undefined
  if (!possible(s, [step])) return undefined
  return { steps: [step], expected: COST.readInCabinet, why: { key: 'held-volts', facts: { ampere: limit.current } } }
}
/** How likely a short circuit must be for its volts to be worth their seconds (common practice, no source). */
const HELD = 0.5

/** Some device is open by itself, though none stands out: then they are looked at in turn, as no ohms past a closed one would tell. */
const PROBABLY = 0.4

/** Devices that count as closed and were not looked at since, likeliest to be open first. */
const unlooked = (belief: Belief, shared: Shared, s: Situation): { p: number; plan: Plan }[] =>
  belief.plant.branches
    .map(({ id, index }) => {
      const step: Look = { kind: 'look', look: 'device', branch: id }
      const p = (shared.tripped[index] as number) + (shared.deviceOpen[index] as number)
      return { p, id, step, plan: { steps: [step], expected: COST.look, why: { key: 'device-look', facts: { branch: id } } } }
    })
    .filter(x => s.positions.devices[x.id] === 'closed' && !s.taken.has(keyOf(x.step)) && possible(s, [x.step]))
    .sort((x, y) => y.p - x.p)

/** A device is worth its five seconds before minutes of trials from this chance of being open on (common practice, no source). */
const WORTH_A_GLANCE = 0.002

/** Looks cost seconds and need no act: worth it while what they tell apart is still open. */
const looks = (belief: Belief, shared: Shared, s: Situation): Plan | undefined => {
  const fresh = (step: Look): boolean => !s.taken.has(keyOf(step)) && possible(s, [step])
  const plan = (step: Look, key: string, facts: Record<string, string> = {}): Plan => ({
    steps: [step],
    expected: COST.look,
    why: { key, facts },
  })
  // Worth their seconds against the way to a dead circuit, which they may save. A lit supply lamp answers for the mains too.
  const lamp: Look = { kind: 'look', look: 'supply-lamp' }
  const mains: Look = { kind: 'look', look: 'mains-lamp' }
  if (s.positions.supply === 'on' && s.power === 'live') {
    const held = heldVolts(belief, shared, s)
    if (held !== undefined) return held
    if ((shared.supplyDead + shared.noMains) * SEARCH > COST.look && fresh(lamp)) return plan(lamp, 'lamp-tells')
    if (shared.noMains * SEARCH > COST.look && fresh(mains)) return plan(mains, 'mains-first')
  }
  // A device that may have opened by itself, or was never closed: a glance against a search that may go without it.
  const open = unlooked(belief, shared, s)
  const first = open[0]
  const inAll = open.reduce((sum, x) => sum + x.p, 0)
  if (first !== undefined && (first.p * SEARCH > COST.look || inAll > PROBABLY)) return first.plan
  return undefined
}

/** A device sits where the wiring starts. */
const AT_THE_CABINET: Interval = { best: 0, low: 0, high: 0 }

/** What lies on the supply's side or at a device, where a look settles it. */
const elsewhere = (belief: Belief, shared: Shared): Finding[] => [
  { fault: 'supply-dead' as const, probability: shared.supplyDead },
  { fault: 'no-mains' as const, probability: shared.noMains },
  ...belief.plant.branches.map((b, i) => ({
    fault: 'device-open' as const,
    branch: b.id,
    fromTerminals: AT_THE_CABINET,
    probability: shared.deviceOpen[i] as number,
  })),
]

/** Findings that are still worth a walk, best for their cost first. */
const candidates = (belief: Belief, shared: Shared, s: Situation): Finding[] => {
  const named = belief.plant.branches.filter(b => (shared.short[b.index] as number) > 0.005)
  const inBranches = named.flatMap(b => {
    if (b.wiring.unknown) return [{ fault: 'short' as const, branch: b.id, probability: shared.short[b.index] as number }]
    return spots(belief, b.id)
      .slice(0, 4)
      .map(x => findingOf(x, true))
  })
  const value = (f: Finding) => f.probability / costOf(belief.plant, finding(f))
  return [
    ...inBranches,
    ...traced(belief, shared).filter(f => f.run !== undefined || f.probability > 0.1),
    ...liveFindings(belief, shownLive(belief, shared)),
    ...elsewhere(belief, shared),
  ]
    .filter(f => f.probability > 0.002 && possible(s, [finding(f)]))
    .sort((x, y) => value(y) - value(x))
}

/** Along wiring that nobody has told, these can only be walked for. */
const OPEN: readonly string[] = ['open-plus', 'open-zero', 'poor-joint']

const tracedShare = (belief: Belief, shared: Shared): number =>
  belief.suspicions.reduce((sum, x, i) => sum + (isTraced(x) ? (shared.suspected[i] as number) : 0), 0)

/** That a device is open is no question any more once it was seen tripped: why it opened is. */
const unseenOpen = (belief: Belief, shared: Shared, s: Situation): number =>
  shared.deviceOpen.reduce((sum, p, b) => sum + (s.positions.devices[belief.plant.branches[b]?.id ?? ''] === 'tripped' ? 0 : p), 0)

/** So many times likelier than all that ohms and looks can show must it be: those are quick, and bring no voltage back (a bar of the project's own). */
const CLEARLY = 2
/** What no resting ohms can show: asked for once it holds clearly more than anything else does. */
const hidden = (belief: Belief, shared: Shared, s: Situation): Plan | undefined => {
  const add = (of: Float64Array): number => of.reduce((sum, x) => sum + x, 0)
  const live = shownLive(belief, shared).reduce((sum, x) => sum + x.w, 0)
  const flicker = add(shared.flicker)
  const rest = Math.max(add(shared.short) - flicker, tracedShare(belief, shared) + unseenOpen(belief, shared, s))
  if (Math.max(live, flicker) < Math.max(0.05, CLEARLY * rest)) return undefined
  const ways = [underVoltage, comesAndGoes]
  for (const way of live > flicker ? ways : ways.reverse()) {
    const next = way(belief, shared, s)
    if (next !== undefined) return 'steps' in next ? next : lookAt(belief, next)
  }
  return undefined
}

/** One load, or the sum of all, that holds more than all other loads, and than all else that has a name: looked at first. */
const oneLoad = (belief: Belief, shared: Shared, s: Situation): Plan | undefined => {
  const held = shownLive(belief, shared)
  const f = liveFindings(belief, held)[0]
  if (f === undefined || f.probability < LEAST_LOOK || !possible(s, [finding(f)])) return undefined
  const loads = held.reduce((sum, x) => sum + x.w, 0) - f.probability
  const shorts = shared.short.reduce((sum, x) => sum + x, 0)
  const atSupply = shared.supplyDead + shared.noMains
  const most = Math.max(loads, shorts, tracedShare(belief, shared), unseenOpen(belief, shared, s), atSupply)
  return f.probability > most ? lookAt(belief, f) : undefined
}
/** Less likely than this, nothing is walked to before anything is read (a bar of the project's own). */
const LEAST_LOOK = 0.05

/** The search for an open conductor: while it holds more than the short circuits do. */
const traceOrLook = (belief: Belief, shared: Shared, s: Situation): Plan | undefined => {
  const open = tracedShare(belief, shared)
  const unseen = shared.deviceOpen.reduce((sum, x) => sum + x, 0)
  const short = shared.short.reduce((sum, x) => sum + x, 0)
  if (open < 0.05 || open + unseen < short) return undefined
  const { plans, now } = tracing(belief, shared, s)
  const best = [...traced(belief, shared), ...elsewhere(belief, shared)]
    .filter(f => f.probability > (f.run === undefined && OPEN.includes(f.fault) ? 0.3 : 0.01) && possible(s, [finding(f)]))
    .sort((a, b) => b.probability - a.probability)[0]
  const plan = plans[0]
  const mass = open + unseen
  if (best !== undefined && (plan === undefined || plan.expected > now || best.probability > SURE * mass)) return lookAt(belief, best)
  return plan !== undefined && plan.expected < now ? plan : undefined
}

/** The branch that holds most of all short circuits, run by run along its whole length: what is left to look at once every likely place was looked at in vain. */
const alongBranch = (belief: Belief, shared: Shared, s: Situation, b: PlantBranch): Plan | undefined => {
  const p = shared.short[b.index] as number
  if (b.wiring.unknown || p < LEAST_LOOK || p <= 0.5 * shared.short.reduce((sum, x) => sum + x, 0)) return undefined
  const whole = (low: number, high: number): Interval => ({ best: (low + high) / 2, low, high })
  const walks = b.wiring.runs.map(({ run, startsAt, endsAt }): Plan => {
    const alongRun = whole(0, run.length)
    const probability = (p * run.length) / b.wiring.length
    const f: Finding = { fault: 'short', branch: b.id, run: run.id, alongRun, fromTerminals: whole(startsAt, endsAt), probability }
    return { ...lookAt(belief, f), why: { key: 'look-along', facts: { branch: b.id } } }
  })
  return walks.filter(({ steps }) => possible(s, steps)).sort(byExpected)[0]
}

/** The plan to follow now; undefined when nothing is left that this program could ask for. */
export const choose = (belief: Belief, s: Situation): Plan | undefined => {
  const shared = shares(belief)
  const other = otherSupply(belief, shared, s)
  if (other !== undefined) return 'steps' in other ? other : lookAt(belief, other)
  const look = doubtedDevice(belief, s) ?? looks(belief, shared, s)
  if (look !== undefined) return look
  const away = elsewhere(belief, shared).reduce((a, f) => (f.probability > a.probability ? f : a))
  // Supply, mains and devices are in the cabinet: a glance settles them sooner than more readings would.
  if (away.probability > NEARBY && possible(s, [finding(away)])) return lookAt(belief, away)
  const load = oneLoad(belief, shared, s)
  if (load !== undefined) return load
  const unseen = hidden(belief, shared, s)
  // A trial under voltage takes minutes: the devices are looked at first, all that may have opened by themselves.
  const closed = unseen === undefined ? undefined : unlooked(belief, shared, s)[0]
  if (closed !== undefined && closed.p > WORTH_A_GLANCE) return closed.plan
  if (unseen !== undefined) return unseen
  const trace = traceOrLook(belief, shared, s)
  if (trace !== undefined) return trace
  const likeliest = belief.plant.branches.reduce((a, b) => ((shared.short[b.index] as number) > (shared.short[a.index] as number) ? b : a))
  const p = shared.short[likeliest.index] as number
  const narrow = narrowing(belief, shared, s)
  // Where no other branch holds anything to speak of, reading them all would tell nothing.
  const all = shared.short.reduce((sum, x) => sum + x, 0)
  const alone = s.positions.devices[likeliest.id] === 'tripped' && all - p < NOTHING_LEFT * all
  if (all > READABLE && p < CLEAR && !alone && narrow[0] !== undefined) return narrow[0]
  if (likeliest.wiring.unknown) {
    const f: Finding = { fault: 'short', branch: likeliest.id, probability: p }
    if (p > 0.3 && possible(s, [finding(f)])) return lookAt(belief, f)
  } else if (p > 0.2) {
    const { plans, now, best } = pinpointing(belief, likeliest, s)
    const top = spots(belief, likeliest.id)
      .map(x => findingOf(x, true))
      .filter(f => possible(s, [finding(f)]))
    const first = top[0]
    const plan = plans[0]
    // Sure enough, or nothing to be had from reading on: go and look.
    if (first !== undefined && (plan === undefined || plan.expected > now || (best > SURE && plan.expected > now - COST.look)))
      return lookAt(belief, first)
    if (plan !== undefined) return plan
  }
  const left = candidates(belief, shared, s)[0]
  return left === undefined ? (narrow[0] ?? alongBranch(belief, shared, s, likeliest)) : lookAt(belief, left)
}
