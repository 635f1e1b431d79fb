// What may be wrong, and how likely, in the light of all answers so far: single faults, branch by branch and place by place.
import { type Chain, emptyChain } from './chain.ts'
import { OVERLOADED, SHARES, type Shares } from './fault.ts'
import { heldDown } from './held.ts'
import type { Kit } from './machine.ts'
import { census, IN_LOAD, isOverload, type Places, placesOf } from './place.ts'
import type { Plant, PlantBranch } from './plant.ts'
import { type FromLog, type Known, leaningOf } from './prior.ts'
import { standOf } from './reading.ts'
import type { Symptom } from './step.ts'
import { type Suspicion, suspicionsOf } from './suspicion.ts'

export interface Present {
  readonly there: number
  readonly away: number
}
/** Before anything is read: there two times in five, known as if from five looks (common practice, no source). */
export const AT_FIRST: Present = { there: 2, away: 3 }

export interface OfBranch {
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
  /** Per place: log factor of the same short circuit if it comes and goes, what was read in this branch included. */
  readonly flicker: Float64Array
  /** How often that was there and was not, in readings and looks so far: a beta distribution of the share of the time that it is there. */
  readonly present: Present
  /** Log likelihood of this branch's own readings if it is sound. */
  readonly sound: number
}
export interface Belief {
  readonly plant: Plant
  readonly kit: Kit
  readonly symptom: Symptom
  readonly branches: readonly OfBranch[]
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
  /** Single faults that are no short circuit, and their log weights. */
  readonly suspicions: readonly Suspicion[]
  readonly suspected: Float64Array
  /** Chance that the latest answer fits none of the faults. */
  readonly fitsNothing: number
  /** What of the start came from the machine's own log. */
  readonly fromLog: FromLog
  /** Seconds that the supply has been on since the start. */
  readonly held: number
}

/** The belief before anything is read. */
export const begin = (plant: Plant, kit: Kit, symptom: Symptom, known: Known = {}): Belief => {
  const shares: Shares = SHARES[symptom]
  const all = census(plant)
  const leaning = leaningOf(plant, shares, suspicionsOf(plant, shares), known)
  const { suspicions, fromLog } = leaning
  const leant = plant.branches.map(b => leaning.places(b.index, placesOf(plant, b, all, OVERLOADED[symptom])))
  const sumOf = (is: (of: Places, j: number) => boolean): number =>
    leant.reduce((sum, of) => sum + of.prior.reduce((s, v, j) => s + (is(of, j) ? v : 0), 0), 0)
  // The log says where loads draw too much, not how often they do.
  const [shorts, overloads] = [sumOf((of, j) => !isOverload(of, j)), sumOf(isOverload)]
  const times = { short: (1 - OVERLOADED[symptom]) / shorts, overload: overloads === 0 ? 0 : OVERLOADED[symptom] / overloads }
  const places = leant.map(of => ({ ...of, prior: of.prior.map((v, j) => v * (isOverload(of, j) ? times.overload : times.short)) }))
  const held = plant.branches.map((b, k) => heldDown(plant, b, places[k] as Places, kit, symptom))
  // Short circuits keep their share of the symptom: what the state as found says only moves it among them.
  const mean = held.reduce((sum, own, k) => sum + own.reduce((s, v, j) => s + v * ((places[k] as Places).prior[j] as number), 0), 0)
  const conductors = places.reduce((sum, own) => sum + own.prior.reduce((s, v, j) => s + (own.kind[j] === IN_LOAD ? 0 : v), 0), 0)
  const flicker = Math.log(shares.flicker / conductors)
  const still = { supply: 'off', bus: 'joined', bond: 'joined', devices: {}, unplugged: [], openedRuns: [] } as const
  return {
    plant,
    kit,
    symptom,
    fitsNothing: 0,
    held: 0,
    fromLog,
    suspicions,
    suspected: Float64Array.from(suspicions, s => Math.log(s.prior)),
    supplyDead: Math.log(shares.supplyDead),
    noMains: Math.log(shares.noMains),
    other: Math.log(shares.other),
    branches: plant.branches.map((b, k) => {
      const own = places[k] as Places
      const { dims, spread } = standOf(plant, b, still, kit)
      return {
        places: own,
        chain: emptyChain(own.count, dims, spread, own.atSd, own.ohmSd),
        outside: (held[k] as Float64Array).map(v => Math.log((shares.short * v) / mean)),
        walked: new Float64Array(own.count),
        tripped: Math.log(shares.shortTripped),
        flicker: own.prior.map((_, j) => (own.kind[j] === IN_LOAD ? -Infinity : flicker)),
        present: AT_FIRST,
        deviceOpen: Math.log(shares.deviceOpen * leaning.deviceOpen(b.index)),
        sound: 0,
      }
    }),
  }
}

/** How the weights stand: everything of 1. */
export interface Shared {
  /** Per branch: short circuits, of them with the device opened by itself, and the device open with nothing else wrong. */
  readonly short: Float64Array
  readonly tripped: Float64Array
  /** Of the short circuits, those that come and go. */
  readonly flicker: Float64Array
  readonly deviceOpen: Float64Array
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
  /** In the order of the belief's suspicions. */
  readonly suspected: Float64Array
  /** Log of the sum of all weights before they were made 1. */
  readonly evidence: number
}

