import { expect, test } from 'vitest'
import { live } from './circuit.ts'
import { holdsDown, invent } from './invent.ts'
import { opensAtOnce, Warmth } from './protection.ts'
import { liveHabit, oneByOne } from './rivals.ts'
import { shortInW3, smallTruth } from './small.ts'
import { foundState, shortOf } from './truth.ts'

const SEEDS = Array.from({ length: 200 }, (_, i) => i + 1)

test('the same seed gives the same machine and truth, another seed another', () => {
  expect(invent(5)).toEqual(invent(5))
  expect(invent(5, { fault: 'other' })).toEqual(invent(5, { fault: 'other' }))
  expect(invent(5)).not.toEqual(invent(6))
})

test('200 machines (seeds 1 to 200) are really down, with ids that a finding can name', () => {
  const machines = SEEDS.map(seed => invent(seed))
  for (const truth of machines) {
    expect(holdsDown(truth)).toBe(true)
    const runs = truth.machine.branches.flatMap(b => b.wiring ?? [])
    expect(new Set(runs.map(r => r.id)).size).toBe(runs.length)
    expect(truth.machine.branches.length).toBeGreaterThanOrEqual(3)
    expect(truth.machine.branches.length).toBeLessThanOrEqual(24)
    // Whole again, nothing is overloaded and no device opens in an hour.
    const whole = { ...truth, fault: { kind: 'none' as const } }
    const state = foundState(whole)
    const now = live(whole, state)
    expect(now.supply.limited).toBe(false)
    expect(new Warmth(whole).pass(now, state, 3600)).toEqual([])
    const short = shortOf(truth.fault)
    if (short?.kind === 'short-to-earth') expect(truth.machine.supply.zeroVoltBonded).toBe(true)
  }
  const share = machines.filter(t => t.fault.kind === 'short-to-zero').length / machines.length
  // 11 of 17 where earth is bonded, 11 of 14 where not: 0.67 with four machines in five bonded. Three sigma of 200 is 0.1.
  expect(Math.abs(share - 0.675)).toBeLessThan(0.1)
})

test('the other faults come with their symptom', () => {
  const kinds = new Map(SEEDS.map(seed => invent(seed, { fault: 'other', branches: 4 })).map(t => [t.fault.kind, t.symptom]))
  expect(kinds).toEqual(
    new Map([
      ['supply-dead', 'all-dead'],
      ['no-mains', 'all-dead'],
      ['device-open', 'one-branch-dead'],
    ]),
  )
})

test('a device opens at once in its band only, and warms up above its rating', () => {
  const truth = smallTruth(shortInW3, {
    devices: { B1: { ohm: 0.03, instant: 4, hold: 1.2, heat: 40, warm: 0 }, B2: { ohm: 0.03, instant: 4, hold: 1.2, heat: 40, warm: 0 } },
    supply: { volts: 24, limit: 25, mode: 'constant-current' },
  })
  expect(opensAtOnce(truth, 'B1', 39.9)).toBe(false)
  expect(opensAtOnce(truth, 'B1', 40)).toBe(true)
  const state = foundState(truth)
  const now = live(truth, state)
  const m = (now.branch.get('B1') ?? 0) / 10
  const seconds = 40 / (m * m - 1.44)
  expect(new Warmth(truth).pass(now, state, seconds * 0.99)).toEqual([])
  expect(new Warmth(truth).pass(now, state, seconds * 1.01)).toEqual(['B1'])
})

test('the one-by-one search costs what it costs by hand', () => {
  // Off 15, proved 40, two devices 12, B1 read twice 30, two loads out and read 150, going to look 60 and all 20 m of B1.
  const search = oneByOne(smallTruth(shortInW3))
  expect(search).toEqual({ found: true, seconds: 15 + 40 + 12 + 30 + 150 + 160, restored: 407 + 15 + 120 + 12 + 15 + 5 + 15 })
  // Kindly: 10 m of W1, W2's 4 m, 2 m into W3.
  expect(oneByOne(smallTruth(shortInW3), true).seconds).toBe(15 + 40 + 12 + 30 + 150 + 80)
})

test('the live habit costs what it costs by hand', () => {
  // Lamp 5, B1 opened 6, lamp 5 and the rest is back; off 15, proved 40, loads 150, walk 160.
  expect(liveHabit(smallTruth(shortInW3))).toEqual({
    found: true,
    seconds: 5 + 11 + 55 + 150 + 160,
    restored: 381 + 15 + 120 + 6 + 15 + 5 + 15,
  })
  // A latching supply is switched off and on after each device.
  const latching = smallTruth(shortInW3, { supply: { volts: 24, limit: 5, mode: 'latch-off' } })
  expect(liveHabit(latching).seconds).toBe(381 + 30)
})
