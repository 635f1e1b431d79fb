import type { Session, SessionEvent } from '../flow/request.ts'
import { advance, answerTo } from '../flow/session.ts'

/** Devices that are due for the same look, one after the other as long as each is closed, and the answers that say so of all. */
export interface Row {
  readonly branches: readonly string[]
  readonly answers: readonly SessionEvent[]
}

/**
 * The looks that are due since voltage came back: the procedure asks for each by itself, an eye takes in the row. Reckoned at once: the
 * buttons must not move under the thumb.
 */
export const rowOf = (session: Session): Row => {
  const branches: string[] = []
  const answers: SessionEvent[] = []
  let now = session
  while (branches.length < session.machine.branches.length) {
    const { request } = now
    if (request.say !== 'step' || request.step.kind !== 'look' || request.step.look !== 'device') break
    if (request.why.key !== 'after-energising' || session.finding === undefined) break
    const answer = answerTo(now, { seen: 'closed' })
    branches.push(request.step.branch)
    answers.push(answer)
    now = advance(now, answer)
  }
  return { branches, answers }
}

/** Ids in the cabinet's order; three and more neighbours as the first and the last of them: 'B1, B2, B4–B12'. */
export const spans = (ids: readonly string[], all: readonly string[]): string => {
  const groups: string[][] = []
  for (const id of ids) {
    const last = groups.at(-1)
    if (last && all.indexOf(id) === all.indexOf(last.at(-1) ?? '') + 1) last.push(id)
    else groups.push([id])
  }
  return groups.map(group => (group.length > 2 ? `${group[0]}–${group.at(-1)}` : group.join(', '))).join(', ')
}