/** Log likelihood of all readings if every branch is sound, and if all but one are. */
const allSoundOf = (belief: Belief): number => belief.branches.reduce((sum, x) => sum + x.sound, 0)
const soundBut = (belief: Belief, b: number): number => allSoundOf(belief) - (belief.branches[b] as OfBranch).sound

/** Log weight of each place of a branch with a short circuit that comes and goes. */
export const flickerLogs = (belief: Belief, b: number): Float64Array => {
  const x = belief.branches[b] as OfBranch
  const others = soundBut(belief, b)
  return x.flicker.map((v, j) => Math.log(x.places.prior[j] as number) + v + (x.walked[j] as number) + others)
}

/** A branch's short circuits: log weight of each place, whatever becomes of its device and whether it comes and goes; and log sums. */
interface Weighed {
  readonly places: Float64Array
  readonly short: number
  /** Of them, those whose device has opened by itself, and those that come and go. */
  readonly tripped: number
  readonly flicker: number
}
const weighPlaces = (belief: Belief, b: number): Weighed => {
  const { places, chain, walked, outside, flicker, tripped } = belief.branches[b] as OfBranch
  const others = soundBut(belief, b)
  const n = places.count
  // The same short circuit with its device as it stands, opened by itself, and as one that comes and goes.
  const stands = new Float64Array(n),
    opened = new Float64Array(n),
    comes = new Float64Array(n)
  let top = -Infinity
  for (let j = 0; j < n; j++) {
    const at = Math.log(places.prior[j] as number) + (walked[j] as number) + others
    const read = at + (chain.log[j] as number)
    stands[j] = read + (outside[j] as number)
    opened[j] = read + tripped
    comes[j] = at + (flicker[j] as number)
    top = Math.max(top, stands[j] as number, opened[j] as number, comes[j] as number)
  }
  const logs = new Float64Array(n).fill(-Infinity)
  if (top === -Infinity) return { places: logs, short: top, tripped: top, flicker: top }
  let all = 0,
    open = 0,
    come = 0
  for (let j = 0; j < n; j++) {
    const o = Math.exp((opened[j] as number) - top),
      c = Math.exp((comes[j] as number) - top)
    const sum = Math.exp((stands[j] as number) - top) + o + c
    logs[j] = top + Math.log(sum)
    all += sum
    open += o
    come += c
  }
  return { places: logs, short: top + Math.log(all), tripped: top + Math.log(open), flicker: top + Math.log(come) }
}

/** A belief never changes, so what follows from it is reckoned once. */
interface Derived {
  shares?: Shared
  readonly weighed: Map<number, Weighed>
}
const derived = new WeakMap<Belief, Derived>()
const derivedOf = (belief: Belief): Derived => {
  const known = derived.get(belief) ?? { weighed: new Map() }
  derived.set(belief, known)
  return known
}
const weighedOf = (belief: Belief, b: number): Weighed => {
  const { weighed } = derivedOf(belief)
  const known = weighed.get(b) ?? weighPlaces(belief, b)
  weighed.set(b, known)
  return known
}

/** Log weight of each place of a branch, whatever becomes of its device and whether it comes and goes. */
export const placeLogs = (belief: Belief, b: number): Float64Array => weighedOf(belief, b).places

const share = (belief: Belief): Shared => {
  const allSound = allSoundOf(belief)
  const branches = belief.branches.map((_, b) => weighedOf(belief, b))
  const open = belief.branches.map(x => x.deviceOpen + allSound)
  const suspected = belief.suspected.map(v => v + allSound)
  const [supplyDead, noMains, other] = [belief.supplyDead + allSound, belief.noMains + allSound, belief.other + allSound]
  const logs = [...suspected, ...branches.map(x => x.short), ...open, supplyDead, noMains, other]
  const top = Math.max(...logs)
  const evidence = top + Math.log(logs.reduce((sum, v) => sum + Math.exp(v - top), 0))
  const of = (v: number) => Math.exp(v - evidence)
  return {
    short: Float64Array.from(branches, x => of(x.short)),
    tripped: Float64Array.from(branches, x => of(x.tripped)),
    flicker: Float64Array.from(branches, x => of(x.flicker)),
    deviceOpen: Float64Array.from(open, of),
    supplyDead: of(supplyDead),
    noMains: of(noMains),
    other: of(other),
    suspected: suspected.map(of),
    evidence,
  }
}

/** How the weights stand. */
export const shares = (belief: Belief): Shared => {
  const known = derivedOf(belief)
  known.shares ??= share(belief)
  return known.shares
}

/** Chance of a short circuit that live conductors may feed from which on it counts as suspected (a bar of the project's own). */
const SUSPECTED = 0.2
/** Is a short circuit suspected in one of these branches? What comes and goes may be back at any moment, whatever the readings said. */
export const shortSuspected = (belief: Belief, branches: readonly PlantBranch[], { short, tripped } = shares(belief)): boolean => {
  const held = branches.reduce((sum, { index }) => sum + (short[index] as number) - (tripped[index] as number), 0)
  return belief.symptom === 'comes-and-goes' || held > SUSPECTED
}

/** Per branch, how likely the fault is there, whatever it is. */
export const branchShares = (belief: Belief): Float64Array => {
  const s = shares(belief)
  const sum = s.short.map((x, b) => x + (s.deviceOpen[b] as number))
  belief.suspicions.forEach((x, i) => {
    if (x.branch !== undefined) sum[x.branch] = (sum[x.branch] as number) + (s.suspected[i] as number)
  })
  return sum
}
