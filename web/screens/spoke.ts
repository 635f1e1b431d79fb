import type { Session } from '../flow/request.ts'
import { advance, begin } from '../flow/session.ts'

/** One answer and what it did to a branch's share. */
export interface Spoke {
  /** Its place among the session's entries. */
  readonly entry: number
  readonly before: number
  readonly after: number
}
/** A share must change by this factor to count as spoken for or against (a bar of the project's own). */
const MOVED = 1.15
/** Shares below this are as good as none. */
const LEAST = 0.005

/** What each answer that stands did to each branch's share: those that moved it. The session is told again from its start. */
export const spokeOf = (session: Session): ReadonlyMap<string, readonly Spoke[]> => {
  const [started, ...rest] = session.events
  const found = new Map<string, Spoke[]>(session.machine.branches.map(({ id }) => [id, []]))
  if (started?.type !== 'started') return found
  let now = begin(started)
  const beliefs = [now.belief]
  for (const event of rest) {
    now = advance(now, event)
    beliefs.length = Math.min(beliefs.length, now.entries.length)
    if (now.entries.length > 0) beliefs[now.entries.length] = now.belief
    beliefs[0] ??= now.belief
  }
  for (const [entry] of now.entries.entries())
    for (const { branch, p: after } of beliefs[entry + 1] ?? []) {
      const before = beliefs[entry]?.find(b => b.branch === branch)?.p ?? after
      if (Math.max(before, after) >= LEAST && (after > before * MOVED || before > after * MOVED))
        found.get(branch)?.push({ entry, before, after })
    }
  return found
}
