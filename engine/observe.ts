// How an answer changes the belief: each hypothesis is weighed by how well it explains what was shown or seen.
import { type AtBus, ohmsAtBus, voltsAtLimit } from './atBus.ts'
import { type Belief, type OfBranch, shares } from './belief.ts'
import { extend, WRONG, wrongDensity } from './chain.ts'
import { branchOfPoint } from './circuit.ts'
import { dropDensity, openDensity, type Pair, pairOf } from './drop.ts'
import { proved, readOff } from './fedElsewhere.ts'
import type { Supply } from './machine.ts'
import { heldFor, secondsOf } from './opening.ts'
import { branchOf, type Plant, type PlantBranch, voltsOf } from './plant.ts'
import type { Positions } from './positions.ts'
import { type Asked, predictedFor, type Row, standOf } from './reading.ts'
import { below, inService, type Sound, soundDensity, soundOf, together } from './sound.ts'
import type { DeviceSeen, Finding, Look, MainsLamp, ProbeRead, Read, SupplyLamp } from './step.ts'
import { holdsDown, isTraced, LIVE_SPREAD, liveVolts, type Suspicion, seenLoads, touched } from './suspicion.ts'
import { walkedPast } from './walked.ts'
import { cameOrWent, closed, either, mixed, normal, weigh } from './weigh.ts'

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
  /** Proving dead: V that stay, 0 where it is dead. */
  | { readonly of: 'proved'; readonly positions: Positions; readonly volts: number }

const indices = (n: number): Int32Array => Int32Array.from({ length: n }, (_, i) => i)

/** Mean that unzeroed leads add to an ohm reading, Ω. */
const leadsOf = (zeroed: boolean): number => (zeroed ? 0 : 0.25)

const sees = (belief: Belief, p: Positions): readonly PlantBranch[] => belief.plant.branches.filter(b => closed(p, b))

/** Every closed branch's places take the row in, as read past a closed device: where the device had opened by itself, it says nothing. */
const seenFromBus = (
  belief: Belief,
  p: Positions,
  others: (b: PlantBranch) => Sound,
  soundLog: number,
  row: (x: AtBus) => Row,
): Belief => ({
  ...belief,
  branches: belief.branches.map((own, k) => {
    const branch = belief.plant.branches[k] as PlantBranch
    if (!closed(p, branch)) return own
    const { plant, kit } = belief
    const next = extend(own.chain, row({ plant, kit, branch, places: own.places, positions: p, others: others(branch) }), soundLog)
    const there = next.log.map((v, j) => v - (own.chain.log[j] as number))
    return {
      ...own,
      outside: own.outside.map((v, j) => v + (there[j] as number)),
      ...cameOrWent(own, j => there[j] as number, soundLog),
      chain: { ...next, log: own.chain.log },
    }
  }),
})

const readBus = (belief: Belief, e: Evidence & { of: 'read' }): Belief => {
  const p = e.positions
  const leads = leadsOf(e.zeroed)
  const within = sees(belief, p)
  const sounds = new Map(within.map(b => [b.id, soundOf(b, p)]))
  const soundLog = (of: readonly Sound[]): number => mixed(soundDensity(together(of), e.shown, leads), e.shown)
  const allSound = soundLog([...sounds.values()])
  const others = (b: PlantBranch): Sound => together(within.filter(x => x !== b).map(x => sounds.get(x.id) as Sound))
  const without = belief.plant.branches.map(b => (closed(p, b) ? soundLog([others(b)]) : allSound))
  const next = weigh(belief, {
    short: b => (closed(p, belief.plant.branches[b] as PlantBranch) ? 0 : allSound),
    tripped: b => without[b] as number,
    deviceOpen: b => without[b] as number,
    supplyDead: allSound,
    noMains: allSound,
    other: allSound,
    away: () => allSound,
    // What a closed branch's places show is reckoned with its chain.
    flicker: b => (closed(p, belief.plant.branches[b] as PlantBranch) ? 0 : allSound),
    suspicion: x =>
      x.branch === undefined || !isTraced(x) || e.read.meter !== 'ohm' || !closed(p, belief.plant.branches[x.branch] as PlantBranch)
        ? allSound
        : ohmLog(belief, e, e.read, x),
  })
  return seenFromBus(next, p, others, allSound, x => ohmsAtBus(x, e.shown, e.zeroed))
}

