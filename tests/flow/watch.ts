// An onlooker who sees only what is asked and what is answered, and judges each request by the six rules on his own account.
// He knows nothing of the flow's own state, plans or belief, and no answer that is taken back undoes what was done on the machine.
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Act, Answer, Step } from '../../engine/step.ts'
import type { Request } from '../../web/flow/request.ts'

const MOST_ENERGISED = 6
const LONGEST = 60
const SWITCHING_OFF = 15

/** Plain data, so that a search can copy and compare it. */
export interface Watched {
  readonly supply: 'on' | 'off'
  readonly injector: string | undefined
  readonly bus: 'joined' | 'opened'
  readonly bond: 'joined' | 'opened'
  /** Devices opened by an act; those that a look found open or tripped; of them those left open on purpose. */
  readonly opened: readonly string[]
  readonly seenOpen: readonly string[]
  readonly foundOpen: readonly string[]
  readonly unplugged: readonly string[]
  readonly openedRuns: readonly string[]
  readonly proved: boolean
  readonly covered: readonly string[]
  readonly energised: number
  /** Seconds since the supply came on by an act, and whether its lamp has shown trouble since. */
  readonly live: number
  readonly trouble: boolean
  readonly mended: boolean
  readonly ohmAfterMend: boolean
  readonly lamp: boolean
  readonly volts: boolean
  readonly tooHigh: boolean
  /** How often switching off was refused, and how often the technician said that it ends here. */
  readonly offRefused: number
  readonly left: number
  /** An act was taken back in the log although it may have been done: how the machine stands is no longer what the log says. */
  readonly doubtful: boolean
}

export const atStart: Watched = {
  supply: 'on',
  injector: undefined,
  bus: 'joined',
  bond: 'joined',
  opened: [],
  seenOpen: [],
  foundOpen: [],
  unplugged: [],
  openedRuns: [],
  proved: false,
  covered: [],
  energised: 0,
  live: 0,
  trouble: false,
  mended: false,
  ohmAfterMend: false,
  lamp: false,
  volts: false,
  tooHigh: false,
  offRefused: 0,
  left: 0,
  doubtful: false,
}

/** What an act is known by in `covered`. */
export const keyOf = (act: Act): string => JSON.stringify(Object.entries(act).sort())
const turnsOn = (w: Watched, act: Act): boolean =>
  ((act.act === 'supply' || act.act === 'inject') && act.to === 'on') || (act.act === 'device' && act.to === 'closed' && w.supply === 'on')

const ofAct = (w: Watched, act: Act, machine: Machine, kit: Kit): string[] => {
  const said: string[] = []
  if (['run', 'load', 'bus', 'bond', 'zero-leads'].includes(act.act) && !w.proved) said.push(`1: ${act.act} without proving dead`)
  if (act.act === 'prove-dead' && w.supply === 'on') said.push('1: proving dead with the supply on')
  if (act.act === 'inject' && act.to === 'on') {
    if (!w.opened.includes(act.branch) && !w.seenOpen.includes(act.branch)) said.push('1: injection past a closed device')
    if (kit.injector === undefined) said.push('kit: injection without an injector')
    const rating = machine.branches.find(b => b.id === act.branch)?.protection?.rating ?? Number.POSITIVE_INFINITY
    if ((kit.injector?.ampere ?? 0) > rating) said.push('5: more injected than the device is rated for')
  }
  if (act.act === 'device' && act.to === 'closed' && w.injector === act.branch) said.push('1: a device closed on a fed branch')
  if (act.act === 'supply' && act.to === 'on' && w.injector !== undefined) said.push('1: the supply on while a branch is fed')
  const opensLive = act.act === 'device' && act.to === 'open' && w.supply === 'on'
  if ((turnsOn(w, act) || opensLive) && !w.covered.includes(keyOf(act))) said.push(`2: ${keyOf(act)} without a confirmation`)
  if (turnsOn(w, act) && w.bond === 'opened') said.push('5: energising with the bond lifted')
  if (turnsOn(w, act) && w.energised >= MOST_ENERGISED) said.push('5: energised too often')
  const fuse = act.act === 'device' && machine.branches.find(b => b.id === act.branch)?.protection?.kind === 'fuse'
  if (fuse && w.supply === 'on') said.push('6: a fuse moved under load')
  return said
}

