// From weights of places to runs, loads and metres, with few places that are set by hand: every figure is reckoned in the head.
import { describe, expect, test } from 'vitest'
import { shares } from '../../engine/belief.ts'
import { findingOf, type Spot, spots, weights } from '../../engine/locate.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import { plantOf } from '../../engine/plant.ts'
import { smallMachine } from '../bench/small.ts'
import { dead } from './machines.ts'
import { type Place, placedIn } from './placed.ts'

const found = (list: readonly Place[], atLeast?: number): Spot[] => spots(placedIn('B1', list), 'B1', atLeast)
const only = (...list: readonly Place[]): Spot => {
  const [spot, ...rest] = found(list)
  if (spot === undefined || rest.length > 0) throw new Error('one spot')
  return spot
}
// W3 is 6 m, and starts 10 m from the terminals.
const inW3: Place = { kind: 0, item: 2, at: 2, atSd: 0.4, ohm: 0.1, ohmSd: 0.02, w: 1 }

describe('one place', () => {
  test('metres: the normal’s middle and the two limits that hold 95 of 100, to the centimetre outwards', () => {
    // 2 ± 1.96 × 0.4: 1.216 and 2.784; 10 m more from the terminals.
    const spot = only(inW3)
    expect(spot.alongRun).toEqual({ best: 2, low: 1.21, high: 2.79 })
    expect(spot.fromTerminals).toEqual({ best: 12, low: 11.21, high: 12.79 })
    expect(spot).toMatchObject({ branch: 'B1', run: 'W3', p: expect.closeTo(1, 9), toZero: 1, flicker: 0 })
    expect(spot.load).toBeUndefined()
  })
  test('ohms: the fault’s own to the milliohm outwards, none below nothing', () => {
    // 0.1 ± 1.96 × 0.02: 0.0608 and 0.1392.
    expect(only(inW3).faultOhm).toEqual({ best: 0.1, low: 0.06, high: 0.14 })
    // A middle of 0 that is cut off at 0: 0.02 times the quantiles of half a normal, z = 0.674, 0.0313, 2.2414.
    expect(only({ ...inW3, ohm: 0 }).faultOhm).toEqual({ best: 0.013, low: 0, high: 0.045 })
    expect(only({ ...inW3, ohm: -3 }).faultOhm).toEqual({ best: 0.013, low: 0, high: 0.045 })
  })
  test('a loop: out and back along the way to it, and through the fault; known to 3 % of the wiring and 5 mΩ', () => {
    const { runOhm } = plantOf(smallMachine).branches[0] ?? { runOhm: [] }
    const [w1, , w3] = runOhm
    const one = (w1 ?? Number.NaN) + (w3 ?? Number.NaN) / 3
    for (const [kind, conductors] of [
      [0, 2],
      [1, 1],
    ] as const) {
      const { loopOhm } = only({ ...inW3, kind })
      const sd = 0.03 * conductors * one + 0.005
      expect(Math.abs(loopOhm.best - (conductors * one + 0.1))).toBeLessThan(0.00051)
      expect(loopOhm.best - loopOhm.low).toBeCloseTo(1.96 * sd, 2)
      expect(loopOhm.high - loopOhm.best).toBeCloseTo(1.96 * sd, 2)
    }
    // Table of 1 mm² class 5: 19.5 mΩ/m; 0.5 mm²: 39 mΩ/m (IEC 60228), less 4 %: 10 and 2 m of them are 0.262 Ω one way.
    expect(one).toBeCloseTo(0.96 * (10 * 0.0195 + 2 * 0.039), 3)
    // In the run at the terminals there is nothing ahead of it.
    expect(Math.abs(only({ ...inW3, item: 0, at: 5 }).loopOhm.best - (0.1 + (w1 ?? 0)))).toBeLessThan(0.00051)
  })
  test('cut to its run: near an end the stretch does not leave it', () => {
    const start = only({ ...inW3, at: 0.1 })
    // Of a normal about 0.1 with 0.4, 0.4013 lies below 0: the lower 2.5 % of the rest end at Φ⁻¹(0.4013 + 0.025 × 0.5987) = −0.211 σ.
    expect(start.alongRun?.low).toBe(0.01)
    // And its upper 2.5 % begin at Φ⁻¹(1 − 0.025 × 0.5987) = 2.171 σ.
    expect(start.alongRun?.high).toBeCloseTo(0.1 + 2.171 * 0.4, 1)
    const end = only({ ...inW3, at: 5.9 })
    expect(end.alongRun?.high).toBe(5.99)
    expect(end.alongRun?.low).toBeCloseTo(5.9 - 2.171 * 0.4, 1)
    // A place told past the end is at the end.
    expect(only({ ...inW3, at: 9, atSd: 0 }).alongRun).toEqual({ best: 6, low: expect.closeTo(6, 1), high: 6 })
    expect(only({ ...inW3, at: -9, atSd: 0 }).alongRun?.best).toBeCloseTo(0, 2)
  })
})