/** A reading inside a branch that is cut off from the bus, or fed by the injector. */
const readBranch = (belief: Belief, e: Evidence & { of: 'read' }, id: string): Belief => {
  const b = branchOf(belief.plant, id)
  const own = belief.branches[b.index] as OfBranch
  // With a run opened, what a probe sees depends on where it stands.
  const cut = e.positions.openedRuns.some(run => run.startsWith(`${id}/`))
  const sound = cut && e.read.meter === 'ohm' ? seenLoads(belief.plant, e.positions, e.read) : soundOf(b, e.positions)
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
  const chain = extend(own.chain, row, soundLog)
  const comes = cameOrWent(own, j => (chain.log[j] as number) - (own.chain.log[j] as number), soundLog)
  const changed: OfBranch = { ...own, ...comes, chain, sound: own.sound + soundLog }
  const { read } = e
  // A suspicion in this branch has its own say instead of the sound branch's.
  const suspected = belief.suspected.map((v, i) => {
    const x = belief.suspicions[i] as Suspicion
    if (x.branch !== b.index || x.fault === 'device-open') return v
    if (!isTraced(x)) return v + (fed && read.meter === 'volt' && x.holds && x.fault !== 'overload' ? conducts(e.shown) - soundLog : 0)
    return v - soundLog + (read.meter === 'ohm' && !fed ? ohmLog(belief, e, read, x) : soundLog)
  })
  return { ...belief, suspected, branches: belief.branches.map((x, k) => (k === b.index ? changed : x)) }
}

/** A diode that conducts an injector's current: its own volt and the wiring's, V (common practice, no source). */
const CONDUCTS = { volts: 1.4, sd: 0.6 } as const
const conducts = (shown: number | 'OL'): number => mixed(shown === 'OL' ? 0 : normal(shown, CONDUCTS.volts, CONDUCTS.sd ** 2), shown)

/** Log likelihood of an ohm reading if a suspicion is true: what loads the meter can still see. */
const ohmLog = (belief: Belief, e: Evidence & { of: 'read' }, read: ProbeRead, x: Suspicion): number =>
  mixed(soundDensity(seenLoads(belief.plant, e.positions, read, x), e.shown, leadsOf(e.zeroed)), e.shown)

/** Chance that a reading is unsteady while the supply is held at its limit, by the limit's kind, and while it is not (common practice, no source). */
const UNSTEADY: Readonly<Record<NonNullable<Supply['limit']>['mode'], number>> = {
  hiccup: 0.95,
  unknown: 0.35,
  'constant-current': 0.05,
  'latch-off': 0.05,
}
const UNSTEADY_UP = 0.05
/** Log of that chance, or of its opposite for a reading that stands still. */
const settling = (plant: Plant, unsteady: boolean): { readonly held: number; readonly up: number; readonly other: number } => {
  const of = (p: number) => Math.log(unsteady ? p : 1 - p)
  const down = UNSTEADY[plant.machine.supply.limit?.mode ?? 'unknown']
  // What fits no fault here may do either.
  return { held: of(down), up: of(UNSTEADY_UP), other: of((down + UNSTEADY_UP) / 2) }
}
/** Chance that a device behind which a short circuit comes and goes has opened by itself when nothing is wrong now (common practice, no source). */
const OPENED = 0.1

/** Volts between two outgoing plus terminals with the supply on: across whose device does the fault's current drop them? */
const readDrop = (belief: Belief, pair: Pair, v: number, p: Positions, unsteady: boolean): Belief => {
  const { plant } = belief
  // A supply that pulses lets no display settle while it is held down: a steady one says that it no longer is.
  const { held, up, other } = settling(plant, unsteady)
  const back = (open?: PlantBranch): number => up + mixed(openDensity(pair, open, v, voltsOf(plant.machine)), v)
  const of = (b: number): PlantBranch => plant.branches[b] as PlantBranch
  const nothing = up + mixed(normal(v, 0, 1e-6), v)
  const short = (b: number): number => (closed(p, of(b)) ? held + mixed(dropDensity(plant, pair, of(b), v), v) : back(of(b)))
  const all = plant.branches.map(({ index }) => short(index))
  // What is too much all together drops something across every device: it speaks for none of them.
  const any = Math.log(all.reduce((sum, x) => sum + Math.exp(x), 0) / all.length)
  return weigh(belief, {
    short: b => all[b] as number,
    tripped: b => back(of(b)),
    deviceOpen: b => back(of(b)),
    supplyDead: nothing,
    noMains: nothing,
    other: other + Math.log(1 / 30),
    away: b => either(OPENED, back(of(b)), back()),
    suspicion: x => (isTraced(x) ? back() : x.branch === undefined || x.fault === 'backfeed' ? any : (all[x.branch] as number)),
  })
}

