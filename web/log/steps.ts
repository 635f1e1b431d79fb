// A session answer by answer, with what was believed before and after each. Nothing is played again: a session knows the one before it.
import type { Believed, Entry, Session, SessionEvent } from '../flow/request.ts'
import { beforeOf } from '../flow/session.ts'
import { answersIn } from './standing.ts'

export interface Step<E> {
  readonly before: Session
  readonly after: Session
  readonly entry: Entry
  readonly stored: E
}

/** Every answer that stands, in order. `events` are the session's own, as they are stored. */
export const stepsOf = <E extends { readonly event: SessionEvent }>(session: Session, events: readonly E[]): readonly Step<E>[] => {
  const answers = answersIn(events)
  const steps: Step<E>[] = []
  for (let after = session, before = beforeOf(after); before; after = before, before = beforeOf(after)) {
    const i = before.entries.length
    const [entry, stored] = [after.entries[i], answers[i]]
    if (entry && stored) steps.unshift({ before, after, entry, stored })
  }
  return steps
}

/** Branches that a belief is shown and kept with. */
const MOST = 4
/** The likeliest branches before or after a step, of 1. */
export const moved = ({ before, after }: Pick<Step<unknown>, 'before' | 'after'>): Believed['branches'] => {
  const was = new Map(before.belief.map(({ branch, p }) => [branch, p]))
  return after.belief
    .map(({ branch, p }) => ({ branch, before: was.get(branch) ?? 0, after: p }))
    .sort((a, b) => Math.max(b.after, b.before) - Math.max(a.after, a.before))
    .slice(0, MOST)
}

/** Three digits: more than a belief is worth. */
const kept = (p: number): number => Math.round(p * 1000) / 1000
/** For the record: the answers that moved something, and what. */
export const believedIn = (session: Session, events: readonly { readonly seq: number; readonly event: SessionEvent }[]): Believed[] =>
  stepsOf(session, events).flatMap(step => {
    const branches = moved(step).map(({ branch, before, after }) => ({ branch, before: kept(before), after: kept(after) }))
    return branches.some(({ before, after }) => before !== after) ? [{ seq: step.stored.seq, branches }] : []
  })
