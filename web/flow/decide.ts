// What to ask for next. The engine says what is worth asking, the repair says what comes after a finding, the rules say what may be.
import { choose } from '../../engine/choose.ts'
import { costOf } from '../../engine/cost.ts'
import type { Why } from '../../engine/plan.ts'
import { after } from '../../engine/positions.ts'
import type { Step } from '../../engine/step.ts'
import { keyOf, toDead } from '../../engine/way.ts'
import { atWorst, ending, guarded, type Hunt, NOTHING, type Repair, refused, refusedTimes, stateOf, suspected, withKey } from './hunt.ts'
import { type Way, wayOn } from './repair.ts'
import type { CautionId, Request, Result, Stage } from './request.ts'
import { broken, cautionFor, RULES } from './safety.ts'

const becauseOf = (key: string, facts: Why['facts'] = {}): Why => ({ key, facts })

const wasAsked = (h: Hunt, act: string): boolean =>
  h.entries.some(({ request: r }) => r.say === 'step' && r.step.kind === 'act' && r.step.act.act === act)

/** Why an act on the way is needed, whatever it leads to. */
const whyOf = (h: Hunt, step: Step, goal: Why): Why => {
  if (step.kind !== 'act') return goal
  const { act } = step
  switch (act.act) {
    case 'supply':
      if (goal.key === 'off-to-look') return goal
      return becauseOf(act.to === 'off' ? 'supply-off-first' : 'switch-on')
    case 'prove-dead':
      return becauseOf(wasAsked(h, 'prove-dead') ? 'prove-dead-again' : 'prove-dead-first')
    case 'device':
      if (act.to === 'closed') return goal.key === 'pause' ? goal : becauseOf('put-back')
      return goal.key === 'group' || goal.key === 'in-rush' ? goal : becauseOf('device-past', { branch: act.branch })
    case 'inject':
      return act.to === 'on' || goal.key === 'off-to-look' ? goal : becauseOf('supply-off-first')
    default:
      return goal
  }
}

const stageOf = ({ repair, positions }: Hunt, step: Step): Stage => {
  if (repair !== undefined) {
    if (!repair.mended) return 'mending'
    const closes = step.kind === 'act' && 'to' in step.act && (step.act.to === 'closed' || step.act.to === 'on')
    return positions.supply === 'on' || closes ? 'restoring' : 'checking'
  }
  if (step.kind === 'act' && (step.act.act === 'prove-dead' || step.act.act === 'supply')) return 'provingDead'
  if (step.kind === 'look' && step.look !== 'device') return 'checkingSupply'
  const inBranch =
    step.kind === 'finding' ||
    (step.kind === 'act' && ['inject', 'run', 'load', 'zero-leads'].includes(step.act.act)) ||
    (step.kind === 'read' && (step.meter === 'amp' || step.red.includes('/') || positions.injector !== undefined))
  return inBranch ? 'locating' : 'narrowing'
}

const numberOf = (h: Hunt): number => h.entries.length + 1

const ask = (h: Hunt, step: Step, goal: Why): Hunt => ({
  ...h,
  why: goal,
  stage: stageOf(h, step),
  request: { say: 'step', n: numberOf(h), seconds: costOf(h.plant, step), step, why: whyOf(h, step, goal) },
})

const confirm = (h: Hunt, caution: CautionId, acts: readonly Step[], stage: Stage): Hunt => ({
  ...h,
  stage,
  request: { say: 'confirm', n: numberOf(h), caution, acts },
})

const end = (h: Hunt): Hunt => {
  const { lastCaution: caution, seconds, result = h.leaving ?? 'handed-over' } = h
  const request: Request = { say: 'end', n: numberOf(h), result, seconds, ...(caution === undefined ? {} : { caution }) }
  return { ...h, result, stage: 'closing', request }
}