const isFed = (w: Watched, branch: string | undefined): boolean =>
  branch !== undefined && (w.injector === branch || (w.supply === 'on' && ![...w.opened, ...w.seenOpen].includes(branch)))

const leftLive = (w: Watched): boolean => w.injector !== undefined || (w.supply === 'on' && w.trouble && w.energised > 0)

/** What is wrong with a request; nothing, if all is well. */
export const wrongWith = (w: Watched, request: Request, machine: Machine, kit: Kit): string[] => {
  if (request.say === 'mend') return w.proved ? [] : ['1: mending without proving dead']
  if (request.say === 'end') {
    if (w.tooHigh) return request.result === 'stopped' ? [] : ['4: it went on after a dangerous voltage']
    // Whoever refuses twice to switch off, or says twice that it ends here, is not held.
    const insists = w.offRefused >= 2 || w.left >= 2
    if (request.result !== 'restored') return leftLive(w) && !insists ? ['left with something energised that may be faulty'] : []
    const whole = w.bus === 'joined' && w.bond === 'joined' && w.unplugged.length + w.openedRuns.length === 0 && w.injector === undefined
    if (w.doubtful) return w.mended && w.ohmAfterMend && w.lamp && w.volts ? [] : ['restored, but not proved']
    const closed = [...w.opened, ...w.seenOpen].every(b => w.foundOpen.includes(b))
    const proved = w.supply === 'on' && w.mended && w.ohmAfterMend && w.lamp && w.volts
    return [...(whole && closed ? [] : ['restored, but not put back']), ...(proved ? [] : ['restored, but not proved'])]
  }
  if (request.say !== 'step') return []
  if (w.tooHigh) return ['4: it went on after a dangerous voltage']
  const { step } = request
  const said: string[] = []
  if (step.kind === 'read' && step.meter === 'ohm' && !w.proved) said.push('1: ohms without proving dead')
  if (step.kind === 'read' && step.meter !== 'amp' && /mains/.test(step.red + step.black)) said.push('3: a probe on the mains side')
  // What was taken back may have been done or not: an injector taken off in error still counts as there.
  if (step.kind === 'read' && step.meter === 'amp' && !kit.clamp && w.injector !== step.branch && !w.doubtful)
    said.push('kit: amperes without a clamp')
  if (step.kind === 'act') said.push(...ofAct(w, step.act, machine, kit))
  if (step.kind === 'finding' && step.finding.fault !== 'device-open' && isFed(w, step.finding.branch))
    said.push('a walk along a fed cable')
  if (w.supply === 'on' && w.trouble && !switchesOff(step) && w.live + request.seconds + SWITCHING_OFF > LONGEST)
    said.push('5: a suspected short circuit live for too long')
  return said
}

const put = (list: readonly string[], item: string, is: boolean): readonly string[] =>
  is ? [...new Set([...list, item])].sort() : list.filter(x => x !== item)

const acted = (w: Watched, act: Act): Watched => {
  const on = turnsOn(w, act)
  // A confirmation is good for each of its acts once.
  const used = { ...w, covered: put(w.covered, keyOf(act), false) }
  const next = on ? { ...used, proved: false, energised: w.energised + 1 } : used
  switch (act.act) {
    case 'supply':
      return { ...next, supply: act.to, live: 0, trouble: false, lamp: false, volts: false, proved: false }
    case 'prove-dead':
      // Three readings of nothing: whatever fed it is off.
      return { ...next, proved: true, injector: undefined, covered: [] }
    case 'device':
      return {
        ...next,
        opened: put(next.opened, act.branch, act.to === 'open'),
        seenOpen: put(next.seenOpen, act.branch, false),
      }
    case 'load':
      return { ...next, unplugged: put(next.unplugged, act.load, act.to === 'unplugged') }
    case 'run':
      return { ...next, openedRuns: put(next.openedRuns, act.run, act.to === 'opened') }
    case 'bus':
      return { ...next, bus: act.to }
    case 'bond':
      return { ...next, bond: act.to }
    case 'inject':
      return { ...next, injector: act.to === 'on' ? act.branch : undefined, proved: false }
    case 'zero-leads':
      return next
  }
}

