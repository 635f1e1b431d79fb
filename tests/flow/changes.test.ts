// What one answer changes in the hunt, answer by answer, as the procedure is described: nothing else may move.
import { expect, test } from 'vitest'
import type { Answer, Finding, Step } from '../../engine/step.ts'
import { keyOf, liveKeyOf } from '../../engine/way.ts'
import { answered } from '../../web/flow/answered.ts'
import { type Hunt, powerOf, type Repair, startOf } from '../../web/flow/hunt.ts'
import type { CautionId, Request } from '../../web/flow/request.ts'
import { device, inject, lamp, load, ohm, proveDead, run, supply, volt, zeroLeads } from '../bench/scripted.ts'
import { INJECTOR, known } from './machines.ts'

const start: Hunt = { ...startOf(known, INJECTOR, 'all-dead'), briefed: true }
const dead: Hunt = { ...start, positions: { ...start.positions, supply: 'off' }, provedDead: true }
const off: Hunt = { ...dead, provedDead: false }
const DONE: Answer = { done: true }
const asked = (h: Hunt, request: Request): Hunt => ({ ...h, request })
const asking = (h: Hunt, step: Step): Hunt => asked(h, { say: 'step', n: 1, seconds: 5, step, why: { key: '', facts: {} } })
const said = (h: Hunt, step: Step, answer: Answer = DONE): Hunt => answered(asking(h, step), answer)
const confirming = (h: Hunt, caution: CautionId, acts: readonly Step[] = []): Hunt => asked(h, { say: 'confirm', n: 1, caution, acts })
const finding: Finding = { fault: 'short-to-zero', branch: 'B1', run: 'W1', probability: 0.9 }
const repair: Repair = {
  finding,
  mended: true,
  checked: new Set(),
  lampSeen: true,
  voltSeen: true,
  doubted: true,
  failures: 0,
}

test('an act moves what it moves, is told with its question, and takes its seconds', () => {
  const h = said(start, supply('off'))
  expect([h.positions.supply, h.seconds, h.provedDead, powerOf(h)]).toEqual(['off', 15, false, 'off'])
  expect(h.entries).toHaveLength(1)
  expect(h.entries[0]).toMatchObject({ answer: DONE, power: 'live', request: { step: supply('off') } })
  expect(said(h, zeroLeads)).toMatchObject({ zeroed: true, seconds: 35 })
  expect(said(said(h, zeroLeads), device('B1', 'open')).zeroed).toBe(true)
  expect(said(h, device('B1', 'open')).zeroed).toBe(false)
})

test('dead is what is proved, until voltage may be there again', () => {
  expect(said(off, proveDead).provedDead).toBe(true)
  expect(said(off, device('B1', 'open')).provedDead).toBe(false)
  for (const step of [device('B1', 'open'), device('B1', 'closed'), load('B2', 'K2', 'unplugged'), run('B1', 'W1', 'opened'), zeroLeads])
    expect(said(dead, step).provedDead).toBe(true)
  // Off again after feeding, it is proved once more: what was fed may hold a charge.
  for (const step of [supply('on'), supply('off'), inject('B1', 'on'), inject('B1', 'off')]) expect(said(dead, step).provedDead).toBe(false)
})

test.each([
  { step: supply('on'), from: dead, energises: true },
  { step: inject('B1', 'on'), from: dead, energises: true },
  { step: device('B1', 'closed'), from: start, energises: true },
  { step: device('B1', 'closed'), from: dead, energises: false },
  { step: device('B1', 'open'), from: start, energises: false },
  { step: supply('off'), from: start, energises: false },
  { step: inject('B1', 'off'), from: dead, energises: false },
])('$step.act.act $step.act.to counts as energising: $energises', ({ step, from, energises }) => {
  expect(said({ ...from, energised: 2 }, step).energised).toBe(energises ? 3 : 2)
})

