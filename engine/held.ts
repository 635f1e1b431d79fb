// What the machine's state as found says of a short circuit: the supply is held down by it, and its device did not open.
// A device that would have opened at once at the supply's limit cannot be the one, nor can a fault too far out to pull the
// voltage down so far. Costs no reading.
import { aheadOf, atTerminals } from './atBus.ts'
import type { Kit, Protection } from './machine.ts'
import type { Places } from './place.ts'
import { limitOf, type Plant, type PlantBranch, voltsOf } from './plant.ts'
import { asFound } from './positions.ts'
import { inService } from './sound.ts'
import type { Symptom } from './step.ts'

/** Between these times its rating a device opens at once, evenly likely where in between; direct current widens it upward by half. */
type Times = readonly [number, number]
/** Breakers by IEC 60898-1:2015 Table 2 (B, C, D); Z from memory; none known: B to C. The factor 1.5 for d.c.: common practice. */
const BREAKER: Readonly<Record<string, Times>> = { B: [3, 7.5], C: [5, 15], D: [10, 30], Z: [2, 4.5], unknown: [3, 15] }
/** A cartridge fuse within a tenth of a second; an electronic device by its current limit (common practice, no source). */
const FUSE: Times = [8, 15]
const ELECTRONIC: Times = [1.25, 2]

/** Where the machine is dead: contactors have let go, converters have stopped; V and the width of the doubt (common practice, no source). */
const DEAD_BELOW = 13
const DOUBT = 1.5
/** Chance that what the file says of devices and supply is not how the machine is (common practice, no source). */
const MISTOLD = 0.05

const timesOf = (p: Protection | undefined): Times | undefined => {
  if (p === undefined || p.kind === 'none') return undefined
  if (p.kind === 'fuse') return FUSE
  return p.kind === 'electronic' ? ELECTRONIC : BREAKER[p.curve ?? 'unknown']
}

/** Chance that the device stays closed at once at a current in A; 1 where nothing is told of it. */
const staysClosed = (p: Protection | undefined, ampere: number): number => {
  const times = timesOf(p)
  if (times === undefined || p?.rating === undefined) return 1
  const [low, high] = times
  return Math.min(1, Math.max(0, (high - ampere / p.rating) / (high - low)))
}

/** Per place of a branch, how well a short circuit there explains the symptom; all 1 where it says nothing of the supply's limit. */
export const heldDown = (plant: Plant, b: PlantBranch, places: Places, kit: Kit, symptom: Symptom): Float64Array => {
  const limit = limitOf(plant.machine)
  const low = symptom === 'all-low'
  if (limit === undefined || b.wiring.unknown || (symptom !== 'all-dead' && symptom !== 'dead-at-start' && !low))
    return new Float64Array(places.count).fill(1)
  const found = asFound(plant.branches.map(x => x.id))
  const set = voltsOf(plant.machine)
  const others = plant.branches.reduce((sum, x) => sum + (x === b ? 0 : inService(x, found).siemens), 0)
  const { protection } = plant.machine.branches[b.index] ?? {}
  return atTerminals(plant, b, places, found, kit).mean.map(ohm => {
    const own = ohm + aheadOf(b)
    const volts = Math.min(set, limit / (1 / own + others))
    const down = 1 / (1 + Math.exp((volts - DEAD_BELOW) / DOUBT))
    const explains = (low ? 1 - down : down) * staysClosed(protection, volts / own)
    return MISTOLD + (1 - MISTOLD) * explains
  })
}
