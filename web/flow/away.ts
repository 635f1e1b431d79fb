// A session that was left alone for long: what was proved dead then may be live now.
import type { Session, SessionEvent } from './request.ts'

/**
 * So long may nobody have answered before the circuit is proved dead once more, ms. Half an hour, about a break: a lock may have been
 * taken off meanwhile (common practice, no source; rules of the site may ask for it sooner).
 */
export const LONG_AWAY = 30 * 60_000

/** The event with which such a session is taken up again, or none. A clock that was set back tells nothing, so it counts as long. */
export const takenUp = ({ power, request }: Session, last: number, now: number): (SessionEvent & { type: 'resumed' }) | undefined => {
  const long = !Number.isFinite(last) || now - last > LONG_AWAY || now < last
  return power === 'provedDead' && request.say !== 'end' && long ? { type: 'resumed' } : undefined
}
