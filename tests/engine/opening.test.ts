import { describe, expect, test } from 'vitest'
import { begin, shares } from '../../engine/belief.ts'
import type { Protection } from '../../engine/machine.ts'
import { heldFor, opensWithin, secondsOf } from '../../engine/opening.ts'
import { plantOf } from '../../engine/plant.ts'
import { asFound } from '../../engine/positions.ts'
import { invent } from '../bench/invent.ts'
import { inventDevice } from '../bench/protection.ts'
import { chance, seedOf } from '../bench/random.ts'
import { rowOfBranches } from './machines.ts'

describe('chance that a device opens by heat', () => {
  const breaker: Protection = { kind: 'breaker', rating: 4, curve: 'B' }
  // IEC 60898-1:2015 Table 7: not within an hour at 1.13 times; between 1 s and 60 s at 2.55 times.
  test('by the test points of the standard', () => {
    expect(opensWithin(breaker, 1.13 * 4, 3600)).toBe(0)
    expect(opensWithin(breaker, 2.55 * 4, 0.95)).toBe(0)
    expect(opensWithin(breaker, 2.55 * 4, 7.75)).toBeGreaterThan(0.45)
    expect(opensWithin(breaker, 2.55 * 4, 7.75)).toBeLessThan(0.55)
    expect(opensWithin(breaker, 2.55 * 4, 60)).toBeGreaterThan(0.99)
  })
  test('of no device, and of one that nobody has told, nothing is claimed', () => {
    expect(opensWithin(undefined, 20, 60)).toBe(0)
    expect(opensWithin({ kind: 'none', rating: 4 }, 20, 60)).toBe(0)
    expect(opensWithin({ kind: 'breaker' }, 20, 60)).toBe(0)
  })
  test('is what the simulated devices do, within a fifth, over 2,000 breakers (seed 41)', () => {
    const own = chance(41)
    for (const [times, seconds] of [
      [2, 20],
      [2.55, 15],
      [4, 10],
    ] as const) {
      const opened = Array.from({ length: 2000 }, () => inventDevice({ id: 'B1', protection: breaker }, own)).filter(
        d => (seconds * (times ** 2 - d.hold ** 2)) / d.heat + d.warm >= 1,
      )
      expect(Math.abs(opened.length / 2000 - opensWithin(breaker, times * 4, seconds))).toBeLessThan(0.2)
    }
  })
})

describe('seconds under voltage', () => {
  const machine = (mode: 'constant-current' | 'hiccup' | 'latch-off') => {
    const row = rowOfBranches(3)
    const protection = { kind: 'breaker', rating: 4, curve: 'D' } as const
    return {
      ...row,
      supply: { ...row.supply, limit: { mode, current: 12 } },
      branches: row.branches.map((b, i) => ({ ...b, protection: i === 0 ? protection : { ...protection, rating: 16 } })),
    }
  }
  const heated = (mode: 'constant-current' | 'hiccup' | 'latch-off', supply: 'on' | 'off', seconds: readonly number[]) => {
    const plant = plantOf(machine(mode))
    const positions = { ...asFound(plant.branches.map(b => b.id)), supply }
    return shares(seconds.reduce((belief, s) => heldFor(belief, positions, s), begin(plant, {}, 'all-dead')))
  }
  test('make the device of a small rating likelier to have opened, and leave the chance of a short circuit as it was', () => {
    const now = heated('constant-current', 'on', [30])
    const start = heated('constant-current', 'on', [])
    expect(now.tripped[0]).toBeGreaterThan(3 * (start.tripped[0] ?? 1))
    expect(now.tripped[1]).toBeCloseTo(start.tripped[1] ?? 0, 6)
    now.short.forEach((v, b) => {
      expect(v).toBeCloseTo(start.short[b] ?? Number.NaN, 6)
    })
  })
  test('add up: thirty at once are six times five', () => {
    const once = heated('constant-current', 'on', [30])
    const often = heated('constant-current', 'on', [5, 5, 5, 5, 5, 5])
    expect(often.tripped[0]).toBeCloseTo(once.tripped[0] ?? Number.NaN, 9)
  })
  test.each([
    ['constant-current', 'off'],
    ['latch-off', 'on'],
  ] as const)('of a supply that limits by %s and is %s heat nothing', (mode, supply) => {
    expect(heated(mode, supply, [60])).toEqual(heated(mode, supply, []))
  })
  test('weights stay finite on 30 machines (seed 9)', () => {
    for (let i = 0; i < 30; i++) {
      const { machine: one } = invent(seedOf(9, i))
      const plant = plantOf(one)
      const positions = asFound(plant.branches.map(b => b.id))
      const s = shares([5, 15, 15, 300].reduce((belief, seconds) => heldFor(belief, positions, seconds), begin(plant, {}, 'all-dead')))
      const sum = [...s.short, ...s.deviceOpen, ...s.suspected].reduce((x, v) => x + v, s.supplyDead + s.noMains + s.other)
      expect(sum).toBeCloseTo(1, 9)
    }
  })
})

