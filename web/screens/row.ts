// The devices stand side by side in the cabinet: the procedure asks for each by itself, an eye takes in the row.
import type { Session, SessionEvent } from '../flow/request.ts'
import { answerTo } from '../flow/session.ts'

/** The branches whose device stands closed as far as is known, in the cabinet's order. */
export const rowOf = ({ machine, positions }: Session): readonly string[] =>
  machine.branches
    .filter(({ id, protection }) => protection?.kind !== 'none' && (positions.devices[id] ?? 'closed') === 'closed')
    .map(({ id }) => id)

/**
 * What one look along the row answers: each device of it that is asked for is closed, up to the one that has tripped, if one has. Gives the
 * answer to the session's present request, and nothing where that is no look at a device of the row or was answered before.
 */
export const lookAlong = (row: readonly string[], tripped?: string): ((now: Session) => SessionEvent | undefined) => {
  const seen = new Set<string>()
  return now => {
    const { request } = now
    if (request.say !== 'step' || request.step.kind !== 'look' || request.step.look !== 'device') return undefined
    const { branch } = request.step
    if (!row.includes(branch) || seen.has(branch) || (tripped !== undefined && seen.has(tripped))) return undefined
    seen.add(branch)
    return answerTo(now, { seen: branch === tripped ? 'tripped' : 'closed' })
  }
}
