// What each safety rule allows and refuses, act by act and state by state, as the six rules are worded: the refusals and their edges.
import { expect, test } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { guarded, type Hunt, startOf } from '../../web/flow/hunt.ts'
import { type Asked, broken, cautionFor, energises, type Guarded, notExtraLow, RULES } from '../../web/flow/safety.ts'
import { amp, bond, bus, device, inject, lamp, load, ohm, proveDead, run, supply, volt, zeroLeads } from '../bench/scripted.ts'
import { INJECTOR, known, METER, unknown } from './machines.ts'

/** B1 has a breaker of 6 A, B2 a fuse of 4 A. */
const hunt = (more: Partial<Hunt> = {}, machine = known): Hunt => ({ ...startOf(machine, INJECTOR, 'all-dead'), briefed: true, ...more })
const begun = hunt()
const at = (positions: Partial<Hunt['positions']>, more: Partial<Guarded> = {}): Guarded => ({
  ...guarded(begun),
  suspected: false,
  ...more,
  positions: { ...begun.positions, ...positions },
})
const open = { B1: 'open', B2: 'open' } as const
const injector = { branch: 'B1', into: 'zero' } as const
const live = at({})
const off = at({ supply: 'off' }, { power: 'off' })
const dead = at({ supply: 'off', devices: open }, { power: 'provedDead' })
const fed = at({ supply: 'off', devices: open, injector })
/** Claimed to be dead although something feeds it: the claim alone must not be believed. */
const claimed = [at({ devices: open }, { power: 'provedDead' }), at({ supply: 'off', devices: open, injector }, { power: 'provedDead' })]
const mend: Asked = { kind: 'mend' }
const look: Step = { kind: 'look', look: 'device', branch: 'B1' }
const finding: Step = { kind: 'finding', finding: { fault: 'short', branch: 'B1', probability: 1 } }

const onDeadOnly: readonly Asked[] = [
  ohm('B1.plus', 'B1.zero'),
  mend,
  zeroLeads,
  run('B1', 'W1', 'opened'),
  run('B1', 'W1', 'joined'),
  load('B2', 'K2', 'unplugged'),
  load('B2', 'K2', 'plugged'),
  bus('opened'),
  bus('joined'),
  bond('opened'),
  bond('joined'),
  inject('B1', 'on'),
]
test.each(onDeadOnly)('rule 1: $kind $act.act $act.to only on a circuit that is off, not fed, and proved dead', asked => {
  expect(RULES.onlyDead(dead, asked)).toBe(true)
  for (const state of [live, off, fed, ...claimed]) expect(RULES.onlyDead(state, asked)).toBe(false)
})

const anyTime = [volt('B1.plus', 'B1.zero'), amp('B1'), lamp, look, finding, device('B1', 'open'), supply('off'), inject('B1', 'off')]
test.each(anyTime)('rule 1 lets through $kind $act.act $act.to in any state', asked => {
  for (const state of [live, off, dead, fed]) expect(RULES.onlyDead(state, asked)).toBe(true)
})

test('rule 1: dead is proved with the supply off and nothing fed, proved before or not', () => {
  for (const state of [off, dead]) expect(RULES.onlyDead(state, proveDead)).toBe(true)
  for (const state of [live, fed, ...claimed]) expect(RULES.onlyDead(state, proveDead)).toBe(false)
})

test('rule 1: no device is closed on the branch that is fed, any other may be; the supply stays off while anything is fed', () => {
  expect(RULES.onlyDead(fed, device('B1', 'closed'))).toBe(false)
  expect(RULES.onlyDead(fed, device('B2', 'closed'))).toBe(true)
  expect(RULES.onlyDead(fed, supply('on'))).toBe(false)
  for (const state of [live, off, dead])
    for (const step of [device('B1', 'closed'), supply('on')]) expect(RULES.onlyDead(state, step)).toBe(true)
})

test('rule 1: a branch is fed past a device that is open or has tripped, and only where its closing was not taken back', () => {
  const past = (B1: 'open' | 'tripped' | 'closed', unsure: readonly string[] = []) =>
    RULES.onlyDead(at({ supply: 'off', devices: { ...open, B1 } }, { power: 'provedDead', unsure: new Set(unsure) }), inject('B1', 'on'))
  expect([past('open'), past('tripped'), past('closed'), past('open', ['B1']), past('open', ['B2'])]).toEqual([
    true,
    true,
    false,
    false,
    true,
  ])
})

