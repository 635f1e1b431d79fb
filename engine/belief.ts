// What may be wrong, and how likely, in the light of all answers so far: single faults, branch by branch and place by place.

import { type Chain, emptyChain, extend, WRONG, wrongDensity } from './chain.ts'
import { branchAlone, branchOfPoint, portAtBus, putFault } from './circuit.ts'
import { SHARES, type Shares } from './fault.ts'
import { gather, type Port, through } from './ladder.ts'
import type { Kit } from './machine.ts'
import { census, IN_LOAD, type Places, placesOf, TO_EARTH } from './place.ts'
import { branchOf, type Plant, type PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import { type Asked, predictedFor, standOf } from './reading.ts'
import { OHM_SPREAD, type Sound, soundDensity, soundOf, together } from './sound.ts'
import type { DeviceSeen, Finding, Look, MainsLamp, Read, SupplyLamp, Symptom } from './step.ts'

/** One answer as evidence: what was asked, in which state, and what came back. */
export type Evidence =
  | {
      readonly of: 'read'
      readonly read: Read
      readonly positions: Positions
      readonly zeroed: boolean
      readonly shown: number | 'OL'
      readonly unsteady: boolean
    }
  | { readonly of: 'look'; readonly look: Look; readonly positions: Positions; readonly seen: SupplyLamp | MainsLamp | DeviceSeen }
  | { readonly of: 'looked'; readonly finding: Finding }

interface OfBranch {
  readonly places: Places
  /** Readings that see this branch's places one by one. */
  readonly chain: Chain
  /** Per place: log factor of what was read or seen from outside, with the device as its position says. */
  readonly outside: Float64Array
  /** Per place: log factor of having gone and looked. */
  readonly walked: Float64Array
  /** Log factor of the same short circuits with the device opened by itself; of the device open and nothing else wrong. */
  readonly tripped: number
  readonly deviceOpen: number
  /** Log likelihood of this branch's own readings if it is sound. */
  readonly sound: number
}
export interface Belief {
  readonly plant: Plant
  readonly kit: Kit
  readonly branches: readonly OfBranch[]
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
  /** Chance that the latest answer fits none of the faults. */
  readonly fitsNothing: number
}

const indices = (n: number): Int32Array => Int32Array.from({ length: n }, (_, i) => i)

/** The belief before anything is read. */
export const begin = (plant: Plant, kit: Kit, symptom: Symptom): Belief => {
  const shares: Shares = SHARES[symptom]
  const all = census(plant)
  const still = { supply: 'off', bus: 'joined', bond: 'joined', devices: {}, unplugged: [], openedRuns: [] } as const
  return {
    plant,
    kit,
    fitsNothing: 0,
    supplyDead: Math.log(shares.supplyDead),
    noMains: Math.log(shares.noMains),
    other: Math.log(shares.other),
    branches: plant.branches.map(b => {
      const places = placesOf(plant, b, all)
      const { dims, spread } = standOf(plant, b, still, kit)
      return {
        places,
        chain: emptyChain(places.count, dims, spread, places.atSd, places.ohmSd),
        outside: new Float64Array(places.count).fill(Math.log(shares.short)),
        walked: new Float64Array(places.count),
        tripped: Math.log(shares.shortTripped),
        deviceOpen: Math.log(shares.deviceOpen / plant.branches.length),
        sound: 0,
      }
    }),
  }
}

const mixed = (density: number, shown: number | 'OL'): number => Math.log((1 - WRONG) * density + WRONG * wrongDensity(shown))

const normal = (x: number, mean: number, variance: number): number =>
  Math.exp(-((x - mean) ** 2) / (2 * variance)) / Math.sqrt(2 * Math.PI * variance)

/** Mean that unzeroed leads add to an ohm reading, Ω. */
const leadsOf = (zeroed: boolean): number => (zeroed ? 0 : 0.25)

/** Adds to every hypothesis: `short(b, place)`, `tripped(b)`, `deviceOpen(b)` and the three that lie in no branch. */
interface Factors {
  readonly short: (b: number, place: number) => number
  readonly tripped: (b: number) => number
  readonly deviceOpen: (b: number) => number
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
}
const weigh = (belief: Belief, f: Factors): Belief => ({
  ...belief,
  supplyDead: belief.supplyDead + f.supplyDead,
  noMains: belief.noMains + f.noMains,
  other: belief.other + f.other,
  branches: belief.branches.map((x, b) => ({
    ...x,
    outside: x.outside.map((v, j) => v + f.short(b, j)),
    tripped: x.tripped + f.tripped(b),
    deviceOpen: x.deviceOpen + f.deviceOpen(b),
  })),
})

/** Is the device of this branch closed, as far as the acts and looks say. */
const closed = (p: Positions, b: PlantBranch): boolean => p.devices[b.id] === 'closed'

/** Ports at the terminals of a branch, one a place: for readings that see it from outside. Kept per belief's plant and state. */
const portCache = new WeakMap<Places, Map<string, Port[]>>()
export const portsOf = (plant: Plant, b: PlantBranch, places: Places, p: Positions): readonly Port[] => {
  const key = JSON.stringify([p.unplugged.filter(u => u.startsWith(`${b.id}/`)), p.openedRuns.filter(u => u.startsWith(`${b.id}/`))])
  const known = portCache.get(places) ?? new Map<string, Port[]>()
  portCache.set(places, known)
  const found = known.get(key)
  if (found !== undefined) return found
  const l = branchAlone(b, p)
  const base = 2
  const ports: Port[] = []
  const fresh = {
    across: Float64Array.from(l.across),
    plusEarth: Float64Array.from(l.plusEarth),
    plusOhm: Float64Array.from(l.plusOhm),
    zeroOhm: Float64Array.from(l.zeroOhm),
  }
  for (let j = 0; j < places.count; j++) {
    const item = places.item[j] as number
    const inLoad = places.kind[j] === IN_LOAD
    const load = inLoad ? b.loads[item]?.load.id : undefined
    const run = inLoad ? undefined : b.wiring.runs[item]?.run.id
    putFault(
      l,
      plant,
      b,
      base,
      {
        kind: inLoad ? 'load-short' : places.kind[j] === TO_EARTH ? 'short-to-earth' : 'short-to-zero',
        branch: b.id,
        ...(load === undefined ? {} : { load }),
        ...(run === undefined ? {} : { run }),
        at: places.at[j] as number,
        ohm: places.ohm[j] as number,
      },
      p,
    )
    ports.push(gather(l))
    l.across.set(fresh.across)
    l.plusEarth.set(fresh.plusEarth)
    l.plusOhm.set(fresh.plusOhm)
    l.zeroOhm.set(fresh.zeroOhm)
  }
  known.set(key, ports)
  return ports
}

/** Ω between bus plus and bus 0 V of a port, with the bond's path to earth side by side. */
const BOND = 50
export const ohmOf = (port: Port, others: number, bonded: boolean): number => {
  const g = port.across + others
  const gz = port.zeroEarth + (bonded ? BOND : 1e-11)
  const gp = port.plusEarth + 1e-11
  return (gz + gp) / (g * (gp + gz) + gp * gz)
}

const sees = (belief: Belief, p: Positions): readonly PlantBranch[] => belief.plant.branches.filter(b => closed(p, b))

/** Density of a bus reading if the short circuit is at a place of branch `b`, whose device is closed. */
export const busDensity = (shown: number | 'OL', ohm: number, loads: Sound, leads: number): number => {
  if (shown === 'OL') return 1e-6
  const variance = OHM_SPREAD ** 2 + (0.045 * ohm) ** 2 + (ohm * ohm * loads.sd) ** 2
  return normal(shown, ohm + leads, variance)
}

const readBus = (belief: Belief, e: Evidence & { of: 'read' }): Belief => {
  const p = e.positions
  const leads = leadsOf(e.zeroed)
  const within = sees(belief, p)
  const sounds = new Map(within.map(b => [b.id, soundOf(b, p)]))
  const bonded = belief.plant.machine.supply.zeroVoltBonded ?? true
  const allSound = mixed(soundDensity(together([...sounds.values()]), e.shown, leads), e.shown)
  const of = new Map<number, { ports: readonly Port[]; others: Sound; without: number }>()
  for (const b of within) {
    const others = together(within.filter(x => x !== b).map(x => sounds.get(x.id) as Sound))
    const without = mixed(soundDensity(others, e.shown, leads), e.shown)
    of.set(b.index, { ports: portsOf(belief.plant, b, (belief.branches[b.index] as OfBranch).places, p), others, without })
  }
  return weigh(belief, {
    short: (b, j) => {
      const x = of.get(b)
      if (x === undefined) return allSound
      const branch = belief.plant.branches[b] as PlantBranch
      const port = through(x.ports[j] as Port, branch.deviceOhm, 0.003)
      return mixed(busDensity(e.shown, ohmOf(port, x.others.siemens, bonded), x.others, leads), e.shown)
    },
    tripped: b => of.get(b)?.without ?? allSound,
    deviceOpen: b => of.get(b)?.without ?? allSound,
    supplyDead: allSound,
    noMains: allSound,
    other: allSound,
  })
}

/** A reading inside a branch that is cut off from the bus, or fed by the injector. */
const readBranch = (belief: Belief, e: Evidence & { of: 'read' }, id: string): Belief => {
  const b = branchOf(belief.plant, id)
  const own = belief.branches[b.index] as OfBranch
  const sound = soundOf(b, e.positions)
  const fed = e.positions.injector?.branch === id
  let soundLog: number
  if (e.read.meter === 'ohm') soundLog = mixed(soundDensity(sound, e.shown, leadsOf(e.zeroed)), e.shown)
  // A branch without a short circuit takes the source's full voltage, or what its loads leave of it.
  else if (fed && e.read.meter === 'volt') soundLog = mixed(e.shown !== 'OL' && Math.abs(e.shown) > 4 ? 1 / 22 : 0.002, e.shown)
  else soundLog = mixed(e.shown !== 'OL' && e.shown < 0.8 ? 1 : 0.3, e.shown)
  const asked: Asked = { read: e.read, positions: e.positions, zeroed: e.zeroed }
  const row = predictedFor(
    standOf(belief.plant, b, e.positions, belief.kit),
    own.places,
    asked,
    indices(own.places.count),
    e.shown,
    e.unsteady,
  )
  const changed: OfBranch = { ...own, chain: extend(own.chain, row), sound: own.sound + soundLog }
  return { ...belief, branches: belief.branches.map((x, k) => (k === b.index ? changed : x)) }
}

const readLive = (belief: Belief, e: Evidence & { of: 'read' }): Belief => {
  const v = e.shown === 'OL' ? 0 : e.shown
  const at = e.read.meter === 'amp' ? e.read.branch : branchOfPoint(e.read.red)
  const carries = mixed(normal(v, belief.plant.machine.supply.setVoltage ?? 24, 4), v)
  const nothing = mixed(normal(v, 0, 0.25), v)
  const heldDown = mixed(v < 20 && v > -1 ? 1 / 21 : 0.001, v)
  const p = e.positions
  const down = (b: number): boolean => closed(p, belief.plant.branches[b] as PlantBranch)
  const openAt = (b: number): number => ((belief.plant.branches[b] as PlantBranch).id === at ? nothing : carries)
  return weigh(belief, {
    short: b => (down(b) ? heldDown : openAt(b)),
    tripped: openAt,
    deviceOpen: openAt,
    supplyDead: nothing,
    noMains: nothing,
    other: Math.log(1 / 30),
  })
}

/** How a supply lamp looks while a short circuit holds the supply at its limit, by the limit's kind (common practice, no source). */
const LAMP_DOWN: Readonly<Record<string, Readonly<Record<SupplyLamp, number>>>> = {
  'constant-current': { steady: 0.3, blinking: 0.3, off: 0.4 },
  hiccup: { steady: 0.03, blinking: 0.87, off: 0.1 },
  'latch-off': { steady: 0.02, blinking: 0.06, off: 0.92 },
  unknown: { steady: 0.15, blinking: 0.45, off: 0.4 },
}
const LAMP_UP: Readonly<Record<SupplyLamp, number>> = { steady: 0.97, blinking: 0.02, off: 0.01 }
const LAMP_DEAD: Readonly<Record<SupplyLamp, number>> = { steady: 0.01, blinking: 0.03, off: 0.96 }
/** How a device looks that is closed; that has tripped or blown; that is open, be it tripped or never closed. */
const SEEN_CLOSED: Readonly<Record<DeviceSeen, number>> = { closed: 0.985, tripped: 0.008, open: 0.007 }
const SEEN_TRIPPED: Readonly<Record<DeviceSeen, number>> = { closed: 0.06, tripped: 0.8, open: 0.14 }
const SEEN_OPEN: Readonly<Record<DeviceSeen, number>> = { closed: 0.06, tripped: 0.47, open: 0.47 }

const looked = (belief: Belief, e: Evidence & { of: 'look' }): Belief => {
  const { look } = e
  const same = (v: number) => ({ short: () => v, tripped: () => v, deviceOpen: () => v, supplyDead: v, noMains: v, other: v })
  switch (look.look) {
    case 'mains-lamp': {
      const on = e.seen === 'on'
      return weigh(belief, { ...same(Math.log(on ? 0.98 : 0.02)), noMains: Math.log(on ? 0.01 : 0.99) })
    }
    case 'supply-lamp': {
      const seen = e.seen as SupplyLamp
      const down = LAMP_DOWN[belief.plant.machine.supply.limit?.mode ?? 'unknown'] ?? LAMP_DOWN['unknown']
      const up = Math.log(LAMP_UP[seen]),
        held = Math.log(down?.[seen] ?? 1 / 3),
        dead = Math.log(LAMP_DEAD[seen])
      return weigh(belief, {
        short: b => (closed(e.positions, belief.plant.branches[b] as PlantBranch) ? held : up),
        tripped: () => up,
        deviceOpen: () => up,
        supplyDead: dead,
        noMains: dead,
        other: Math.log(1 / 3),
      })
    }
    case 'device': {
      const at = branchOf(belief.plant, look.branch).index
      const seen = e.seen as DeviceSeen
      const as = (table: Readonly<Record<DeviceSeen, number>>) => Math.log(table[seen])
      return weigh(belief, {
        ...same(as(SEEN_CLOSED)),
        tripped: b => as(b === at ? SEEN_TRIPPED : SEEN_CLOSED),
        deviceOpen: b => as(b === at ? SEEN_OPEN : SEEN_CLOSED),
      })
    }
  }
}

/** What is left of a place that somebody has gone to and looked at without finding it (common practice, no source). */
const MISSED = Math.log(0.02)
/** Metres past each end of a named interval that a technician looks at as well. */
const BESIDE = 0.5

const walkedPast = (belief: Belief, { fault, branch, run, load, alongRun }: Finding): Belief => {
  if (fault === 'supply-dead' || fault === 'supply-low') return { ...belief, supplyDead: belief.supplyDead + MISSED }
  if (fault === 'no-mains') return { ...belief, noMains: belief.noMains + MISSED }
  const b = belief.plant.indexOf.get(branch ?? '')
  if (b === undefined) return belief
  const own = belief.branches[b] as OfBranch
  if (fault === 'device-open')
    return { ...belief, branches: belief.branches.map((x, k) => (k === b ? { ...x, deviceOpen: x.deviceOpen + MISSED } : x)) }
  const { wiring, loads } = belief.plant.branches[b] as PlantBranch
  const hit = (j: number): boolean => {
    const item = own.places.item[j] as number
    const inLoad = own.places.kind[j] === IN_LOAD
    if (load !== undefined) return inLoad && loads[item]?.load.id === load
    if (run === undefined || alongRun === undefined) return true
    if (inLoad || wiring.runs[item]?.run.id !== run) return false
    const at = own.places.at[j] as number
    return at > alongRun.low - BESIDE && at < alongRun.high + BESIDE
  }
  return {
    ...belief,
    branches: belief.branches.map((x, k) => (k === b ? { ...x, walked: x.walked.map((v, j) => v + (hit(j) ? MISSED : 0)) } : x)),
  }
}

/** The belief with one more piece of evidence. */
export const observe = (belief: Belief, e: Evidence): Belief => {
  if (e.of === 'look') return looked(belief, e)
  if (e.of === 'looked') return walkedPast(belief, e.finding)
  const p = e.positions
  const point = e.read.meter === 'amp' ? e.read.branch : (branchOfPoint(e.read.red) ?? branchOfPoint(e.read.black))
  const cutOff = point !== undefined && (p.devices[point] !== 'closed' || p.injector?.branch === point)
  let next: Belief
  if (p.supply === 'on' && p.injector === undefined) next = readLive(belief, e)
  else if (cutOff && point !== undefined) next = readBranch(belief, e, point)
  else if (point === undefined && e.read.meter === 'ohm') next = readBus(belief, e)
  else return belief
  return { ...next, fitsNothing: misfit(belief, next, e.shown) }
}

/** How the weights stand: everything of 1. */
export interface Shared {
  /** Per branch: short circuits, of them with the device opened by itself, and the device open with nothing else wrong. */
  readonly short: Float64Array
  readonly tripped: Float64Array
  readonly deviceOpen: Float64Array
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
  /** Log of the sum of all weights before they were made 1. */
  readonly evidence: number
}

const soundBut = (belief: Belief, b: number): number => belief.branches.reduce((sum, x, k) => sum + (k === b ? 0 : x.sound), 0)

/** Log weight of each place of a branch with its device opened by itself, readings of other branches included. */
const trippedLogs = (belief: Belief, b: number): Float64Array => {
  const x = belief.branches[b] as OfBranch
  const others = soundBut(belief, b)
  return Float64Array.from(
    x.places.prior,
    (prior, j) => Math.log(prior) + (x.chain.log[j] as number) + (x.walked[j] as number) + x.tripped + others,
  )
}

/** Log weight of each place of a branch, its device as positioned or opened by itself. */
const weighPlaces = (belief: Belief, b: number): Float64Array => {
  const x = belief.branches[b] as OfBranch
  return trippedLogs(belief, b).map((tripped, j) => {
    const asPositioned = tripped - x.tripped + (x.outside[j] as number)
    const top = Math.max(asPositioned, tripped)
    return top + Math.log(Math.exp(asPositioned - top) + Math.exp(tripped - top))
  })
}

/** A belief never changes, so what follows from it is reckoned once. */
interface Derived {
  shares?: Shared
  readonly places: Map<number, Float64Array>
}
const derived = new WeakMap<Belief, Derived>()
const derivedOf = (belief: Belief): Derived => {
  const known = derived.get(belief) ?? { places: new Map() }
  derived.set(belief, known)
  return known
}

/** Log weight of each place of a branch, its device as positioned or opened by itself. */
export const placeLogs = (belief: Belief, b: number): Float64Array => {
  const { places } = derivedOf(belief)
  const known = places.get(b) ?? weighPlaces(belief, b)
  places.set(b, known)
  return known
}

const logSum = (logs: Float64Array): number => {
  const top = logs.reduce((m, v) => Math.max(m, v), -Infinity)
  return top + Math.log(logs.reduce((sum, v) => sum + Math.exp(v - top), 0))
}

const share = (belief: Belief): Shared => {
  const n = belief.branches.length
  const allSound = belief.branches.reduce((sum, x) => sum + x.sound, 0)
  const logs: number[] = []
  const short = belief.branches.map((_, b) => logSum(placeLogs(belief, b)))
  const tripped = belief.branches.map((_, b) => logSum(trippedLogs(belief, b)))
  const open = belief.branches.map(x => x.deviceOpen + allSound)
  logs.push(...short, ...open, belief.supplyDead + allSound, belief.noMains + allSound, belief.other + allSound)
  const top = Math.max(...logs)
  const evidence = top + Math.log(logs.reduce((sum, v) => sum + Math.exp(v - top), 0))
  const of = (v: number) => Math.exp(v - evidence)
  return {
    short: Float64Array.from({ length: n }, (_, b) => of(short[b] as number)),
    tripped: Float64Array.from({ length: n }, (_, b) => of(tripped[b] as number)),
    deviceOpen: Float64Array.from({ length: n }, (_, b) => of(open[b] as number)),
    supplyDead: of(belief.supplyDead + allSound),
    noMains: of(belief.noMains + allSound),
    other: of(belief.other + allSound),
    evidence,
  }
}

/** How the weights stand. */
export const shares = (belief: Belief): Shared => {
  const known = derivedOf(belief)
  known.shares ??= share(belief)
  return known.shares
}

/** Chance that the answer was plain wrong whatever the fault: what a wrong answer explains of all that is explained. */
const misfit = (before: Belief, after: Belief, shown: number | 'OL'): number => {
  const byWrong = shares(before).evidence + Math.log(WRONG * wrongDensity(shown))
  return Math.exp(Math.min(0, byWrong - shares(after).evidence))
}

export type { OfBranch, PlantBranch }
export { portAtBus }
