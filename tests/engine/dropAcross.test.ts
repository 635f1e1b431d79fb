// What a device drops while its branch's short circuit holds the supply at its limit: ohms times amperes, by hand.
// A device of 10 A has 0.25/10 + 0.005 = 0.03 Ω (common practice, no source): 5 A make 0.15 V.
import { describe, expect, test } from 'vitest'
import { dropDensity, openDensity, type Pair, pairOf, tells } from '../../engine/drop.ts'
import type { Machine, Supply } from '../../engine/machine.ts'
import { branchOf, type Plant, plantOf } from '../../engine/plant.ts'
import { asFound } from '../../engine/positions.ts'
import type { Read } from '../../engine/step.ts'
import { smallMachine } from '../bench/small.ts'
import { rowOfBranches } from './machines.ts'
import { normal } from './weighed.ts'

const [B1, B2] = smallMachine.branches
if (B1 === undefined || B2 === undefined) throw new Error('two branches')
const three = (supply: Supply, watts = 0): Machine => ({
  ...smallMachine,
  supply,
  branches: [
    { ...B1, loads: watts === 0 ? [] : [{ id: 'K1', at: 'X1', kind: 'coil', watts }] },
    { ...B2, loads: [] },
    { ...B2, id: 'B3', loads: [] },
  ],
})
const pairIn = (plant: Plant): Pair => ({ red: branchOf(plant, 'B1'), black: branchOf(plant, 'B2') })
const steady: Supply = { ratedVoltage: 24, ratedCurrent: 4, limit: { mode: 'constant-current', current: 5 } }
/** Density of `shown` if the short circuit is behind that device. */
const densityIn = (machine: Machine, branch: string): ((shown: number) => number) => {
  const plant = plantOf(machine)
  return shown => dropDensity(plant, pairIn(plant), branchOf(plant, branch), shown)
}
const density = (machine: Machine, branch: string, shown: number): number => densityIn(machine, branch)(shown)
const integral = (of: (v: number) => number, from: number, to: number): number => {
  const steps = 8000
  let sum = 0
  for (let i = 0; i < steps; i++) sum += of(from + ((i + 0.5) * (to - from)) / steps)
  return (sum * (to - from)) / steps
}

const row = plantOf(rowOfBranches(4))
const volt = (red: string, black: string): Read => ({ kind: 'read', meter: 'volt', red, black })

