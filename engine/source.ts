// The machine's own supply as the source of a test current: what must be so before that is thought of.
import { areaOf, capacityOf } from './capacity.ts'
import type { Conductor, Supply } from './machine.ts'

/** A plain no, as a key: its words stand elsewhere. */
export type SourceRefusal =
  /** Pulses, or nothing at all, are no current to measure with; and what is not known is not counted on. */
  | 'not-constant-current'
  /** The limit is above what the conductor carries for good, or the device is rated for. */
  | 'over-conductor'
  | 'over-device'
  /** One of the two is not known. */
  | 'rating-not-known'

/** Air about the cables of a machine, °C (common practice, no source). */
const AIR = 40

/**
 * May the supply feed the short circuit by its own current limit, for as long as a reading takes? Only a constant current, and no
 * more than conductor and device are rated for: then neither is harmed and the device stays closed. `limit.current` in A, `rating`
 * of the device in A.
 */
export const supplyRefused = (
  { mode, current }: NonNullable<Supply['limit']>,
  conductor: Conductor | undefined,
  rating: number | undefined,
): SourceRefusal | undefined => {
  if (mode !== 'constant-current' || current === undefined) return 'not-constant-current'
  const area = areaOf(conductor)
  const carries = area === undefined ? undefined : capacityOf(area, AIR)
  if (carries === undefined || rating === undefined) return 'rating-not-known'
  if (current > carries) return 'over-conductor'
  return current > rating ? 'over-device' : undefined
}
