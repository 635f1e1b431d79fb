// The next step: which of the searches has its turn, by weights that are set by hand.
import { describe, expect, test } from 'vitest'
import { shares } from '../../engine/belief.ts'
import { choose } from '../../engine/choose.ts'
import type { Machine, Supply } from '../../engine/machine.ts'
import { narrowing } from '../../engine/narrow.ts'
import { pinpointing } from '../../engine/pinpoint.ts'
import type { Plan, Situation } from '../../engine/plan.ts'
import { branchOf } from '../../engine/plant.ts'
import type { Look, Read, Step } from '../../engine/step.ts'
import type { Suspicion } from '../../engine/suspicion.ts'
import { keyOf } from '../../engine/way.ts'
import { smallMachine } from '../bench/small.ts'
import { dead, found, rowOfBranches } from './machines.ts'
import { type Place, placedIn } from './placed.ts'
import { situationOf } from './shared.ts'
import { row, type Weights, weighted } from './weights.ts'

const live = situationOf(row, found(row))
const cut = situationOf(row, dead(row))
const LAMP: Look = { kind: 'look', look: 'supply-lamp' }
const MAINS: Look = { kind: 'look', look: 'mains-lamp' }
const deviceLook = (branch: string): Look => ({ kind: 'look', look: 'device', branch })
const BUS: Read = { kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus.zero' }
const next = (of: Weights, s: Situation = live, machine = row): Plan | undefined => choose(weighted(of, machine), s)
const first = (of: Weights, s: Situation = live, machine = row): Step | undefined => next(of, s, machine)?.steps[0]
const taken = (...steps: readonly Step[]): Situation => ({ ...live, taken: new Set(steps.map(keyOf)) })
const cannot = (...steps: readonly Step[]): Situation => ({ ...live, setAside: new Set(steps.map(keyOf)) })

test('the weights stand as they were set', () => {
  const s = shares(weighted({ short: [0.2, 0.1], tripped: [0, 0.1], flicker: [0.1], deviceOpen: [0.05], supplyDead: 0.1, noMains: 0.05 }))
  for (const [value, expected] of [
    [s.short[0], 0.3],
    [s.short[1], 0.2],
    [s.tripped[1], 0.1],
    [s.flicker[0], 0.1],
    [s.deviceOpen[0], 0.05],
    [s.supplyDead, 0.1],
    [s.noMains, 0.05],
    [s.other, 0.3],
  ] as const)
    expect(value).toBeCloseTo(expected, 9)
})

describe('looks come first where they cost less than what they save: 5 s against 120 s of search', () => {
  test('the supply lamp from one in 24 for a dead supply and missing mains together', () => {
    expect(next({ short: [0.5], supplyDead: 0.03, noMains: 0.012 })).toEqual({
      steps: [LAMP],
      expected: 5,
      why: { key: 'lamp-tells', facts: {} },
    })
    expect(first({ short: [0.5], supplyDead: 0.03, noMains: 0.011 })).not.toEqual(LAMP)
    expect(first({ short: [0.5], supplyDead: 0.1 }, cut)).not.toEqual(LAMP)
    expect(first({ short: [0.5], supplyDead: 0.1 }, { ...live, power: 'off' })).not.toEqual(LAMP)
  })
  test('then the mains lamp, for missing mains alone; each once, and where it can be seen', () => {
    expect(next({ short: [0.5], noMains: 0.05 }, taken(LAMP))).toMatchObject({ steps: [MAINS], why: { key: 'mains-first' } })
    expect(next({ short: [0.5], noMains: 0.05 }, cannot(LAMP))).toMatchObject({ steps: [MAINS] })
    expect(first({ short: [0.5], supplyDead: 0.3 }, taken(LAMP))).not.toEqual(MAINS)
    expect(first({ short: [0.5], noMains: 0.05 }, taken(LAMP, MAINS))?.kind).not.toBe('look')
    expect(first({ short: [0.5], noMains: 0.05 }, cannot(LAMP, MAINS))?.kind).not.toBe('look')
  })
  test('a device that may be open, opened by itself or never closed, the likeliest first', () => {
    expect(next({ short: [0.5], deviceOpen: [0, 0.03], tripped: [0, 0.012] }, cut)).not.toMatchObject({ why: { key: 'device-look' } })
    const closed = situationOf(row, dead(row, []))
    expect(next({ short: [0.5], deviceOpen: [0.02, 0.03], tripped: [0, 0.012] }, closed)).toEqual({
      steps: [deviceLook('B2')],
      expected: 5,
      why: { key: 'device-look', facts: { branch: 'B2' } },
    })
    expect(first({ short: [0.5], deviceOpen: [0, 0.03], tripped: [0, 0.011] }, closed)?.kind).not.toBe('look')
    expect(first({ short: [0.5], deviceOpen: [0.043, 0.05] }, taken(deviceLook('B2')))).toEqual(deviceLook('B1'))
    expect(first({ short: [0.5], deviceOpen: [0.043, 0.05] }, cannot(deviceLook('B2')))).toEqual(deviceLook('B1'))
  })
  test('in all four in ten, though none stands out', () => {
    const many = rowOfBranches(12)
    const s = situationOf(many, dead(many, []))
    const each = (p: number): readonly number[] => Array.from({ length: 12 }, () => p)
    expect(first({ deviceOpen: each(0.034), short: [0.3] }, s, many)).toMatchObject({ kind: 'look', look: 'device' })
    expect(first({ deviceOpen: each(0.033), short: [0.6] }, s, many)?.kind).not.toBe('look')
  })
})

describe('a supply of constant current holds the short circuit at a known current', () => {
  const held = (limit: Supply['limit']): Machine => ({ ...row, supply: { ...row.supply, ...(limit === undefined ? {} : { limit }) } })
  const steady = held({ mode: 'constant-current', current: 12 })
  test('volts at the bus first, while it is live: 15 s', () => {
    expect(next({ short: [0.3, 0.21], supplyDead: 0.2 }, live, steady)).toEqual({
      steps: [BUS],
      expected: 15,
      why: { key: 'held-volts', facts: { ampere: 12 } },
    })
  })
  test.each([
    ['less than half for a short circuit', { short: [0.3, 0.19], supplyDead: 0.2 }, live, steady],
    ['read already', { short: [0.5] }, taken(BUS), steady],
    ['cannot be read', { short: [0.5] }, cannot(BUS), steady],
    ['a dead machine', { short: [0.5] }, cut, steady],
    ['a supply that pulses', { short: [0.5] }, live, held({ mode: 'hiccup', current: 12 })],
    ['a limit that nobody has told', { short: [0.5] }, live, held({ mode: 'constant-current' })],
    ['a supply of which nothing is told', { short: [0.5] }, live, held(undefined)],
  ] as const)('not with %s', (_, of, s, machine) => {
    expect(first(of, s, machine)).not.toEqual(BUS)
  })
})

describe('what lies at the supply or a device is named from three quarters on', () => {
  test.each([
    [{ supplyDead: 0.76 }, { fault: 'supply-dead' }],
    [{ noMains: 0.76 }, { fault: 'no-mains' }],
    [{ deviceOpen: [0, 0.76] }, { fault: 'device-open', branch: 'B2', fromTerminals: { best: 0, low: 0, high: 0 } }],
  ] as const)('%j', (of, finding) => {
    expect(next(of, { ...cut, taken: new Set([LAMP, MAINS, deviceLook('B2')].map(keyOf)) })).toEqual({
      steps: [{ kind: 'finding', finding: { ...finding, probability: 0.76 } }],
      expected: 60,
      why: { key: 'go-look', facts: { p: 76, seconds: 60 } },
    })
  })
  test('below, and once looked at, the search goes on', () => {
    expect(first({ supplyDead: 0.74, short: [0.2] }, cut)?.kind).not.toBe('finding')
    const seen: Step = { kind: 'finding', finding: { fault: 'supply-dead', probability: 0.76 } }
    expect(first({ supplyDead: 0.76, short: [0.2] }, { ...cut, setAside: new Set([keyOf(seen)]) })?.kind).not.toBe('finding')
  })
})

describe('a short circuit', () => {
  test('below 85 in 100 for one branch, the best that tells which', () => {
    for (const short of [
      [0.3, 0.3, 0.2, 0.1],
      [0.84, 0.1],
    ]) {
      const belief = weighted({ short })
      expect(choose(belief, cut)).toEqual(narrowing(belief, shares(belief), cut)[0])
    }
  })
  test('from there on, the best that tells where in it', () => {
    const belief = weighted({ short: [0.05, 0.86] })
    expect(choose(belief, cut)).toEqual(pinpointing(belief, branchOf(belief.plant, 'B2'), cut).plans[0])
  })
  test('with its device seen tripped, and next to nothing elsewhere, the others are left unread', () => {
    const tripped = { ...cut, positions: { ...cut.positions, devices: { ...cut.positions.devices, B2: 'tripped' } } } as const
    const narrowed = (of: Weights): boolean => {
      const belief = weighted(of)
      const plan = choose(belief, tripped)
      return JSON.stringify(plan) === JSON.stringify(narrowing(belief, shares(belief), tripped)[0])
    }
    expect(narrowed({ short: [0.03, 0.6] })).toBe(false)
    expect(narrowed({ short: [0.05, 0.6] })).toBe(true)
  })
  test('a place that is sure is gone to; where no reading pays, the likeliest', () => {
    const placed = (list: readonly Place[]): Plan | undefined => choose(placedIn('B1', list), situationOf(smallMachine, dead(smallMachine)))
    const inW3: Place = { kind: 0, item: 2, at: 3, ohm: 0.1, w: 1 }
    expect(placed([inW3])?.steps[0]).toMatchObject({ kind: 'finding', finding: { fault: 'short-to-zero', branch: 'B1', run: 'W3' } })
    expect(placed([inW3])?.why.key).toBe('go-look')
    // Two runs alike, told apart for sure by ohms: a reading first.
    expect(
      placed([
        { ...inW3, w: 0.5 },
        { ...inW3, item: 0, at: 1, ohm: 0.1, w: 0.5 },
      ])?.steps[0],
    ).toMatchObject({ kind: 'read' })
  })
  test('a branch of which nobody has told the wiring is gone to as a whole', () => {
    const blind = { ...row, branches: row.branches.map(({ id }) => ({ id })) }
    expect(next({ short: [0, 0.9] }, cut, blind)?.steps).toEqual([
      { kind: 'finding', finding: { fault: 'short', branch: 'B2', probability: 0.9 } },
    ])
    expect(next({ short: [0.5, 0.4] }, cut, blind)?.steps.at(-1)).toMatchObject({ kind: 'read' })
  })
})

describe('an open conductor', () => {
  const open =
    (p: number) =>
    (x: Suspicion): number =>
      x.fault === 'open-plus' && x.branch === 1 ? p : 0
  test('is traced while it holds as much as the short circuits, from 5 in 100 on', () => {
    const keyIn = (of: Weights): string | undefined => next(of, cut)?.why.key
    expect(keyIn({ suspected: open(0.4), short: [0.3, 0.05] })).toMatch(/^trace|go-look/)
    expect(keyIn({ suspected: open(0.3), short: [0.3, 0.05] })).not.toMatch(/^trace/)
    expect(keyIn({ suspected: open(0.04), short: [0.02, 0.01] })).not.toMatch(/^trace/)
  })
  test('sure of its run, it is gone to', () => {
    expect(next({ suspected: open(0.95) }, cut)?.steps).toMatchObject([
      { kind: 'finding', finding: { fault: 'open-plus', branch: 'B2', run: 'W2' } },
    ])
  })
})

describe('what no resting ohms can show', () => {
  const hot =
    (p: number) =>
    (x: Suspicion): number =>
      x.fault === 'overload' && x.branch !== undefined ? p / 4 : 0
  const walked = { ...cut, taken: new Set(row.branches.map(b => keyOf(deviceLook(b.id)))) }
  test('has its turn once it holds twice what all else does', () => {
    const keyIn = (of: Weights): string | undefined => next(of, walked)?.why.key
    expect(keyIn({ suspected: hot(0.5), short: [0.2] })).toMatch(/^(live-trial|go-look)$/)
    expect(keyIn({ suspected: hot(0.5), short: [0.26] })).not.toBe('live-trial')
    expect(next({ flicker: [0.5], short: [0.1] }, walked)?.why).toMatchObject({ key: 'watch-moving', facts: { branch: 'B1' } })
  })
  test('the likelier of the two ways first', () => {
    expect(next({ flicker: [0.5], suspected: hot(0.2) }, walked)?.why.key).toBe('watch-moving')
    expect(next({ flicker: [0.2], suspected: hot(0.5) }, walked)?.why.key).not.toBe('watch-moving')
  })
  test('devices are looked at before a trial, from two in a thousand on', () => {
    const shut = situationOf(row, dead(row, []))
    expect(first({ suspected: hot(0.9), deviceOpen: [0, 0, 0.0025] }, shut)).toEqual(deviceLook('B3'))
    expect(first({ suspected: hot(0.9), deviceOpen: [0, 0, 0.0015] }, shut)?.kind).not.toBe('look')
  })
})

test('another supply goes before everything', () => {
  const fed = { suspected: (x: Suspicion) => (x.fault === 'backfeed' ? 0.05 : 0), short: [0.5] }
  const off = { ...situationOf(row, dead(row, [])), power: 'off' } as const
  expect(next(fed, off)?.why.key).toBe('other-supply')
  expect(next({ ...fed, suspected: x => (x.fault === 'backfeed' && x.branch === 2 ? 0.2 : 0) }, off)).toMatchObject({
    steps: [{ kind: 'finding', finding: { fault: 'backfeed', branch: 'B3', probability: 0.2 } }],
    why: { key: 'go-look' },
  })
})

test('with nothing left that can be done, nothing is asked', () => {
  const all = [...row.branches.flatMap(b => [b.id]), 'bus'].map(
    (p): Step => ({ kind: 'read', meter: 'ohm', red: `${p}.plus`, black: `${p}.zero` }),
  )
  const off: Step = { kind: 'act', act: { act: 'supply', to: 'off' } }
  expect(next({}, { ...cut, setAside: new Set([...all, off].map(keyOf)) })).toBeUndefined()
})