describe('two places', () => {
  test('of one run: limits of the mixture, best where half lies below', () => {
    const spot = only({ ...inW3, at: 1, atSd: 0.1, w: 0.25 }, { ...inW3, at: 5, atSd: 0.1, w: 0.75 })
    // Below lies 0.025 where a tenth of the first has passed: 1 − 1.282 × 0.1; half where a third of the second has: 5 − 0.431 × 0.1;
    // 0.975 where 29 of 30 have: 5 + 1.834 × 0.1.
    expect(spot.alongRun).toEqual({ best: 4.96, low: 0.87, high: 5.19 })
    expect(spot.p).toBeCloseTo(1, 9)
  })
  test('of one run, one to 0 V and one to earth: the share that goes to 0 V', () => {
    const spot = only({ ...inW3, w: 0.3 }, { ...inW3, kind: 1, w: 0.7 })
    expect(spot.toZero).toBeCloseTo(0.3, 9)
    expect(findingOf(spot, true).fault).toBe('short')
  })
  test('of two runs, and of a run and a load of the same number: each its own, likeliest first', () => {
    const list = found([
      { ...inW3, item: 1, w: 0.2 },
      { ...inW3, w: 0.3 },
      { kind: 2, item: 1, w: 0.5, ohm: 0.1 },
    ])
    expect(list.map(s => [s.run, s.load, s.p])).toEqual([
      [undefined, 'K2', expect.closeTo(0.5, 9)],
      ['W3', undefined, expect.closeTo(0.3, 9)],
      ['W2', undefined, expect.closeTo(0.2, 9)],
    ])
    expect([
      ...weights(
        placedIn('B1', [
          { ...inW3, w: 0.2 },
          { ...inW3, w: 0.8 },
        ]),
        0,
      ),
    ]).toEqual([expect.closeTo(0.2, 9), expect.closeTo(0.8, 9)])
  })
  test('what comes and goes is a share of the run', () => {
    const spot = only({ ...inW3, w: 0.5, flicker: 0.4 }, { ...inW3, at: 4, w: 0.5, flicker: 0.8 })
    expect(spot.flicker).toBeCloseTo(0.6, 9)
    expect(findingOf(spot, true).fault).toBe('intermittent')
  })
  test('less than a ten-thousandth of the branch, or of what is asked for, is left out', () => {
    const little = (w: number, atLeast?: number): number =>
      found(
        [
          { ...inW3, w: 1 - w },
          { ...inW3, item: 1, w },
        ],
        atLeast,
      ).length
    expect([little(2e-4), little(5e-5)]).toEqual([2, 1])
    expect([little(0.02, 0.01), little(0.005, 0.01)]).toEqual([2, 1])
    expect(little(0, 0)).toBe(1)
  })
  test('a place of next to no weight moves no limit', () => {
    expect(only(inW3, { ...inW3, at: 6, atSd: 0, w: 1e-7 }).alongRun).toEqual(only(inW3).alongRun)
  })
})

test('a load: the end of its run, no metres along it, the whole loop to it', () => {
  const { runOhm } = plantOf(smallMachine).branches[0] ?? { runOhm: [] }
  const spot = only({ kind: 2, item: 1, ohm: 0.2, ohmSd: 0.01, w: 1 })
  expect(spot).toMatchObject({ load: 'K2', toZero: 1, fromTerminals: { best: 16, low: 16, high: 16 } })
  expect(spot.run).toBeUndefined()
  expect(spot.alongRun).toBeUndefined()
  expect(Math.abs(spot.loopOhm.best - (0.2 + 2 * ((runOhm[0] ?? 0) + (runOhm[2] ?? 0))))).toBeLessThan(0.00051)
})

test('a load at the terminals: no metres, no wiring in its loop', () => {
  const [B1, ...rest] = smallMachine.branches
  if (B1 === undefined) throw new Error('a branch')
  const near = { ...smallMachine, branches: [{ ...B1, loads: [{ id: 'K', at: 'terminals', kind: 'coil' } as const] }, ...rest] }
  const [spot] = spots(placedIn('B1', [{ kind: 2, item: 0, ohm: 0.2, ohmSd: 0.001, w: 1 }], near), 'B1')
  expect(spot).toMatchObject({ load: 'K', fromTerminals: { best: 0, low: 0, high: 0 } })
  expect(spot?.loopOhm.best).toBeCloseTo(0.2, 3)
})