test.each([
  { step: supply('on'), on: 'voltage-may-return', off: 'voltage-may-return', suspected: 'switch-on-again' },
  { step: inject('B1', 'on'), on: 'injection', off: 'injection', suspected: 'injection' },
  { step: device('B1', 'closed'), on: 'voltage-may-return', off: undefined, suspected: 'switch-on-again' },
  { step: device('B1', 'open'), on: 'opening-live-device', off: undefined, suspected: 'opening-live-device' },
  { step: supply('off'), on: undefined, off: undefined, suspected: undefined },
  { step: inject('B1', 'off'), on: undefined, off: undefined, suspected: undefined },
  { step: run('B1', 'W1', 'joined'), on: undefined, off: undefined, suspected: undefined },
  { step: load('B2', 'K2', 'plugged'), on: undefined, off: undefined, suspected: undefined },
  { step: bus('joined'), on: undefined, off: undefined, suspected: undefined },
  { step: proveDead, on: undefined, off: undefined, suspected: undefined },
  { step: volt('B1.plus', 'B1.zero'), on: undefined, off: undefined, suspected: undefined },
])('rule 2: before $step.act.act $step.act.to with the supply on $on, off $off, on a suspected short $suspected', c => {
  expect(cautionFor(live, c.step)).toBe(c.on)
  expect(cautionFor(off, c.step)).toBe(c.off)
  expect(cautionFor({ ...live, suspected: true }, c.step)).toBe(c.suspected)
  expect(RULES.confirmedFirst(live, c.step)).toBe(c.on === undefined)
  expect(RULES.confirmedFirst({ ...live, covered: new Set([keyOf(c.step)]) }, c.step)).toBe(true)
})
test('rule 2: a confirmation of one act covers no other', () => {
  expect(RULES.confirmedFirst({ ...live, covered: new Set([keyOf(device('B2', 'open'))]) }, device('B1', 'open'))).toBe(false)
  expect(RULES.confirmedFirst(live, mend)).toBe(true)
})

test.each([
  { step: supply('on'), on: true, off: true },
  { step: inject('B1', 'on'), on: true, off: true },
  { step: device('B1', 'closed'), on: true, off: false },
  { step: supply('off'), on: false, off: false },
  { step: inject('B1', 'off'), on: false, off: false },
  { step: device('B1', 'open'), on: false, off: false },
  { step: run('B1', 'W1', 'joined'), on: false, off: false },
  { step: load('B2', 'K2', 'plugged'), on: false, off: false },
  { step: proveDead, on: false, off: false },
])('$step.act.act $step.act.to brings voltage with the supply on: $on, off: $off', c => {
  if (c.step.kind !== 'act') throw new Error('not an act')
  expect([energises(live.positions, c.step.act), energises(off.positions, c.step.act)]).toEqual([c.on, c.off])
})

test.each([
  { step: volt('B1.plus', 'earth'), allowed: true },
  { step: volt('supply.plus', 'bus.zero'), allowed: true },
  { step: volt('B1/J1.plus', 'B2.zero'), allowed: true },
  { step: volt('B1.plus', 'mains.N'), allowed: false },
  { step: volt('mains.L', 'B1.zero'), allowed: false },
  { step: amp('B1'), allowed: true },
  { step: amp('mains'), allowed: false },
  { step: lamp, allowed: true },
])('rule 3: probes at $step.red and $step.black, or around $step.branch: $allowed', ({ step, allowed }) => {
  expect(RULES.mainsOnlyLooked(live, step)).toBe(allowed)
})

test.each([
  { step: proveDead, answer: { volts: 60.1 }, ends: true },
  { step: proveDead, answer: { volts: -230 }, ends: true },
  { step: proveDead, answer: { volts: 25.1, ac: true }, ends: true },
  { step: proveDead, answer: { volts: 25.1, ac: false }, ends: false },
  { step: proveDead, answer: { done: true as const }, ends: false },
  { step: volt('B1.plus', 'B1.zero'), answer: { value: 24, ac: false }, ends: false },
  { step: volt('B1.plus', 'B1.zero'), answer: { value: 30, ac: false }, ends: false },
  { step: volt('B1.plus', 'B1.zero'), answer: { cannot: 'no' }, ends: false },
  { step: zeroLeads, answer: { value: 100 }, ends: false },
  { step: supply('off'), answer: { value: 100 }, ends: false },
  { step: lamp, answer: { value: 'OL' as const }, ends: false },
  { step: finding, answer: { value: 'OL' as const }, ends: false },
  { step: amp('B1'), answer: { value: 100 }, ends: false },
])('rule 4: $answer to $step.kind $step.act.act ends the session: $ends', ({ step, answer, ends }) => {
  expect(notExtraLow(step, answer)).toBe(ends)
})

test('rule 5: six energisings in all, and the search leaves the last for switching on in the end', () => {
  const nth = (energised: number, searching: boolean) => RULES.seldomAndShort({ ...dead, energised, searching }, supply('on'))
  expect([nth(4, true), nth(5, true), nth(5, false), nth(6, false)]).toEqual([true, false, true, false])
  // What brings no voltage is not counted.
  for (const step of [supply('off'), inject('B1', 'off'), device('B1', 'closed'), run('B1', 'W1', 'joined'), ohm('B1.plus', 'B1.zero')])
    expect(RULES.seldomAndShort({ ...dead, energised: 6 }, step)).toBe(true)
  expect(RULES.seldomAndShort({ ...live, energised: 6 }, device('B1', 'closed'))).toBe(false)
})