test('seconds under voltage count from switching on, by what each step takes; off, none do', () => {
  const on = said({ ...dead, liveSeconds: 99 }, supply('on'))
  expect(on.liveSeconds).toBe(0)
  const looked = said(on, lamp, { seen: 'steady' })
  expect(looked.liveSeconds).toBe(5)
  expect(said(looked, volt('bus.plus', 'bus.zero'), { value: 24 }).liveSeconds).toBe(20)
  expect(said(looked, volt('bus.plus', 'bus.zero'), { cannot: 'no' })).toMatchObject({ liveSeconds: 20, seconds: on.seconds + 20 })
  expect(said(looked, device('B1', 'open')).liveSeconds).toBe(11)
  expect(said({ ...dead, liveSeconds: 30 }, device('B1', 'open')).liveSeconds).toBe(0)
  // Its switching on was taken back in the log, so it may be on: those seconds count as well.
  expect(said({ ...dead, still: { supply: 'on' }, liveSeconds: 30 }, device('B1', 'open')).liveSeconds).toBe(36)
  // A confirmation takes none.
  expect(answered(confirming(looked, 'voltage-may-return', [supply('on')]), DONE)).toMatchObject({
    liveSeconds: 5,
    seconds: looked.seconds,
  })
})

test('what may be on although it was taken back is certain again once it is switched, or the circuit is proved dead', () => {
  const fed = { branch: 'B1', into: 'zero' } as const
  const unsure: Hunt = { ...off, still: { supply: 'on', injector: fed } }
  expect(said(unsure, supply('off')).still).toEqual({ injector: fed })
  expect(said(unsure, inject('B1', 'off')).still).toEqual({ supply: 'on' })
  expect(said(unsure, proveDead).still).toEqual({})
  expect(said(unsure, device('B1', 'open')).still).toEqual({ supply: 'on', injector: fed })
  const doubt: Hunt = { ...off, unsure: new Set(['B1', 'B2']) }
  expect([...said(doubt, device('B1', 'open')).unsure]).toEqual(['B2'])
  expect([...said(doubt, supply('off')).unsure]).toEqual(['B1', 'B2'])
})

test('a lamp that pulses is remembered until the supply is switched', () => {
  const pulsing = said(start, lamp, { seen: 'blinking' })
  expect(pulsing.pulses).toBe(true)
  expect(said(start, lamp, { seen: 'steady' }).pulses).toBe(false)
  expect(said(pulsing, device('B1', 'open')).pulses).toBe(true)
  expect(said(pulsing, supply('off')).pulses).toBe(false)
})

test('proving dead with up to half a volt is dead; above, the voltage stays, and what feeds it comes before all else', () => {
  for (const volts of [0.5, -0.5, 0]) expect(said(off, proveDead, { volts })).toMatchObject({ provedDead: true, stays: 0 })
  for (const volts of [0.51, -0.51, 23.8]) {
    const h = said({ ...off, warned: true, ahead: [proveDead, zeroLeads] }, proveDead, { volts })
    expect(h).toMatchObject({ provedDead: false, stays: 1, warned: false, ahead: [], result: undefined })
  }
  const third = said({ ...off, stays: 2 }, proveDead, { volts: 23.8 })
  expect(third).toMatchObject({ stays: 3, result: 'handed-over', lastCaution: 'voltage-stays' })
  expect(said({ ...off, stays: 1 }, proveDead, { volts: 23.8 }).result).toBeUndefined()
  expect(said({ ...off, stays: 2 }, proveDead).stays).toBe(0)
  expect(said({ ...off, stays: 2 }, device('B1', 'open')).stays).toBe(2)
})

