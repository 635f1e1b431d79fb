// What may be wrong, and how likely, in the light of all answers so far: single faults, branch by branch and place by place.
import { type Chain, emptyChain } from './chain.ts'
import { SHARES, type Shares } from './fault.ts'
import type { Kit } from './machine.ts'
import { census, type Places, placesOf } from './place.ts'
import type { Plant } from './plant.ts'
import { standOf } from './reading.ts'
import type { Symptom } from './step.ts'
import { type Suspicion, suspicionsOf } from './suspicion.ts'

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
  /** Single faults that are no short circuit, and their log weights. */
  readonly suspicions: readonly Suspicion[]
  readonly suspected: Float64Array
  /** Chance that the latest answer fits none of the faults. */
  readonly fitsNothing: number
}

/** The belief before anything is read. */
export const begin = (plant: Plant, kit: Kit, symptom: Symptom): Belief => {
  const shares: Shares = SHARES[symptom]
  const all = census(plant)
  const suspicions = suspicionsOf(plant, shares)
  const still = { supply: 'off', bus: 'joined', bond: 'joined', devices: {}, unplugged: [], openedRuns: [] } as const
  return {
    plant,
    kit,
    fitsNothing: 0,
    suspicions,
    suspected: Float64Array.from(suspicions, s => Math.log(s.prior)),
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

/** How the weights stand: everything of 1. */
export interface Shared {
  /** Per branch: short circuits, of them with the device opened by itself, and the device open with nothing else wrong. */
  readonly short: Float64Array
  readonly tripped: Float64Array
  readonly deviceOpen: Float64Array
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
  /** In the order of the belief's suspicions. */
  readonly suspected: Float64Array
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
  const suspected = belief.suspected.map(v => v + allSound)
  logs.push(...suspected, ...short, ...open, belief.supplyDead + allSound, belief.noMains + allSound, belief.other + allSound)
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

/** Per branch, how likely the fault is there, whatever it is. */
export const branchShares = (belief: Belief): Float64Array => {
  const s = shares(belief)
  const sum = s.short.map((x, b) => x + (s.deviceOpen[b] as number))
  belief.suspicions.forEach((x, i) => {
    if (x.branch !== undefined) sum[x.branch] = (sum[x.branch] as number) + (s.suspected[i] as number)
  })
  return sum
}
