// What a planner that knows nothing may ask for: each step of the vocabulary, with any kit, and the rules' own way out of it.
import { costOf } from '../../engine/cost.ts'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Act, Finding, Step } from '../../engine/step.ts'
import { keyOf as keyOfStep, toDead } from '../../engine/way.ts'
import { breach, decide, makeSafe } from '../../web/flow/decide.ts'
import { type Hunt, NOTHING, stateOf } from '../../web/flow/hunt.ts'
import type { Request } from '../../web/flow/request.ts'

export const KITS: readonly Kit[] = [
  {},
  { clamp: true },
  { injector: { ampere: 1, volts: 24 } },
  { clamp: true, injector: { ampere: 9, volts: 24 } },
]
export const MAINS = 'mains.L'
/** So many ways out of a forbidden request may be forbidden themselves. */
const MOST_WAYS = 8

export const act = (a: Act): Step => ({ kind: 'act', act: a })
const read = (meter: 'ohm' | 'volt', place: string): Step => ({ kind: 'read', meter, red: `${place}.plus`, black: `${place}.zero` })

const actsOf = (machine: Machine): Act[] => [
  { act: 'supply', to: 'on' },
  { act: 'supply', to: 'off' },
  { act: 'prove-dead' },
  { act: 'zero-leads' },
  ...(['bus', 'bond'] as const).flatMap((which): Act[] => [
    { act: which, to: 'opened' },
    { act: which, to: 'joined' },
  ]),
  ...machine.branches.flatMap(({ id: branch, loads = [], wiring = [] }): Act[] => [
    { act: 'device', branch, to: 'open' },
    { act: 'device', branch, to: 'closed' },
    { act: 'inject', branch, to: 'on', into: 'zero' },
    { act: 'inject', branch, to: 'off' },
    ...loads.flatMap(({ id: load }): Act[] => [
      { act: 'load', branch, load, to: 'unplugged' },
      { act: 'load', branch, load, to: 'plugged' },
    ]),
    ...wiring.flatMap(({ id: run }): Act[] => [
      { act: 'run', branch, run, to: 'opened' },
      { act: 'run', branch, run, to: 'joined' },
    ]),
  ]),
]

/** The steps that a planner thinks of: some kinds of act; looks, readings and findings always. */
export const stepsOf = (machine: Machine, isThought: (act: Act) => boolean, findings: readonly Finding[]): Step[] => [
  ...actsOf(machine).filter(isThought).map(act),
  { kind: 'look', look: 'supply-lamp' },
  ...machine.branches.map((b): Step => ({ kind: 'look', look: 'device', branch: b.id })),
  ...machine.branches.map((b): Step => ({ kind: 'read', meter: 'amp', branch: b.id })),
  ...['bus', ...machine.branches.map(b => b.id)].map(place => read('ohm', place)),
  read('volt', 'bus'),
  { kind: 'read', meter: 'volt', red: MAINS, black: 'mains.N' },
  ...findings.map((finding): Step => ({ kind: 'finding', finding })),
]

/** Nobody answers for the mains side: that it is asked for is enough. */
export const isOnMains = (step: Step): boolean => step.kind === 'read' && step.meter === 'volt' && step.red === MAINS
/** Does it depend on the kit whether this may be asked for? */
export const isOfKit = (step: Step): boolean =>
  step.kind === 'read' ? step.meter === 'amp' : step.kind === 'act' && step.act.act === 'inject' && step.act.to === 'on'

/** A step put as the request, with no confirmation before it. */
export const bare = (h: Hunt, step: Step): Hunt => ({
  ...h,
  ahead: [step, ...h.ahead.filter(other => keyOfStep(other) !== keyOfStep(step))],
  request: { say: 'step', n: 1, seconds: costOf(h.plant, step), step, why: NOTHING },
})
export const MEND: Request = { say: 'mend', n: 1, finding: { fault: 'short', probability: 1 } }

/** The rules' own way out; undefined where it would be another plan, which is asked for anyway. */
export const settled = (h: Hunt): Hunt | 'stuck' | undefined => {
  let at = h
  for (let i = 0; breach(at) !== undefined; i++) {
    if (i > MOST_WAYS) return 'stuck'
    const { request } = at
    const dead = toDead(stateOf(at)).length === 0
    const opens =
      request.say === 'step' && request.step.kind === 'act' && 'branch' in request.step.act && at.unsure.has(request.step.act.branch)
    if (dead && !opens && at.repair === undefined && at.leaving === undefined) return undefined
    at = makeSafe(at)
  }
  return at
}

/** Where no plan is wanted, because the procedure goes on by itself: its own next request. */
export const byItself = (h: Hunt): Hunt | undefined =>
  !h.briefed || h.leaving !== undefined || h.repair !== undefined || h.covered.size > 0 ? decide(h) : undefined

export const told = ({ say, ...rest }: Request): string => `${say} ${JSON.stringify(rest)}`
