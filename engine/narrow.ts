// Which branch: single readings past one device, or one reading at the bus with several devices open, whichever is
// expected to cost less until the branch is known. One step ahead, over what a plain search would cost from there.
import { aheadOf, atTerminals } from './atBus.ts'
import { type Belief, type OfBranch, placeLogs, type Shared } from './belief.ts'
import { COST, costOf } from './cost.ts'
import { tells } from './drop.ts'
import { byExpected, type Plan, possible, type Situation } from './plan.ts'
import type { PlantBranch } from './plant.ts'
import { after, type Positions } from './positions.ts'
import { below, OHM_SPREAD, type Sound, soundBelow, soundOf, together } from './sound.ts'
import type { Read, Step } from './step.ts'
import { keyOf, toCutOff, toDead } from './way.ts'

/** Ohm bins, evenly wide in the logarithm, and one for OL. */
const EDGES = Array.from({ length: 25 }, (_, i) => 0.1 * 10 ** (i / 6))
const BINS = EDGES.length + 2
/** Places that stand for a branch's short circuits when only its bulk matters. */
const SAMPLES = 8
/** Seconds that finding the place takes once the branch is known: the same for every branch, so it hardly matters. */
const TO_PLACE = 250

/** Chance of each bin for a reading that is normal about `ohm`. */
const normalBins = (ohm: number, sd: number, out: Float64Array, w: number): void => {
  let last = 0
  EDGES.forEach((edge, i) => {
    const upTo = below((edge - ohm) / sd)
    out[i] = (out[i] as number) + w * (upTo - last)
    last = upTo
  })
  out[BINS - 2] = (out[BINS - 2] as number) + w * (1 - last)
}

/** Chance of each bin for sound wiring: normal in conductance, or any size where the loads are not told. */
const soundBins = (s: Sound): Float64Array => {
  const out = new Float64Array(BINS)
  const shown = 1 - s.openChance
  let last = 0
  EDGES.forEach((edge, i) => {
    const upTo = Math.max(soundBelow(s, edge), last)
    out[i] = shown * (upTo - last)
    last = upTo
  })
  out[BINS - 2] = shown * (1 - last)
  out[BINS - 1] = s.openChance
  return out
}

/** Evenly spread places of a branch by weight, as the Ω that its terminals show. */
const samplesOf = (belief: Belief, b: PlantBranch, p: Positions): number[] => {
  const own = belief.branches[b.index] as OfBranch
  const ohms = atTerminals(belief.plant, b, own.places, p, belief.kit).mean
  const logs = placeLogs(belief, b.index)
  const top = logs.reduce((m, v) => Math.max(m, v), -Infinity)
  const w = logs.map(v => Math.exp(v - top))
  const total = w.reduce((sum, v) => sum + v, 0)
  const which: number[] = []
  let sum = 0
  for (let j = 0; j < w.length && which.length < SAMPLES; j++) {
    sum += w[j] as number
    while (which.length < SAMPLES && sum / total >= (which.length + 0.5) / SAMPLES) which.push(j)
  }
  return which.map(j => ohms[j] as number)
}

/** A branch as the search sees it. */
interface Candidate {
  readonly branch: PlantBranch
  readonly p: number
  readonly closed: boolean
  readonly measured: boolean
  readonly walk: number
}

/** Largest group that is opened at once in a plan or in the estimate of what is left. */
const LARGEST_GROUP = 12
/** Opening a device now, and closing it again in the end. */
const OPENED = COST.device

/**
 * Seconds until the branch is known by reading one after the other, likeliest for its cost first, and then to the place.
 * That is more than the plans below will need, which leans them towards tests that part the branches evenly. An estimate
 * by the best split into groups was tried on the bench: it put group readings off and cost 17 s a machine.
 */
const searchLeft = (p: readonly number[], cost: readonly number[], walk: readonly number[], rest: number): number => {
  const order = p.map((_, i) => i).sort((a, b) => (p[b] as number) / (cost[b] as number) - (p[a] as number) / (cost[a] as number))
  let left = rest + p.reduce((sum, x) => sum + x, 0)
  let total = rest * TO_PLACE
  for (const i of order) {
    total += left * (cost[i] as number) + (p[i] as number) * (walk[i] as number)
    left -= p[i] as number
  }
  return total
}

/** Expected search after a test that gives bin o with chance `given[h][o]`; the last row is for what lies in no branch. */
const afterTest = (
  p: readonly number[],
  rest: number,
  given: readonly Float64Array[],
  restGiven: Float64Array,
  cost: readonly number[],
  walk: readonly number[],
): number => {
  let sum = 0
  for (let o = 0; o < BINS; o++) {
    const joint = p.map((x, h) => x * (0.98 * ((given[h] as Float64Array)[o] as number) + 0.02 / BINS))
    const other = rest * (0.98 * (restGiven[o] as number) + 0.02 / BINS)
    sum += searchLeft(joint, cost, walk, other)
  }
  return sum
}

const ohmAt = (place: string): Read => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })

