// One branch's device as far as it is known: its band, and what is missing for a better one.
import { breakerGates } from './breaker.ts'
import { carriesItsRating, fuseGates } from './fuse.ts'
import { type Band, bandWithin, type Gate } from './gate.ts'
import type { Protection } from './machine.ts'

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

const gatesOf = ({ kind, curve, standard, fuse }: Protection): { gates: readonly Gate[]; missing: readonly Missing[] } => {
  if (kind === 'breaker') {
    const gates = breakerGates(curve, standard)
    if (curve === undefined) return { gates, missing: ['characteristic'] }
    return { gates, missing: standard === 'IEC 60947-2' ? ['declared magnetic value'] : [] }
  }
  if (kind === 'electronic') return { gates: [], missing: ['data sheet'] }
  if (fuse === undefined) return { gates: [carriesItsRating], missing: ['kind of fuse'] }
  return { gates: fuse === 'UL' ? fuseGates('UL') : [carriesItsRating, ...fuseGates(fuse)], missing: [] }
}

/** A device as it behaves within `seconds`. Its own data sheet goes before any standard. */
export const deviceOf = (protection: Protection | undefined, seconds: number): Device => {
  if (protection === undefined) return { band: NOTHING, fromMemory: NOTHING, missing: ['device'] }
  if (protection.kind === 'none') return { band: NO_DEVICE, fromMemory: NO_DEVICE, missing: [] }
  const { rating, dataSheet } = protection
  if (dataSheet !== undefined) {
    const opens = dataSheet.seconds <= seconds ? dataSheet.opens : Infinity
    const band = { holds: dataSheet.carries, opens, seconds: dataSheet.seconds, sources: ['the device’s data sheet'] }
    return { band, fromMemory: band, missing: opens === Infinity ? ['data sheet'] : [] }
  }
  if (rating === undefined) return { band: NOTHING, fromMemory: NOTHING, missing: ['rating'] }
  const { gates, missing } = gatesOf(protection)
  const confirmed = gates.filter(g => g.confirmed)
  const band = bandWithin(confirmed, rating, seconds)
  const unsure = band.opens === Infinity && missing.length === 0 ? (['confirmed figure'] as const) : []
  return { band, fromMemory: bandWithin(gates, rating, seconds), missing: [...missing, ...unsure] }
}
