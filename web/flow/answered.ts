// How one answer changes the hunt. All pure.

import type { Belief } from '../../engine/belief.ts'
import { costOf } from '../../engine/cost.ts'
import { otherFound } from '../../engine/fedElsewhere.ts'
import { observe } from '../../engine/observe.ts'
import { after } from '../../engine/positions.ts'
import type { Act, Answer, DeviceSeen, Finding, Look, Read, Step } from '../../engine/step.ts'
import { keyOf, liveKeyOf } from '../../engine/way.ts'
import { atWorst, ending, evidenceOf, type Hunt, placeOf, powerOf, type Repair, refused, type Still, voltsAt, withKey } from './hunt.ts'
import { notOpened } from './notOpened.ts'
import { readInRepair, seenInRepair } from './repair.ts'
import type { Request } from './request.ts'
import { energises, notExtraLow } from './safety.ts'

/** Up to here a voltage is the meter's own rest or a stray one; what stays above comes from somewhere, V (common practice, no source). */
const REST = 0.5
/** So often may a voltage stay, its source looked for each time, before the job goes to somebody else. */
const MOST_STAYS = 3

const without = <T>(set: ReadonlySet<T>, gone: T): ReadonlySet<T> => new Set([...set].filter(x => x !== gone))

/** Whatever is switched stands as it was switched; and in a circuit proved dead nothing is on. */
const stillAfter = ({ supply, injector, bond }: Still, { act }: Act): Still => ({
  ...(bond !== undefined && act !== 'bond' ? { bond } : {}),
  ...(supply !== undefined && act !== 'supply' && act !== 'prove-dead' ? { supply } : {}),
  ...(injector !== undefined && act !== 'inject' && act !== 'prove-dead' ? { injector } : {}),
})

const acted = (h: Hunt, act: Act): Hunt => {
  const live = energises(atWorst(h), act)
  const proves = act.act === 'prove-dead'
  const switchedOn = live && act.act !== 'inject'
  return {
    ...h,
    belief: proves ? observe(h.belief, { of: 'proved', positions: h.positions, volts: 0 }) : h.belief,
    positions: after(h.positions, act),
    still: stillAfter(h.still, act),
    // What the injector fed is proved dead again, like what the supply fed.
    provedDead: proves || (h.provedDead && !live && act.act !== 'inject' && act.act !== 'supply'),
    zeroed: h.zeroed || act.act === 'zero-leads',
    stays: proves ? 0 : h.stays,
    // Whoever was clear may have come back by now.
    covered: proves ? new Set() : h.covered,
    energised: h.energised + (live ? 1 : 0),
    liveSeconds: act.act === 'supply' ? 0 : h.liveSeconds,
    pulses: h.pulses && act.act !== 'supply',
    unsure: act.act === 'device' ? without(h.unsure, act.branch) : h.unsure,
    ...(switchedOn && h.repair !== undefined
      ? { repair: { ...h.repair, lampSeen: false, voltSeen: false, doubted: false }, taken: new Set<string>() }
      : {}),
  }
}

/** Where there should be none, a voltage was found. */
const stays = (h: Hunt, belief: Belief): Hunt => {
  // What feeds it is looked for before anything else that was ahead.
  const next = { ...h, belief, ahead: [], stays: h.stays + 1, warned: false, provedDead: false }
  return next.stays < MOST_STAYS ? next : { ...next, result: 'handed-over', lastCaution: 'voltage-stays' }
}

const keysOf = ({ positions }: Hunt, step: Step): string[] =>
  positions.supply === 'on' ? [keyOf(step), liveKeyOf(step, positions)] : [keyOf(step)]

const seen = (before: Hunt, look: Look, answer: Answer & { readonly seen: string }): Hunt => {
  const h = answer.seen === 'blinking' ? { ...before, pulses: true } : before
  if (h.repair !== undefined) return seenInRepair(h, look, answer.seen)
  const belief = observe(h.belief, { of: 'look', look, positions: h.positions, seen: answer.seen as DeviceSeen })
  const next: Hunt = { ...h, belief, taken: withKey(h.taken, ...keysOf(h, look)) }
  if (look.look !== 'device') return next
  const stood = h.positions.devices[look.branch],
    stands = answer.seen as DeviceSeen
  if (stands === stood) return next
  if (stands === 'closed' && stood === 'open') return notOpened(next, look.branch)
  const positions = { ...h.positions, devices: { ...h.positions.devices, [look.branch]: stands } }
  // Found open it is left open; one that tripped is closed in the end, also where it was taken for open before.
  const is: DeviceSeen = stands === 'open' ? 'open' : 'closed'
  const found = stands === 'closed' ? h.found : { ...h.found, devices: { ...h.found.devices, [look.branch]: is } }
  // What was proved at the bus says nothing of a branch that was cut off from it.
  const ahead = stands !== 'closed' && powerOf(h) === 'provedDead' ? [voltsAt(look.branch)] : []
  return { ...next, positions, found, ahead, why: ahead.length > 0 ? { key: 'other-supply-branch', facts: {} } : next.why }
}

const wentToLook = (h: Hunt, finding: Finding, confirmed: boolean): Hunt => {
  if (!confirmed) {
    const key = keyOf({ kind: 'finding', finding })
    return { ...h, ahead: [], belief: observe(h.belief, { of: 'looked', finding }), setAside: withKey(h.setAside, key) }
  }
  const { branch } = finding
  const found = branch === undefined ? h.found : { ...h.found, devices: { ...h.found.devices, [branch]: 'closed' as const } }
  const repair = { finding, mended: false, checked: new Set<string>(), lampSeen: false, voltSeen: false, doubted: false, failures: 0 }
  return { ...h, ahead: [], found, repair, refusals: new Map(), taken: new Set() }
}

