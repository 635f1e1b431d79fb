import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Cell, countsOf, deviceCells, type Learned, learned, shareFromLog, shortCells, WORTH } from '../../engine/history.ts'
import type { Machine } from '../../engine/machine.ts'
import { census, IN_LOAD, placesOf, TO_EARTH } from '../../engine/place.ts'
import { plantOf } from '../../engine/plant.ts'

const machine = (bonded = true): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'packer',
  name: 'Packer',
  supply: { zeroVoltBonded: bonded },
  branches: [
    {
      id: 'B1',
      wiring: [
        { id: 'W1', from: 'terminals', to: 'J1', length: 10 },
        { id: 'W2', from: 'J1', to: 'X1', length: 5, moving: true },
      ],
      loads: [
        { id: 'Y1', at: 'X1', kind: 'coil' },
        { id: 'K1', at: 'J1', kind: 'coil' },
      ],
    },
    { id: 'B2', wiring: [{ id: 'W3', from: 'terminals', to: 'X2', length: 60 }], loads: [{ id: 'Y2', at: 'X2', kind: 'electronic' }] },
  ],
})
const plant = plantOf(machine())
const found = (finding: Omit<Learned, 'times'>, times = 1): Learned => ({ ...finding, times })
const CELLS = [...shortCells(plant), ...deviceCells(plant)]
const name = ({ branch, kind, run, load }: Cell): string => `${branch} ${kind} ${run ?? load ?? ''}`.trim()
const at = (log: readonly Learned[]) => {
  const { cells, elsewhere } = countsOf(plant, CELLS, log)
  const named = CELLS.map((cell, k) => [name(cell), cells[k] ?? 0] as const)
  return { counts: Object.fromEntries(named.filter(([, n]) => n > 0)), elsewhere }
}

test.each([true, false])('cells have the very prior of the places within them (0 V bonded: %s)', bonded => {
  const p = plantOf(machine(bonded))
  const all = census(p)
  const byCell = new Map<string, number>()
  for (const b of p.branches) {
    const { count, kind, item, prior } = placesOf(p, b, all)
    for (let j = 0; j < count; j++) {
      const key = `${b.index} ${kind[j] === IN_LOAD ? 'load-short' : kind[j] === TO_EARTH ? 'short-to-earth' : 'short-to-zero'} ${item[j]}`
      byCell.set(key, (byCell.get(key) ?? 0) + (prior[j] ?? 0))
    }
  }
  const cells = shortCells(p)
  expect(cells).toHaveLength(byCell.size)
  for (const cell of cells) expect(cell.prior).toBeCloseTo(byCell.get(name(cell)) ?? 0, 12)
})
test('a finding counts as often as it was made, in its run, load or device and its kind', () => {
  const log = [found({ fault: 'short-to-zero', branch: 'B1', run: 'W2' }, 2), found({ fault: 'load-short', branch: 'B2', load: 'Y2' })]
  expect(at([...log, found({ fault: 'device-open', branch: 'B2' })])).toEqual({
    counts: { '0 short-to-zero 1': 2, '1 load-short 0': 1, '1 device-open': 1 },
    elsewhere: 0,
  })
})
test('a finding that leaves open which it was is shared out over what it may mean', () => {
  const open = at([found({ fault: 'short', branch: 'B1', run: 'W1' })])
  expect(open.counts['0 short-to-zero 0']).toBeCloseTo(11 / 14, 12)
  expect(open.counts['0 short-to-earth 0']).toBeCloseTo(3 / 14, 12)
  const renamed = at([found({ fault: 'short-to-earth', branch: 'B1', run: 'W9' })])
  expect(renamed.counts['0 short-to-earth 0']).toBeCloseTo(10 / 40, 12)
  expect(renamed.counts['0 short-to-earth 1']).toBeCloseTo(30 / 40, 12)
  const branch = at([found({ fault: 'short', branch: 'B1' })])
  expect(Object.keys(branch.counts)).toHaveLength(6)
  expect(Object.values(branch.counts).reduce((a, b) => a + b)).toBeCloseTo(1, 12)
})
test('other faults and branches that are gone count for no cell', () => {
  const log = [found({ fault: 'no-mains' }, 4), found({ fault: 'open-plus', branch: 'B1' }), found({ fault: 'short', branch: 'B7' })]
  expect(at(log)).toEqual({ counts: {}, elsewhere: 6 })
})

test('[seed 4] shares sum to 1, none is 0, and a count never makes its own cause less likely', () => {
  const cases = fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 0, max: 40 })), {
    minLength: 1,
    maxLength: 9,
  })
  fc.assert(
    fc.property(cases, fc.double({ min: 0.5, max: 200, noNaN: true }), (rows, worth) => {
      const prior = rows.map(([p]) => p)
      const counts = rows.map(([, n]) => n)
      const after = learned(prior, counts, worth)
      expect(after.reduce((a, b) => a + b)).toBeCloseTo(1, 9)
      expect(Math.min(...after)).toBeGreaterThan(0)
      const more = learned(prior, [(counts[0] ?? 0) + 1, ...counts.slice(1)], worth)
      expect(more[0]).toBeGreaterThanOrEqual((after[0] ?? 0) - 1e-12)
      expect(shareFromLog(counts, worth)).toBeLessThan(1)
    }),
    { seed: 4 },
  )
})
test('a cause that the prior gives nothing is still possible', () => {
  const [none = 0] = learned([0, 1], [0, 1000], WORTH)
  expect(none).toBeGreaterThan(0)
  expect(learned([0, 0], [0, 0], WORTH)).toEqual([0.5, 0.5])
})
test('counts and causes belong together, and a prior is worth something', () => {
  expect(() => learned([1, 1], [1], WORTH)).toThrow('found 1')
  expect(() => learned([1], [1], 0)).toThrow('found 0')
})
