import { expect, test } from 'vitest'
import { begin, shares } from '../../engine/belief.ts'
import { heldDown } from '../../engine/held.ts'
import type { Machine } from '../../engine/machine.ts'
import { census, placesOf } from '../../engine/place.ts'
import { type PlantBranch, plantOf } from '../../engine/plant.ts'
import type { Symptom } from '../../engine/step.ts'
import { invent } from '../bench/invent.ts'
import { seedOf } from '../bench/random.ts'
import { shortOf } from '../bench/truth.ts'
import { rowOfBranches } from './machines.ts'

const three = rowOfBranches(3)
const withDevices = (supply: Machine['supply'], ...devices: NonNullable<Machine['branches'][number]['protection']>[]): Machine => ({
  ...three,
  supply: { ...three.supply, ...supply },
  branches: three.branches.map((b, i) => ({ ...b, protection: devices[i] ?? { kind: 'none' } })),
})
const best = (machine: Machine, b: number, symptom: Symptom = 'all-dead'): number => {
  const plant = plantOf(machine)
  const branch = plant.branches[b] as PlantBranch
  return Math.max(...heldDown(plant, branch, placesOf(plant, branch, census(plant)), {}, symptom))
}
const breaker = (rating: number, curve: 'B' | 'C' | 'Z') => ({ kind: 'breaker', rating, curve }) as const

// By hand: 20 A limit. B 2 A opens at once from 2 × 5 × 1.5 = 15 A on: it would be open. C 6 A holds below 5 × 6 = 30 A.
// B 4 A: band 12 to 30 A, so at 20 A (30 − 20)/(30 − 12) = 0.56 of such breakers stay closed.
test.each([
  { device: breaker(2, 'B'), of: 0.05, why: 'surely open: only a mistold file is left' },
  { device: breaker(6, 'C'), of: 1, why: 'surely closed' },
  { device: breaker(4, 'B'), of: 0.05 + 0.95 * (10 / 18), why: 'as likely as its band' },
  { device: { kind: 'electronic', rating: 4 } as const, of: 0.05, why: 'an electronic device has long limited' },
  { device: { kind: 'none' } as const, of: 1, why: 'no device, nothing to open' },
])('at a limit of 20 A, $device.kind $device.rating A $device.curve: $why', ({ device, of }) => {
  expect(best(withDevices({ limit: { mode: 'hiccup', current: 20 } }, device), 0)).toBeCloseTo(of, 1)
})

test('a fault too far out to pull the voltage down is less likely: 40 A through 1.3 Ω leave 24 V', () => {
  const far: Machine = {
    ...withDevices({ limit: { mode: 'constant-current', current: 40 } }),
    branches: [{ id: 'B1', wiring: [{ id: 'W1', from: 'terminals', to: 'J1', length: 25, conductor: { area: 0.75, class: 5 } }] }],
  }
  const plant = plantOf(far)
  const places = placesOf(plant, plant.branches[0] as PlantBranch, census(plant))
  const factors = heldDown(plant, plant.branches[0] as PlantBranch, places, {}, 'all-dead')
  const at = (metres: number): number => Math.max(...factors.filter((_, j) => Math.abs((places.at[j] as number) - metres) < 1))
  expect(at(1)).toBeGreaterThan(0.95)
  expect(at(24)).toBeLessThan(0.1)
})

test.each(['one-branch-dead', 'trips-again', 'comes-and-goes'] as const)('%s says nothing of the supply’s limit', symptom =>
  expect(best(withDevices({ limit: { mode: 'hiccup', current: 20 } }, breaker(2, 'B')), 0, symptom)).toBe(1),
)
test('nor does anything where nobody has told the limit', () => {
  const { ratedCurrent: _rated, ...supply } = three.supply
  const untold: Machine = { ...three, supply, branches: three.branches.map(b => ({ ...b, protection: breaker(2, 'B') })) }
  expect(best(untold, 0)).toBe(1)
})

const SEED = 17
test(`on 60 machines (seed ${SEED}) the faulty branch gets more than it has by metres alone, by 1.2 times in the geometric mean`, () => {
  let gain = 0
  for (let i = 0; i < 60; i++) {
    const truth = invent(seedOf(SEED, i))
    const branch = truth.machine.branches.findIndex(b => b.id === shortOf(truth.fault)?.branch)
    const told = shares(begin(plantOf(truth.machine), {}, 'all-dead')).short[branch] ?? Number.NaN
    const { limit: _limit, ratedCurrent: _rated, ...supply } = truth.machine.supply
    const untold = shares(begin(plantOf({ ...truth.machine, supply }), {}, 'all-dead')).short[branch] ?? Number.NaN
    gain += Math.log(told / untold) / 60
  }
  expect(Math.exp(gain)).toBeGreaterThan(1.2)
})

// Every supply and device below is told, so that all that is left to doubt is a mistold file, 5 %.
test('by each letter, each kind of device and each way to tell the limit', () => {
  const at = (current: number, device: NonNullable<Machine['branches'][number]['protection']>) =>
    best(withDevices({ limit: { mode: 'hiccup', current } }, device), 0)
  // D from 10 times on, C none told: from 3 times on, d.c. up to 15; a fuse from 8 to 15 times. At 20 A and 2 A: ten times.
  expect(at(20, { kind: 'breaker', rating: 2, curve: 'D' })).toBeCloseTo(1, 1)
  expect(at(20, { kind: 'breaker', rating: 2 })).toBeCloseTo(0.05 + 0.95 * (5 / 12), 1)
  expect(at(20, { kind: 'fuse', rating: 2 })).toBeCloseTo(0.05 + 0.95 * (5 / 7), 1)
  expect(at(20, { kind: 'breaker', rating: 2, curve: 'Z' })).toBeCloseTo(0.05, 1)
  // No rating is no word on when it opens; nor is a device of no kind.
  expect(at(20, { kind: 'breaker', curve: 'B' })).toBeCloseTo(1, 1)
  expect(at(20, { kind: 'none', rating: 2 })).toBeCloseTo(1, 1)
})

test('with no limit told, 1.3 times the rated current; with neither, nothing is said', () => {
  const { limit: _, ratedCurrent: __, ...bare } = { limit: undefined, ...three.supply }
  const rated = (ratedCurrent?: number): Machine => {
    const m = withDevices({}, breaker(4, 'B'))
    return { ...m, supply: { ...bare, ...(ratedCurrent === undefined ? {} : { ratedCurrent }) } }
  }
  // 1.3 · 15.4 = 20 A of a band of 12 to 30 A, as above.
  expect(best(rated(20 / 1.3), 0)).toBeCloseTo(0.05 + 0.95 * (10 / 18), 1)
  expect(best(rated(), 0)).toBe(1)
})

test('low is what is not dead: a short circuit that leaves little explains one, and not the other', () => {
  const m = withDevices({ limit: { mode: 'constant-current', current: 20 } }, breaker(6, 'C'))
  // The best place leaves 20 A · some tenths of an ohm: far below 13 V.
  expect(best(m, 0, 'all-dead')).toBeGreaterThan(0.9)
  expect(best(m, 0, 'dead-at-start')).toBe(best(m, 0, 'all-dead'))
  expect(best(m, 0, 'all-low')).toBeLessThan(best(m, 0, 'all-dead'))
  expect(best(m, 0, 'one-branch-dead')).toBe(1)
})
