import type { SessionEvent } from '../flow/request.ts'
import { standing } from './standing.ts'

type Closed = Extract<SessionEvent, { readonly type: 'closed' }>

/** The latest closing form that was not taken back. */
export const closedForm = (events: readonly { readonly event: SessionEvent }[]): Closed | undefined => {
  const form = standing(events).findLast(({ event }) => event.type === 'closed')?.event
  return form?.type === 'closed' ? form : undefined
}

/** What it says in a line of the list. */
export const closing = (events: readonly { readonly event: SessionEvent }[]): Partial<Pick<Closed, 'branch' | 'wrong'>> => {
  const form = closedForm(events)
  return form ? { branch: form.branch, wrong: form.wrong } : {}
}
