// The times that maintenance counts, from the stamps of the events alone.
import type { FaultRecord } from '../flow/request.ts'
import type { Stamp } from './log.ts'

/** Seconds. What each means is told on the screens, by IEC 60050-192. */
export interface Times {
  readonly down?: number
  /** Down time counts from when the machine was said to be down, not from the session's start. */
  readonly downIsTold?: true
  readonly diagnosis?: number
  readonly correction?: number
  readonly checkOut?: number
  /** The phone's two clocks disagree somewhere: it slept, was restarted, or was set. */
  readonly doubtful?: true
}

/** Both clocks run alike to within this; past it one of them jumped or paused. */
const MOST_APART = 2000

/**
 * Seconds from the first event to each. Within one start of the page the monotonic clock counts, unless the phone slept: then the
 * wall clock went on alone. A wall clock that was set back never makes a time negative.
 */
export const elapsed = (stamps: readonly Stamp[]): { readonly seconds: readonly number[]; readonly doubtful: boolean } => {
  let total = 0
  let doubtful = false
  const seconds = stamps.map((now, i) => {
    const before = stamps[i - 1]
    if (before === undefined) return 0
    const wall = Date.parse(now.wall) - Date.parse(before.wall)
    const mono = now.boot === before.boot ? now.mono - before.mono : undefined
    const agree = mono !== undefined && mono >= 0 && Math.abs(wall - mono) <= MOST_APART
    if (wall < 0 || (mono !== undefined && !agree)) doubtful = true
    total += agree ? mono : Math.max(0, wall, mono ?? 0)
    return total / 1000
  })
  return { seconds, doubtful }
}

export type Marks = Pick<FaultRecord, 'located' | 'corrected' | 'restored' | 'downSince'>
interface Numbered extends Stamp {
  readonly seq: number
}

/** `marks` are the numbers of the events that found the place, said it was mended, and proved the 24 V. */
export const timesOf = (events: readonly Numbered[], { located, corrected, restored, downSince }: Marks): Times => {
  const { seconds, doubtful } = elapsed(events)
  const at = (seq: number | undefined): number | undefined => (seq === undefined ? undefined : seconds[seq - 1])
  const between = (from: number | undefined, to: number | undefined): number | undefined =>
    from === undefined || to === undefined || to < from ? undefined : to - from
  const first = events[0]
  const before = first && downSince !== undefined ? (Date.parse(first.wall) - Date.parse(downSince)) / 1000 : undefined
  const [place, mended, proved] = [at(located), at(corrected), at(restored)]
  const isTold = before !== undefined && before >= 0
  const down = proved === undefined ? undefined : proved + (isTold ? before : 0)
  const [correction, checkOut] = [between(place, mended), between(mended, proved)]
  return {
    ...(down === undefined ? {} : { down }),
    ...(down !== undefined && isTold ? { downIsTold: true } : {}),
    ...(place === undefined ? {} : { diagnosis: place }),
    ...(correction === undefined ? {} : { correction }),
    ...(checkOut === undefined ? {} : { checkOut }),
    ...(doubtful ? { doubtful: true } : {}),
  }
}
