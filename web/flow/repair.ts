// From a confirmed finding to a machine that runs again: dead, mended, put back, ohms clean, switched on, lamp and voltage proved.
import { shares } from '../../engine/belief.ts'
import { branchOfPoint } from '../../engine/circuit.ts'
import type { Machine } from '../../engine/machine.ts'
import { observe } from '../../engine/observe.ts'
import type { Why } from '../../engine/plan.ts'
import { type PowerStep, type Staged, stagedFor } from '../../engine/powerup.ts'
import type { Answer, DeviceSeen, Finding, Look, Read, Step } from '../../engine/step.ts'
import { keyOf, toCutOff, toDead, toRestored } from '../../engine/way.ts'
import { again, atStart, evidenceOf, type Hunt, type ReadEvidence, type Repair, refusedTimes, stateOf, withKey } from './hunt.ts'
import { MOST_ENERGISED } from './safety.ts'
import { unseen } from './unseen.ts'

export interface Way {
  readonly steps: readonly Step[]
  readonly why: Why
}

/** So often is a late step asked for before the job goes to somebody else: a ladder or a key may have to be fetched first. */
const MOST_REFUSED = 4
/** The way that was refused least often, the first of equals; none once all were refused too often. */
const leastRefused = (h: Hunt, ways: readonly Way[]): Way | undefined => {
  const times = (way: Way): number => Math.max(0, ...way.steps.map(step => refusedTimes(h, step)))
  const open = ways.filter(way => times(way) < MOST_REFUSED)
  return open.reduce<Way | undefined>((best, way) => (best === undefined || times(way) < times(best) ? way : best), undefined)
}

const read = (meter: 'ohm' | 'volt', place: string): Read => ({ kind: 'read', meter, red: `${place}.plus`, black: `${place}.zero` })
const LAMP: Look = { kind: 'look', look: 'supply-lamp' }
const PUT_BACK: Why = { key: 'put-back', facts: {} }
const PROVE: Why = { key: 'prove-restored', facts: {} }

/** The branch's own points, nearest first: its terminals, and the first junction where its wiring is known. */
const pointsOf = (h: Hunt, branch: string): string[] => {
  const first = h.machine.branches.find(b => b.id === branch)?.wiring?.find(run => run.from === 'terminals')
  return first === undefined ? [branch] : [branch, `${branch}/${first.to}`]
}

/** Ohms at a place: past its open device, or with all others at the bus where the device cannot be opened. */
const checks = (h: Hunt, place: string): Way[] => {
  const why: Why = h.repair?.doubted ? { key: 'repeat', facts: {} } : { key: 'check-mend', facts: { branch: place } }
  const atBus = { why, steps: [...toDead(stateOf(h)), read('ohm', 'bus')] }
  if (place === 'bus') return [atBus]
  const cutOff = toCutOff(stateOf(h), [place])
  const pastDevice = pointsOf(h, place).map(point => ({ why, steps: [...cutOff, read('ohm', point)] }))
  return h.positions.devices[place] === 'closed' ? [...pastDevice, atBus] : pastDevice
}

const OPEN: readonly string[] = ['open-plus', 'open-zero', 'poor-joint']
/** Where a voltage proves the mend: past a conductor that was open, for there was voltage at the terminals all the time. */
const provingPoints = (h: Hunt, { fault, branch, run }: Finding): string[] => {
  // The bus says nothing of a branch whose device was open.
  if (branch === undefined) return ['bus']
  const mended = h.machine.branches.find(b => b.id === branch)?.wiring?.find(r => r.id === run)
  if (OPEN.includes(fault) && mended !== undefined) return [`${branch}/${mended.to}`]
  return [...pointsOf(h, branch), ...(fault === 'device-open' ? [] : ['bus'])]
}

/** What is not checked yet: the mended branch, and each whose device has opened by itself and is about to be closed. */
const unchecked = (h: Hunt, { finding, checked }: Repair): string | undefined => {
  const tripped = Object.keys(h.positions.devices).filter(b => h.positions.devices[b] === 'tripped' && h.found.devices[b] === 'closed')
  // Where another supply fed a branch, that was not what put the machine out of service: the bus tells whether something else is.
  const also = finding.fault === 'backfeed' || finding.branch === undefined ? ['bus'] : []
  return [...(finding.branch === undefined ? [] : [finding.branch]), ...tripped, ...also].find(place => !checked.has(place))
}

/** Devices that are to be looked at, now that lamp and voltage are right; where one cannot be seen, the voltage past it tells. */
const glances = (h: Hunt): Way[] => {
  const [branch] = unseen(h).filter(b => !h.taken.has(keyOf(glanceAt(b))))
  if (branch === undefined) return []
  const why: Why = { key: 'after-energising', facts: { branch } }
  return [glanceAt(branch), read('volt', branch)].map(step => ({ steps: [step], why }))
}
const glanceAt = (branch: string): Look => ({ kind: 'look', look: 'device', branch })

