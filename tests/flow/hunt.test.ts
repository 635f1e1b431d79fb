// What the hunt remembers, and what of it holds on: left alone, with other tools, and when it starts again after a mend.
import { describe, expect, test } from 'vitest'
import { begin as believe } from '../../engine/belief.ts'
import { observe } from '../../engine/observe.ts'
import type { Finding, Read } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import {
  again,
  atWorst,
  equipped,
  evidenceOf,
  guarded,
  type Hunt,
  leftAlone,
  placeOf,
  powerOf,
  type ReadEvidence,
  type Repair,
  refusedTimes,
  startOf,
  stateOf,
  suspected,
  withKey,
} from '../../web/flow/hunt.ts'
import { amp, lamp, ohm, proveDead, supply, volt } from '../bench/scripted.ts'
import { INJECTOR, known, three } from './machines.ts'

const live = startOf(known, INJECTOR, 'all-dead')
const off: Hunt = { ...live, positions: { ...live.positions, supply: 'off' } }
const dead: Hunt = { ...off, provedDead: true }
const fed = { branch: 'B1', into: 'zero' } as const
const feeding: Hunt = { ...off, positions: { ...off.positions, injector: fed } }
const finding: Finding = { fault: 'short-to-zero', branch: 'B1', probability: 0.9 }
const repair = (more: Partial<Repair> = {}): Repair => ({
  finding,
  mended: true,
  checked: new Set(),
  lampSeen: false,
  voltSeen: false,
  doubted: false,
  failures: 0,
  ...more,
})

test('at the start everything is on, nothing is proved, done or known', () => {
  expect(live).toMatchObject({
    machine: known,
    kit: INJECTOR,
    belief: { symptom: 'all-dead' },
    known: {},
    positions: { supply: 'on', devices: { B1: 'closed', B2: 'closed' } },
    provedDead: false,
    zeroed: false,
    energised: 0,
    liveSeconds: 0,
    still: {},
    pulses: false,
    seconds: 0,
    briefed: false,
    stays: 0,
    warned: false,
    stage: 'briefing',
    why: { key: '', facts: {} },
  })
  expect(live.found).toEqual(live.positions)
  for (const set of [live.unsure, live.covered, live.setAside, live.refusals, live.taken]) expect(set.size).toBe(0)
  for (const list of [live.readings, live.mends, live.ahead, live.entries]) expect(list).toEqual([])
  for (const none of [live.repair, live.leaving, live.result, live.lastCaution]) expect(none).toBeUndefined()
})

test('live while the supply is or may be on, or anything is fed; dead only once it is proved', () => {
  const powers = [live, off, dead, feeding].map(powerOf)
  expect(powers).toEqual(['live', 'off', 'provedDead', 'live'])
  expect(powerOf({ ...dead, still: { supply: 'on' } })).toBe('live')
  expect(powerOf({ ...dead, still: { injector: fed } })).toBe('live')
  expect(atWorst({ ...off, still: { supply: 'on', injector: fed } })).toEqual({ ...off.positions, supply: 'on', injector: fed })
  expect(stateOf({ ...off, still: { supply: 'on' }, zeroed: true })).toEqual({ positions: live.positions, power: 'live', zeroed: true })
})

test('a short circuit is suspected by what pulses, by belief behind closed devices, and after a mend by a proof that failed', () => {
  expect(suspected(live)).toBe(true)
  const open: Hunt = { ...live, positions: { ...live.positions, devices: { B1: 'open', B2: 'open' } } }
  expect(suspected(open)).toBe(false)
  expect(suspected({ ...open, pulses: true })).toBe(true)
  // Most of the wiring that moves, and with it most short circuits, lies in B2.
  expect(suspected({ ...open, positions: { ...open.positions, devices: { B1: 'open', B2: 'closed' } } })).toBe(true)
  expect(suspected({ ...live, repair: repair() })).toBe(false)
  expect(suspected({ ...live, repair: repair({ doubted: true }) })).toBe(true)
  expect(suspected({ ...live, repair: repair({ mended: false }) })).toBe(true)
  // Whose check had failed is on trial until lamp and voltage are right.
  const tries = [{}, { lampSeen: true }, { voltSeen: true }, { lampSeen: true, voltSeen: true }]
  expect(tries.map(seen => suspected({ ...live, repair: repair({ tried: true, lampSeen: false, voltSeen: false, ...seen }) }))).toEqual([
    true,
    true,
    true,
    false,
  ])
  // What comes and goes may be back, whatever stands open; not once it is mended.
  const goes: Hunt = { ...open, belief: startOf(known, INJECTOR, 'comes-and-goes').belief }
  expect([goes, { ...goes, repair: repair({ mended: false }) }, { ...goes, repair: repair() }].map(suspected)).toEqual([true, true, false])
  // Where a device has opened by itself, it holds the short circuit off already.
  expect(suspected(startOf(known, INJECTOR, 'trips-again'))).toBe(false)
})

test('the rules see the hunt as it may be at worst', () => {
  expect(guarded({ ...off, still: { supply: 'on' } })).toMatchObject({
    positions: live.positions,
    power: 'live',
    suspected: true,
    searching: true,
  })
  expect(guarded({ ...live, repair: repair() })).toMatchObject({ suspected: false, searching: false })
})

test('left alone, it is proved dead anew, and whoever was clear may be back', () => {
  const h: Hunt = { ...dead, covered: new Set(['x']), ahead: [proveDead], taken: new Set(['y']) }
  expect(leftAlone(h)).toEqual({ ...h, provedDead: false, covered: new Set(), ahead: [] })
})

