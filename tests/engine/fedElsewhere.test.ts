// Another supply, weighed by Bayes' rule: where its voltage shows, and what proving dead says of it (chances: common practice, no source).
import { describe, expect, test } from 'vitest'
import { type Belief, shares } from '../../engine/belief.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import type { Positions } from '../../engine/positions.ts'
import { smallMachine } from '../bench/small.ts'
import { dead, found } from './machines.ts'
import { alike, expectWeighed, normal, orWrong, startOf } from './weighed.ts'

const before = startOf()
const off: Positions = { ...found(smallMachine), supply: 'off' }
const read = (place: string, shown: number | 'OL', positions: Positions): Evidence => ({
  of: 'read',
  read: { kind: 'read', meter: 'volt', red: `${place}.plus`, black: `${place}.zero` },
  positions,
  zeroed: false,
  shown,
  unsteady: false,
})
const proved = (volts: number, positions: Positions): Evidence => ({ of: 'proved', positions, volts })

describe('a voltage with the supply off', () => {
  // Whose other supplies reach the probes: [place, devices open, the branches that they feed; undefined is the bus itself].
  test.each([
    ['bus', [], [0, 1, undefined]],
    ['bus', ['B1'], [1, undefined]],
    ['bus', ['B1', 'B2'], [undefined]],
    ['B1', [], [0, 1, undefined]],
    ['B1', ['B1'], [0]],
    ['B1', ['B2'], [0, undefined]],
    ['B2', ['B1'], [1, undefined]],
    ['B2', ['B1', 'B2'], [1]],
  ] as const)('at %s with %j open it comes from %j', (place, open, from) => {
    const positions = dead(smallMachine, open)
    // Nothing is 0 V give or take 0.32 V, but for a charge that is left in 2 of 100; another supply gives anything from half a volt
    // to 30 V, outside that a thousandth a volt; of those on the bus one in five is a buffer that has run empty.
    for (const [shown, fed] of [
      [23.5, 1 / 30],
      [0.6, 1 / 30],
      [29.9, 1 / 30],
      [0, 0.001],
      [0.4, 0.001],
      [31, 0.001],
      [-24, 0.001],
    ] as const) {
      const nil = normal(shown, 0, Math.sqrt(0.1))
      const none = orWrong(0.98 * nil + 0.02 * fed, shown)
      const other = orWrong(fed, shown)
      const buffered = orWrong(0.8 * fed + 0.2 * nil, shown)
      expectWeighed(before, observe(before, read(place, shown, positions)), {
        ...alike(none),
        suspicion: x => (x.fault === 'backfeed' && from.some(b => b === x.branch) ? (x.branch === undefined ? buffered : other) : none),
      })
    }
  })
  test('past the range counts as nothing', () => {
    expect(shares(observe(before, read('B1', 'OL', off)))).toEqual(shares(observe(before, read('B1', 0, off))))
  })
})

describe('proving dead', () => {
  const fedShare = (b: Belief): number =>
    b.suspicions.reduce((sum, x, i) => sum + (x.fault === 'backfeed' ? (shares(b).suspected[i] ?? 0) : 0), 0)
  test('nothing there: another supply hides from it in 3 of 100, and where its device is open it says nothing of it', () => {
    const positions = dead(smallMachine, ['B2'])
    expectWeighed(before, observe(before, proved(0, positions)), {
      ...alike(1),
      suspicion: x => (x.fault === 'backfeed' && x.branch !== 1 ? 0.03 : 1),
    })
  })
  test('a voltage that stays: a capacitor in 5 of 1,000, else another supply behind a closed device', () => {
    const positions = dead(smallMachine, ['B2'])
    expectWeighed(before, observe(before, proved(23.5, positions)), {
      ...alike(0.005),
      suspicion: x => (x.fault === 'backfeed' && x.branch !== 1 ? 0.97 : 0.005),
    })
  })
  test('before anything else: a share of 0.022 becomes 0.97 × 0.022 / (0.97 × 0.022 + 0.005 × 0.978) = 0.814', () => {
    expect(fedShare(before)).toBeCloseTo(0.022, 9)
    expect(fedShare(observe(before, proved(23.5, off)))).toBeCloseTo((0.97 * 0.022) / (0.97 * 0.022 + 0.005 * 0.978), 9)
  })
  test('what was read of the rest says nothing against it: with the rest settled it starts again from its share of all', () => {
    const ohm: Evidence = {
      of: 'read',
      read: { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' },
      positions: dead(smallMachine),
      zeroed: true,
      shown: 0.4,
      unsteady: false,
    }
    const settled = observe(observe(before, ohm), ohm)
    // Two readings that only a short circuit gives.
    expect(fedShare(settled)).toBeLessThan(0.001)
    // It may be there besides: its 0.022 beside the 0.978 of the rest, weighed by 0.97 and 0.005.
    const beside = 0.97 * 0.022
    expect(fedShare(observe(settled, proved(23.5, off)))).toBeCloseTo(beside / (beside + 0.005 * 0.978), 6)
    // And what is likelier already is not made less likely.
    const known = observe(before, proved(23.5, off))
    expect(fedShare(observe(known, proved(23.5, off)))).toBeGreaterThan(fedShare(known))
  })
  test('and once it is gone, its voltages speak against none of the rest: that has the shares that it had before', () => {
    const ohm = { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' } as const
    const settled = observe(before, { of: 'read', read: ohm, positions: dead(smallMachine), zeroed: true, shown: 0.4, unsteady: false })
    const fed = [23.5, 23.4, 23.6].reduce((b, v) => observe(b, read('bus', v, off)), observe(settled, proved(23.5, off)))
    expect(fedShare(fed)).toBeGreaterThan(0.99)
    const gone = observe(fed, proved(0, off))
    expect(fedShare(gone)).toBeLessThan(0.001)
    expect(shares(gone).short[0]).toBeCloseTo(shares(settled).short[0] ?? Number.NaN, 3)
  })
})
