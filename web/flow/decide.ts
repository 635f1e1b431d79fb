// What to ask for next. The engine says what is worth asking, the repair says what comes after a finding, the rules say what may be.

import { shares } from '../../engine/belief.ts'
import { choose } from '../../engine/choose.ts'
import { costOf } from '../../engine/cost.ts'
import type { Why } from '../../engine/plan.ts'
import type { Step } from '../../engine/step.ts'
import { keyOf, toCutOff, toDead, toRestored } from '../../engine/way.ts'
import { type Hunt, NOTHING, powerOf } from './hunt.ts'
import type { CautionId, Request, Stage } from './request.ts'
import { broken, cautionFor, type Guarded } from './safety.ts'

const state = (h: Hunt) => ({ positions: h.positions, power: powerOf(h), zeroed: h.zeroed })

/** Voltage reaches a short circuit that is still suspected: behind a closed device, with nothing found and mended yet. */
export const suspected = (h: Hunt): boolean => {
  if (h.mended) return false
  const s = shares(h.belief)
  return h.plant.branches.reduce((sum, b) => sum + (h.positions.devices[b.id] === 'closed' ? (s.short[b.index] as number) : 0), 0) > 0.2
}

export const guarded = (h: Hunt): Guarded => ({
  plant: h.plant,
  positions: h.positions,
  power: powerOf(h),
  energised: h.energised,
  liveSeconds: h.liveSeconds,
  suspected: suspected(h),
  covered: h.covered,
})

const becauseOf = (key: string, facts: Why['facts'] = {}): Why => ({ key, facts })

/** Why an act on the way is needed, whatever it leads to. */
const whyOf = (h: Hunt, step: Step, goal: Why): Why => {
  if (step.kind !== 'act') return goal
  switch (step.act.act) {
    case 'supply':
      return step.act.to === 'off' ? becauseOf('supply-off-first') : becauseOf('switch-on')
    case 'prove-dead':
      return becauseOf(
        h.entries.some(e => e.request.say === 'step' && e.request.step.kind === 'act' && e.request.step.act.act === 'prove-dead')
          ? 'prove-dead-again'
          : 'prove-dead-first',
      )
    case 'device':
      return h.finding === undefined
        ? goal.key === 'group'
          ? goal
          : becauseOf('device-past', { branch: step.act.branch })
        : becauseOf('put-back')
    case 'inject':
      return step.act.to === 'on' ? goal : becauseOf('put-back')
    default:
      return h.mended ? becauseOf('put-back') : goal
  }
}

/** Steps from a confirmed finding to a machine that runs again; empty once a mend, or nothing at all, is due. */
const repair = (h: Hunt): { steps: readonly Step[]; why: Why } | 'mend' => {
  const branch = h.finding?.branch
  const place = branch ?? 'bus'
  if (!h.mended) {
    const steps = toDead(state(h))
    return steps.length > 0 ? { steps, why: becauseOf('put-back') } : 'mend'
  }
  if (!h.checked)
    return {
      steps: [
        ...toCutOff(state(h), branch === undefined ? [] : [branch]),
        { kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` },
      ],
      why: becauseOf('check-mend', { branch: branch ?? '' }),
    }
  if (h.positions.supply === 'off')
    return { steps: [...toRestored(state(h), h.found), { kind: 'act', act: { act: 'supply', to: 'on' } }], why: becauseOf('put-back') }
  if (!h.lampSeen) return { steps: [{ kind: 'look', look: 'supply-lamp' }], why: becauseOf('prove-restored') }
  return { steps: [{ kind: 'read', meter: 'volt', red: `${place}.plus`, black: `${place}.zero` }], why: becauseOf('prove-restored') }
}

const stageOf = (h: Hunt, step: Step): Stage => {
  if (h.finding !== undefined) return !h.mended ? 'mending' : !h.checked ? 'checking' : 'restoring'
  if (step.kind === 'act' && (step.act.act === 'prove-dead' || step.act.act === 'supply')) return 'provingDead'
  if (step.kind === 'look' && step.look !== 'device') return 'checkingSupply'
  const inBranch =
    step.kind === 'finding' ||
    (step.kind === 'act' && ['inject', 'run', 'load', 'zero-leads'].includes(step.act.act)) ||
    (step.kind === 'read' && (step.meter === 'amp' || step.red.includes('/') || h.positions.injector !== undefined))
  return inBranch ? 'locating' : 'narrowing'
}

const ask = (h: Hunt, n: number, step: Step, goal: Why): Hunt => {
  const why = whyOf(h, step, goal)
  return { ...h, why: goal, stage: stageOf(h, step), request: { say: 'step', n, seconds: costOf(h.plant, step), step, why } }
}

const end = (h: Hunt, n: number): Hunt => {
  const request: Request = {
    say: 'end',
    n,
    result: h.result ?? 'handed-over',
    seconds: h.seconds,
    ...(h.lastCaution === undefined ? {} : { caution: h.lastCaution }),
  }
  return { ...h, stage: 'closing', request }
}

const confirm = (h: Hunt, n: number, caution: CautionId, acts: readonly Step[], stage: Stage): Hunt => ({
  ...h,
  stage,
  request: { say: 'confirm', n, caution, acts },
})

/** The hunt with its next request. What a rule forbids is never asked for: the circuit is made dead instead. */
export const decide = (h: Hunt): Hunt => {
  const n = h.entries.length + 1
  if (h.result !== undefined) return end(h, n)
  if (!h.briefed) return confirm(h, n, 'before-work', [], 'briefing')
  if (h.stays > 0 && !h.warned) return confirm(h, n, 'voltage-stays', [], 'provingDead')
  let ahead = h.ahead
  let goal = h.why
  if (h.finding !== undefined) {
    const todo = repair(h)
    if (todo === 'mend') return { ...h, stage: 'mending', request: { say: 'mend', n, finding: h.finding } }
    ahead = todo.steps
    goal = todo.why
  } else if (ahead.length === 0) {
    const plan = choose(h.belief, { ...state(h), setAside: h.setAside, taken: h.taken })
    if (plan === undefined) return end({ ...h, result: 'handed-over' }, n)
    ahead = plan.steps
    goal = plan.why
  }
  const [step] = ahead
  if (step === undefined) return end({ ...h, result: 'handed-over' }, n)
  const next: Hunt = { ...h, ahead, why: goal }
  const caution = cautionFor(guarded(h), step)
  if (caution !== undefined && !h.covered.has(keyOf(step))) {
    // One confirmation covers the acts of the same kind that stand in this plan.
    return confirm(
      next,
      n,
      caution,
      ahead.filter(x => cautionFor(guarded(h), x) === caution),
      stageOf(h, step),
    )
  }
  return ask(next, n, step, goal)
}

/** Which rule the present request breaks, if any. */
export const breach = (h: Hunt) => (h.request.say === 'step' ? broken(guarded(h), h.request.step, keyOf(h.request.step)) : undefined)

/** The nearest safe thing instead: make the circuit dead, or hand over where even that is done already. */
export const makeSafe = (h: Hunt): Hunt => {
  const n = h.entries.length + 1
  const [step] = toDead(state(h))
  if (step === undefined) return end({ ...h, ahead: [], result: 'handed-over' }, n)
  return ask({ ...h, ahead: [step] }, n, step, NOTHING)
}
