// The six safety rules, each a guard of its own: may this step be asked for, in the state the machine is in?
// They know nothing of why a step is wanted, so that no plan, however good, can talk them round.
import { costOf } from '../../engine/cost.ts'
import type { Plant } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Answer, Step } from '../../engine/step.ts'
import type { Power } from '../../engine/way.ts'
import type { CautionId } from './request.ts'

export interface Guarded {
  readonly plant: Plant
  readonly positions: Positions
  readonly power: Power
  readonly energised: number
  /** Seconds since voltage came on with a short circuit suspected behind a closed device. */
  readonly liveSeconds: number
  /** Whether a short circuit is still suspected where voltage now reaches. */
  readonly suspected: boolean
  /** Keys of steps that a confirmation covers. */
  readonly covered: ReadonlySet<string>
}

const isAct = (step: Step, ...acts: string[]): boolean => step.kind === 'act' && acts.includes(step.act.act)

/** Rule 1: ohms, and touching runs, bus, bond and plugs, only on a circuit proved dead; injection only past an open device. */
const onlyDead = (g: Guarded, step: Step): boolean => {
  const handsOn = (step.kind === 'read' && step.meter === 'ohm') || isAct(step, 'run', 'bus', 'bond', 'load', 'zero-leads')
  if (handsOn && (g.power !== 'provedDead' || g.positions.injector !== undefined || g.positions.supply === 'on')) return false
  if (step.kind !== 'act') return true
  const { act } = step
  if (act.act === 'prove-dead') return g.positions.supply === 'off' && g.positions.injector === undefined
  if (act.act === 'inject' && act.to === 'on')
    return g.power === 'provedDead' && g.positions.devices[act.branch] !== 'closed' && g.positions.injector === undefined
  if (act.act === 'device' && act.to === 'closed') return g.positions.injector?.branch !== act.branch
  if (act.act === 'supply' && act.to === 'on') return g.positions.injector === undefined
  return true
}

/** The caution that must be confirmed before a step, or none. */
export const cautionFor = (g: Pick<Guarded, 'positions' | 'suspected'>, step: Step): CautionId | undefined => {
  if (step.kind !== 'act') return undefined
  const { act } = step
  if (act.act === 'supply' && act.to === 'on') return g.suspected ? 'voltage-may-return' : 'switch-on-again'
  if (act.act === 'inject' && act.to === 'on') return 'injection'
  if (act.act === 'device' && g.positions.supply === 'on') return act.to === 'closed' ? 'voltage-may-return' : 'opening-live-device'
  return undefined
}

/** Rule 2: nothing that can bring voltage back without a confirmation that people are clear and motion is secured. */
const confirmedFirst = (g: Guarded, step: Step, key: string): boolean => cautionFor(g, step) === undefined || g.covered.has(key)

/** Rule 3: no step ever asks for work on the mains side; the vocabulary has none but a look at its lamp. */
const mainsOnlyLooked = (_: Guarded, step: Step): boolean =>
  step.kind !== 'read' || step.meter === 'amp' || ![step.red, step.black].some(p => p.startsWith('mains'))

/** Rule 4: past these a circuit is not extra-low voltage, V (IEC 60364-4-41:2005, 414.4.5, without basic protection, dry). */
export const ELV = { dc: 60, ac: 25 } as const
export const notExtraLow = (step: Step, answer: Answer): boolean => {
  if (step.kind === 'read' ? step.meter !== 'volt' : step.kind !== 'act' || step.act.act !== 'prove-dead') return false
  const shown = 'volts' in answer ? answer.volts : 'value' in answer && typeof answer.value === 'number' ? answer.value : 0
  const limit = 'ac' in answer && answer.ac === true ? ELV.ac : ELV.dc
  return Math.abs(shown) > limit
}

/** Rule 5: at most six times onto a suspected short circuit, each at most 60 s; nothing is energised with the bond lifted. */
export const MOST_ENERGISED = 6
export const LONGEST_LIVE = 60
const seldomAndShort = (g: Guarded, step: Step): boolean => {
  const energises =
    step.kind === 'act' &&
    ((step.act.act === 'supply' && step.act.to === 'on') ||
      (step.act.act === 'inject' && step.act.to === 'on') ||
      (step.act.act === 'device' && step.act.to === 'closed' && g.positions.supply === 'on'))
  if (energises && g.positions.bond === 'opened') return false
  if (energises && g.suspected && g.energised >= MOST_ENERGISED) return false
  const stays = g.positions.supply === 'on' && g.suspected && !(step.kind === 'act' && step.act.act === 'supply' && step.act.to === 'off')
  return !stays || g.liveSeconds + costOf(g.plant, step) <= LONGEST_LIVE
}

/** Rule 6: fuses are pulled and plugs mated without load (no insulation tester is in the vocabulary at all). */
const withoutLoad = (g: Guarded, step: Step): boolean => {
  if (step.kind !== 'act') return true
  const { act } = step
  if (act.act === 'load') return g.power === 'provedDead'
  const fuse = act.act === 'device' && g.plant.machine.branches.find(b => b.id === act.branch)?.protection?.kind === 'fuse'
  return !fuse || g.positions.supply === 'off'
}

export const RULES = { onlyDead, confirmedFirst, mainsOnlyLooked, seldomAndShort, withoutLoad } as const

/** The first rule that a step would break, by name; undefined where it may be asked for. (Rule 4 judges answers: `notExtraLow`.) */
export const broken = (g: Guarded, step: Step, key: string): keyof typeof RULES | undefined =>
  (Object.keys(RULES) as (keyof typeof RULES)[]).find(rule => !RULES[rule](g, step, key))
