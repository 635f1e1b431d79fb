// The six safety rules, each a guard of its own: may this be asked for, in the state the machine is in?
// They know nothing of why a step is wanted, so that no plan, however good, can talk them round.
import { branchOfPoint } from '../../engine/circuit.ts'
import { COST, costOf } from '../../engine/cost.ts'
import type { Kit } from '../../engine/machine.ts'
import type { Plant } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Act, Answer, Step } from '../../engine/step.ts'
import { keyOf, type Power } from '../../engine/way.ts'
import type { CautionId } from './request.ts'

export interface Guarded {
  readonly plant: Plant
  readonly kit: Kit
  readonly positions: Positions
  readonly power: Power
  /** How often anything was energised in this session: supply on, injection, a device closed with the supply on. */
  readonly energised: number
  /** Seconds since voltage came on. */
  readonly liveSeconds: number
  /** Whether a short circuit is still suspected where voltage now reaches. */
  readonly suspected: boolean
  /** Nothing is found yet. */
  readonly searching: boolean
  /** Keys of steps that a confirmation covers. */
  readonly covered: ReadonlySet<string>
  /** Branches whose device may be closed although it counts as open: its closing was taken back in the log. */
  readonly unsure: ReadonlySet<string>
}
/** What is asked for: a step, or the mend itself. */
export type Asked = Step | { readonly kind: 'mend' }

const isAct = (asked: Asked, ...acts: string[]): boolean => asked.kind === 'act' && acts.includes(asked.act.act)

/** Does this act bring voltage to conductors that had none? */
export const energises = (positions: Positions, act: Act): boolean =>
  ((act.act === 'supply' || act.act === 'inject') && act.to === 'on') ||
  (act.act === 'device' && act.to === 'closed' && positions.supply === 'on')

/** Rule 1: ohms, a mend, and touching runs, bus, bond and plugs, only on a circuit proved dead; injection only past an open device. */
const onlyDead = ({ positions, power, unsure }: Guarded, asked: Asked): boolean => {
  const dead = power === 'provedDead' && positions.supply === 'off' && positions.injector === undefined
  const handsOn = asked.kind === 'mend' || (asked.kind === 'read' && asked.meter === 'ohm')
  if (handsOn || isAct(asked, 'run', 'bus', 'bond', 'load', 'zero-leads')) return dead
  if (asked.kind !== 'act') return true
  const { act } = asked
  if (act.act === 'prove-dead') return positions.supply === 'off' && positions.injector === undefined
  if (act.act === 'inject' && act.to === 'on') return dead && positions.devices[act.branch] !== 'closed' && !unsure.has(act.branch)
  if (act.act === 'device' && act.to === 'closed') return positions.injector?.branch !== act.branch
  if (act.act === 'supply' && act.to === 'on') return positions.injector === undefined
  return true
}

/** The caution that must be confirmed before a step, or none. */
export const cautionFor = (g: Pick<Guarded, 'positions' | 'suspected'>, asked: Asked): CautionId | undefined => {
  if (asked.kind !== 'act') return undefined
  const { act } = asked
  if (act.act === 'supply' && act.to === 'on') return g.suspected ? 'switch-on-again' : 'voltage-may-return'
  if (act.act === 'inject' && act.to === 'on') return 'injection'
  if (act.act === 'device' && g.positions.supply === 'on' && act.to === 'open') return 'opening-live-device'
  if (act.act === 'device' && g.positions.supply === 'on') return g.suspected ? 'switch-on-again' : 'voltage-may-return'
  return undefined
}

/** Rule 2: nothing that can bring voltage back without a confirmation that people are clear and motion is secured. */
const confirmedFirst = (g: Guarded, asked: Asked): boolean =>
  cautionFor(g, asked) === undefined || (asked.kind === 'act' && g.covered.has(keyOf(asked)))

/** Rule 3: no step asks for work on the mains side; a probe goes to points of the 24 V circuit alone. */
const mainsOnlyLooked = ({ plant }: Guarded, asked: Asked): boolean => {
  if (asked.kind !== 'read') return true
  const branches = asked.meter === 'amp' ? [asked.branch] : [branchOfPoint(asked.red), branchOfPoint(asked.black)]
  return branches.every(b => b === undefined || plant.indexOf.has(b))
}

