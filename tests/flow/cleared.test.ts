// Behind which devices a second short circuit may still sit, told by what was done, seen and read: each rule by a story of its own.
import { describe, expect, test } from 'vitest'
import type { Machine } from '../../engine/machine.ts'
import type { Answer, Finding, Step, Symptom } from '../../engine/step.ts'
import { type Hunt, startOf } from '../../web/flow/hunt.ts'
import type { Entry } from '../../web/flow/request.ts'
import { unseen } from '../../web/flow/unseen.ts'
import { device, lamp, ohm, supply, volt, zeroLeads } from '../bench/scripted.ts'
import { METER, three } from './machines.ts'

const finding = (branch: string): Finding => ({ fault: 'short-to-zero', branch, probability: 0.9 })
const did = (step: Step, answer: Answer = { done: true }): Entry => ({
  request: { say: 'step', n: 1, seconds: 5, step, why: { key: '', facts: {} } },
  answer,
  stage: 'narrowing',
  power: 'off',
})
const mend = (branch: string): Entry => ({
  request: { say: 'mend', n: 1, finding: finding(branch) },
  answer: { done: true },
  stage: 'mending',
  power: 'provedDead',
})
const looked = (branch: string, seen: 'closed' | 'open' | 'tripped' = 'closed'): Entry =>
  did({ kind: 'look', look: 'device', branch }, { seen })
const read = (place: string, value: number): Entry => did(ohm(`${place}.plus`, `${place}.zero`), { value })
const [OFF, ON, ZERO] = [did(supply('off')), did(supply('on')), did(zeroLeads, { value: 0.2 })]

/** After a mend in B1 and with everything closed and switched on; three branches of one coil of 24²/12 = 48 Ω each. */
const after = (entries: readonly Entry[], more: Partial<Hunt> = {}, machine: Machine = three, symptom: Symptom = 'all-dead'): Hunt => ({
  ...startOf(machine, METER, symptom),
  repair: { finding: finding('B1'), mended: true, checked: new Set(), lampSeen: true, voltSeen: true, doubted: false, failures: 0 },
  entries,
  ...more,
})
const left = (...entries: readonly Entry[]): readonly string[] => unseen(after(entries))
const BOTH = ['B2', 'B3']

test('with nothing read every branch may hold one but the one that was mended', () => {
  expect(left()).toEqual(BOTH)
  expect(unseen(after([], { repair: undefined }))).toEqual(['B1', 'B2', 'B3'])
})

test('where others were seen to run, no other device has opened', () => {
  for (const symptom of ['one-branch-dead', 'one-load-dead', 'trips-again'] as const)
    expect(unseen(after([], {}, three, symptom)), symptom).toEqual([])
  for (const symptom of ['all-low', 'dead-at-start'] as const) expect(unseen(after([], {}, three, symptom)), symptom).toEqual(BOTH)
})

test('a device that is known to stand open hides nothing: it is put back and seen anyway', () => {
  const { positions } = after([])
  expect(unseen(after([], { positions: { ...positions, devices: { ...positions.devices, B3: 'open' } } }))).toEqual(['B2'])
})

test('only devices that the supply can open at all: a 4 A fuse before a 6 A breaker', () => {
  const from = (current: number, reserve?: { current: number; seconds: number }): readonly string[] => {
    const limit = { mode: 'constant-current', current } as const
    return unseen(after([], {}, { ...three, supply: { ...three.supply, limit, ...(reserve && { reserve }) } }))
  }
  expect(from(2)).toEqual([])
  // A fuse carries 1.5 times its rating for good at most, 6 A (IEC 60269-1, from memory), a breaker 1.13 times, 6.8 A (IEC 60898-1).
  expect(from(5.8)).toEqual(['B2'])
  expect(from(40)).toEqual(BOTH)
  expect(from(2, { current: 40, seconds: 1 })).toEqual(BOTH)
})