/** Nobody is left with a fed branch or a short circuit on a live supply: those go off first, if that can be done at all. */
const leave = (h: Hunt): Hunt => {
  const { injector, supply } = atWorst(h)
  const off: Step[] = [
    ...(supply === 'on' && suspected(h) ? [{ kind: 'act', act: { act: 'supply', to: 'off' } } as const] : []),
    ...(injector === undefined ? [] : [{ kind: 'act', act: { act: 'inject', branch: injector.branch, to: 'off' } } as const]),
  ]
  const step = off.find(x => refusedTimes(h, x) < 2)
  return step === undefined ? end(h) : ask(h, step, NOTHING)
}

/**
 * The session as the technician ends it: what the procedure itself has energised goes off first, also where the procedure was about to
 * end by itself. Said once more, it ends there and then.
 */
export const leaveAs = (h: Hunt, result: Result): Hunt => decide(h.insists ? { ...h, result } : { ...ending(h, result), insists: true })

const FAR_LESS = 0.2
/** How likely the place is that a way goes to at once; undefined where it asks for something else. */
const chanceOf = (way: Way | undefined): number | undefined => {
  const step = way?.steps[0]
  return step?.kind === 'finding' ? step.finding.probability : undefined
}

/** What is worth asking in the search; before giving up, all that was refused once is offered once more. */
const search = (h: Hunt): Way | undefined => {
  if (h.ahead.length > 0) return { steps: h.ahead, why: h.why }
  const from = (setAside: ReadonlySet<string>) =>
    choose(h.belief, { ...stateOf(h), setAside, taken: h.taken, found: h.found, ohms: h.readings })
  const [way, once] = [from(h.setAside), [...h.setAside].filter(key => h.refusals.get(key) === 1)]
  if (once.length === 0) return way
  const offered = (): Way | undefined => from(new Set([...h.setAside].filter(key => h.refusals.get(key) !== 1)))
  if (way === undefined) return offered()
  // A likely place that could not be reached is offered once more before walks to far less likely ones.
  const p = chanceOf(way)
  const other = p === undefined ? undefined : offered()
  return p !== undefined && p < FAR_LESS * (chanceOf(other) ?? 0) ? other : way
}

/** A place less likely than this is not worth a walk while it has not been tried whether the machine runs. */
const LITTLE = 0.25
/**
 * After a mend whose check failed twice the hunt goes on. Where nothing likely is left, it may have been the check: the machine is
 * put back and switched on, once, as after any mend.
 */
const trial = (h: Hunt): Hunt | undefined => {
  const { doubtful: finding, repair } = h
  const { supply, injector } = atWorst(h)
  if (finding === undefined || repair !== undefined || h.pulses || supply === 'on' || injector !== undefined) return undefined
  const p = chanceOf(search(h))
  if (p === undefined || p >= LITTLE) return undefined
  const checked = new Set([finding.branch ?? 'bus'])
  const next: Repair = { finding, mended: true, checked, tried: true, lampSeen: false, voltSeen: false, doubted: false, failures: 0 }
  return { ...h, ahead: [], doubtful: undefined, refusals: new Map(), taken: new Set(), repair: next }
}

/** Rule 3: whoever is not electrically qualified fetches somebody who is, or hands the job over. */
const ON_MAINS: readonly string[] = ['no-mains', 'supply-dead']
const needsQualified = ({ kit }: Hunt, { finding, qualified }: Repair): boolean =>
  ON_MAINS.includes(finding.fault) && kit.qualified !== true && qualified !== true

/** Whatever feeds anything goes off before somebody goes to look along a cable. */
const offToLook = (h: Hunt, step: Step): Step | undefined => {
  if (step.kind !== 'finding' || step.finding.branch === undefined || step.finding.fault === 'device-open') return undefined
  const { injector, supply } = atWorst(h)
  if (injector !== undefined) return { kind: 'act', act: { act: 'inject', branch: injector.branch, to: 'off' } }
  return supply === 'on' ? { kind: 'act', act: { act: 'supply', to: 'off' } } : undefined
}

