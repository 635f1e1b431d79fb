import type { SessionEvent } from '../flow/request.ts'

/** The events that no `undone` has taken back, in order. Each `undone` takes back the latest that still stands, but never the start. */
export const standing = <E extends { readonly event: SessionEvent }>(events: readonly E[]): readonly E[] => {
  const kept: E[] = []
  for (const stored of events) {
    // That a session was taken up again is nothing that could be taken back.
    if (stored.event.type === 'resumed') continue
    if (stored.event.type !== 'undone') kept.push(stored)
    else if (kept.length > 1) kept.pop()
  }
  return kept
}

/** The events that answered something and still stand, in order: they belong to the session's entries one by one. */
export const answersIn = <E extends { readonly event: SessionEvent }>(events: readonly E[]): readonly E[] =>
  standing(events).filter(({ event }) => event.type === 'answered')
