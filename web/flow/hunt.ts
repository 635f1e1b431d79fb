// What the state machine remembers of a hunt, and what every part of the flow asks of it. All pure.
import { type Belief, begin as believe, shares } from '../../engine/belief.ts'
import type { Kit, Machine } from '../../engine/machine.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import type { Why } from '../../engine/plan.ts'
import { type Plant, plantOf } from '../../engine/plant.ts'
import { asFound, type Positions } from '../../engine/positions.ts'
import type { Answer, Finding, Read, Step, Symptom } from '../../engine/step.ts'
import { keyOf, type Power } from '../../engine/way.ts'
import type { CautionId, Entry, Request, Result, Stage } from './request.ts'
import type { Guarded } from './safety.ts'

/** How far a confirmed finding has come on its way to a machine that runs again. */
export interface Repair {
  readonly finding: Finding
  readonly mended: boolean
  /** Places whose ohms were clean after the mend: branches, or the bus. */
  readonly checked: ReadonlySet<string>
  readonly lampSeen: boolean
  readonly voltSeen: boolean
  /** The last check or proof failed and is taken once more before it is believed. */
  readonly doubted: boolean
}

export interface Hunt {
  readonly machine: Machine
  readonly kit: Kit
  readonly symptom: Symptom
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
  /** What is left of the plan being followed. */
  readonly ahead: readonly Step[]
  readonly why: Why
  readonly repair: Repair | undefined
  /** How often proving dead has found a voltage that stays, and whether its source was looked for since. */
  readonly stays: number
  readonly warned: boolean
  /** The job goes to somebody else as soon as the machine is left safe. */
  readonly leaving: boolean
  readonly result: Result | undefined
  readonly lastCaution: CautionId | undefined
  readonly entries: readonly Entry[]
  readonly request: Request
  readonly stage: Stage
}

export const NOTHING: Why = { key: '', facts: {} }

export const powerOf = (h: Pick<Hunt, 'positions' | 'provedDead'>): Power =>
  h.positions.supply === 'on' || h.positions.injector !== undefined ? 'live' : h.provedDead ? 'provedDead' : 'off'

/** As the engine's plans want it. */
export const stateOf = (h: Hunt) => ({ positions: h.positions, power: powerOf(h), zeroed: h.zeroed })

/** Chance of a short circuit on live conductors from which on it counts as suspected (a bar of the project's own). */
const SUSPECTED = 0.2
/** Is a short circuit suspected behind a closed device? After a mend, only once a proof has failed. */
export const suspected = (h: Hunt): boolean => {
  if (h.pulses) return true
  if (h.repair?.mended) return h.repair.doubted
  const { short, tripped } = shares(h.belief)
  const live = h.plant.branches.filter(b => h.positions.devices[b.id] === 'closed')
  return live.reduce((sum, { index }) => sum + (short[index] as number) - (tripped[index] as number), 0) > SUSPECTED
}

/** As the safety rules want it. */
export const guarded = (h: Hunt): Guarded => ({ ...h, power: powerOf(h), suspected: suspected(h), searching: h.repair === undefined })

export const startOf = (machine: Machine, kit: Kit, symptom: Symptom): Hunt => {
  const plant = plantOf(machine)
  const found = asFound(machine.branches.map(b => b.id))
  return {
    machine,
    kit,
    symptom,
    plant,
    belief: believe(plant, kit, symptom),
    positions: found,
    found,
    provedDead: false,
    zeroed: false,
    energised: 0,
    liveSeconds: 0,
    unsure: new Set(),
    pulses: false,
    seconds: 0,
    briefed: false,
    covered: new Set(),
    setAside: new Set(),
    refusals: new Map(),
    taken: new Set(),
    ahead: [],
    why: NOTHING,
    repair: undefined,
    stays: 0,
    warned: false,
    leaving: false,
    result: undefined,
    lastCaution: undefined,
    entries: [],
    request: { say: 'end', n: 0, result: 'stopped', seconds: 0 },
    stage: 'briefing',
  }
}

export const withKey = (set: ReadonlySet<string>, ...keys: readonly string[]): ReadonlySet<string> => new Set([...set, ...keys])
export const refusedTimes = (h: Hunt, step: Step): number => h.refusals.get(keyOf(step)) ?? 0

export type ReadEvidence = Evidence & { readonly of: 'read' }
export const evidenceOf = (h: Hunt, read: Read, answer: Answer & { readonly value: number | 'OL' }): ReadEvidence => ({
  of: 'read',
  read,
  positions: h.positions,
  zeroed: h.zeroed,
  shown: answer.value,
  unsteady: 'unsteady' in answer && answer.unsteady === true,
})

/** The fault is still there, or another one is: the hunt starts again, with what was read or seen last. */
export const again = (h: Hunt, evidence: Evidence, step: Step): Hunt => ({
  ...h,
  belief: observe(believe(h.plant, h.kit, h.symptom), evidence),
  taken: new Set([keyOf(step)]),
  setAside: new Set(),
  refusals: new Map(),
  ahead: [],
  repair: undefined,
})