const dangerous = (step: Step, answer: Answer): boolean => {
  const isVolt = step.kind === 'read' ? step.meter === 'volt' : step.kind === 'act' && step.act.act === 'prove-dead'
  const shown = 'volts' in answer ? answer.volts : 'value' in answer ? answer.value : 0
  if (isVolt && shown === 'OL') return true
  return isVolt && typeof shown === 'number' && Math.abs(shown) > ('ac' in answer && answer.ac ? 25 : 60)
}

const told = (w: Watched, step: Step, answer: Answer): Watched => {
  if (dangerous(step, answer)) return { ...w, tooHigh: true }
  if (step.kind === 'act') return 'volts' in answer && Math.abs(answer.volts) > 1 ? { ...w, proved: false } : acted(w, step.act)
  if (step.kind === 'look' && 'seen' in answer) {
    if (step.look === 'supply-lamp') return { ...w, lamp: answer.seen === 'steady', trouble: w.trouble || answer.seen === 'blinking' }
    if (step.look === 'device' && answer.seen !== 'closed')
      return {
        ...w,
        seenOpen: put(w.seenOpen, step.branch, true),
        foundOpen: put(w.foundOpen, step.branch, answer.seen === 'open'),
      }
    // The eye is believed before the act: somebody has closed it again.
    if (step.look === 'device') return { ...w, opened: put(w.opened, step.branch, false), seenOpen: put(w.seenOpen, step.branch, false) }
  }
  if (step.kind === 'finding' && 'confirmed' in answer && answer.confirmed) {
    const { branch } = step.finding
    return { ...w, mended: false, ohmAfterMend: false, foundOpen: branch === undefined ? w.foundOpen : put(w.foundOpen, branch, false) }
  }
  if (step.kind === 'read' && 'value' in answer) {
    if (step.meter === 'ohm') return { ...w, ohmAfterMend: w.mended }
    const good = typeof answer.value === 'number' && answer.value > 20 && answer.value < 29 && !answer.unsteady && !answer.ac
    if (step.meter === 'volt') return { ...w, volts: good }
  }
  return w
}

const switchesOff = (step: Step): boolean =>
  step.kind === 'act' && (step.act.act === 'supply' || step.act.act === 'inject') && step.act.to === 'off'

/** The technician has said that it ends here. */
export const leaves = (w: Watched): Watched => ({ ...w, left: w.left + 1 })

/** The session lay aside for long: whoever was clear may be back, and what was proved dead may be live. */
export const away = (w: Watched): Watched => ({ ...w, proved: false, covered: [] })

/** What has been seen once a request was answered. */
export const watch = (w: Watched, request: Request, answer: Answer): Watched => {
  const seconds = request.say === 'step' && w.supply === 'on' ? request.seconds : 0
  const at = { ...w, live: Math.min(w.live + seconds, 999) }
  if ('cannot' in answer) return request.say === 'step' && switchesOff(request.step) ? { ...at, offRefused: w.offRefused + 1 } : at
  if (request.say === 'confirm') return { ...at, covered: request.acts.flatMap(s => (s.kind === 'act' ? [keyOf(s.act)] : [])) }
  if (request.say === 'mend') return { ...at, mended: true, covered: [] }
  return request.say === 'step' ? told(at, request.step, answer) : at
}

const stands = ({ supply, injector, bus, bond, opened, unplugged, openedRuns }: Watched): string =>
  JSON.stringify([supply, injector, bus, bond, opened, unplugged, openedRuns])

/** What was done stays done when an answer is taken back; what was only seen or read is forgotten. */
export const takenBack = (now: Watched, before: Watched): Watched => {
  const { seenOpen, foundOpen, trouble, lamp, volts, mended, ohmAfterMend, tooHigh, offRefused, left } = before
  const doubtful = now.doubtful || stands(now) !== stands(before)
  return { ...now, seenOpen, foundOpen, trouble, lamp, volts, mended, ohmAfterMend, tooHigh, offRefused, left, doubtful }
}