describe('which readings compare two devices', () => {
  test.each([
    [volt('B1.plus', 'B2.plus'), true],
    [volt('B1.plus', 'B1.zero'), false],
    [volt('B1.plus', 'B2.zero'), false],
    [volt('B1/J1.plus', 'B2.plus'), false],
    [volt('bus.plus', 'B2.plus'), false],
    [volt('B1.plus', 'B1.plus'), false],
    [{ kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B2.plus' } as const, false],
  ])('%j: %s', (read, is) => expect(pairOf(row, read) !== undefined).toBe(is))
})

const withMode = (mode: 'constant-current' | 'hiccup' | 'latch-off' | 'unknown') =>
  plantOf({ ...rowOfBranches(4), supply: { ratedVoltage: 24, ratedCurrent: 5, limit: { mode, current: 6 } } })
test.each([
  ['constant-current', true],
  ['hiccup', true],
  ['latch-off', false],
  ['unknown', false],
] as const)('a supply that limits by %s: such a reading tells %s', (mode, is) => {
  const plant = withMode(mode)
  const found = asFound(plant.branches.map(b => b.id))
  expect(tells(plant, pairIn(plant), found)).toBe(is)
})
test('an open device drops nothing that could be compared', () => {
  const plant = withMode('hiccup')
  const found = asFound(plant.branches.map(b => b.id))
  expect(tells(plant, pairIn(plant), { ...found, devices: { ...found.devices, B2: 'open' } })).toBe(false)
})

describe('the density of a drop', () => {
  // Limit's kind, amperes told, and the least and most V across 0.03 Ω: half to one and a half times for a steady current, 0.005 to
  // 0.5 times for the mean of pulses; a factor of three wider where the amperes are not told and 6 A are taken.
  const cases: readonly (readonly [string, Supply, number, number])[] = [
    ['steady 5 A', steady, 0.075, 0.225],
    ['pulses of 5 A', { ...steady, limit: { mode: 'hiccup', current: 5 } }, 0.00075, 0.075],
    ['steady, by 1.3 of the rated 4 A', { ratedCurrent: 4, limit: { mode: 'constant-current' } }, 0.078, 0.234],
    ['steady, nothing told', { limit: { mode: 'constant-current' } }, 0.03, 0.81],
  ]
  test.each(cases)('%s', (_, supply, least, most) => {
    const machine = three(supply)
    const black = densityIn(machine, 'B2')
    // Even in the logarithm between the two; below it falls as the square, above as the fourth power, of how far outside.
    const middle = Math.sqrt(least * most)
    const share = 1 / (Math.log(most / least) + 0.75)
    expect(black(middle)).toBeCloseTo(share / middle, 9)
    expect(black(least) / black(most)).toBeCloseTo(most / least, 9)
    expect(black(least / 2)).toBeCloseTo((share / (least / 2)) * 0.25, 9)
    expect(black(2 * most)).toBeCloseTo(share / (2 * most) / 16, 9)
    // All of it together is 1, and a hundredth for the wrong sign.
    expect(integral(black, 0, least) + integral(black, least, most) + integral(black, most, 60 * most)).toBeCloseTo(1, 3)
    expect(integral(black, -1, 0)).toBeCloseTo(0.01, 3)
    // Red's own drop is the same with the other sign.
    for (const v of [least / 2, middle, 2 * most, -middle]) expect(density(machine, 'B1', -v)).toBeCloseTo(black(v), 9)
  })
  test('behind a third device nothing is dropped across the two but what cabinet wiring and display make of it', () => {
    // √(0.8² + 5²) mV for a steady current of 5 A through a milliohm; a tenth of the current for pulses.
    const spread = Math.hypot(0.0008, 0.005)
    for (const v of [0, 0.004, -0.01]) expect(density(three(steady), 'B3', v)).toBeCloseTo(normal(v, 0, spread), 6)
    const pulses = three({ ...steady, limit: { mode: 'hiccup', current: 5 } })
    expect(density(pulses, 'B3', 0.001)).toBeCloseTo(normal(0.001, 0, Math.hypot(0.0008, 0.0005)), 6)
    const rated = three({ ratedCurrent: 4, limit: { mode: 'constant-current' } })
    expect(density(rated, 'B3', 0)).toBeCloseTo(normal(0, 0, Math.hypot(0.0008, 0.0052)), 6)
    const blind = three({ limit: { mode: 'constant-current' } })
    expect(density(blind, 'B3', 0)).toBeCloseTo(normal(0, 0, Math.hypot(0.0008, 0.006)), 6)
  })
  test('sound loads drop a little as well: half of what 12 V drive through them', () => {
    // 57.6 W are 0.1 S: 0.5 × 12 V × 0.03 Ω × 0.1 S = 18 mV.
    expect(density(three(steady, 57.6), 'B3', 0.01)).toBeCloseTo(normal(0.01, 0, Math.hypot(0.0008, 0.005, 0.018)), 6)
    const pulses = three({ ...steady, limit: { mode: 'hiccup', current: 5 } }, 57.6)
    expect(density(pulses, 'B3', 0)).toBeCloseTo(normal(0, 0, Math.hypot(0.0008, 0.0005, 0.0018)), 6)
    const swapped = plantOf(three(steady, 57.6))
    const [red, black, other] = ['B2', 'B1', 'B3'].map(id => branchOf(swapped, id))
    if (red === undefined || black === undefined || other === undefined) throw new Error('three branches')
    expect(dropDensity(swapped, { red, black }, other, 0.01)).toBeCloseTo(normal(0.01, 0, Math.hypot(0.0008, 0.005, 0.018)), 6)
  })
  test('a supply that may be off drops nothing across any device, nor does a branch without one', () => {
    const latched = three({ ...steady, limit: { mode: 'latch-off', current: 5 } })
    for (const id of ['B1', 'B2', 'B3']) expect(density(latched, id, 0)).toBeCloseTo(density(latched, 'B3', 0), 9)
    const bare = three(steady)
    const without = { ...bare, branches: bare.branches.map(b => (b.id === 'B2' ? { ...b, protection: { kind: 'none' } as const } : b)) }
    expect(density(without, 'B2', 0)).toBeCloseTo(density(without, 'B3', 0), 9)
    expect(density(without, 'B1', -0.13)).toBeGreaterThan(1)
  })
  test('a rating that nobody has told makes it three times wider', () => {
    const bare = three(steady)
    const without = { ...bare, branches: bare.branches.map(b => (b.id === 'B2' ? { ...b, protection: { kind: 'fuse' } as const } : b)) }
    // 6 A are taken: 0.25/6 + 0.005 = 0.04667 Ω, 0.2333 V at 5 A, 0.0389 to 1.05 V.
    const [least, most] = [(0.2333333 * 0.5) / 3, 0.2333333 * 1.5 * 3]
    expect(density(without, 'B2', 0.2) * 0.2).toBeCloseTo(1 / (Math.log(most / least) + 0.75), 6)
  })
})

describe('whether such a reading is worth taking', () => {
  const tellsIn = (machine: Machine, devices: Readonly<Record<string, 'open' | 'tripped'>> = {}): boolean => {
    const plant = plantOf(machine)
    const p = asFound(machine.branches.map(b => b.id))
    return tells(plant, pairIn(plant), { ...p, devices: { ...p.devices, ...devices } })
  }
  test('the drop’s geometric mean must be four times what sound loads make', () => {
    // √(0.075 × 0.225) = 0.1299 V; a quarter is 32.5 mV, of which the load may make √(32.5² − 5² − 0.8²) = 32.1 mV, or 0.178 S, 102.7 W.
    expect(tellsIn(three(steady, 101))).toBe(true)
    expect(tellsIn(three(steady, 104))).toBe(false)
  })
  test('both devices stand closed, and each drops something', () => {
    expect(tellsIn(three(steady), { B1: 'open' })).toBe(false)
    expect(tellsIn(three(steady), { B2: 'tripped' })).toBe(false)
    const bare = three(steady)
    for (const id of ['B1', 'B2'])
      expect(tellsIn({ ...bare, branches: bare.branches.map(b => (b.id === id ? { ...b, protection: { kind: 'none' } } : b)) })).toBe(false)
  })
})

test('a device that has opened by itself shows the whole voltage at its terminal, the other none', () => {
  const plant = plantOf(three(steady))
  const pair = pairIn(plant)
  expect(openDensity(pair, pair.red, -23, 24)).toBeCloseTo(normal(-23, -24, 1), 9)
  expect(openDensity(pair, pair.black, 23, 24)).toBeCloseTo(normal(23, 24, 1), 9)
  expect(openDensity(pair, undefined, 0.05, 24)).toBeCloseTo(normal(0.05, 0, 0.1), 9)
  expect(openDensity(pair, branchOf(plant, 'B3'), 0.05, 24)).toBeCloseTo(normal(0.05, 0, 0.1), 9)
})
