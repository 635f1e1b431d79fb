import type { Session } from '../../web/flow/request.ts'

const where = (point: string): string => {
  const place = point.slice(0, Math.max(0, point.lastIndexOf('.')))
  return point === 'earth' ? 'earth' : place.includes('/') ? 'field' : place === 'supply' || place === 'bus' ? place : 'terminals'
}

/** What sort of screen a session's present request makes: each sort is drawn and worded in a way of its own. */
export const kindOf = ({ request, positions, machine, fitsNothing }: Session): string => {
  if (fitsNothing) return 'fits nothing'
  if (request.say === 'confirm') return `confirm ${request.caution}`
  if (request.say === 'end') return `end ${request.result}${request.caution ? ` ${request.caution}` : ''}`
  const finding = request.say === 'mend' ? request.finding : request.step.kind === 'finding' ? request.step.finding : undefined
  if (finding) {
    const of = finding.load ? 'load' : finding.run ? 'run' : finding.branch ? 'branch' : 'supply'
    return `${request.say === 'mend' ? 'mend' : 'finding'} ${finding.fault} ${of}`
  }
  if (request.say !== 'step' || request.step.kind === 'finding') return request.say
  const { step } = request
  if (step.kind === 'look') return `look ${step.look}`
  const fed = positions.injector === undefined ? '' : ` fed into ${positions.injector.into ?? 'zero'}`
  if (step.kind === 'read') return `read ${step.meter}${step.meter === 'amp' ? '' : ` ${where(step.red)} ${where(step.black)}`}${fed}`
  const { act } = step
  const device = act.act === 'device' ? ` ${machine.branches.find(b => b.id === act.branch)?.protection?.kind ?? 'unknown'}` : ''
  return `act ${act.act}${device}${'to' in act ? ` ${act.to}` : ''}${act.act === 'inject' && act.into ? ` into ${act.into}` : ''}`
}
