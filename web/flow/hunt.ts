// What the state machine remembers of a hunt, and what every part of the flow asks of it. All pure.
import { type Belief, begin as believe, shortSuspected } from '../../engine/belief.ts'
import { branchOfPoint } from '../../engine/circuit.ts'
import type { Kit, Machine } from '../../engine/machine.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import type { Why } from '../../engine/plan.ts'
import { type Plant, plantOf } from '../../engine/plant.ts'
import { asFound, type Positions } from '../../engine/positions.ts'
import type { Known } from '../../engine/prior.ts'
import type { Answer, Finding, Read, Step, Symptom } from '../../engine/step.ts'
import { keyOf, type Power } from '../../engine/way.ts'
import type { CautionId, Entry, Request, Result, Stage, Tools } from './request.ts'
import type { Guarded } from './safety.ts'

/** How far a confirmed finding has come on its way to a machine that runs again. */
export interface Repair {
  readonly finding: Finding
  readonly mended: boolean
  /** Put back and switched on although its check had failed: no more likely place was left. */
  readonly tried?: boolean
  /** A qualified person was found for work on the mains side. */
  readonly qualified?: boolean
  /** Places whose ohms were clean after the mend: branches, or the bus. */
  readonly checked: ReadonlySet<string>
  readonly lampSeen: boolean
  readonly voltSeen: boolean
  /** The last check or proof failed and is taken once more before it is believed. */
  readonly doubted: boolean
  /** How often in a row a check or the voltage was wrong. */
  readonly failures: number
}

export interface Hunt {
  readonly machine: Machine
  readonly kit: Kit
  readonly known: Known
  readonly plant: Plant
  readonly belief: Belief
  readonly positions: Positions
  /** How the devices were found, tripped ones as closed: they are put back so. */
  readonly found: Positions
  readonly provedDead: boolean
  readonly zeroed: boolean
  readonly energised: number
  readonly liveSeconds: number
  readonly unsure: ReadonlySet<string>
  readonly still: Still
  /** The supply's lamp was seen to pulse since the supply last came on: something holds it down, whatever else is believed. */
  readonly pulses: boolean
  readonly seconds: number
  readonly briefed: boolean
  readonly covered: ReadonlySet<string>
  /** Steps that are not asked for again: refused, forbidden, or findings that were looked for in vain. */
  readonly setAside: ReadonlySet<string>
  /** How often each step was refused. */
  readonly refusals: ReadonlyMap<string, number>
  readonly taken: ReadonlySet<string>
  /** Ohms of the search: what they say of their branch holds on when another one was mended. */
  readonly readings: readonly ReadEvidence[]
  /** Where a mend was said to be done, once each time. */
  readonly mends: readonly string[]
  /** The latest mend whose check failed twice, until the machine was put back and tried all the same. */
  readonly doubtful: Finding | undefined
  /** What is left of the plan being followed. */
  readonly ahead: readonly Step[]
  readonly why: Why
  readonly repair: Repair | undefined
  /** How often proving dead has found a voltage that stays, and whether its source was looked for since. */
  readonly stays: number
  readonly warned: boolean
  /** How the session ends as soon as the machine is left safe. */
  readonly leaving: Result | undefined
  /** The technician has said that it ends here. */
  readonly insists: boolean
  readonly result: Result | undefined
  readonly lastCaution: CautionId | undefined
  readonly entries: readonly Entry[]
  readonly request: Request
  readonly stage: Stage
}

/** What may be on, or the link to earth open, although the log says otherwise: its switching or opening was taken back. */
export type Still = Pick<Positions, 'injector'> & { readonly supply?: 'on'; readonly bond?: 'opened' }
/** How the machine may stand at worst. */
export const atWorst = ({ positions, still }: Pick<Hunt, 'positions' | 'still'>): Positions => ({ ...positions, ...still })

export const NOTHING: Why = { key: '', facts: {} }

export const powerOf = (h: Pick<Hunt, 'positions' | 'provedDead' | 'still'>): Power => {
  const { supply, injector } = atWorst(h)
  return supply === 'on' || injector !== undefined ? 'live' : h.provedDead ? 'provedDead' : 'off'
}

/** The session comes to its end: what the procedure itself has energised goes off first. */
export const ending = (h: Hunt, result: Result): Hunt =>
  h.energised > 0 || atWorst(h).injector !== undefined ? { ...h, leaving: result, ahead: [] } : { ...h, result }

/** As the engine's plans want it. */
export const stateOf = (h: Hunt) => ({ positions: atWorst(h), power: powerOf(h), zeroed: h.zeroed })

/** A mend whose check had failed is on trial until lamp and voltage are right: what the check spoke of may still be joined. */
const onTrial = ({ tried, lampSeen, voltSeen }: Repair): boolean => tried === true && !(lampSeen && voltSeen)

/** Is a short circuit suspected behind a closed device? After a mend, only once a proof has failed, or while it is on trial. */
export const suspected = (h: Hunt): boolean => {
  if (h.pulses) return true
  if (h.repair?.mended) return h.repair.doubted || onTrial(h.repair)
  return shortSuspected(
    h.belief,
    h.plant.branches.filter(b => h.positions.devices[b.id] === 'closed'),
  )
}

/** As the safety rules want it. */
export const guarded = (h: Hunt): Guarded => ({
  ...h,
  positions: atWorst(h),
  power: powerOf(h),
  suspected: suspected(h),
  searching: h.repair === undefined,
})