describe('what a spot is called', () => {
  const figures = {
    fromTerminals: { best: 3, low: 2, high: 4 },
    loopOhm: { best: 1, low: 1, high: 1 },
    faultOhm: { best: 0.1, low: 0, high: 0.2 },
  }
  const spot: Spot = { branch: 'B1', run: 'W3', alongRun: { best: 1, low: 0, high: 2 }, p: 0.7, toZero: 0.5, flicker: 0, ...figures }
  test.each([
    [0.91, 'short-to-zero'],
    [0.9, 'short'],
    [0.5, 'short'],
    [0.1, 'short'],
    [0.09, 'short-to-earth'],
  ] as const)('%d of it to 0 V: %s', (toZero, fault) => {
    expect(findingOf({ ...spot, toZero }, true)).toEqual({
      fault,
      branch: 'B1',
      run: 'W3',
      alongRun: { best: 1, low: 0, high: 2 },
      ...figures,
      probability: 0.7,
    })
  })
  test('more than half of it comes and goes: intermittent, whatever it goes to', () => {
    expect(findingOf({ ...spot, toZero: 1, flicker: 0.51 }, true).fault).toBe('intermittent')
    expect(findingOf({ ...spot, toZero: 1, flicker: 0.5 }, true).fault).toBe('short-to-zero')
  })
  test('a load of 0.65 Ω and more draws too much rather than being shorted', () => {
    const { run: _, alongRun: __, ...inLoad } = { ...spot, load: 'K1' }
    const at = (best: number) => findingOf({ ...inLoad, faultOhm: { best, low: 0, high: 12 } }, true)
    expect(at(0.64)).toMatchObject({ fault: 'load-short', load: 'K1', probability: 0.7 })
    expect(at(0.65).fault).toBe('overload')
    expect(at(0.64)).not.toHaveProperty('run')
  })
  test('where the readings do not tell it apart, the branch alone', () => {
    expect(findingOf(spot, false)).toEqual({ fault: 'short', branch: 'B1', probability: 0.7 })
    const { run: _, alongRun: __, ...bare } = spot
    expect(findingOf(bare, true)).toEqual({ fault: 'short', branch: 'B1', ...figures, probability: 0.7 })
  })
})

test('a branch that the machine has not is a mistake of the caller', () => {
  expect(() => spots(placedIn('B1', [inW3]), 'B9')).toThrow(RangeError)
})

describe('after a reading', () => {
  const read = (shown: number): Evidence => ({
    of: 'read',
    read: { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' },
    positions: dead(smallMachine),
    zeroed: true,
    shown,
    unsteady: false,
  })
  // 2 m into W3 the loop is 0.1 + 2 × 0.262 Ω; 78 mΩ more there and back for each metre.
  const seen = (shown: number, list: readonly Place[] = [inW3]): Spot[] => spots(observe(placedIn('B1', list), read(shown)), 'B1')
  test('more ohms than the middle of the place lie farther on, and in a higher fault; fewer nearer', () => {
    const [low, high] = [seen(0.58)[0], seen(0.68)[0]]
    expect(low?.alongRun?.best).toBeLessThan(2)
    expect(high?.alongRun?.best).toBeGreaterThan(2)
    expect(low?.faultOhm.best).toBeLessThan(0.1)
    expect(high?.faultOhm.best).toBeGreaterThanOrEqual(0.1)
  })
  test('weights are of 1 over the machine, shares of the spot', () => {
    const list: readonly Place[] = [
      { ...inW3, w: 0.25, flicker: 0.3 },
      { ...inW3, kind: 1, ohm: 0.36, w: 0.25, flicker: 0.3 },
      { ...inW3, item: 0, at: 8, w: 0.5, flicker: 0.3 },
    ]
    const before = placedIn('B1', list)
    const { short } = shares(observe(before, read(0.62)))
    const found = seen(0.62, list)
    expect(found.reduce((sum, x) => sum + x.p, 0)).toBeCloseTo(short[0] ?? Number.NaN, 6)
    expect(found).toHaveLength(2)
    for (const x of found) {
      expect(x.p).toBeLessThan(0.95)
      expect(x.flicker).toBeGreaterThan(0)
      expect(x.flicker).toBeLessThan(0.3)
      expect(x.toZero).toBeLessThanOrEqual(1 + 1e-9)
      if (x.run === 'W1') expect(x.toZero).toBeCloseTo(1, 9)
      else expect(x.toZero).toBeLessThan(0.95)
    }
  })
})