/** Plans that narrow down to the branch, best first. */
export const narrowing = (belief: Belief, shared: Shared, s: Situation): Plan[] => {
  const { plant } = belief
  const toDeadCost = toDead(s).reduce((sum, step) => sum + costOf(plant, step), 0)
  const all: Candidate[] = plant.branches.map(b => ({
    branch: b,
    p: (shared.short[b.index] as number) + (shared.deviceOpen[b.index] as number),
    closed: s.positions.devices[b.id] === 'closed',
    measured: s.taken.has(keyOf(ohmAt(b.id))),
    walk: b.wiring.unknown ? 260 : TO_PLACE,
  }))
  const rest = shared.supplyDead + shared.noMains + shared.other
  // An opened device is closed again in the end.
  const single = (c: Candidate, closed: boolean): number => (c.measured ? 1 : COST.readInCabinet + (closed ? OPENED : 0))
  const p = all.map(c => c.p),
    walk = all.map(c => c.walk)
  const costs = (opened: ReadonlySet<string>): number[] => all.map(c => single(c, c.closed && !opened.has(c.branch.id)))
  const sounds = all.map(c => soundOf(c.branch, s.positions))
  const samples = all.map(c => samplesOf(belief, c.branch, s.positions))
  const order = all.filter(c => !c.measured && c.p > 1e-6).sort((a, b) => b.p / single(b, b.closed) - a.p / single(a, a.closed))
  const plans: Plan[] = []

  /** Two of the likeliest at a time, by what drops across their devices: one bin each, and one for all others. */
  const drops = (): Plan[] => {
    const shut = order.filter(c => c.closed).slice(0, 6)
    const bin = (o: number): Float64Array => {
      const out = new Float64Array(BINS)
      out[o] = 1
      return out
    }
    const [red, black, others] = [bin(0), bin(1), bin(2)]
    return shut.flatMap((a, i) =>
      shut.slice(i + 1).flatMap((c): Plan[] => {
        const step: Read = { kind: 'read', meter: 'volt', red: `${a.branch.id}.plus`, black: `${c.branch.id}.plus` }
        if (s.taken.has(keyOf(step)) || !possible(s, [step]) || !tells(plant, { red: a.branch, black: c.branch }, s.positions)) return []
        const given = all.map(x => (x === a ? red : x === c ? black : others))
        const expected = COST.readInCabinet + toDeadCost + afterTest(p, rest, given, others, costs(new Set()), walk)
        const facts = { branches: `${a.branch.id}, ${c.branch.id}`, count: 2, p: Math.round(100 * (a.p + c.p)) }
        return [{ steps: [step], expected, why: { key: 'drop', facts } }]
      }),
    )
  }

  for (const c of order.slice(0, 5)) {
    const b = c.branch
    const steps: Step[] = [...toCutOff(s, [b.id]), ohmAt(b.id)]
    if (!possible(s, steps)) continue
    const own = new Float64Array(BINS)
    const ohms = samples[b.index] as number[]
    for (const r of ohms) {
      normalBins(r + (s.zeroed ? 0 : 0.25), Math.hypot(OHM_SPREAD, 0.045 * r), own, 1 / ohms.length)
    }
    const sound = soundBins(sounds[b.index] as Sound)
    const given = all.map(x => (x === c ? own : sound))
    const cost = costs(new Set([b.id]))
    cost[b.index] = 1
    const expected = toDeadCost + single(c, c.closed) + afterTest(p, rest, given, sound, cost, walk)
    plans.push({
      steps,
      expected,
      why: {
        key: 'likeliest',
        facts: {
          branch: b.id,
          p: Math.round(100 * c.p),
          ...(b.wiring.unknown ? {} : { metres: Math.round(b.wiring.length) }),
          moving: b.wiring.runs.some(r => r.run.moving) ? 1 : 0,
        },
      },
    })
  }

  if (s.positions.supply === 'on' && s.power === 'live' && s.positions.injector === undefined) plans.push(...drops())
  const closedOrder = order.filter(c => c.closed)
  const shutOf = (opened: ReadonlySet<string>) => all.filter(c => c.closed && !opened.has(c.branch.id))
  for (let k = 0; k <= Math.min(closedOrder.length - 1, LARGEST_GROUP); k++) {
    const opened = closedOrder.slice(0, k)
    const ids = new Set(opened.map(c => c.branch.id))
    const shut = shutOf(ids)
    // Bus readings look through loads that nobody has told: worth nothing.
    if (shut.some(c => c.branch.wiring.unknown) && shut.length > 1) continue
    const steps: Step[] = [...toCutOff(s, [...ids]), ohmAt('bus')]
    if (!possible(s, steps) || (k === 0 && s.taken.has(keyOf(ohmAt('bus'))))) continue
    const sound = soundBins(together(shut.map(c => sounds[c.branch.index] as Sound)))
    const given = all.map(c => {
      if (!shut.includes(c)) return sound
      const others = together(shut.filter(x => x !== c).map(x => sounds[x.branch.index] as Sound))
      const out = new Float64Array(BINS)
      const ohms = samples[c.branch.index] as number[]
      for (const ohm of ohms) {
        const r = 1 / (1 / (ohm + aheadOf(c.branch)) + others.siemens)
        normalBins(r + (s.zeroed ? 0 : 0.25), Math.hypot(OHM_SPREAD, 0.045 * r, r * r * others.sd), out, 1 / ohms.length)
      }
      return out
    })
    const expected = toDeadCost + OPENED * k + COST.readInCabinet + afterTest(p, rest, given, sound, costs(ids), walk)
    const held = shut.reduce((sum, c) => sum + c.p, 0)
    plans.push({
      steps,
      expected,
      why: {
        key: 'group',
        facts: {
          branches: shut
            .slice(0, 6)
            .map(c => c.branch.id)
            .join(', '),
          count: shut.length,
          p: Math.round(100 * held),
        },
      },
    })
  }
  return plans.sort(byExpected)
}

/** Where the likeliest branch is clear enough to be measured for the place. */
export const positionsAfter = (p: Positions, steps: readonly Step[]): Positions =>
  steps.reduce((at, step) => (step.kind === 'act' ? after(at, step.act) : at), p)