/** Rule 4: past these a circuit is not extra-low voltage, V (IEC 60364-4-41:2005, 414.4.5, without basic protection, dry; its 60 V from memory). */
export const ELV = { dc: 60, ac: 25 } as const
export const notExtraLow = (step: Step, answer: Answer): boolean => {
  if (step.kind === 'read' ? step.meter !== 'volt' : step.kind !== 'act' || step.act.act !== 'prove-dead') return false
  if ('value' in answer && answer.value === 'OL') return true
  const shown = 'volts' in answer ? answer.volts : 'value' in answer && typeof answer.value === 'number' ? answer.value : 0
  const limit = 'ac' in answer && answer.ac === true ? ELV.ac : ELV.dc
  return Math.abs(shown) > limit
}

/** No more is fed into a branch than its device is rated for; conductors that it protects carry that much. */
const withinRating = (g: Guarded, act: Act): boolean => {
  if (act.act !== 'inject' || act.to === 'off') return true
  const rating = g.plant.machine.branches.find(b => b.id === act.branch)?.protection?.rating
  return rating === undefined || (g.kit.injector?.ampere ?? 0) <= rating
}

/** Rule 5: energised at most six times a session, each at most 60 s onto a suspected short circuit; nothing with the bond lifted. */
export const MOST_ENERGISED = 6
export const LONGEST_LIVE = 60
const seldomAndShort = (g: Guarded, asked: Asked): boolean => {
  if (asked.kind === 'act' && energises(g.positions, asked.act)) {
    // The search leaves one for switching on in the end.
    const most = g.searching ? MOST_ENERGISED - 1 : MOST_ENERGISED
    if (g.positions.bond === 'opened' || g.energised >= most || !withinRating(g, asked.act)) return false
  }
  const switchesOff = isAct(asked, 'supply', 'inject') && asked.kind === 'act' && 'to' in asked.act && asked.act.to === 'off'
  if (g.positions.supply !== 'on' || !g.suspected || switchesOff) return true
  // Switching off again takes its time too.
  const lasts = asked.kind === 'mend' ? 0 : costOf(g.plant, asked)
  return g.liveSeconds + lasts + COST.supply <= LONGEST_LIVE
}

/** Rule 6: fuses are pulled and plugs mated without load (no insulation tester is in the vocabulary at all). */
const withoutLoad = (g: Guarded, asked: Asked): boolean => {
  if (asked.kind !== 'act') return true
  const { act } = asked
  if (act.act === 'load') return g.power === 'provedDead'
  const fuse = act.act === 'device' && g.plant.machine.branches.find(b => b.id === act.branch)?.protection?.kind === 'fuse'
  return !fuse || g.positions.supply === 'off'
}

/** Not one of the six: nothing is asked for that the kit has not. */
const withinKit = (g: Guarded, asked: Asked): boolean => {
  if (asked.kind === 'act') return asked.act.act !== 'inject' || asked.act.to === 'off' || g.kit.injector !== undefined
  return asked.kind !== 'read' || asked.meter !== 'amp' || g.kit.clamp === true || g.positions.injector?.branch === asked.branch
}

/** Not one of the six: nobody goes to look along a cable that is fed; moving it may let loads start (common practice, no source). */
const clearOfFed = ({ positions: p, unsure }: Guarded, asked: Asked): boolean => {
  if (asked.kind !== 'finding' || asked.finding.branch === undefined || asked.finding.fault === 'device-open') return true
  const { branch } = asked.finding
  return p.injector?.branch !== branch && (p.supply === 'off' || (p.devices[branch] !== 'closed' && !unsure.has(branch)))
}

export const RULES = { onlyDead, confirmedFirst, mainsOnlyLooked, seldomAndShort, withoutLoad, withinKit, clearOfFed }

/** The first rule that would be broken, by name; undefined where it may be asked for. (Rule 4 judges answers: `notExtraLow`.) */
export const broken = (g: Guarded, asked: Asked): keyof typeof RULES | undefined =>
  (Object.keys(RULES) as (keyof typeof RULES)[]).find(rule => !RULES[rule](g, asked))
