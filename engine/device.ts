// One branch's device as far as it is known: its band, and what is missing for a better one.
import { type BreakerStandard, breakerGates } from './breaker.ts'
import { carriesItsRating, type FuseKind, fuseGates } from './fuse.ts'
import { type Band, bandWithin, type Gate } from './gate.ts'
import type { Protection } from './machine.ts'

/** From a device's own data sheet: carries up to `carries` A, opens from `opens` A on within `seconds`. */
export interface DataSheet {
  readonly carries: number
  readonly opens: number
  readonly seconds: number
}
/** A load's in-rush from its data sheet: its peak in A at 24 V, and the time constant in s with which it dies away. */
export interface InRush {
  readonly peak: number
  readonly seconds: number
}
/** What no machine file holds and somebody may know. */
export interface Known {
  /** What the supply gives above its limit, and for how long: A, s. */
  readonly reserve?: { readonly current: number; readonly seconds: number }
  /** Seconds for which a supply that pulses or latches off gives its limit first. */
  readonly holds?: number
  readonly breakers?: BreakerStandard
  readonly fuses?: FuseKind
  /** By branch id. */
  readonly devices?: Readonly<Record<string, DataSheet>>
  /** By `branch/load`. */
  readonly inRush?: Readonly<Record<string, InRush>>
}

/** A figure that is not known and would decide. */
export type Missing =
  | 'device'
  | 'rating'
  | 'characteristic'
  | 'declared magnetic value'
  | 'kind of fuse'
  | 'data sheet'
  | 'confirmed figure'
  | 'wiring'
  | 'conductor'
  | 'supply limit'
  | 'supply behaviour'
  | 'load of other branches'

export interface Device {
  readonly band: Band
  /** The band if figures from memory were right; the same where there are none. */
  readonly fromMemory: Band
  readonly missing: readonly Missing[]
}

const NOTHING: Band = { holds: 0, opens: Infinity, seconds: Infinity, sources: [] }
const NO_DEVICE: Band = { holds: Infinity, opens: Infinity, seconds: Infinity, sources: [] }

const gatesOf = (protection: Protection, known: Known): { gates: readonly Gate[]; missing: readonly Missing[] } => {
  if (protection.kind === 'breaker') {
    const gates = breakerGates(protection.curve, known.breakers)
    if (protection.curve === undefined) return { gates, missing: ['characteristic'] }
    return { gates, missing: known.breakers === 'IEC 60947-2' ? ['declared magnetic value'] : [] }
  }
  if (protection.kind === 'electronic') return { gates: [], missing: ['data sheet'] }
  if (known.fuses === undefined) return { gates: [carriesItsRating], missing: ['kind of fuse'] }
  return { gates: known.fuses === 'UL' ? fuseGates('UL') : [carriesItsRating, ...fuseGates(known.fuses)], missing: [] }
}

/** The device of a branch, as it behaves within `seconds`. */
export const deviceOf = (branch: string, protection: Protection | undefined, known: Known, seconds: number): Device => {
  const sheet = known.devices?.[branch]
  if (sheet !== undefined) {
    const opens = sheet.seconds <= seconds ? sheet.opens : Infinity
    const band = { holds: sheet.carries, opens, seconds: sheet.seconds, sources: ['the device’s data sheet'] }
    return { band, fromMemory: band, missing: opens === Infinity ? ['data sheet'] : [] }
  }
  if (protection === undefined) return { band: NOTHING, fromMemory: NOTHING, missing: ['device'] }
  if (protection.kind === 'none') return { band: NO_DEVICE, fromMemory: NO_DEVICE, missing: [] }
  const { rating } = protection
  if (rating === undefined) return { band: NOTHING, fromMemory: NOTHING, missing: ['rating'] }
  const { gates, missing } = gatesOf(protection, known)
  const confirmed = gates.filter(g => g.confirmed)
  const band = bandWithin(confirmed, rating, seconds)
  const unsure = band.opens === Infinity && missing.length === 0 ? (['confirmed figure'] as const) : []
  return { band, fromMemory: bandWithin(gates, rating, seconds), missing: [...missing, ...unsure] }
}
