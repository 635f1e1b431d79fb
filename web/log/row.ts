// One answered step as a line of the table, in the words of the machine: ids and points, as they stand on its labels and in its file.
import type { Answer, Finding, Step } from '../../engine/step.ts'
import type { Entry, Request } from '../flow/request.ts'
import type { StoredEvent } from './log.ts'

export const COLUMNS = ['seq', 'wall', 'stage', 'kind', 'what', 'value', 'unit', 'seconds', 'remark'] as const
export type Row = readonly (string | number | undefined)[]

/** `stored` is the event that holds the answer. `seconds` is what the step costs by the table, not what it took. */
export const rowOf = ({ request, answer, stage }: Entry, stored: StoredEvent | undefined): Row => {
  const [value, remark] = valueAndRemark(answer)
  const seconds = request.say === 'step' ? request.seconds : undefined
  return [stored?.seq, stored?.wall, stage, kindOf(request), whatOf(request), value, unitOf(request, answer), seconds, remark]
}

const kindOf = (request: Request): string => (request.say === 'step' ? request.step.kind : request.say)

export const whatOf = (request: Request): string => {
  switch (request.say) {
    case 'step':
      return stepWords(request.step)
    case 'confirm':
      return request.caution
    case 'mend':
      return findingWords(request.finding)
    case 'end':
      return request.result
  }
}

const stepWords = (step: Step): string => {
  switch (step.kind) {
    case 'act': {
      const { act } = step
      const named = 'branch' in act ? [act.branch] : []
      const part = act.act === 'load' ? [act.load] : act.act === 'run' ? [act.run] : []
      const into = act.act === 'inject' && act.into ? [`into-${act.into}`] : []
      return [act.act, ...named, ...part, ...('to' in act ? [act.to] : []), ...into].join(' ')
    }
    case 'look':
      return step.look === 'device' ? `device ${step.branch}` : step.look
    case 'read':
      return step.meter === 'amp' ? `amp ${step.branch}` : `${step.meter} ${step.red} ${step.black}`
    case 'finding':
      return findingWords(step.finding)
  }
}

/** The stretch is in metres from the run's own near end. */
const findingWords = ({ fault, branch, run, load, alongRun }: Finding): string => {
  const stretch = alongRun && `${alongRun.low.toFixed(1)}..${alongRun.high.toFixed(1)} m`
  return [fault, branch, run, load, stretch].filter(word => word !== undefined).join(' ')
}

/** The value, and what else was said about it. */
const valueAndRemark = (answer: Answer): readonly [string | number, string] => {
  if ('done' in answer) return ['done', '']
  if ('cannot' in answer) return ['cannot', answer.cannot]
  if ('volts' in answer) return [answer.volts, answer.ac ? 'ac' : '']
  if ('seen' in answer) return [answer.seen, '']
  if ('confirmed' in answer) return [answer.confirmed ? 'confirmed' : 'not-confirmed', '']
  return [answer.value, [answer.unsteady ? 'unsteady' : '', answer.ac ? 'ac' : ''].filter(word => word !== '').join(' ')]
}

const UNITS = { volt: 'V', amp: 'A', ohm: 'Ω' } as const
const unitOf = (request: Request, answer: Answer): string => {
  if ('volts' in answer) return 'V'
  if (!('value' in answer) || request.say !== 'step') return ''
  return request.step.kind === 'read' ? UNITS[request.step.meter] : 'Ω' // besides readings, only zeroing the leads gives a value
}