/** A voltage with the supply on: by the circuit for what leaves the supply up, any low one for what holds it down. */
const readLive = (belief: Belief, e: Evidence & { of: 'read' }): Belief => {
  const v = e.shown === 'OL' ? 0 : e.shown
  const { read } = e
  const p = e.positions
  const pair = pairOf(belief.plant, read)
  if (pair !== undefined) return readDrop(belief, pair, v, p, e.unsteady)
  const { held, up, other } = settling(belief.plant, e.unsteady)
  const nothing = up + mixed(normal(v, 0, 0.25), v)
  const { limit } = belief.plant.machine.supply
  // Any voltage from none to `most` is as likely as another; where that ends is known no better than what holds it.
  const heldTo = (most: number): number => held + mixed(Math.max(0.001, (v > -1 ? below((most - v) / LIVE_SPREAD) : 0) / (most + 1)), v)
  const heldDown = heldTo(20)
  // Loads that draw a little too much pull a constant current's voltage only a little down; one that pulses or latches drops at once.
  const drawnDown =
    limit === undefined || ['constant-current', 'unknown'].includes(limit.mode) ? heldTo(voltsOf(belief.plant.machine)) : heldDown
  const expected = (x?: Suspicion): number => {
    if (read.meter === 'amp') return up + Math.log(0.3)
    const volts = liveVolts(belief.plant, p, read, x)
    return up + mixed(normal(v, volts, LIVE_SPREAD ** 2 + (0.02 * volts) ** 2), v)
  }
  const here = touched(belief.plant, read)?.index
  const carries = expected()
  const down = (b: number): boolean => closed(p, belief.plant.branches[b] as PlantBranch)
  const ampere =
    here === undefined && !e.unsteady && read.meter === 'volt' && limit?.mode === 'constant-current' ? limit.current : undefined
  const openAt = (b: number): number => (b === here ? nothing : carries)
  const next = weigh(belief, {
    short: b => (down(b) ? (ampere === undefined ? heldDown : 0) : openAt(b)),
    tripped: openAt,
    deviceOpen: openAt,
    supplyDead: nothing,
    noMains: nothing,
    other: other + Math.log(1 / 30),
    away: b => (b === here ? either(OPENED, nothing, carries) : carries),
    ...(ampere === undefined ? {} : { flicker: b => (down(b) ? 0 : openAt(b)) }),
    suspicion: x => {
      if (!isTraced(x)) return either(holdsDown(belief.plant, p, x), drawnDown, carries)
      return x.branch === undefined || x.branch === here ? expected(x) : carries
    },
  })
  if (ampere === undefined) return next
  // The supply's own limit is a source of known current: what it holds at the bus is the short circuit's resistance.
  const within = sees(belief, p)
  const others = (b: PlantBranch): Sound => together(within.filter(x => x !== b).map(x => inService(x, p)))
  return seenFromBus(next, p, others, carries, x => voltsAtLimit(x, v, ampere))
}

/** How a supply lamp looks while a short circuit holds the supply at its limit, by the limit's kind (common practice, no source). */
const LAMP_DOWN: Readonly<Record<string, Readonly<Record<SupplyLamp, number>>>> = {
  'constant-current': { steady: 0.3, blinking: 0.3, off: 0.4 },
  hiccup: { steady: 0.03, blinking: 0.87, off: 0.1 },
  'latch-off': { steady: 0.02, blinking: 0.06, off: 0.92 },
  unknown: { steady: 0.15, blinking: 0.45, off: 0.4 },
}
/** And while it holds its voltage; while it gives none at all (common practice, no source). */
const LAMP_UP: Readonly<Record<SupplyLamp, number>> = { steady: 0.97, blinking: 0.02, off: 0.01 }
const LAMP_DEAD: Readonly<Record<SupplyLamp, number>> = { steady: 0.01, blinking: 0.03, off: 0.96 }
/** How a device looks that is closed; that has tripped or blown; that is open, be it tripped or never closed (common practice, no source). */
const SEEN_CLOSED: Readonly<Record<DeviceSeen, number>> = { closed: 0.992, tripped: 0.001, open: 0.007 }
const SEEN_TRIPPED: Readonly<Record<DeviceSeen, number>> = { closed: 0.06, tripped: 0.8, open: 0.14 }
/** How a device looks behind which too much is drawn at times: it may have opened by itself (common practice, no source). */
const SEEN_OFTEN: Readonly<Record<DeviceSeen, number>> = { closed: 0.6, tripped: 0.35, open: 0.05 }
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
    away: () => v,
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
        away: () => up,
        suspicion: x => either(holdsDown(belief.plant, e.positions, x), held, up),
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
        flicker: b => as(b === at ? SEEN_OFTEN : SEEN_CLOSED),
        suspicion: x => as(x.branch === at && x.holds ? SEEN_OFTEN : SEEN_CLOSED),
      })
    }
  }
}

/** The belief with one more piece of evidence. */
export const observe = (before: Belief, e: Evidence): Belief => {
  const belief = e.of === 'look' || e.of === 'read' ? heldFor(before, e.positions, secondsOf(e.of)) : before
  if (e.of === 'look') return looked(belief, e)
  if (e.of === 'looked') return walkedPast(belief, e.finding)
  if (e.of === 'proved') return proved(belief, e)
  const p = e.positions
  const point = e.read.meter === 'amp' ? e.read.branch : (branchOfPoint(e.read.red) ?? branchOfPoint(e.read.black))
  const cutOff = point !== undefined && (p.devices[point] !== 'closed' || p.injector?.branch === point)
  let next: Belief
  if (p.supply === 'on' && p.injector === undefined) next = readLive(belief, e)
  else if (p.injector === undefined && e.read.meter === 'volt') next = readOff(belief, e)
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
