// What a phone is found to be, for whoever looks after it: read once when it is asked for, nothing watched.
import { keep } from '../log/keep.ts'
import type { Log, SessionSummary, StoredEvent } from '../log/log.ts'

/** `undefined`: this browser does not tell. */
export interface PhoneFound {
  readonly offline: boolean | undefined
  readonly kept: boolean
  readonly used: number | undefined
  readonly room: number | undefined
  readonly sessions: number
  readonly unfinished: number
  readonly machines: number
  readonly photos: number
  readonly photoBytes: number
  /** Local time of the latest session's leaving as a file. */
  readonly exported: string | undefined
  readonly jumps: number
}

/** Sessions that are looked through for jumps of the clock: enough to see a clock that is wrong today. */
const LATEST = 50
/** Between two entries wall clock and page clock may part so far, ms: a clock that is set by the network is moved by less. */
const JUMP = 5_000

/** How often the wall clock moved otherwise than the page's own clock, which can only be told within one start of the page. */
export const jumpsIn = (events: readonly StoredEvent[]): number =>
  events.filter((event, i) => {
    const before = events[i - 1]
    if (before === undefined || before.boot !== event.boot) return false
    const wall = Date.parse(event.wall) - Date.parse(before.wall)
    // The page's clock may stand while the phone sleeps, so only a wall clock that went back or far ahead of any sleep tells.
    return wall < event.mono - before.mono - JUMP
  }).length

const exportedOf = (sessions: readonly SessionSummary[]): string | undefined =>
  sessions
    .flatMap(s => (s.exported === undefined ? [] : [s.exported]))
    .sort((a, b) => Date.parse(a) - Date.parse(b))
    .at(-1)

export const lookAtPhone = async (log: Log): Promise<PhoneFound> => {
  const sessions = await log.sessions()
  const events = await log.eventsOfMany(sessions.slice(0, LATEST).map(s => s.id))
  let photos = 0
  let photoBytes = 0
  // One after the other: a phone full of photos has no room for all of them at once.
  for (const { id } of sessions)
    for (const photo of await log.photos(id)) {
      photos++
      photoBytes += photo.bytes.byteLength
    }
  const estimate = await navigator.storage?.estimate?.().catch(() => undefined)
  const worker = await navigator.serviceWorker?.getRegistration().catch(() => undefined)
  return {
    offline: 'serviceWorker' in navigator ? worker?.active !== undefined && worker.active !== null : undefined,
    kept: await keep(),
    used: estimate?.usage,
    room: estimate?.quota,
    sessions: sessions.length,
    unfinished: sessions.filter(s => s.result === undefined).length,
    machines: (await log.machines()).filter(m => m.retired !== true).length,
    photos,
    photoBytes,
    exported: exportedOf(sessions),
    jumps: events.reduce((sum, one) => sum + jumpsIn(one), 0),
  }
}
