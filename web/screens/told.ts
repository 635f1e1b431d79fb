import { word } from '../../content/shared/ids.ts'
import type { Entry, Request, Session } from '../flow/request.ts'
import { words } from '../words.ts'
import { placeOf } from './finding.tsx'
import { namesFor } from './names.ts'

/** What was asked, in a line. */
export const asked = (session: Session, request: Request): string => {
  const { cautions, findings, labels, steps } = words()
  if (request.say === 'confirm') return cautions[request.caution].title
  if (request.say === 'mend') return findings.mend(request.finding, placeOf(session, request.finding)).title
  if (request.say === 'end') return labels.results[request.result].title
  const { step } = request
  return step.kind === 'finding'
    ? findings.findingTitle(step.finding, placeOf(session, step.finding))
    : steps.stepTitle(step, namesFor(session, step))
}
const unitOf = (request: Request): string => {
  if (request.say !== 'step') return ''
  if (request.step.kind === 'read') return { volt: 'V', ohm: 'Ω', amp: 'A' }[request.step.meter]
  return 'Ω'
}
/** What was answered, in a line. */
export const answered = ({ request, answer }: Entry): string => {
  const { labels } = words()
  if (!('seen' in answer)) return labels.answerWords({ ...answer }, unitOf(request))
  return request.say === 'step' && request.step.kind === 'look' ? word(labels.seen[request.step.look], answer.seen) : answer.seen
}