test('a device found open after the proof: its branch was cut off then, so its own volts come before anything else there', () => {
  const glance = (branch: string) => ({ kind: 'look', look: 'device', branch }) as const
  const own = volt('B1.plus', 'B1.zero')
  const late = said({ ...dead, ahead: [glance('B1'), zeroLeads] }, glance('B1'), { seen: 'tripped' })
  expect(late).toMatchObject({ ahead: [own], provedDead: true, why: { key: 'other-supply-branch' } })
  for (const [from, seen] of [
    [off, 'tripped'],
    [start, 'tripped'],
  ] as const)
    expect(said({ ...from, ahead: [glance('B1'), zeroLeads] }, glance('B1'), { seen }).ahead, powerOf(from)).toEqual([])
  expect(said({ ...dead, ahead: [glance('B1'), zeroLeads] }, glance('B1'), { seen: 'closed' }).ahead).toEqual([zeroLeads])
  expect(said(late, own, { value: 0.4 })).toMatchObject({ ahead: [], provedDead: true, stays: 0 })
  // Where they cannot be read, all is proved dead once more; what else cannot be done takes no proof back.
  expect(said(late, own, { cannot: 'covered' })).toMatchObject({ ahead: [], provedDead: false })
  expect(said(late, ohm('B1.plus', 'B1.zero'), { cannot: 'covered' }).provedDead).toBe(true)
})

test('a voltage where it was proved dead takes the proof back, and is looked for like one that stays', () => {
  for (const value of [23.8, -0.6]) {
    const fed = said({ ...dead, warned: true, ahead: [volt('B1.plus', 'B1.zero'), zeroLeads] }, volt('B1.plus', 'B1.zero'), { value })
    expect(fed).toMatchObject({ provedDead: false, stays: 1, warned: false, ahead: [] })
  }
  expect(said(dead, volt('B1.plus', 'B1.zero'), { value: 0.5 })).toMatchObject({ provedDead: true, stays: 0 })
  // Not yet proved, it is what is being looked for; under voltage or fed, it is what is to be read.
  expect(said(off, volt('B1.plus', 'B1.zero'), { value: 23.8 }).stays).toBe(0)
  expect(said(start, volt('B1.plus', 'B1.zero'), { value: 23.8 }).stays).toBe(0)
  expect(said({ ...dead, stays: 2 }, volt('B1.plus', 'B1.zero'), { value: 23.8 }).result).toBe('handed-over')
  // On the way back too: it proves no mend.
  const checking = { ...dead, repair: { ...repair, lampSeen: false, voltSeen: false } }
  expect(said(checking, volt('B1.plus', 'B1.zero'), { value: 24 })).toMatchObject({
    provedDead: false,
    stays: 1,
    repair: { voltSeen: false },
  })
})

test('another supply opens no device: taken off, it is no end where one has tripped, and the search goes on with what was read', () => {
  const other: Finding = { fault: 'backfeed', branch: 'B2', probability: 0.9 }
  const devices = { ...dead.positions.devices, B1: 'tripped' as const }
  const read = said(said(off, proveDead), ohm('bus.plus', 'bus.zero'), { value: 20 })
  const mending: Hunt = { ...read, positions: { ...read.positions, devices }, repair: { ...repair, finding: other, mended: false } }
  const on = answered(asked(mending, { say: 'mend', n: 1, finding: other }), DONE)
  expect(on).toMatchObject({ repair: undefined, mends: ['B2'], ahead: [], provedDead: true })
  expect([...on.taken]).toEqual([keyOf(ohm('bus.plus', 'bus.zero'))])
  expect(on.setAside.has(keyOf({ kind: 'finding', finding: other }))).toBe(true)
  const none = { ...mending, positions: read.positions }
  expect(answered(asked(none, { say: 'mend', n: 1, finding: other }), DONE).repair?.mended).toBe(true)
  const worn = { ...mending, repair: { ...repair, mended: false } }
  expect(answered(asked(worn, { say: 'mend', n: 1, finding }), DONE).repair?.mended).toBe(true)
})

test('more than extra-low voltage ends the session and says why', () => {
  const h = said(start, volt('B1.plus', 'B1.zero'), { value: 230 })
  expect(h).toMatchObject({ result: 'stopped', lastCaution: 'not-extra-low-voltage' })
})

