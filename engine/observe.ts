// How an answer changes the belief: each hypothesis is weighed by how well it explains what was shown or seen.
import { type Belief, type OfBranch, shares } from './belief.ts'
import { extend, WRONG, wrongDensity } from './chain.ts'
import { branchOfPoint } from './circuit.ts'
import { type Port, through } from './ladder.ts'
import { IN_LOAD } from './place.ts'
import { branchOf, CABINET, type PlantBranch } from './plant.ts'
import { ohmOf, portsOf } from './ports.ts'
import type { Positions } from './positions.ts'
import { type Asked, predictedFor, standOf } from './reading.ts'
import { OHM_SPREAD, type Sound, soundDensity, soundOf, together } from './sound.ts'
import type { DeviceSeen, Finding, Look, MainsLamp, ProbeRead, Read, SupplyLamp } from './step.ts'
import { LIVE_SPREAD, liveVolts, runId, type Suspicion, seenLoads, touched } from './suspicion.ts'

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

const indices = (n: number): Int32Array => Int32Array.from({ length: n }, (_, i) => i)

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
  readonly suspicion: (s: Suspicion) => number
}
const weigh = (belief: Belief, f: Factors): Belief => ({
  ...belief,
  supplyDead: belief.supplyDead + f.supplyDead,
  noMains: belief.noMains + f.noMains,
  other: belief.other + f.other,
  suspected: belief.suspected.map((v, i) => v + f.suspicion(belief.suspicions[i] as Suspicion)),
  branches: belief.branches.map((x, b) => ({
    ...x,
    outside: x.outside.map((v, j) => v + f.short(b, j)),
    tripped: x.tripped + f.tripped(b),
    deviceOpen: x.deviceOpen + f.deviceOpen(b),
  })),
})

/** Is the device of this branch closed, as far as the acts and looks say. */
const closed = (p: Positions, b: PlantBranch): boolean => p.devices[b.id] === 'closed'

const sees = (belief: Belief, p: Positions): readonly PlantBranch[] => belief.plant.branches.filter(b => closed(p, b))

/** Density of a bus reading if the short circuit is at a place of branch `b`, whose device is closed. */
const busDensity = (shown: number | 'OL', ohm: number, loads: Sound, leads: number): number => {
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
  const isShut = (b: number): boolean => of.has(b)
  return weigh(belief, {
    short: (b, j) => {
      const x = of.get(b)
      if (x === undefined) return allSound
      const branch = belief.plant.branches[b] as PlantBranch
      const port = through(x.ports[j] as Port, branch.deviceOhm, CABINET.zeroLink)
      return mixed(busDensity(e.shown, ohmOf(port, x.others.siemens, bonded), x.others, leads), e.shown)
    },
    tripped: b => of.get(b)?.without ?? allSound,
    deviceOpen: b => of.get(b)?.without ?? allSound,
    supplyDead: allSound,
    noMains: allSound,
    other: allSound,
    suspicion: x => (x.branch === undefined || e.read.meter !== 'ohm' || !isShut(x.branch) ? allSound : ohmLog(belief, e, e.read, x)),
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
  const { read } = e
  // A suspicion in this branch has its own say instead of the sound branch's.
  const suspected = belief.suspected.map((v, i) => {
    const x = belief.suspicions[i] as Suspicion
    if (x.branch !== b.index || x.fault === 'device-open') return v
    return v - soundLog + (read.meter === 'ohm' && !fed ? ohmLog(belief, e, read, x) : soundLog)
  })
  return { ...belief, suspected, branches: belief.branches.map((x, k) => (k === b.index ? changed : x)) }
}

/** Log likelihood of an ohm reading if a suspicion is true: what loads the meter can still see. */
const ohmLog = (belief: Belief, e: Evidence & { of: 'read' }, read: ProbeRead, x: Suspicion): number =>
  mixed(soundDensity(seenLoads(belief.plant, e.positions, read, x), e.shown, leadsOf(e.zeroed)), e.shown)

/** A voltage with the supply on: by the circuit for what leaves the supply up, any low one for what holds it down. */
const readLive = (belief: Belief, e: Evidence & { of: 'read' }): Belief => {
  const v = e.shown === 'OL' ? 0 : e.shown
  const { read } = e
  const p = e.positions
  const nothing = mixed(normal(v, 0, 0.25), v)
  const heldDown = mixed(v < 20 && v > -1 ? 1 / 21 : 0.001, v)
  const expected = (x?: Suspicion): number => {
    if (read.meter === 'amp') return Math.log(0.3)
    const volts = liveVolts(belief.plant, p, read, x)
    return mixed(normal(v, volts, LIVE_SPREAD ** 2 + (0.02 * volts) ** 2), v)
  }
  const here = touched(belief.plant, read)?.index
  const carries = expected()
  const down = (b: number): boolean => closed(p, belief.plant.branches[b] as PlantBranch)
  const openAt = (b: number): number => (b === here ? nothing : carries)
  return weigh(belief, {
    short: b => (down(b) ? heldDown : openAt(b)),
    tripped: openAt,
    deviceOpen: openAt,
    supplyDead: nothing,
    noMains: nothing,
    other: Math.log(1 / 30),
    suspicion: x => (x.branch === undefined || x.branch === here ? expected(x) : carries),
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
  const same = (v: number) => ({
    short: () => v,
    tripped: () => v,
    deviceOpen: () => v,
    supplyDead: v,
    noMains: v,
    other: v,
    suspicion: () => v,
  })
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
        suspicion: () => up,
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
/** A branch's whole cable, much of it out of sight, is easier missed (common practice, no source). */
const MISSED_SOMEWHERE = Math.log(0.15)
/** Metres past each end of a named interval that a technician looks at as well. */
const BESIDE = 0.5

const walkedPast = (belief: Belief, { fault, branch, run, load, alongRun }: Finding): Belief => {
  const b = belief.plant.indexOf.get(branch ?? '')
  if (fault === 'supply-dead') return { ...belief, supplyDead: belief.supplyDead + MISSED }
  if (fault === 'supply-low' || fault === 'open-plus' || fault === 'open-zero' || fault === 'poor-joint') {
    // Whoever looks along a run for one sees the others there too.
    const past = (x: Suspicion): boolean =>
      fault === 'supply-low' ? x.fault === fault : x.branch === b && (run === undefined || runId(belief.plant, x) === run)
    return { ...belief, suspected: belief.suspected.map((v, i) => v + (past(belief.suspicions[i] as Suspicion) ? MISSED : 0)) }
  }
  if (fault === 'no-mains') return { ...belief, noMains: belief.noMains + MISSED }
  if (b === undefined) return belief
  const own = belief.branches[b] as OfBranch
  if (fault === 'device-open')
    return { ...belief, branches: belief.branches.map((x, k) => (k === b ? { ...x, deviceOpen: x.deviceOpen + MISSED } : x)) }
  const { wiring, loads } = belief.plant.branches[b] as PlantBranch
  const missed = run === undefined && load === undefined ? MISSED_SOMEWHERE : MISSED
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
    branches: belief.branches.map((x, k) => (k === b ? { ...x, walked: x.walked.map((v, j) => v + (hit(j) ? missed : 0)) } : x)),
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

/** Chance that the answer was plain wrong whatever the fault: what a wrong answer explains of all that is explained. */
const misfit = (before: Belief, after: Belief, shown: number | 'OL'): number => {
  const byWrong = shares(before).evidence + Math.log(WRONG * wrongDensity(shown))
  return Math.exp(Math.min(0, byWrong - shares(after).evidence))
}