describe('of each kind of device', () => {
  // Half of them have opened where seconds × (m² − hold²) is the geometric mean of the least and the most.
  test('a fuse carries 1.4 times its rating, an electronic device 1.1 times; both are quicker above than a breaker', () => {
    const fuse: Protection = { kind: 'fuse', rating: 4 }
    const electronic: Protection = { kind: 'electronic', rating: 4 }
    expect([opensWithin(fuse, 1.4 * 4, 3600), opensWithin(electronic, 1.1 * 4, 3600)]).toEqual([0, 0])
    // At three times: 9 − 1.96 = 7.04; √(3 · 100)/7.04 = 2.46 s. At twice: 4 − 1.21 = 2.79; √(0.5 · 5)/2.79 = 0.567 s.
    expect(opensWithin(fuse, 12, Math.sqrt(300) / 7.04)).toBeCloseTo(0.5, 9)
    expect(opensWithin(electronic, 8, Math.sqrt(2.5) / 2.79)).toBeCloseTo(0.5, 9)
  })
  test('a look takes 5 s, a reading in the cabinet 15 s', () => {
    expect([secondsOf('look'), secondsOf('read')]).toEqual([5, 15])
  })
})

describe('what heats', () => {
  const row = rowOfBranches(3)
  type Limit = NonNullable<(typeof row)['supply']['limit']>
  const warmed = (limit: Limit | undefined, more: Partial<ReturnType<typeof asFound>> = {}) => {
    const plant = plantOf({ ...row, supply: { ratedVoltage: 24, ...(limit && { limit }) } })
    const start = begin(plant, {}, 'all-dead')
    return { start, now: heldFor(start, { ...asFound(plant.branches.map(b => b.id)), ...more }, 30) }
  }
  test('pulses as a steady current of the root of a tenth; a supply that gives nothing, or of which nothing is told, not at all', () => {
    const steady = warmed({ mode: 'constant-current', current: 60 * Math.sqrt(0.1) })
    const pulsed = shares(warmed({ mode: 'hiccup', current: 60 }).now).tripped
    expect(pulsed[0]).toBeCloseTo(shares(steady.now).tripped[0] ?? Number.NaN, 9)
    expect(shares(steady.now).tripped[0]).toBeGreaterThan(2 * (shares(steady.start).tripped[0] ?? 1))
    for (const none of [warmed(undefined), warmed({ mode: 'latch-off', current: 60 }), warmed({ mode: 'unknown', current: 60 })])
      expect(none.now).toBe(none.start)
  })
  test('nothing while the supply is off or a source feeds; no device that is open', () => {
    const limit = { mode: 'constant-current', current: 20 } as const
    const off = warmed(limit, { supply: 'off' })
    expect(off.now).toBe(off.start)
    const fed = warmed(limit, { injector: { branch: 'B1', into: 'zero' } })
    expect(fed.now).toBe(fed.start)
    const { start, now } = warmed(limit, { devices: { B1: 'open', B2: 'closed', B3: 'closed' } })
    expect(now.branches[0]).toBe(start.branches[0])
    expect(now.branches[1]?.tripped).toBeGreaterThan(start.branches[1]?.tripped ?? Number.POSITIVE_INFINITY)
    expect(now.held).toBe(start.held + 30)
  })
})