test('rule 5: nothing is energised with the bond lifted; all else goes on', () => {
  const lifted = at({ supply: 'off', devices: open, bond: 'opened' }, { power: 'provedDead' })
  for (const step of [supply('on'), inject('B1', 'on')]) expect(RULES.seldomAndShort(lifted, step)).toBe(false)
  for (const step of [bond('joined'), device('B1', 'closed')]) expect(RULES.seldomAndShort(lifted, step)).toBe(true)
})

test('rule 5: onto a suspected short circuit 60 s, the 15 s of switching off among them', () => {
  const after = (liveSeconds: number, asked: Asked, more: Partial<Guarded> = {}) =>
    RULES.seldomAndShort({ ...live, suspected: true, liveSeconds, ...more }, asked)
  // A look takes 5 s, a reading in the cabinet 15 s.
  expect([after(40, lamp), after(40.1, lamp), after(30, amp('B1')), after(30.1, amp('B1'))]).toEqual([true, false, true, false])
  expect([after(45, mend), after(45.1, mend)]).toEqual([true, false])
  expect([after(500, supply('off')), after(500, inject('B1', 'off'))]).toEqual([true, true])
  expect([after(500, device('B1', 'closed')), after(500, device('B1', 'open')), after(500, inject('B1', 'on'))]).toEqual([
    false,
    false,
    false,
  ])
  expect(after(500, lamp, { suspected: false })).toBe(true)
  expect(after(500, lamp, { positions: off.positions })).toBe(true)
})

test("rule 5: a branch is fed within its own device's rating; where none is known, that is no obstacle", () => {
  const feeds = (branch: string, ampere: number | undefined, machine = known) =>
    RULES.seldomAndShort(
      { ...dead, plant: hunt({}, machine).plant, kit: ampere === undefined ? METER : { injector: { ampere, volts: 24 } } },
      inject(branch, 'on'),
    )
  expect([feeds('B1', 5), feeds('B2', 5), feeds('B2', 4), feeds('B1', undefined)]).toEqual([true, false, true, true])
  expect([feeds('B1', 5, unknown), feeds('B9', 5)]).toEqual([true, true])
  // The rating is the injector's matter alone: the machine's own supply may give more.
  expect(RULES.seldomAndShort({ ...dead, kit: { injector: { ampere: 5, volts: 24 } } }, supply('on'))).toBe(true)
  expect(RULES.seldomAndShort({ ...fed, kit: { injector: { ampere: 5, volts: 24 } } }, inject('B2', 'off'))).toBe(true)
})

test('rule 6: fuses with the supply off only, other devices any time, plugs only proved dead', () => {
  expect([device('B2', 'open'), device('B2', 'closed')].map(s => RULES.withoutLoad(live, s))).toEqual([false, false])
  expect([device('B2', 'open'), device('B2', 'closed')].map(s => RULES.withoutLoad(off, s))).toEqual([true, true])
  for (const step of [device('B1', 'open'), supply('off'), inject('B2', 'off'), run('B2', 'W2', 'joined'), volt('B2.plus', 'B2.zero')])
    expect(RULES.withoutLoad(live, step)).toBe(true)
  for (const branch of ['B1', 'B9'])
    expect(RULES.withoutLoad({ ...live, plant: hunt({}, unknown).plant }, device(branch, 'open'))).toBe(true)
  expect([live, off, fed, dead].map(s => RULES.withoutLoad(s, load('B2', 'K2', 'plugged')))).toEqual([false, false, false, true])
})

test('nothing is asked for that the kit has not; what feeds is taken off again all the same', () => {
  const bare = { ...dead, kit: METER }
  expect([RULES.withinKit(bare, inject('B1', 'on')), RULES.withinKit(dead, inject('B1', 'on'))]).toEqual([false, true])
  for (const asked of [inject('B1', 'off'), supply('on'), zeroLeads, mend, lamp, ohm('B1.plus', 'B1.zero'), volt('B1.plus', 'B1.zero')])
    expect(RULES.withinKit(bare, asked)).toBe(true)
  // Amperes: with a clamp anywhere, in series with the injector on the branch that it feeds.
  expect(RULES.withinKit({ ...live, kit: { clamp: true } }, amp('B2'))).toBe(true)
  expect(RULES.withinKit({ ...live, kit: { clamp: false } }, amp('B2'))).toBe(false)
  expect([RULES.withinKit(fed, amp('B1')), RULES.withinKit(fed, amp('B2'))]).toEqual([true, false])
})

test('the first rule that is broken is named, and none where all are kept', () => {
  expect([broken(dead, ohm('B1.plus', 'B1.zero')), broken(live, ohm('B1.plus', 'B1.zero'))]).toEqual([undefined, 'onlyDead'])
  expect(broken(dead, supply('on'))).toBe('confirmedFirst')
})
