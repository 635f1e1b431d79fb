import { expect, test } from 'vitest'
import type { Machine } from '../../engine/machine.ts'
import { census, IN_LOAD, isOverload, type Places, placesOf, TO_EARTH, TO_ZERO } from '../../engine/place.ts'
import { branchOf, type Plant, plantOf } from '../../engine/plant.ts'
import { invent } from '../bench/invent.ts'
import { smallMachine } from '../bench/small.ts'

const allOf = (plant: Plant): Places[] => plant.branches.map(b => placesOf(plant, b, census(plant)))
const total = (all: readonly Places[], hit: (p: Places, j: number) => boolean = () => true): number =>
  all.reduce((sum, p) => sum + p.prior.reduce((s, v, j) => s + (hit(p, j) ? v : 0), 0), 0)
const bonded = (machine: Machine, zeroVoltBonded: boolean): Machine => ({ ...machine, supply: { ...machine.supply, zeroVoltBonded } })

test('all short circuits of a machine share 1: 11 of 17 to 0 V, 3 to earth, 3 in loads (10 machines)', () => {
  for (let seed = 1; seed <= 10; seed++) {
    const all = allOf(plantOf(bonded(invent(seed).machine, true)))
    expect(total(all)).toBeCloseTo(1, 12)
    for (const [kind, share] of [
      [TO_ZERO, 11],
      [TO_EARTH, 3],
      [IN_LOAD, 3],
    ] as const)
      expect(17 * total(all, (p, j) => p.kind[j] === kind), `seed ${seed}`).toBeCloseTo(share, 9)
  }
})

test('2 of 100 short circuits of conductors are charred, 0.3 to 3 Ω; the others have less than that', () => {
  const inConductors = (p: Places, j: number): boolean => p.kind[j] !== IN_LOAD
  const all = allOf(plantOf(smallMachine))
  const charred = total(all, (p, j) => inConductors(p, j) && (p.ohm[j] ?? 0) > 0.3)
  expect(charred / total(all, inConductors)).toBeCloseTo(0.02, 12)
  // Even in its logarithm, the mean is (3 − 0.3)/ln 10.
  const ohms = all.flatMap(p => [...p.ohm].filter((ohm, j) => inConductors(p, j) && ohm > 0.3))
  expect(Math.max(...ohms)).toBeCloseTo(2.7 / Math.log(10), 9)
})

test('from a floating supply one short to earth draws nothing, but for the one in ten whose 0 V is earthed after all', () => {
  const all = allOf(plantOf(bonded(smallMachine, false)))
  expect(total(all)).toBeCloseTo(1, 12)
  expect(17 * total(all, (p, j) => p.kind[j] === TO_EARTH)).toBeCloseTo(0.3, 9)
  expect(17 * total(all, (p, j) => p.kind[j] === TO_ZERO)).toBeCloseTo(13.7, 9)
})

const inRun = (machine: Machine, run: string): number => {
  const plant = plantOf(machine)
  return plant.branches.reduce((sum, b, i) => {
    const k = b.wiring.runs.findIndex(r => r.run.id === run)
    return sum + total(allOf(plant).slice(i, i + 1), (p, j) => p.kind[j] !== IN_LOAD && p.item[j] === k)
  }, 0)
}
const moving = (machine: Machine, id: string): Machine => ({
  ...machine,
  branches: machine.branches.map(b => ({ ...b, wiring: (b.wiring ?? []).map(r => (r.id === id ? { ...r, moving: true } : r)) })),
})

test('shorts fall per metre, and six times as often on a moving run', () => {
  // 10, 4, 6 and 5 m; then the 4 m count for 24.
  expect((25 * 17 * inRun(smallMachine, 'W1')) / 14).toBeCloseTo(10, 9)
  expect((25 * 17 * inRun(smallMachine, 'W2')) / 14).toBeCloseTo(4, 9)
  expect((45 * 17 * inRun(moving(smallMachine, 'W2'), 'W2')) / 14).toBeCloseTo(24, 9)
  expect((45 * 17 * inRun(moving(smallMachine, 'W2'), 'W1')) / 14).toBeCloseTo(10, 9)
})

test('the cells of a run tile it: their middles and widths give back its length, mean and spread', () => {
  const plant = plantOf(invent(5).machine)
  for (const b of plant.branches) {
    const p = placesOf(plant, branchOf(plant, b.id), census(plant))
    b.wiring.runs.forEach(({ run }, k) => {
      const own = [...p.prior.keys()].filter(j => p.kind[j] !== IN_LOAD && p.item[j] === k)
      const of = (a: Float64Array, j: number) => a[j] ?? Number.NaN
      const weight = own.reduce((sum, j) => sum + of(p.prior, j), 0)
      const mean = own.reduce((sum, j) => sum + of(p.prior, j) * of(p.at, j), 0) / weight
      const square = own.reduce((sum, j) => sum + of(p.prior, j) * (of(p.at, j) ** 2 + of(p.atSd, j) ** 2), 0) / weight
      expect(mean).toBeCloseTo(run.length / 2, 9)
      expect(Math.sqrt(square - mean * mean)).toBeCloseTo(run.length / Math.sqrt(12), 9)
      expect(Math.min(...own.map(j => of(p.at, j)))).toBeGreaterThan(0)
      expect(Math.max(...own.map(j => of(p.at, j)))).toBeLessThan(run.length)
    })
    expect(p.count).toBe(p.prior.length)
  }
})

test('loads that draw too much take their share from the short circuits, and are told from them by their ohms', () => {
  const plant = plantOf(smallMachine)
  const all = census(plant)
  const sumOf = (overloaded: number, is?: (of: Places, j: number) => boolean): number =>
    total(
      plant.branches.map(b => placesOf(plant, b, all, overloaded)),
      is,
    )
  expect(sumOf(0)).toBeCloseTo(1, 12)
  expect(sumOf(0, isOverload)).toBe(0)
  expect(sumOf(0.3)).toBeCloseTo(1, 12)
  expect(sumOf(0.3, isOverload)).toBeCloseTo(0.3, 12)
  // Shorted loads have 0.02 to 0.5 Ω, those that draw too much 0.8 to 12.
  for (const b of plant.branches) {
    const of = placesOf(plant, b, all, 0.3)
    for (let j = 0; j < of.count; j++) {
      const ohm = of.ohm[j] ?? Number.NaN
      const inLoad = of.kind[j] === IN_LOAD
      expect(isOverload(of, j)).toBe(inLoad && ohm > 0.8)
      expect(ohm > 0 && ohm < (isOverload(of, j) ? 12 : inLoad ? 0.5 : 3)).toBe(true)
    }
  }
})

test('a run is cut into cells of at most 1.5 m, two at least and 24 at most, each to 0 V and to earth; 0 V counts as bonded unless it is told otherwise', () => {
  const of = (length: number, supply: object = {}): Places | undefined => {
    const wiring = [{ id: 'W1', from: 'terminals', to: 'J1', length }]
    const plant = plantOf({ ...smallMachine, supply, branches: [{ id: 'B1', wiring }] })
    return plant.branches[0] === undefined ? undefined : placesOf(plant, plant.branches[0], census(plant))
  }
  expect([0.5, 3, 3.1, 15, 90].map(length => (of(length)?.count ?? 0) / 12)).toEqual([2, 2, 3, 10, 24])
  expect(of(15)).toEqual(of(15, { zeroVoltBonded: true }))
  expect(of(15)).not.toEqual(of(15, { zeroVoltBonded: false }))
})
