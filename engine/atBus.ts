// What a reading at the bus shows of a short circuit in a branch whose device is closed: the branch as its terminals see it,
// behind its device, with all other loads beside it. As a row it shares the meter's errors with every other reading.

import type { Kit } from './machine.ts'
import { split } from './meter.ts'
import type { Places } from './place.ts'
import { CABINET, type Plant, type PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import {
  AT,
  EARTH,
  FAULT_OHM,
  FIRST_RUN,
  LEADS,
  LEADS_MEAN,
  OHM_GAIN,
  OHM_OFFSET,
  predictedFor,
  type Row,
  standOf,
  TEMPERATURE,
  VOLT_GAIN,
  ZEROING,
} from './reading.ts'
import type { Sound } from './sound.ts'

/** A device's own resistance is known to a tenth (common practice, no source). */
const DEVICE_SPREAD = 0.1
/** A supply's limit is known from its data sheet to 4 %, one standard deviation (common practice, no source). */
const LIMIT_SPREAD = 0.04

/** Rows at the terminals, kept per places and what is unplugged or opened behind them. */
const kept = new WeakMap<Places, Map<string, Row>>()
/** Ω at the terminals of a branch cut off from the bus, leads and zeroing left out, for every place of a short circuit in it. */
export const atTerminals = (plant: Plant, b: PlantBranch, places: Places, p: Positions, kit: Kit): Row => {
  const key = JSON.stringify([p.unplugged.filter(u => u.startsWith(`${b.id}/`)), p.openedRuns.filter(u => u.startsWith(`${b.id}/`))])
  const known = kept.get(places) ?? new Map<string, Row>()
  kept.set(places, known)
  const found = known.get(key)
  if (found !== undefined) return found
  const cutOff: Positions = { ...p, devices: { ...p.devices, [b.id]: 'open' } }
  const read = { kind: 'read', meter: 'ohm', red: `${b.id}.plus`, black: `${b.id}.zero` } as const
  const all = Int32Array.from({ length: places.count }, (_, i) => i)
  const row = predictedFor(standOf(plant, b, cutOff, kit), places, { read, positions: cutOff, zeroed: true }, all, 0)
  known.set(key, row)
  return row
}

/** Ω between the bus and a branch's terminals, its device closed. */
export const aheadOf = (b: PlantBranch): number => b.deviceOhm + CABINET.zeroLink

export interface AtBus {
  readonly plant: Plant
  readonly kit: Kit
  readonly branch: PlantBranch
  readonly places: Places
  readonly positions: Positions
  /** The other branches that the bus feeds, side by side. */
  readonly others: Sound
}

/** `ampere`: the supply's own limit, with voltage read; without it Ω are read. */
const rowOf = (x: AtBus, shown: number | 'OL', ampere: number | undefined, zeroed: boolean): Row => {
  const { plant, kit, branch, places } = x
  const own = atTerminals(plant, branch, places, x.positions, kit)
  const n = places.count
  const { dims, meter } = standOf(plant, branch, x.positions, kit)
  const mean = new Float64Array(n),
    fresh = new Float64Array(n),
    slope = new Float64Array(n * dims)
  const ahead = aheadOf(branch)
  const scale = ampere ?? 1
  for (let j = 0; j < n; j++) {
    const behind = (own.mean[j] as number) + ahead
    const ohm = 1 / (1 / behind + x.others.siemens)
    // How the whole moves with what lies behind the device: (whole/behind)², from 1/R = 1/behind + G.
    const passes = scale * (ohm / behind) ** 2
    const o = j * dims
    for (const d of [AT, FAULT_OHM, EARTH, TEMPERATURE]) slope[o + d] = passes * (own.slope[o + d] as number)
    for (let d = FIRST_RUN; d < dims; d++) slope[o + d] = passes * (own.slope[o + d] as number)
    const value = scale * ohm
    const beside = (passes * DEVICE_SPREAD * branch.deviceOhm) ** 2 + (scale * ohm * ohm * x.others.sd) ** 2
    if (ampere === undefined) {
      mean[j] = value + (zeroed ? 0 : LEADS_MEAN)
      slope[o + (zeroed ? ZEROING : LEADS)] = 1
      slope[o + OHM_OFFSET] = 1
      slope[o + OHM_GAIN] = mean[j] as number
      fresh[j] = split(meter, 'ohm', value).fresh ** 2 + (0.002 * value) ** 2 + beside
    } else {
      const volt = split(meter, 'volt', value)
      mean[j] = value
      slope[o + VOLT_GAIN] = value
      fresh[j] = volt.fresh ** 2 + volt.offset ** 2 + (LIMIT_SPREAD * value) ** 2 + beside
    }
  }
  return { mean, slope, fresh, hidden: own.hidden, shown }
}

/** Ω at the bus. */
export const ohmsAtBus = (x: AtBus, shown: number | 'OL', zeroed: boolean): Row => rowOf(x, shown, undefined, zeroed)

/** V at the bus while a short circuit holds a supply of constant current at its limit of `ampere`. */
export const voltsAtLimit = (x: AtBus, shown: number | 'OL', ampere: number): Row => rowOf(x, shown, ampere, true)
