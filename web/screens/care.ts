// Which steps want a word of care on their own screen. Acts that bring voltage back have a confirmation before them instead.
import type { Step } from '../../engine/step.ts'
import type { Power } from '../flow/request.ts'

export type Care = 'live' | 'hot' | 'motion' | 'look'

/** In the cabinet and dead, a step wants none. */
export const careOf = (step: Step, power: Power): Care | undefined => {
  if (step.kind === 'finding') return step.finding.branch === undefined ? undefined : 'look'
  if (step.kind === 'act') return step.act.act === 'run' || step.act.act === 'load' ? 'hot' : undefined
  if (step.kind === 'look') return undefined
  if (power === 'live') return 'live'
  return step.meter !== 'amp' && (step.red.includes('/') || step.black.includes('/')) ? 'motion' : undefined
}