describe('ohms past an open device', () => {
  const opened = [OFF, ZERO, did(device('B2', 'open'))]
  const back = [did(device('B2', 'closed')), ON]
  test('as of its coil clear that branch, and no other', () => {
    expect(left(...opened, read('B2', 48), ...back)).toEqual(['B3'])
    expect(left(OFF, ZERO, did(device('B3', 'open')), read('B3', 48), did(device('B3', 'closed')), ON)).toEqual(['B2'])
  })
  test('as of a short circuit, or none at all, clear nothing', () => {
    expect(left(...opened, read('B2', 0.3), ...back)).toEqual(BOTH)
    expect(left(...opened, did(ohm('B2.plus', 'B2.zero'), { cannot: 'out of reach' }), ...back)).toEqual(BOTH)
    expect(left(...opened, did(volt('B2.plus', 'B2.zero'), { value: 0 }), ...back)).toEqual(BOTH)
  })
  test('hold until that branch is mended, whatever is mended elsewhere', () => {
    expect(left(...opened, read('B2', 48), mend('B2'), ...back)).toEqual(BOTH)
    expect(left(...opened, read('B2', 48), mend('B3'), ...back)).toEqual(['B3'])
  })
  test('do not clear a branch whose device nobody has put or seen where it is said to be', () => {
    expect(left(OFF, ZERO, read('B2', 48), ON)).toEqual(BOTH)
  })
})

describe('ohms at the bus', () => {
  // Three coils side by side: 48/3 Ω.
  const bus = read('bus', 16)
  test('clear the branches whose devices were seen closed in the dead circuit, or were closed there', () => {
    expect(left(OFF, ZERO, looked('B2'), looked('B3'), bus, ON)).toEqual([])
    expect(left(OFF, ZERO, looked('B2'), bus, ON)).toEqual(['B3'])
    expect(left(OFF, ZERO, did(device('B3', 'open')), did(device('B3', 'closed')), bus, ON)).toEqual(['B2'])
    expect(left(OFF, ZERO, bus, ON)).toEqual(BOTH)
  })
  test('not where it was seen while live, nor where it went live in between', () => {
    expect(left(looked('B2'), OFF, ZERO, bus, ON)).toEqual(BOTH)
    expect(left(OFF, ZERO, looked('B2'), ON, OFF, bus, ON)).toEqual(BOTH)
    expect(left(OFF, ZERO, looked('B2'), did(lamp, { seen: 'off' }), bus, ON)).toEqual(['B3'])
  })
  test('not where the supply was not switched off for all that was asked', () => {
    expect(left(did(supply('off'), { cannot: 'locked' }), looked('B2'), looked('B3'), ZERO, bus)).toEqual(BOTH)
  })
  test('not behind a device that is open: it hides its branch', () => {
    const open = [OFF, ZERO, did(device('B2', 'open')), looked('B3')]
    expect(left(...open, read('bus', 24), did(device('B2', 'closed')), ON)).toEqual(['B2'])
    expect(left(OFF, ZERO, looked('B2', 'tripped'), looked('B3'), read('bus', 24), did(device('B2', 'closed')), ON)).toEqual(['B2'])
  })
  test('a device that was put there while the supply was on may have opened since; an act without voltage opens none', () => {
    expect(left(did(device('B2', 'closed')), OFF, ZERO, bus, ON)).toEqual(BOTH)
    expect(left(OFF, looked('B2'), ZERO, bus, ON)).toEqual(['B3'])
  })
  test('a device seen closed is no word on what lies behind it, nor are volts', () => {
    expect(left(OFF, looked('B2'), looked('B3'))).toEqual(BOTH)
    expect(left(OFF, ZERO, looked('B2'), looked('B3'), did(volt('bus.plus', 'bus.zero'), { value: 0 }))).toEqual(BOTH)
  })
  test('as of a short circuit clear nothing', () => {
    expect(left(OFF, ZERO, looked('B2'), looked('B3'), read('bus', 0.3), ON)).toEqual(BOTH)
  })
})
