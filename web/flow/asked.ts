// The question as the log keeps it, and back.
import { costOf } from '../../engine/cost.ts'
import type { Answer } from '../../engine/step.ts'
import type { Hunt } from './hunt.ts'
import type { Asked, Request, Session, SessionEvent } from './request.ts'

const askedOf = (request: Request): Asked | undefined => {
  switch (request.say) {
    case 'step':
      return request.step
    case 'confirm':
      return { kind: 'confirm', caution: request.caution, acts: request.acts }
    case 'mend':
      return { kind: 'mend', finding: request.finding }
    case 'end':
      return undefined
  }
}

/** The event that an answer to the session's request makes. */
export const answerTo = ({ request }: Session, answer: Answer): SessionEvent => {
  const asked = askedOf(request)
  return { type: 'answered', n: request.n, answer, ...(asked === undefined ? {} : { asked }) }
}

const requestOf = (h: Hunt, asked: Asked): Request => {
  const { n } = h.request
  switch (asked.kind) {
    case 'confirm':
      return { say: 'confirm', n, caution: asked.caution, acts: asked.acts }
    case 'mend':
      return { say: 'mend', n, finding: asked.finding }
    default:
      return { say: 'step', n, seconds: costOf(h.plant, asked), step: asked, why: { key: 'recorded', facts: {} } }
  }
}

const sorted = (_: string, x: unknown): unknown =>
  typeof x === 'object' && x !== null && !Array.isArray(x) ? Object.fromEntries(Object.entries(x).sort(([a], [b]) => (a < b ? -1 : 1))) : x
/** Fields that were in a file may stand in another order. */
const textOf = (asked: Asked | undefined): string => JSON.stringify(asked, sorted) ?? ''

/**
 * The hunt as it was when this was asked. Mostly that is what stands there now; where this version would ask for something else, the
 * log is right, and what was planned is dropped. Throws where the machine has no such branch.
 */
export const asAsked = (h: Hunt, asked: Asked | undefined): Hunt =>
  asked === undefined || textOf(askedOf(h.request)) === textOf(asked) ? h : { ...h, request: requestOf(h, asked), ahead: [] }
