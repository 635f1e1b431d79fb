// Every kind of answer that a request can get, readings by bucket: a short circuit, sound loads, nothing, nonsense, danger.
import type { Answer } from '../../engine/step.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { advance, answerTo } from '../../web/flow/session.ts'

const CANNOT: Answer = { cannot: 'out of reach' }
const value = (...values: readonly number[]): Answer[] => values.map(v => ({ value: v }))
const seen = (...words: readonly ('steady' | 'blinking' | 'off' | 'on' | 'closed' | 'tripped' | 'open')[]): Answer[] =>
  words.map(word => ({ seen: word }))

export const answersTo = ({ request, positions }: Pick<Session, 'request' | 'positions'>): readonly Answer[] => {
  if (request.say === 'end') return []
  if (request.say !== 'step') return [{ done: true }, CANNOT]
  const { step } = request
  switch (step.kind) {
    case 'finding':
      return [{ confirmed: true }, { confirmed: false }, CANNOT]
    case 'look':
      if (step.look === 'supply-lamp') return [...seen('steady', 'blinking', 'off'), CANNOT]
      return [...(step.look === 'mains-lamp' ? seen('on', 'off') : seen('closed', 'tripped', 'open')), CANNOT]
    case 'read':
      if (step.meter === 'ohm') return [...value(0.8, 12), { value: 'OL' }, { value: 0.5, unsteady: true }, CANNOT]
      if (step.meter === 'amp') return [...value(1, 0), CANNOT]
      // A branch with a short circuit takes little of the injector's voltage, a sound one all of it.
      if (positions.injector !== undefined) return [...value(0.4, 0.02, 24, 70), CANNOT]
      return [...value(24, 12, 0.2, 70), { value: 0.1, unsteady: true }, { value: 18, ac: true }, { value: 30, ac: true }, CANNOT]
    case 'act':
      if (step.act.act === 'prove-dead') return [{ done: true }, { volts: 0.3 }, { volts: 23.8 }, { volts: 230 }, CANNOT]
      if (step.act.act === 'zero-leads') return [{ value: 0.2 }, CANNOT]
      return [{ done: true }, CANNOT]
  }
}

export const answer = (session: Session, given: Answer): Session => advance(session, answerTo(session, given))

/** What a hunt without a hitch is answered: all done, low ohms before the mend and sound ones after, 24 V, a steady lamp. */
const smooth = (session: Session): Answer => {
  const { request, finding } = session
  const [first, second] = answersTo(session)
  const isOhm = request.say === 'step' && request.step.kind === 'read' && request.step.meter === 'ohm'
  return (isOhm && finding !== undefined ? second : first) ?? { done: true }
}
const MOST = 100
export const smoothly = (session: Session, until: (request: Request, session: Session) => boolean): Session => {
  let at = session
  for (let i = 0; i < MOST && !until(at.request, at) && at.request.say !== 'end'; i++) at = answer(at, smooth(at))
  return at
}
