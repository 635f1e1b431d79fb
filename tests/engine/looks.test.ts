// What a lamp or a device looks like, weighed by Bayes' rule: the chances are common practice, no source.
import { describe, expect, test } from 'vitest'
import type { Belief } from '../../engine/belief.ts'
import type { Supply } from '../../engine/machine.ts'
import { observe } from '../../engine/observe.ts'
import { heldFor } from '../../engine/opening.ts'
import type { Positions } from '../../engine/positions.ts'
import type { DeviceSeen, Look, MainsLamp, SupplyLamp } from '../../engine/step.ts'
import { holdsDown, type Suspicion } from '../../engine/suspicion.ts'
import { smallMachine } from '../bench/small.ts'
import { found } from './machines.ts'
import { alike, expectWeighed, now, startOf, withSupply } from './weighed.ts'

type Mode = NonNullable<Supply['limit']>['mode']
const all = found(smallMachine)
const opened: Positions = { ...all, devices: { B1: 'open', B2: 'closed' } }
/** A limit without its amperes: nothing is known to heat a device meanwhile, so the look alone is weighed. */
const limitedBy = (mode: Mode | undefined): Belief => startOf(withSupply({ limit: mode === undefined ? undefined : { mode } } as Supply))
const look = (before: Belief, of: Look, seen: SupplyLamp | MainsLamp | DeviceSeen, positions = all): Belief =>
  observe(before, { of: 'look', look: of, positions, seen })
const LAMP: Look = { kind: 'look', look: 'supply-lamp' }
const device = (branch: string): Look => ({ kind: 'look', look: 'device', branch })

/** Chance of a steady, a blinking, a dark lamp: held down, whole, dead. */
const DOWN: Readonly<Record<Mode, Readonly<Record<SupplyLamp, number>>>> = {
  'constant-current': { steady: 0.3, blinking: 0.3, off: 0.4 },
  hiccup: { steady: 0.03, blinking: 0.87, off: 0.1 },
  'latch-off': { steady: 0.02, blinking: 0.06, off: 0.92 },
  unknown: { steady: 0.15, blinking: 0.45, off: 0.4 },
}
const UP: Readonly<Record<SupplyLamp, number>> = { steady: 0.97, blinking: 0.02, off: 0.01 }
const DEAD: Readonly<Record<SupplyLamp, number>> = { steady: 0.01, blinking: 0.03, off: 0.96 }

for (const mode of ['constant-current', 'hiccup', 'latch-off', 'unknown', undefined] as const)
  describe(`a supply that limits by ${mode}`, () => {
    test.each(['steady', 'blinking', 'off'] as const)('its lamp is %s', seen => {
      const before = limitedBy(mode)
      const [held, up, dead] = [DOWN[mode ?? 'unknown'][seen], UP[seen], DEAD[seen]]
      for (const positions of [all, opened]) {
        const closed = (b: number): boolean => positions === all || b === 1
        expectWeighed(before, look(before, LAMP, seen, positions), {
          short: b => (closed(b) ? held : up),
          flicker: b => (closed(b) ? now(held, up) : up),
          tripped: () => up,
          deviceOpen: () => up,
          supplyDead: dead,
          noMains: dead,
          other: 1 / 3,
          suspicion: x => {
            const p = holdsDown(before.plant, positions, x)
            return p * held + (1 - p) * up
          },
        })
      }
    })
  })

test('the mains lamp: lit in 98 of 100 where there are mains, in 1 of 100 where there are none', () => {
  const before = limitedBy('hiccup')
  for (const [seen, there, none] of [
    ['on', 0.98, 0.01],
    ['off', 0.02, 0.99],
  ] as const)
    expectWeighed(before, look(before, { kind: 'look', look: 'mains-lamp' }, seen), { ...alike(there), noMains: none })
})

test.each([
  ['closed', 0.992, 0.06, 0.06, 0.6],
  ['tripped', 0.001, 0.8, 0.47, 0.35],
  ['open', 0.007, 0.14, 0.47, 0.05],
] as const)('a device that looks %s', (seen, shut, tripped, open, often) => {
  const before = limitedBy('hiccup')
  const here = (b: number, p: number): number => (b === 0 ? p : shut)
  expectWeighed(before, look(before, device('B1'), seen), {
    ...alike(shut),
    tripped: b => here(b, tripped),
    deviceOpen: b => here(b, open),
    flicker: b => here(b, often),
    // What draws too much at times may have opened it; what draws nothing more has not.
    suspicion: (x: Suspicion) => (x.branch === 0 && x.holds === true ? often : shut),
  })
})

test('each table is a distribution: what a lamp or a device can look like has the chance 1 in all', () => {
  const shareOf = (of: Look, seen: SupplyLamp | DeviceSeen): Belief => look(limitedBy('hiccup'), of, seen)
  const before = limitedBy('hiccup')
  const total = (of: Look, ways: readonly (SupplyLamp | DeviceSeen)[], weight: (b: Belief) => number): number =>
    ways.reduce((sum, seen) => sum + Math.exp(weight(shareOf(of, seen)) - weight(before)), 0)
  const lamps = ['steady', 'blinking', 'off'] as const
  const devices = ['closed', 'tripped', 'open'] as const
  for (const weight of [(b: Belief) => b.supplyDead, (b: Belief) => b.other, (b: Belief) => b.branches[0]?.outside[0] ?? Number.NaN])
    expect(total(LAMP, lamps, weight)).toBeCloseTo(1, 9)
  for (const weight of [
    (b: Belief) => b.supplyDead,
    (b: Belief) => b.branches[0]?.tripped ?? Number.NaN,
    (b: Belief) => b.branches[0]?.deviceOpen ?? Number.NaN,
    (b: Belief) => b.branches[0]?.flicker[0] ?? Number.NaN,
  ])
    expect(total(device('B1'), devices, weight)).toBeCloseTo(1, 9)
})

test('a look takes five seconds under voltage, a reading fifteen', () => {
  const hot = startOf(withSupply({ limit: { mode: 'constant-current', current: 60 } }))
  expect(look(hot, device('B1'), 'closed').held).toBe(5)
  const read = { of: 'read', read: { kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus.zero' }, zeroed: false, shown: 3 } as const
  expect(observe(hot, { ...read, positions: all, unsteady: false }).held).toBe(15)
  expect(heldFor(hot, all, 5).branches[0]?.tripped).toBeGreaterThan(hot.branches[0]?.tripped ?? 0)
})