test('what cannot be done is set aside and counted, the plan is dropped', () => {
  const step = device('B1', 'open')
  const once = said({ ...off, ahead: [step, proveDead] }, step, { cannot: 'stuck' })
  expect([[...once.setAside], [...once.refusals], once.ahead]).toEqual([[keyOf(step)], [[keyOf(step), 1]], []])
  expect(once.positions).toEqual(off.positions)
  const twice = said(once, step, { cannot: 'stuck' })
  expect([...twice.refusals]).toEqual([[keyOf(step), 2]])
  const other = said(twice, lamp, { cannot: 'dark' })
  expect([...other.refusals]).toEqual([
    [keyOf(step), 2],
    [keyOf(lamp), 1],
  ])
})

test('a confirmation that cannot be given sets its acts aside; one for no act, and a mend, hand the job over', () => {
  const acts = [supply('on'), inject('B1', 'on')]
  const h = answered(confirming(dead, 'voltage-may-return', acts), { cannot: 'somebody is inside' })
  expect([[...h.setAside], h.result, h.leaving]).toEqual([acts.map(keyOf), undefined, undefined])
  expect(answered(confirming(dead, 'before-work'), { cannot: 'no lock' }).result).toBe('handed-over')
  expect(answered(asked(dead, { say: 'mend', n: 1, finding }), { cannot: 'no cable' })).toMatchObject({
    leaving: 'handed-over',
    result: undefined,
  })
})

test('each confirmation does its own, and covers acts that are still ahead, each once', () => {
  expect(answered(confirming({ ...start, briefed: false }, 'before-work'), DONE)).toMatchObject({ briefed: true, warned: false })
  expect(answered(confirming(start, 'voltage-stays'), DONE).warned).toBe(true)
  expect(answered(confirming({ ...dead, repair }, 'mains-side'), DONE).repair?.qualified).toBe(true)
  expect(answered(confirming(dead, 'mains-side'), DONE).repair).toBeUndefined()
  const series = [device('B1', 'open'), device('B2', 'open')]
  const confirmed = answered(confirming({ ...start, ahead: series }, 'opening-live-device', [...series, supply('on')]), DONE)
  expect([...confirmed.covered]).toEqual(series.map(keyOf))
  const first = said(confirmed, device('B1', 'open'))
  expect([...first.covered]).toEqual([keyOf(device('B2', 'open'))])
  expect(first.ahead).toEqual([device('B2', 'open')])
  // Asked for twice, it is confirmed twice.
  const again = { ...start, ahead: [supply('on'), supply('on')], covered: new Set([keyOf(supply('on'))]) }
  expect(said(again, supply('on')).covered.size).toBe(0)
  // Whoever was clear may be back once dead was proved.
  expect(said({ ...off, ahead: [proveDead, supply('on')], covered: new Set([keyOf(supply('on'))]) }, proveDead).covered.size).toBe(0)
})

test('a mend that is done is kept with its place, each time', () => {
  const mending: Hunt = { ...dead, ahead: [lamp], mends: ['B2'], repair: { ...repair, mended: false } }
  const h = answered(asked(mending, { say: 'mend', n: 1, finding }), DONE)
  expect([h.mends, h.repair?.mended, h.ahead]).toEqual([['B2', 'B1'], true, []])
  expect(answered(asked(dead, { say: 'mend', n: 1, finding }), DONE).mends).toEqual([])
})

test('a device is put back as it was found: open stays open, what has tripped or was opened here is closed in the end', () => {
  const seen = (as: 'open' | 'tripped' | 'closed') =>
    said({ ...dead, ahead: [lamp, lamp] }, { kind: 'look', look: 'device', branch: 'B1' }, { seen: as })
  expect([seen('open').positions.devices['B1'], seen('open').found.devices['B1']]).toEqual(['open', 'open'])
  expect([seen('tripped').positions.devices['B1'], seen('tripped').found.devices['B1']]).toEqual(['tripped', 'closed'])
  expect([seen('closed').positions, seen('closed').ahead]).toEqual([dead.positions, [lamp]])
  expect(seen('open').ahead).toEqual([volt('B1.plus', 'B1.zero')])
  expect([...seen('open').taken]).toEqual([keyOf({ kind: 'look', look: 'device', branch: 'B1' })])
  expect(seen('open').positions.devices['B2']).toBe('closed')
})

