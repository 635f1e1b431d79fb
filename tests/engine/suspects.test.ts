// What is suspected now, whatever the fault: every place once, and all of them together what the branches hold.
import { expect, test } from 'vitest'
import { begin, branchShares } from '../../engine/belief.ts'
import { observe } from '../../engine/observe.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Read } from '../../engine/step.ts'
import { type Suspect, suspectsOf } from '../../engine/suspects.ts'
import { dead, found, rowOfBranches } from './machines.ts'

const machine = rowOfBranches(3)
const plant = plantOf(machine)
const unknown = plantOf({ ...machine, branches: machine.branches.map(({ id }) => ({ id })) })
const volts = (place: string): Read => ({ kind: 'read', meter: 'volt', red: `${place}.plus`, black: `${place}.zero` })
const nameOf = ({ branch, run, load }: Suspect): string => [branch, run ?? '-', load ?? '-'].join(' ')
const sum = (of: Iterable<number>): number => [...of].reduce((total, p) => total + p, 0)

test('an open conductor: its run leads the list, with no metres of a short circuit', () => {
  const live = { of: 'read', positions: found(machine), zeroed: false, unsteady: false } as const
  const belief = [
    { ...live, read: volts('B2'), shown: 24 },
    { ...live, read: volts('B2/J1'), shown: 0 },
  ].reduce(observe, begin(plant, {}, 'one-load-dead', { branch: 'B2' }))
  const [first] = suspectsOf(belief)
  expect(first).toMatchObject({ branch: 'B2', run: 'W2' })
  expect(first?.alongRun).toBeUndefined()
  expect(first?.p).toBeGreaterThan(0.8)
})

test('a short circuit keeps its metres beside what else its run may have', () => {
  const read = { kind: 'read', meter: 'ohm', red: 'B2.plus', black: 'B2.zero' } as const
  const belief = observe(begin(plant, {}, 'all-dead'), {
    of: 'read',
    read,
    positions: dead(machine),
    zeroed: true,
    shown: 0.4,
    unsteady: false,
  })
  const [first] = suspectsOf(belief)
  expect(first).toMatchObject({ branch: 'B2', run: 'W2' })
  expect(first?.alongRun?.high).toBeLessThan(12.01)
  expect(first?.alongRun?.low).toBeGreaterThan(0)
})

test.each(['all-dead', 'one-load-dead', 'comes-and-goes', 'all-low'] as const)(
  '%s: each place once, likeliest first, all that branches hold',
  symptom => {
    for (const of of [plant, unknown]) {
      const belief = begin(of, {}, symptom)
      const list = suspectsOf(belief)
      expect(new Set(list.map(nameOf)).size).toBe(list.length)
      expect(list.map(x => x.p)).toEqual(list.map(x => x.p).sort((a, b) => b - a))
      expect(sum(list.map(x => x.p))).toBeCloseTo(sum(branchShares(belief)), 1)
      if (of === unknown) for (const x of list) expect(nameOf(x)).toBe(`${x.branch} - -`)
    }
  },
)
