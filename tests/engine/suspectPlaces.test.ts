// The list of suspects, of few places and weights that are set by hand: what each entry names, and what it is worth.
import { describe, expect, test } from 'vitest'
import type { Belief } from '../../engine/belief.ts'
import { type Suspect, suspectsOf } from '../../engine/suspects.ts'
import { runId, type Suspicion } from '../../engine/suspicion.ts'
import { smallMachine } from '../bench/small.ts'
import { type Place, placedIn } from './placed.ts'

/** Short circuits of B1 weigh `short` in all; beside them what is no short circuit. */
const having = (
  list: readonly Place[],
  short: number,
  other: (x: Suspicion, run: string | undefined) => number,
  from = smallMachine,
): Belief => {
  const belief = placedIn('B1', list, from)
  const down = Math.log(short)
  return {
    ...belief,
    suspected: Float64Array.from(belief.suspicions, x => Math.log(other(x, runId(belief.plant, x)) + 1e-40)),
    branches: belief.branches.map((b, i) => (i === 0 ? { ...b, outside: b.outside.map(v => v + down) } : b)),
  }
}
const near = (p: number): number => expect.closeTo(p, 6) as number
const none = (): number => 0
const inW3: Place = { kind: 0, item: 2, at: 2, atSd: 0.4, w: 1 }
const overload =
  (load: number, p: number) =>
  (x: Suspicion): number =>
    x.fault === 'overload' && x.branch === 0 && x.load === load ? p : 0
const metres = { best: 2, low: 1.21, high: 2.79 }

describe('each place by its name', () => {
  test('a run with its metres, a load without any', () => {
    const list = suspectsOf(
      having(
        [
          { ...inW3, w: 0.6 },
          { kind: 2, item: 1, w: 0.4 },
        ],
        1,
        none,
      ),
    )
    expect(list).toEqual([
      { branch: 'B1', run: 'W3', alongRun: metres, p: near(0.6) },
      { branch: 'B1', load: 'K2', p: near(0.4) },
    ])
    for (const [i, keys] of [
      [0, ['branch', 'p', 'run', 'alongRun']],
      [1, ['branch', 'p', 'load']],
    ] as const)
      expect(Object.keys(list[i] ?? {}).sort()).toEqual([...keys].sort())
  })
  test('what lies in a load is at that load; what lies at the supply is in no branch and left out', () => {
    const belief = having([inW3], 0.5, x => overload(0, 0.3)(x) + (x.fault === 'in-rush' ? 0.2 : 0))
    expect(suspectsOf(belief)).toEqual([
      { branch: 'B1', run: 'W3', alongRun: metres, p: near(0.5) },
      { branch: 'B1', load: 'K1', p: near(0.3) },
    ])
    expect(Object.keys(suspectsOf(belief)[1] ?? {}).sort()).toEqual(['branch', 'load', 'p'])
  })
  test('a branch for its device and for another supply', () => {
    const belief = having([inW3], 0.5, x => (x.fault === 'backfeed' && x.branch === 1 ? 0.3 : 0))
    const open = { ...belief, branches: belief.branches.map((b, i) => (i === 1 ? { ...b, deviceOpen: Math.log(0.2) } : b)) }
    expect(suspectsOf(open)).toEqual([
      { branch: 'B1', run: 'W3', alongRun: metres, p: near(0.5) },
      { branch: 'B2', p: near(0.5) },
    ])
  })
})

describe('one place that may be one thing or another', () => {
  const both = (short: number): readonly Suspect[] => suspectsOf(having([{ kind: 2, item: 0, w: 1 }], short, overload(0, 1 - short)))
  test('is named once, with what all of it holds', () => {
    for (const short of [0.3, 0.7]) expect(both(short)).toEqual([{ branch: 'B1', load: 'K1', p: near(1) }])
  })
})

describe('what is left out', () => {
  test('a branch that holds a fiftieth and less of a short circuit, and places below one in ten thousand', () => {
    const rest = (p: number) => overload(1, 1 - p)
    expect(suspectsOf(having([inW3], 0.021, rest(0.021)))).toHaveLength(2)
    expect(suspectsOf(having([inW3], 0.019, rest(0.019)))).toEqual([{ branch: 'B1', load: 'K2', p: near(0.981) }])
    expect(suspectsOf(having([inW3], 1, overload(1, 1.1e-4)))).toHaveLength(2)
    expect(suspectsOf(having([inW3], 1, overload(1, 0.9e-4)))).toHaveLength(1)
  })
})