/** The hunt with its next request. Whether that keeps the rules is not decided here: the procedure asks the rules themselves. */
export const decide = (hunt: Hunt): Hunt => {
  const h = (hunt.result ?? hunt.leaving) === undefined ? (trial(hunt) ?? hunt) : hunt
  if (h.result !== undefined) return end(h)
  if (h.leaving !== undefined) return leave(h)
  if (!h.briefed) return confirm(h, 'before-work', [], 'briefing')
  if (h.stays > 0 && !h.warned) return confirm(h, 'voltage-stays', [], 'provingDead')
  const way = h.repair === undefined ? search(h) : wayOn(h, h.repair)
  if (way === 'mend' && h.repair !== undefined && needsQualified(h, h.repair)) return confirm(h, 'mains-side', [], 'mending')
  if (way === 'mend' && h.repair !== undefined)
    return { ...h, stage: 'mending', request: { say: 'mend', n: numberOf(h), finding: h.repair.finding } }
  const step = way === 'mend' ? undefined : way?.steps[0]
  if (way === undefined || way === 'mend' || step === undefined) return leave({ ...h, leaving: 'handed-over', ahead: [] })
  const off = offToLook(h, step)
  // The way goes on for its own reason once that is off. A place on a cable that stays fed waits with what else was refused.
  const isFed = !RULES.clearOfFed(guarded(h), step)
  if (off !== undefined && refusedTimes(h, off) <= (isFed ? refusedTimes(h, step) : 0))
    return { ...ask({ ...h, ahead: [off, ...way.steps] }, off, becauseOf('off-to-look')), why: way.why }
  if (isFed) return decide(refused(h, [keyOf(step)]))
  const next: Hunt = { ...h, ahead: way.steps, why: way.why }
  const g = guarded(next)
  const caution = cautionFor(g, step)
  if (caution === undefined || h.covered.has(keyOf(step))) return ask(next, step, way.why)
  // One confirmation covers the acts of the same kind that stand in this plan.
  const series = sameCaution(next, way.steps, caution)
  return confirm(next, caution, series, stageOf(h, step))
}

/** Each act judged where it will stand: a device that is closed once the supply is on brings voltage, one closed before does not. */
const sameCaution = (h: Hunt, steps: readonly Step[], caution: CautionId): Step[] => {
  let positions = atWorst(h)
  return steps.filter(step => {
    const is = cautionFor({ ...guarded(h), positions }, step) === caution
    if (step.kind === 'act') positions = after(positions, step.act)
    return is
  })
}

/** Which rule the present request breaks, if any. */
export const breach = (h: Hunt) => {
  if (h.request.say === 'step') return broken(guarded(h), h.request.step)
  return h.request.say === 'mend' ? broken(guarded(h), { kind: 'mend' }) : undefined
}

/** The nearest safe thing instead: make the circuit dead; where it is dead, another way; where there is none, hand over. */
export const makeSafe = (h: Hunt): Hunt => {
  const step = h.request.say === 'step' ? h.request.step : undefined
  if (step?.kind === 'act' && step.act.act === 'inject' && h.unsure.has(step.act.branch)) {
    const open: Step = { kind: 'act', act: { act: 'device', branch: step.act.branch, to: 'open' } }
    if (refusedTimes(h, open) === 0) return ask({ ...h, ahead: [open, ...h.ahead] }, open, h.why)
  }
  const [safe] = toDead(stateOf(h))
  if (safe !== undefined && h.leaving === undefined && refusedTimes(h, safe) === 0) {
    // A reading that takes longer than a suspected short circuit may be live would only be asked for again.
    const setAside = step?.kind === 'read' && h.repair === undefined ? withKey(h.setAside, keyOf(step)) : h.setAside
    return ask({ ...h, ahead: [safe], setAside }, safe, NOTHING)
  }
  // In the search, what is forbidden in a dead circuit stays forbidden: something else is chosen.
  if (safe === undefined && step !== undefined && h.repair === undefined)
    return decide({ ...h, ahead: [], setAside: withKey(h.setAside, keyOf(step)) })
  return leave({ ...h, ahead: [], leaving: h.leaving ?? 'handed-over' })
}