/** Another supply opens no device: where one has opened, the search for what did goes on with what is known. */
const mended = (h: Hunt, repair: Repair): Hunt => {
  const { finding } = repair
  const next: Hunt = { ...h, ahead: [], mends: [...h.mends, placeOf(finding)] }
  if (finding.fault !== 'backfeed' || !Object.values(h.positions.devices).includes('tripped'))
    return { ...next, repair: { ...repair, mended: true } }
  return {
    ...next,
    repair: undefined,
    belief: otherFound(h.belief),
    setAside: withKey(h.setAside, keyOf({ kind: 'finding', finding })),
    taken: new Set(h.readings.map(({ read }) => keyOf(read))),
  }
}

/** A voltage where it was proved dead: the proof said nothing of this place. */
const wasDead = (h: Hunt, read: Read, shown: number | 'OL'): boolean =>
  read.meter === 'volt' && powerOf(h) === 'provedDead' && shown !== 'OL' && Math.abs(shown) > REST

const readTaken = (h: Hunt, read: Read, answer: Answer & { readonly value: number | 'OL' }): Hunt => {
  const evidence = evidenceOf(h, read, answer)
  if (wasDead(h, read, evidence.shown)) return stays({ ...h, taken: withKey(h.taken, keyOf(read)) }, observe(h.belief, evidence))
  if (h.repair !== undefined) return readInRepair(h, h.repair, read, answer)
  // A small alternating voltage says nothing of a direct-current circuit: the reading counts as not taken.
  if ('ac' in answer && answer.ac === true) return refused({ ...h, belief: { ...h.belief, fitsNothing: 1 } }, [keyOf(read)])
  const readings = read.meter === 'ohm' ? [...h.readings, evidence] : h.readings
  return { ...h, belief: observe(h.belief, evidence), readings, taken: withKey(h.taken, ...keysOf(h, read)) }
}

const stepAnswered = (h: Hunt, step: Step, answer: Answer): Hunt => {
  if (notExtraLow(step, answer)) return { ...h, result: 'stopped', lastCaution: 'not-extra-low-voltage' }
  if ('volts' in answer && Math.abs(answer.volts) > REST) {
    const proved = { of: 'proved', positions: h.positions, volts: Math.abs(answer.volts) } as const
    return stays(h, observe(h.belief, proved))
  }
  const rest = { ...h, ahead: h.ahead.slice(1) }
  if (step.kind === 'act') return acted(rest, step.act)
  if (step.kind === 'look' && 'seen' in answer) return seen(rest, step, answer)
  if (step.kind === 'finding' && 'confirmed' in answer) return wentToLook(rest, step.finding, answer.confirmed)
  if (step.kind === 'read' && 'value' in answer) return readTaken(rest, step, answer)
  throw new Error(`answer ${JSON.stringify(answer)} does not belong to step ${JSON.stringify(step)}`)
}

/** Another way is taken, or, where there is none, the job goes to somebody else. */
const cannot = (h: Hunt, request: Request): Hunt => {
  if (request.say === 'step') {
    // What cannot be read by itself in a circuit proved dead is proved dead with the rest once more.
    const isProof = request.step.kind === 'read' && request.step.meter === 'volt' && powerOf(h) === 'provedDead'
    return refused(isProof ? { ...h, provedDead: false } : h, [keyOf(request.step)])
  }
  if (request.say === 'confirm' && request.acts.length > 0) return refused(h, request.acts.map(keyOf))
  return request.say === 'mend' ? { ...h, leaving: 'handed-over' } : ending(h, 'handed-over')
}

const taken = (h: Hunt, request: Request, answer: Answer): Hunt => {
  if ('cannot' in answer) return cannot(h, request)
  switch (request.say) {
    case 'end':
      return h
    case 'confirm':
      if (request.caution === 'before-work') return { ...h, briefed: true }
      if (request.caution === 'voltage-stays') return { ...h, warned: true }
      if (request.caution === 'mains-side') return h.repair === undefined ? h : { ...h, repair: { ...h.repair, qualified: true } }
      return { ...h, covered: new Set(request.acts.map(keyOf)) }
    case 'mend':
      return h.repair === undefined ? h : mended(h, h.repair)
    case 'step':
      return stepAnswered(h, request.step, answer)
  }
}

/** The hunt after an answer to its request. */
export const answered = (h: Hunt, answer: Answer): Hunt => {
  const { request } = h
  // A step that was refused took its time as well.
  const cost = request.say === 'step' ? costOf(h.plant, request.step) : 0
  const next = taken(
    {
      ...h,
      entries: [...h.entries, { request, answer, stage: h.stage, power: powerOf(h) }],
      seconds: h.seconds + cost,
      liveSeconds: atWorst(h).supply === 'on' ? h.liveSeconds + cost : 0,
    },
    request,
    answer,
  )
  // A confirmation holds for the acts of its series that are still ahead, each once.
  const ahead = new Set(next.ahead.map(keyOf))
  const used = request.say === 'step' ? keyOf(request.step) : undefined
  return { ...next, covered: new Set([...next.covered].filter(key => ahead.has(key) && key !== used)) }
}