/** Lamp and voltage: after a voltage that was wrong, first whether the device has opened again, then the voltage once more. */
const proofs = (h: Hunt, { finding, lampSeen, voltSeen, doubted }: Repair): Way[] => {
  const { branch } = finding
  const why: Why = doubted ? { key: 'repeat', facts: {} } : PROVE
  const lamp = lampSeen ? [] : [{ why: PROVE, steps: [LAMP] }]
  if (voltSeen) return [...lamp, ...glances(h)]
  const device: Step[] = doubted && branch !== undefined ? [{ kind: 'look', look: 'device', branch }] : []
  if (device.some(step => !h.taken.has(keyOf(step)) && refusedTimes(h, step) === 0))
    return [{ steps: device, why: { key: 'after-energising', facts: { branch: branch ?? '' } } }]
  if (finding.fault === 'backfeed') {
    // That was not what put the machine out of service: another device may have opened by itself on what did.
    const looks = h.machine.branches.map(({ id }): Step => ({ kind: 'look', look: 'device', branch: id }))
    const next = looks.find(step => !h.taken.has(keyOf(step)) && refusedTimes(h, step) === 0)
    if (next?.kind === 'look' && next.look === 'device')
      return [...lamp, { steps: [next], why: { key: 'after-energising', facts: { branch: next.branch } } }]
  }
  const points = provingPoints(h, finding)
  return [...lamp, ...points.map(point => ({ why, steps: [read('volt', point)] }))]
}

/** Reckoned once a machine: the way back asks for it at every step. */
const reckoned = new WeakMap<Machine, { usual?: Staged | undefined; found?: Staged | undefined }>()
const stagedOf = ({ machine }: Hunt, { finding }: Repair): Staged | undefined => {
  const key = finding.fault === 'in-rush' ? 'found' : 'usual'
  const known = reckoned.get(machine) ?? {}
  const staged = key in known ? known[key] : stagedFor(machine, key === 'found')
  reckoned.set(machine, { ...known, [key]: staged })
  return staged
}
const device = (branch: string, to: 'open' | 'closed'): Step => ({ kind: 'act', act: { act: 'device', branch, to } })

/**
 * Branches that stay open until the supply is on, so that in-rush stays within its limit; none where all may come with it.
 * Each counts as an energising (rule 5): where too few are left, all come with the supply, as the machine does each morning.
 */
const waiting = (h: Hunt, repair: Repair): { readonly later: readonly PowerStep[]; readonly why: Why } => {
  const staged = stagedOf(h, repair)
  const later = (staged?.later ?? []).filter(
    ({ branch }) => h.found.devices[branch] === 'closed' && refusedTimes(h, device(branch, 'open')) === 0,
  )
  const facts = { ampere: Math.ceil(staged?.asked ?? 0), limit: Math.floor(staged?.limit ?? 0) }
  const why: Why = { key: 'in-rush', facts }
  if (h.positions.supply === 'on') return { why, later: later.filter(({ branch }) => h.positions.devices[branch] !== 'closed') }
  return { why, later: later.length < MOST_ENERGISED - h.energised ? later : [] }
}
/** A hand keeps whole seconds. */
const pauseOf = ({ wait }: PowerStep): number => Math.max(1, Math.ceil(wait))
/** One group after the other, the lamp between: it shows which of them brings the supply down. */
const closingOf = (later: readonly PowerStep[], lampSeen: boolean): Step[] => [
  ...(lampSeen ? [] : [LAMP]),
  ...later.flatMap(({ branch }, i) => [...(i === 0 ? [] : [LAMP]), device(branch, 'closed')]),
]

/** What comes next; undefined where everything that could come next was refused. */
export const wayOn = (h: Hunt, repair: Repair): Way | 'mend' | undefined => {
  const single = (steps: readonly Step[], why = PUT_BACK): Way | undefined => leastRefused(h, [{ steps, why }])
  if (!repair.mended) {
    const steps = toDead(stateOf(h))
    return steps.length > 0 ? single(steps) : 'mend'
  }
  const { later, why } = waiting(h, repair)
  if (h.positions.supply === 'on') {
    const [next] = later
    if (next === undefined) return leastRefused(h, proofs(h, repair))
    const pause: Why = { key: 'pause', facts: { seconds: pauseOf(next) } }
    const lamp = repair.lampSeen ? [] : [{ why: PROVE, steps: closingOf(later, false) }]
    return leastRefused(h, [...lamp, { why: pause, steps: closingOf(later, true) }])
  }
  const waits = new Set(later.map(({ branch }) => branch))
  const present = {
    ...h.found,
    devices: Object.fromEntries(Object.entries(h.found.devices).map(([b, is]) => [b, waits.has(b) ? 'open' : is] as const)),
  }
  const restored = toRestored(stateOf(h), present)
  const place = unchecked(h, repair)
  if (place === undefined) {
    const on: Step = { kind: 'act', act: { act: 'supply', to: 'on' } }
    const opening = later.filter(({ branch }) => h.positions.devices[branch] === 'closed').map(({ branch }) => device(branch, 'open'))
    const steps = [...restored, ...opening, on, ...(later.length > 0 ? closingOf(later, false) : [])]
    return single(steps, restored.length === 0 && opening.length > 0 ? why : PUT_BACK)
  }
  // Runs and plugs first, so that the ohms see the whole branch; its device is closed on ohms that are clean.
  const before = place === 'bus' ? restored : restored.filter(step => step.kind !== 'act' || step.act.act !== 'device')
  return before.length > 0 ? single(before) : leastRefused(h, checks(h, place))
}