describe('other tools', () => {
  const kit = { meter: { volt: { percent: 1 } }, injector: { ampere: 1, volts: 24 } }
  const with_ = (h: Hunt, tools: Parameters<typeof equipped>[1]) => equipped({ ...h, kit, covered: new Set(['x']), ahead: [lamp] }, tools)
  test('take the place of the old ones, but for the meter, in belief too; confirmations and plan are dropped', () => {
    const h = with_(dead, { clamp: true })
    expect([h.kit, h.belief.kit, h.covered.size, h.ahead]).toEqual([{ clamp: true, meter: kit.meter }, h.kit, 0, []])
    expect(equipped({ ...dead, kit: {} }, { clamp: true }).kit).toEqual({ clamp: true })
  })
  test('a source that feeds and is gone, or is another one now, goes off first', () => {
    const stop = [{ kind: 'act', act: { act: 'inject', branch: 'B1', to: 'off' } }]
    expect(with_(feeding, {}).ahead).toEqual(stop)
    expect(with_(feeding, { injector: { ampere: 2, volts: 24 } }).ahead).toEqual(stop)
    expect(with_(feeding, { injector: { ampere: 1, volts: 24 }, clamp: true }).ahead).toEqual([])
    expect(with_({ ...off, still: { injector: fed } }, {}).ahead).toEqual(stop)
    expect(with_(off, {}).ahead).toEqual([])
  })
})

test('keys are added, refusals counted, places named', () => {
  expect([...withKey(new Set(['a']), 'b', 'a')]).toEqual(['a', 'b'])
  const h: Hunt = { ...off, refusals: new Map([[keyOf(lamp), 2]]) }
  expect([refusedTimes(h, lamp), refusedTimes(h, proveDead)]).toEqual([2, 0])
  expect([placeOf(finding), placeOf({ fault: 'no-mains', probability: 1 })]).toEqual(['B1', 'no-mains'])
  const read = ohm('B1.plus', 'B1.zero') as Read
  expect(evidenceOf({ ...dead, zeroed: true }, read, { value: 0.4 })).toEqual({
    of: 'read',
    read,
    positions: dead.positions,
    zeroed: true,
    shown: 0.4,
    unsteady: false,
  })
  expect(evidenceOf(dead, read, { value: 'OL', unsteady: true })).toMatchObject({ shown: 'OL', unsteady: true, zeroed: false })
  expect(evidenceOf(dead, read, { value: 1, unsteady: false }).unsteady).toBe(false)
})

describe('the hunt starts again', () => {
  const start = startOf(three, INJECTOR, 'all-dead')
  const open = { B1: 'open', B2: 'open', B3: 'open' } as const
  const at = (devices: Hunt['positions']['devices']): Hunt['positions'] => ({ ...start.positions, supply: 'off', devices })
  const reading = (place: string, devices: Hunt['positions']['devices'] = open): ReadEvidence => ({
    of: 'read',
    read: ohm(`${place}.plus`, `${place}.zero`) as Read,
    positions: at(devices),
    zeroed: true,
    shown: 48,
    unsteady: false,
  })
  const [one, two, closed, bus] = [reading('B1'), reading('B2'), reading('B3', { ...open, B3: 'closed' }), reading('bus')]
  const clamp: ReadEvidence = { ...reading('B3'), read: amp('B3') as Read }
  const last: ReadEvidence = { ...reading('B3'), read: volt('B3.plus', 'B3.zero') as Read, positions: start.positions, shown: 2 }
  const before: Hunt = {
    ...start,
    repair: repair(),
    readings: [one, two, closed, bus, clamp],
    setAside: new Set(['x']),
    refusals: new Map([['x', 1]]),
    taken: new Set(['y']),
    ahead: [supply('on')],
    mends: ['B1'],
  }
  const anew = again(before, last, last.read)
  test('with the ohms past an open device of a branch that was not mended, and what was read last', () => {
    expect(anew.readings).toEqual([two])
    expect([...anew.taken]).toEqual([keyOf(two.read), keyOf(last.read)])
    const expected = [two, last].reduce(observe, believe(start.plant, start.kit, 'all-dead'))
    expect(anew.belief).toEqual(expected)
    // Tripped is open as well.
    expect(again({ ...before, readings: [reading('B2', { ...open, B2: 'tripped' })] }, last, last.read).readings).toHaveLength(1)
    // In the search, nothing was mended: its own readings hold as well.
    expect(again({ ...before, repair: undefined }, last, last.read).readings).toEqual([one, two])
  })
  test('and with everything to be asked for that was refused or done before', () => {
    expect([anew.setAside.size, anew.refusals.size, anew.ahead, anew.repair, anew.leaving]).toEqual([0, 0, [], undefined, undefined])
    expect(anew.positions).toEqual(before.positions)
  })
  test('not a fourth time at the same place', () => {
    const leaving = (...mends: string[]) => again({ ...before, mends }, last, last.read).leaving
    expect([leaving('B1', 'B2', 'B1'), leaving('B1', 'B1', 'B1'), leaving('B2', 'B2', 'B2', 'B1')]).toEqual([
      undefined,
      'handed-over',
      undefined,
    ])
    expect(again({ ...before, repair: undefined, mends: ['B1', 'B1', 'B1'] }, last, last.read).leaving).toBeUndefined()
  })
})