const begun = new WeakMap<Plant, Map<string, Belief>>()
/** The belief before anything is read, reckoned once: the way back asks for it at each check. */
export const atStart = (plant: Plant, kit: Kit, symptom: Symptom, known: Known = {}): Belief => {
  const key = JSON.stringify([kit, symptom, known])
  const all = begun.get(plant) ?? new Map<string, Belief>()
  const belief = all.get(key) ?? believe(plant, kit, symptom, known)
  begun.set(plant, all.set(key, belief))
  return belief
}

export const startOf = (machine: Machine, kit: Kit, symptom: Symptom, known: Known = {}): Hunt => {
  const plant = plantOf(machine)
  const found = asFound(machine.branches.map(b => b.id))
  return {
    machine,
    kit,
    known,
    plant,
    belief: atStart(plant, kit, symptom, known),
    positions: found,
    found,
    provedDead: false,
    zeroed: false,
    energised: 0,
    liveSeconds: 0,
    unsure: new Set(),
    still: {},
    pulses: false,
    seconds: 0,
    briefed: false,
    covered: new Set(),
    setAside: new Set(),
    refusals: new Map(),
    taken: new Set(),
    readings: [],
    mends: [],
    doubtful: undefined,
    ahead: [],
    why: NOTHING,
    repair: undefined,
    stays: 0,
    warned: false,
    leaving: undefined,
    insists: false,
    result: undefined,
    lastCaution: undefined,
    entries: [],
    request: { say: 'end', n: 0, result: 'stopped', seconds: 0 },
    stage: 'briefing',
  }
}

/** Taken up again after a long while: what was proved dead may be live by now, and whoever was clear may be back. */
export const leftAlone = (h: Hunt): Hunt => ({ ...h, provedDead: false, covered: new Set(), ahead: [] })

/**
 * Other tools are at hand. What a source feeds that is gone, or is another one now, goes off first; a confirmation was given for the
 * tools of before. What was read stays read: it was the same meter.
 */
export const equipped = (h: Hunt, tools: Tools): Hunt => {
  const { meter, injector: source } = h.kit
  const kit = { ...tools, ...(meter === undefined ? {} : { meter }) }
  const fed = kit.injector?.ampere === source?.ampere ? undefined : atWorst(h).injector
  const ahead: Step[] = fed === undefined ? [] : [{ kind: 'act', act: { act: 'inject', branch: fed.branch, to: 'off' } }]
  return { ...h, kit, belief: { ...h.belief, kit }, covered: new Set(), ahead }
}

export const withKey = (set: ReadonlySet<string>, ...keys: readonly string[]): ReadonlySet<string> => new Set([...set, ...keys])
/** Volts at a branch's own terminals. */
export const voltsAt = (branch: string): Read => ({ kind: 'read', meter: 'volt', red: `${branch}.plus`, black: `${branch}.zero` })
export const refusedTimes = (h: Hunt, step: Step): number => h.refusals.get(keyOf(step)) ?? 0
export const refused = (h: Hunt, keys: readonly string[]): Hunt => ({
  ...h,
  ahead: [],
  setAside: withKey(h.setAside, ...keys),
  refusals: new Map([...h.refusals, ...keys.map(key => [key, (h.refusals.get(key) ?? 0) + 1] as const)]),
})

export type ReadEvidence = Evidence & { readonly of: 'read' }
export const evidenceOf = (h: Hunt, read: Read, answer: Answer & { readonly value: number | 'OL' }): ReadEvidence => ({
  of: 'read',
  read,
  positions: h.positions,
  zeroed: h.zeroed,
  shown: answer.value,
  unsteady: 'unsteady' in answer && answer.unsteady === true,
})

/** What was out of service told of the first fault; another one need not lie there. */
const learnedAlone = ({ learned }: Known): Known => (learned === undefined ? {} : { learned })

/** So often is the same place mended in vain before the job goes to somebody else (a bar of the project's own). */
const MOST_MENDS = 3
export const placeOf = ({ branch, fault }: Finding): string => branch ?? fault

/** Of the readings, those past an open device of a branch that was not the mended one: nothing has changed there. */
const standing = ({ readings, repair }: Hunt): readonly ReadEvidence[] =>
  readings.filter(({ read, positions }) => {
    const branch = read.meter === 'amp' ? undefined : branchOfPoint(read.red)
    return branch !== undefined && branch !== repair?.finding.branch && positions.devices[branch] !== 'closed'
  })

/** The fault is still there, or another one is: the hunt starts again, with what is still known and what was read or seen last. */
export const again = (h: Hunt, evidence: Evidence, step: Step): Hunt => {
  const readings = standing(h)
  const place = h.repair === undefined ? undefined : placeOf(h.repair.finding)
  const inVain = h.mends.filter(mended => mended === place).length >= MOST_MENDS
  return {
    ...h,
    belief: [...readings, evidence].reduce(observe, atStart(h.plant, h.kit, h.belief.symptom, learnedAlone(h.known))),
    taken: new Set([...readings.map(({ read }) => keyOf(read)), keyOf(step)]),
    readings,
    setAside: new Set(),
    refusals: new Map(),
    ahead: [],
    repair: undefined,
    doubtful: h.repair?.tried ? undefined : h.repair?.finding,
    ...(inVain ? { leaving: 'handed-over' as const } : {}),
  }
}
