// What the state machine remembers, and how one answer changes it. All pure.
import { type Belief, begin as believe, type Evidence, observe } from '../../engine/belief.ts'
import { costOf } from '../../engine/cost.ts'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Why } from '../../engine/plan.ts'
import { type Plant, plantOf } from '../../engine/plant.ts'
import { after, asFound, type Positions } from '../../engine/positions.ts'
import type { Answer, DeviceSeen, Finding, Step, Symptom } from '../../engine/step.ts'
import { keyOf, type Power } from '../../engine/way.ts'
import type { CautionId, Entry, Request, Result, Stage } from './request.ts'
import { notExtraLow } from './safety.ts'

export interface Hunt {
  readonly machine: Machine
  readonly kit: Kit
  readonly symptom: Symptom
  readonly plant: Plant
  readonly belief: Belief
  readonly positions: Positions
  /** How the devices were found: they are put back so. */
  readonly found: Positions
  readonly provedDead: boolean
  readonly zeroed: boolean
  readonly energised: number
  readonly liveSeconds: number
  readonly seconds: number
  readonly briefed: boolean
  readonly covered: ReadonlySet<string>
  readonly setAside: ReadonlySet<string>
  readonly taken: ReadonlySet<string>
  /** What is left of the plan being followed. */
  readonly ahead: readonly Step[]
  readonly why: Why
  /** The confirmed finding, and how far its repair has come. */
  readonly finding?: Finding
  readonly mended: boolean
  readonly checked: boolean
  readonly lampSeen: boolean
  readonly restored: boolean
  /** How often proving dead has found a voltage that stays. */
  readonly stays: number
  readonly warned: boolean
  readonly result?: Result
  readonly lastCaution?: CautionId
  readonly entries: readonly Entry[]
  readonly request: Request
  readonly stage: Stage
}

export const NOTHING: Why = { key: '', facts: {} }

export const powerOf = (h: Pick<Hunt, 'positions' | 'provedDead'>): Power =>
  h.positions.supply === 'on' || h.positions.injector !== undefined ? 'live' : h.provedDead ? 'provedDead' : 'off'

export const startOf = (machine: Machine, kit: Kit, symptom: Symptom): Omit<Hunt, 'request' | 'stage'> => {
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
    seconds: 0,
    briefed: false,
    covered: new Set(),
    setAside: new Set(),
    taken: new Set(),
    ahead: [],
    why: NOTHING,
    mended: false,
    checked: false,
    lampSeen: false,
    restored: false,
    stays: 0,
    warned: false,
    entries: [],
  }
}

const withKey = (set: ReadonlySet<string>, key: string): ReadonlySet<string> => new Set([...set, key])

/** A short circuit that is still there after a mend or a switching on: the hunt starts again, with what this reading says. */
const again = (h: Hunt, evidence?: Evidence): Hunt => {
  const { finding: _, ...rest } = h
  const fresh = believe(h.plant, h.kit, h.symptom)
  return {
    ...rest,
    belief: evidence === undefined ? fresh : observe(fresh, evidence),
    taken: new Set(),
    ahead: [],
    mended: false,
    checked: false,
    lampSeen: false,
    restored: false,
  }
}

/** Voltages that a restored 24 V circuit may have, as shares of the rated one: −15 % to +20 % (IEC 61131-2:2007, 5.1.1). */
const RESTORED = { low: 0.85, high: 1.2 } as const

const acted = (h: Hunt, step: Step & { kind: 'act' }): Hunt => {
  const { act } = step
  const positions = after(h.positions, act)
  const energises = (act.act === 'supply' || act.act === 'inject') && act.to === 'on'
  const live = energises || (act.act === 'inject' && act.to === 'off') || act.act === 'supply'
  return {
    ...h,
    positions,
    provedDead: act.act === 'prove-dead' ? true : live ? false : h.provedDead,
    zeroed: h.zeroed || act.act === 'zero-leads',
    stays: act.act === 'prove-dead' ? 0 : h.stays,
    energised: h.energised + (energises && h.finding === undefined ? 1 : 0),
    liveSeconds: act.act === 'supply' ? 0 : h.liveSeconds,
  }
}

/** Is the reading after the mend that of a short circuit rather than of sound loads? */
const stillShort = (h: Hunt, evidence: Evidence, branch: string | undefined): boolean => {
  const before = believe(h.plant, h.kit, 'all-dead')
  const then = observe(before, evidence)
  if (branch === undefined) return evidence.of === 'read' && evidence.shown !== 'OL' && evidence.shown < 0.3
  const b = h.plant.indexOf.get(branch) ?? 0
  const chain = then.branches[b]?.chain,
    places = then.branches[b]?.places
  if (chain === undefined || places === undefined) return false
  let short = 0,
    all = 0
  places.prior.forEach((p, j) => {
    short += p * Math.exp(chain.log[j] as number)
    all += p
  })
  return short / all > Math.exp(then.branches[b]?.sound ?? 0)
}

const readAfterMend = (
  h: Hunt,
  evidence: Evidence & { of: 'read' },
  answer: { readonly value: number | 'OL'; readonly unsteady?: boolean },
): Hunt => {
  if (!h.checked) return stillShort(h, evidence, h.finding?.branch) ? again(h, evidence) : { ...h, checked: true }
  const rated = h.machine.supply.ratedVoltage ?? 24
  const v = answer.value === 'OL' ? 0 : answer.value
  const up = v >= RESTORED.low * rated && v <= RESTORED.high * rated && answer.unsteady !== true
  return up ? { ...h, restored: true, result: 'restored' } : again(h)
}

