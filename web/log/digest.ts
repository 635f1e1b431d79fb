// Takes the facts of sessions that nobody has looked at yet, one after the other, so that the screen stays alive meanwhile.
import type { Session } from '../flow/request.ts'
import { replay } from '../flow/session.ts'
import { closedForm } from './closing.ts'
import { factsOf } from './facts.ts'
import { type Facts, type Log, originOf, type SessionSummary, type StoredEvent } from './log.ts'
import { write } from './written.ts'

/** The events played again; nothing where this version's procedure asks otherwise than the one that wrote them. */
export const playedAgain = (events: readonly StoredEvent[]): Session | undefined => {
  try {
    return replay(events.map(({ event }) => event))
  } catch {
    return undefined
  }
}

/** The record tells all that playing again would, but for the names of steps that could not be done. */
const isTold = (events: readonly StoredEvent[]): boolean => {
  const { found, located, restored } = closedForm(events)?.record ?? {}
  const refused = events.some(({ event }) => event.type === 'answered' && 'cannot' in event.answer)
  return found !== undefined && located !== undefined && restored !== undefined && !refused
}
/** Playing again takes a good while, so it is left out where it would add nothing. */
export const digested = (events: readonly StoredEvent[]): Facts => factsOf(events, isTold(events) ? undefined : playedAgain(events))

export const digestOne = async (log: Log, id: string): Promise<void> => {
  const events = await log.events(id)
  await log.saveFacts(id, digested(events), write(originOf(id), events))
}

const breath = (): Promise<void> => new Promise(next => setTimeout(next, 0))

/** `tell` hears how many are still to come; it stops the work by giving false. */
export const digest = async (log: Log, sessions: readonly SessionSummary[], tell: (left: number) => boolean): Promise<void> => {
  const missing = sessions.filter(({ facts }) => facts === undefined)
  for (const [i, { id }] of missing.entries()) {
    if (!tell(missing.length - i)) return
    await digestOne(log, id)
    await breath()
  }
  tell(0)
}
