import type { Step } from '../../engine/step.ts'
import type { Out, Wizard } from './wizard.ts'

/** What a script may ask: a step, a confirmation of acts, mending, the end. */
export type Line = Step | { readonly confirm: readonly Step[] } | 'mend' | 'end'

/** A wizard that reads its lines from a list and minds no answer. */
export const scripted = (lines: readonly Line[], answers: unknown[] = []): Wizard => {
  let n = 0
  const next = (): Out => {
    const line = lines[n++] ?? 'end'
    if (line === 'end') return { say: 'end', n, result: 'restored', seconds: 0 }
    if (line === 'mend') return { say: 'mend', n, finding: { fault: 'short', probability: 1 } }
    if ('confirm' in line) return { say: 'confirm', n, caution: 'voltage-may-return', acts: line.confirm }
    return { say: 'step', n, seconds: 0, step: line }
  }
  return {
    start: next,
    answer: answer => {
      answers.push(answer)
      return next()
    },
  }
}

// Short names for the lines of a script.
export const supply = (to: 'on' | 'off'): Step => ({ kind: 'act', act: { act: 'supply', to } })
export const device = (branch: string, to: 'open' | 'closed'): Step => ({ kind: 'act', act: { act: 'device', branch, to } })
export const load = (branch: string, id: string, to: 'unplugged' | 'plugged'): Step => ({
  kind: 'act',
  act: { act: 'load', branch, load: id, to },
})
export const run = (branch: string, id: string, to: 'opened' | 'joined'): Step => ({
  kind: 'act',
  act: { act: 'run', branch, run: id, to },
})
export const bus = (to: 'opened' | 'joined'): Step => ({ kind: 'act', act: { act: 'bus', to } })
export const bond = (to: 'opened' | 'joined'): Step => ({ kind: 'act', act: { act: 'bond', to } })
export const inject = (branch: string, to: 'on' | 'off'): Step => ({ kind: 'act', act: { act: 'inject', branch, to, into: 'zero' } })
export const proveDead: Step = { kind: 'act', act: { act: 'prove-dead' } }
export const zeroLeads: Step = { kind: 'act', act: { act: 'zero-leads' } }
export const lamp: Step = { kind: 'look', look: 'supply-lamp' }
export const ohm = (red: string, black: string): Step => ({ kind: 'read', meter: 'ohm', red, black })
export const volt = (red: string, black: string): Step => ({ kind: 'read', meter: 'volt', red, black })
export const amp = (branch: string): Step => ({ kind: 'read', meter: 'amp', branch })