test('a place looked at in vain is set aside; one that is confirmed starts the way back, and all may be asked anew', () => {
  const step: Step = { kind: 'finding', finding }
  const before: Hunt = {
    ...dead,
    found: { ...dead.found, devices: { B1: 'open', B2: 'open' } },
    refusals: new Map([['x', 1]]),
    taken: new Set(['y']),
    ahead: [step, lamp],
  }
  const vain = said(before, step, { confirmed: false })
  expect([[...vain.setAside], vain.repair, vain.ahead]).toEqual([[keyOf(step)], undefined, []])
  expect(vain.belief).not.toEqual(before.belief)
  const there = said(before, step, { confirmed: true })
  expect(there.repair).toEqual({
    finding,
    mended: false,
    checked: new Set(),
    lampSeen: false,
    voltSeen: false,
    doubted: false,
    failures: 0,
  })
  expect([there.refusals.size, there.taken.size, there.ahead]).toEqual([0, 0, []])
  // The faulty branch's device goes back closed, whatever was found there; another one as it was found.
  expect(there.found.devices).toEqual({ B1: 'closed', B2: 'open' })
  const nowhere: Step = { kind: 'finding', finding: { fault: 'no-mains', probability: 1 } }
  expect(said(before, nowhere, { confirmed: true }).found.devices).toEqual({ B1: 'open', B2: 'open' })
})

test('ohms are kept for after a mend, volts are not; a small alternating voltage says nothing and is set aside', () => {
  const ohms = ohm('B1.plus', 'B1.zero')
  const h = said({ ...dead, zeroed: true }, ohms, { value: 0.7, unsteady: true })
  expect(h.readings).toEqual([{ of: 'read', read: ohms, positions: dead.positions, zeroed: true, shown: 0.7, unsteady: true }])
  expect([...h.taken]).toEqual([keyOf(ohms)])
  const volts = volt('bus.plus', 'bus.zero')
  const read = said(start, volts, { value: 3 })
  expect([read.readings, [...read.taken], read.belief === start.belief]).toEqual([
    [],
    [keyOf(volts), liveKeyOf(volts, start.positions)],
    false,
  ])
  const stray = said(start, volts, { value: 3, ac: true })
  expect([[...stray.taken], [...stray.setAside], stray.belief.fitsNothing]).toEqual([[], [keyOf(volts)], 1])
})

test('switched on after a mend, lamp and voltage are to be proved anew; a device closed in the dead changes nothing of that', () => {
  const back: Hunt = { ...dead, repair, taken: new Set(['x']) }
  const on = said(back, supply('on'))
  expect(on.repair).toMatchObject({ lampSeen: false, voltSeen: false, doubted: false, mended: true })
  expect(on.taken.size).toBe(0)
  for (const step of [device('B1', 'closed'), inject('B1', 'on')]) {
    expect(said(back, step).repair).toEqual(repair)
    expect(said(back, step).taken.size).toBe(1)
  }
  expect(said(dead, supply('on')).repair).toBeUndefined()
})

test('an answer that does not belong to its step is an error of the caller, and names both', () => {
  expect(() => said(start, lamp, { value: 5 })).toThrow(/answer \{"value":5\} does not belong to step .*supply-lamp/)
  expect(() => said(start, volt('B1.plus', 'B1.zero'), { seen: 'on' })).toThrow(/does not belong/)
  const end: Request = { say: 'end', n: 1, result: 'restored', seconds: 0 }
  expect(answered(asked(start, end), DONE)).toMatchObject({ positions: start.positions, seconds: 0 })
})