const seen = (h: Hunt, step: Step & { kind: 'look' }, answer: Answer & { seen: string }): Hunt => {
  if (h.finding !== undefined && step.look === 'supply-lamp') return answer.seen === 'steady' ? { ...h, lampSeen: true } : again(h)
  const evidence: Evidence = { of: 'look', look: step, positions: h.positions, seen: answer.seen as DeviceSeen }
  const next = { ...h, belief: observe(h.belief, evidence), taken: withKey(h.taken, keyOf(step)) }
  if (step.look !== 'device') return next
  const stands = answer.seen as DeviceSeen
  const put = (p: Positions): Positions => ({ ...p, devices: { ...p.devices, [step.branch]: stands } })
  return { ...next, positions: put(h.positions), found: put(h.found), ahead: stands === h.positions.devices[step.branch] ? h.ahead : [] }
}

const stepAnswered = (h: Hunt, step: Step, answer: Answer): Hunt => {
  if (notExtraLow(step, answer)) return { ...h, result: 'stopped', lastCaution: 'not-extra-low-voltage' }
  if ('volts' in answer) {
    // A small rest is the meter's own; what stays above it comes from somewhere.
    if (Math.abs(answer.volts) < 0.5) return stepAnswered(h, step, { done: true })
    return h.stays >= 2
      ? { ...h, result: 'handed-over', lastCaution: 'voltage-stays' }
      : { ...h, stays: h.stays + 1, warned: false, provedDead: false }
  }
  if (step.kind === 'act') return acted({ ...h, ahead: h.ahead.slice(1) }, step)
  const rest = { ...h, ahead: h.ahead.slice(1) }
  if (step.kind === 'look' && 'seen' in answer) return seen(rest, step, answer)
  if (step.kind === 'finding' && 'confirmed' in answer) {
    if (!answer.confirmed)
      return {
        ...rest,
        ahead: [],
        belief: observe(h.belief, { of: 'looked', finding: step.finding }),
        setAside: withKey(h.setAside, keyOf(step)),
      }
    const { branch } = step.finding
    const found = branch === undefined ? h.found : { ...h.found, devices: { ...h.found.devices, [branch]: 'closed' as const } }
    return { ...rest, ahead: [], finding: step.finding, found }
  }
  if (step.kind === 'read' && 'value' in answer) {
    const evidence: Evidence & { of: 'read' } = {
      of: 'read',
      read: step,
      positions: h.positions,
      zeroed: h.zeroed,
      shown: answer.value,
      unsteady: answer.unsteady === true,
    }
    if (h.finding !== undefined) return readAfterMend(rest, evidence, answer)
    return { ...rest, belief: observe(h.belief, evidence), taken: withKey(h.taken, keyOf(step)) }
  }
  throw new Error(`answer ${JSON.stringify(answer)} does not belong to step ${JSON.stringify(step)}`)
}

/** Acts without which there is no safe way on: where one cannot be done, the job goes to somebody else. */
const noWayRound = (h: Hunt, step: Step): boolean =>
  h.finding !== undefined
    ? step.kind !== 'look'
    : step.kind === 'act' &&
      (step.act.act === 'prove-dead' ||
        (step.act.act !== 'zero-leads' &&
          'to' in step.act &&
          (step.act.act === 'supply' || (step.act.act === 'inject' && step.act.to === 'off'))))

const refused = (h: Hunt, request: Request): Hunt => {
  if (request.say === 'step' && !noWayRound(h, request.step)) return { ...h, ahead: [], setAside: withKey(h.setAside, keyOf(request.step)) }
  if (request.say === 'confirm' && request.caution !== 'before-work' && h.finding === undefined && request.acts.length > 0)
    return { ...h, ahead: [], setAside: new Set([...h.setAside, ...request.acts.map(keyOf)]) }
  return { ...h, result: 'handed-over' }
}

/** The hunt after an answer to its request. */
export const answered = (h: Hunt, answer: Answer): Hunt => {
  const { request } = h
  const entries: readonly Entry[] = [...h.entries, { request, answer, stage: h.stage, power: powerOf(h) }]
  const cost = request.say === 'step' && !('cannot' in answer) ? costOf(h.plant, request.step) : 0
  const live = h.positions.supply === 'on' ? h.liveSeconds + cost : 0
  const at: Hunt = { ...h, entries, seconds: h.seconds + cost, liveSeconds: live }
  if ('cannot' in answer) return refused(at, request)
  switch (request.say) {
    case 'end':
      return h
    case 'confirm':
      if (request.caution === 'before-work') return { ...at, briefed: true }
      if (request.caution === 'voltage-stays') return { ...at, warned: true }
      return { ...at, covered: new Set([...h.covered, ...request.acts.map(keyOf)]) }
    case 'mend':
      return { ...at, mended: true, ahead: [] }
    case 'step': {
      const next = stepAnswered(at, request.step, answer)
      // A confirmation holds for one series: what it covered is used up by being done.
      const key = keyOf(request.step)
      return next.covered.has(key) ? { ...next, covered: new Set([...next.covered].filter(k => k !== key)) } : next
    }
  }
}