const change = (h: Hunt, more: Partial<Repair>): Hunt =>
  h.repair === undefined ? h : { ...h, repair: { ...h.repair, doubted: false, failures: 0, ...more } }

/**
 * A check that fails is taken once more: a digit is misread sooner than a mend is bad. A second one is believed; of a voltage
 * under a steady lamp a third, for a new hunt costs more than another reading.
 */
const failed = (h: Hunt, evidence: ReadEvidence, step: Step): Hunt => {
  const failures = (h.repair?.failures ?? 0) + 1
  const most = evidence.read.meter === 'volt' && h.repair?.lampSeen ? 2 : 1
  return failures > most ? again(h, evidence, step) : change(h, { doubted: true, failures })
}

/** So much likelier must ohms be with a short circuit than without, to speak for one; what fits neither speaks for none. */
const SPEAKS = 3
/** Do the ohms after the mend speak for a short circuit rather than for sound wiring? Weighed by what each would show. */
const stillShort = (h: Hunt, evidence: ReadEvidence, place: string): boolean => {
  const before = atStart(h.plant, h.kit, 'all-dead')
  const [then, now] = [shares(before), shares(observe(before, evidence))]
  const index = h.plant.indexOf.get(place)
  const of = (short: Float64Array): number => (index === undefined ? short.reduce((sum, p) => sum + p, 0) : (short[index] as number))
  return of(now.short) / of(then.short) > (SPEAKS * now.other) / then.other
}

/** Voltages that a restored 24 V circuit may have, as shares of the rated one: −15 % to +20 % (IEC 61131-2:2007, 5.1.1). */
const RESTORED = { low: 0.85, high: 1.2 } as const

const proved = (h: Hunt): Hunt => (h.repair?.lampSeen && h.repair.voltSeen && glances(h).length === 0 ? { ...h, result: 'restored' } : h)

/** The hunt after a reading on the way back. */
export const readInRepair = (h: Hunt, repair: Repair, step: Read, answer: Answer & { readonly value: number | 'OL' }): Hunt => {
  const evidence = evidenceOf(h, step, answer)
  const place = unchecked(h, repair)
  if (step.meter === 'ohm') {
    if (place === undefined) return h
    return stillShort(h, evidence, place) ? failed(h, evidence, step) : change(h, { checked: withKey(repair.checked, place) })
  }
  const rated = h.machine.supply.ratedVoltage ?? 24
  const v = answer.value === 'OL' ? 0 : answer.value
  const isDirect = !('ac' in answer && answer.ac === true)
  const isUp = v / rated >= RESTORED.low && v / rated <= RESTORED.high && isDirect && !evidence.unsteady
  if (!repair.voltSeen || step.meter === 'amp') return isUp ? proved(change(h, { voltSeen: true })) : failed(h, evidence, step)
  // Past a device that could not be seen, the voltage says whether it is closed.
  const seen = keyOf(glanceAt(branchOfPoint(step.red) ?? ''))
  return isUp ? proved({ ...h, taken: withKey(h.taken, seen) }) : again(h, evidence, step)
}

/** The hunt after a look on the way back. */
export const seenInRepair = (h: Hunt, step: Look, seen: string): Hunt => {
  const evidence = { of: 'look', look: step, positions: h.positions, seen: seen as DeviceSeen } as const
  if (step.look === 'supply-lamp')
    return seen === 'steady'
      ? proved(change(h, { lampSeen: true, doubted: h.repair?.doubted ?? false, failures: h.repair?.failures ?? 0 }))
      : again(h, evidence, step)
  if (step.look !== 'device' || seen === 'closed') return proved({ ...h, taken: withKey(h.taken, keyOf(step)) })
  const devices = { ...h.positions.devices, [step.branch]: seen as DeviceSeen }
  const next = again(h, evidence, step)
  // One that tripped is closed in the end, also where it was taken for open before.
  const found = seen === 'tripped' ? { ...h.found, devices: { ...h.found.devices, [step.branch]: 'closed' as const } } : h.found
  return { ...next, found, positions: { ...h.positions, devices } }
}
