import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cableOf, DEAD_SHORT, meanOf, USUAL_FAULT, varianceOf } from '../../engine/cable.ts'
import { CONDUCTOR_SHORT_OHM, ohmBins } from '../../engine/fault.ts'
import { feeds, foretell, ideal, secondsOf } from '../../engine/foretell.ts'
import { instrumentOf, propagated } from '../../engine/instrument.ts'
import { estimate, type Method } from '../../engine/method.ts'
import { normalBelow, quantileWithin } from '../../engine/normal.ts'
import { allNormal, believed, bounded, cramerRao, disturbed, JUDGED, SETTING, simulate } from '../bench/methods.ts'
import { chance } from '../bench/random.ts'

const METHODS: readonly Method[] = [
  'one-end',
  'two-ends',
  'one-end-healthy',
  'two-ends-healthy',
  'far-jumper',
  'injected-near',
  'injected-far',
  'core-drop',
  'loop-drop',
  'taps',
]
const ONE_ENDED: ReadonlySet<Method> = new Set(['one-end', 'one-end-healthy', 'injected-near'])
const TOOLS = instrumentOf({})
const SEED = 3

test.each(METHODS)('%s: readings without error give the very place', method => {
  const cases = fc.record({
    length: fc.double({ min: 5, max: 100, noNaN: true }),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
    ohm: fc.double({ min: 0, max: 1, noNaN: true }),
    area: fc.constantFrom(0.34, 0.75, 1.5, 2.5),
  })
  fc.assert(
    fc.property(cases, ({ length, share, ohm, area }) => {
      const cable = cableOf({ conductor: { area }, length })
      const taps = [0, 0.2, 0.45, 0.7, 1].map(part => part * length)
      const fault = [{ share: 1, mean: ohm, sd: 0 }]
      const e = estimate(ideal(method, share * length, ohm, cable, { ampere: 1, taps }), cable, TOOLS, fault)
      // A fault so close past a tap that the meter cannot tell is taken to be at it.
      expect(Math.abs(e.place - share * length)).toBeLessThan(method === 'taps' ? 0.15 : 1e-6)
      expect(e.faultOhm ?? ohm).toBeCloseTo(ohm, method === 'taps' ? 2 : 9)
      expect(e.interval.low).toBeGreaterThanOrEqual(0)
      expect(e.interval.high).toBeLessThanOrEqual(length)
      expect(e.interval.low).toBeLessThanOrEqual(e.interval.best)
      expect(e.interval.best).toBeLessThanOrEqual(e.interval.high)
      expect(e.refusedBecause).not.toBe('does-not-fit')
    }),
    { seed: SEED, numRuns: 60 },
  )
})

describe('2,000 cases each', () => {
  test.each(JUDGED)(`[seed ${SEED}] %s: 95 %% intervals hold 93 to 97 %%, and the error is what was claimed`, method => {
    for (const one of [believed(method), allNormal(method)]) {
      const { covered, error, claimed } = simulate(one, 2000, SEED)
      expect(covered).toBeGreaterThanOrEqual(0.93)
      expect(covered).toBeLessThanOrEqual(0.97)
      expect(Math.abs(error / claimed - 1)).toBeLessThan(0.07)
    }
  })
  test.each(JUDGED)(`[seed ${SEED}] %s: error at most 1.10 of the Cramér–Rao bound`, method => {
    const ratio = simulate(bounded(method), 2000, SEED).error / cramerRao(method)
    expect(ratio).toBeLessThan(1.1)
    // Far below the bound no estimate can be: then the cases would be too easy.
    expect(ratio).toBeGreaterThan(0.94)
  })
})

const cable = cableOf({ conductor: { area: 0.75 }, length: 30 })
const read = (method: Method, place = 12, ohm = 0.1) => ideal(method, place, ohm, cable, SETTING)

test('one end alone gives an upper bound; ohms from one end give nothing else, unless the fault is known to be dead', () => {
  for (const method of METHODS) {
    const open = estimate(read(method), cable, TOOLS)
    expect(open.upperBound !== undefined).toBe(ONE_ENDED.has(method))
    expect(open.upperBoundOnly ?? false).toBe(method === 'one-end' || method === 'one-end-healthy')
    expect(open.upperBound ?? 30).toBeGreaterThan(12)
    expect(estimate(read(method), cable, TOOLS, DEAD_SHORT).upperBound).toBeUndefined()
  }
})
test('what the conductor may be off cancels in a ratio, and nowhere else', () => {
  const sure = { ...cable, spread: 0 }
  const u = (method: Method, on: typeof cable) => estimate(read(method, 25), on, TOOLS, DEAD_SHORT).standardUncertainty
  for (const method of METHODS) {
    const cancels = ['one-end-healthy', 'two-ends-healthy', 'far-jumper', 'core-drop', 'loop-drop'].includes(method)
    if (cancels) expect(u(method, cable)).toBe(u(method, sure))
    else expect(u(method, cable)).toBeGreaterThan(u(method, sure) * 1.001)
  }
})
test('then the drawing is the limit: 5 % of 30 m leaves half a metre by core drop', () => {
  const drawn = cableOf({ conductor: { area: 0.75 }, length: 30, lengthPercent: 5 })
  const { standardUncertainty } = foretell('core-drop', drawn, TOOLS, SETTING)
  expect(standardUncertainty).toBeCloseTo((0.05 * 30) / Math.sqrt(3) / Math.sqrt(3), 2)
})
test('foretold is what the estimates then claim', () => {
  for (const method of JUDGED) {
    const { standardUncertainty } = foretell(method, believed(method).cable, TOOLS, SETTING)
    expect(Math.abs(simulate(believed(method), 1000, SEED).claimed / standardUncertainty - 1)).toBeLessThan(0.06)
  }
})
test.each(JUDGED)(`[seed ${SEED}] %s: what it foretells to leave is what 1,000 intervals then leave on average`, method => {
  const { cable: on, tools, setting, fault, ohm } = believed(method)
  const from = chance(SEED)
  const widths = Array.from({ length: 1000 }, () => {
    const readings = disturbed(ideal(method, from.between(0, on.length), ohm(from), on, setting), tools, from, 'even')
    const { interval } = estimate(readings, on, tools, fault)
    return interval.high - interval.low
  })
  const mean = widths.reduce((sum, x) => sum + x, 0) / widths.length
  const { leaves } = foretell(method, on, tools, setting)
  expect(Math.abs(mean / leaves - 1)).toBeLessThan(0.1)
  expect(leaves).toBeLessThan(on.length)
})
test('of a stretch that is known already a method leaves no more than the stretch; ohms from one end leave what lies below the bound', () => {
  const known = foretell('injected-far', cable, TOOLS, SETTING, USUAL_FAULT, { low: 12, high: 14 })
  expect(known.leaves).toBeLessThanOrEqual(2)
  expect(foretell('two-ends', cable, TOOLS, SETTING, USUAL_FAULT, { low: 12, high: 14 }).leaves).toBeLessThanOrEqual(2)
  const bound = foretell('one-end', cable, TOOLS, SETTING)
  const at = estimate(read('one-end', 15), cable, TOOLS).upperBound ?? 0
  expect(at).toBeLessThan(30)
  expect(bound.leaves).toBeGreaterThan(at * 0.8)
})
test('a bound that leaves nearly all of the stretch is refused, one that leaves less is not', () => {
  const medium = cableOf({ conductor: { area: 1.5 }, length: 30 })
  const { leaves, refusedBecause } = foretell('one-end-healthy', medium, TOOLS, SETTING)
  expect(leaves).toBeGreaterThan(0.95 * 30)
  expect(refusedBecause).toBe('tells-nothing')
  expect(foretell('one-end', medium, TOOLS, SETTING).refusedBecause).toBeUndefined()
})
test('junctions are as well known as the drawing is: 5 % of 30 m is 0.58 m at 20 m', () => {
  const drawn = cableOf({ conductor: { area: 0.75 }, length: 30, lengthPercent: 5 })
  const at = (on: typeof drawn) => estimate(ideal('taps', 20, 0.1, on, SETTING), on, TOOLS).standardUncertainty
  expect(at(drawn)).toBeCloseTo(Math.hypot(at(cable), ((20 / 30) * 1.5) / Math.sqrt(3)), 2)
})
test('seconds by the table of step costs: each reading in the cabinet 15, each way out 60, the source 45', () => {
  expect(METHODS.map(method => [method, secondsOf(method, SETTING)])).toEqual([
    ['one-end', 15],
    ['two-ends', 15 + 60],
    ['one-end-healthy', 15 + 15 + 60],
    ['two-ends-healthy', 15 + 15 + 60 + 60],
    ['far-jumper', 3 * 15 + 60],
    ['injected-near', 45 + 2 * 15],
    ['injected-far', 45 + 2 * 15 + 60],
    ['core-drop', 45 + 2 * 15 + 60],
    ['loop-drop', 2 * 45 + 2 * 15 + 2 * 60],
    ['taps', 45 + 2 * 15 + 4 * 60],
  ])
  expect(secondsOf('injected-near', SETTING, 'supply')).toBe(15 + 2 * 15)
  expect(METHODS.filter(feeds)).toEqual(['injected-near', 'injected-far', 'core-drop', 'loop-drop', 'taps'])
})
test('a reading that does not beat what is known already is refused', () => {
  const thick = cableOf({ conductor: { area: 2.5 }, length: 10 })
  expect(foretell('one-end', thick, TOOLS, SETTING).refusedBecause).toBe('tells-nothing')
  expect(foretell('injected-far', thick, TOOLS, SETTING).refusedBecause).toBeUndefined()
  expect(foretell('two-ends', cable, TOOLS, SETTING).refusedBecause).toBeUndefined()
  const narrow = foretell('two-ends', cable, TOOLS, SETTING, USUAL_FAULT, { low: 10, high: 12 })
  expect(narrow.refusedBecause).toBe('tells-nothing')
  expect(narrow.now).toBeCloseTo(2 / Math.sqrt(12), 12)
  expect(estimate(ideal('one-end', 5, 0.05, thick, SETTING), thick, TOOLS).refusedBecause).toBe('tells-nothing')
})
test('a sound loop too small for the meter is refused, with a finer meter it is not', () => {
  const short = cableOf({ conductor: { area: 1.5 }, length: 10 })
  const fine = instrumentOf({ meter: { ohm: { resolution: 0.01 } } })
  for (const method of ['one-end-healthy', 'two-ends-healthy', 'far-jumper'] as const) {
    expect(foretell(method, short, TOOLS, SETTING).refusedBecause).toBe('loop-too-small')
    expect(foretell(method, short, fine, SETTING).refusedBecause).not.toBe('loop-too-small')
  }
})
test('a way back that is no core like the other is refused where it matters', () => {
  const chassis = cableOf({ conductor: { area: 0.75 }, length: 30, back: 0 })
  expect(chassis.loop).toBe(chassis.core)
  const refused = METHODS.filter(method => foretell(method, chassis, TOOLS, SETTING).refusedBecause === 'unequal-cores')
  expect(refused).toEqual(['one-end-healthy', 'two-ends-healthy', 'loop-drop'])
  for (const method of ['far-jumper', 'core-drop', 'injected-far'] as const)
    expect(estimate(ideal(method, 12, 0.1, chassis, SETTING), chassis, TOOLS).place).toBeCloseTo(12, 9)
})
test('readings that no place on the cable gives are refused', () => {
  expect(estimate({ method: 'two-ends', near: 4, far: 0.2 }, cable, TOOLS).refusedBecause).toBe('does-not-fit')
  expect(estimate({ method: 'two-ends', near: 0, far: 0.1 }, cable, TOOLS).refusedBecause).toBe('does-not-fit')
  expect(estimate({ method: 'injected-far', near: 0.9, far: -0.2, ampere: 1 }, cable, TOOLS).refusedBecause).toBe('does-not-fit')
  expect(estimate({ method: 'core-drop', drop: 1.2, healthy: 0.75 }, cable, TOOLS).refusedBecause).toBe('does-not-fit')
})
test('volts in two ranges do not share their offset', () => {
  const [low, high] = [TOOLS.volt(0.5), TOOLS.volt(0.7)]
  const alike = propagated([
    { per: 1, value: 0.5, errors: low },
    { per: -1, value: 0.5, errors: low },
  ])
  expect(alike).toBeCloseTo(2 * low.own ** 2, 15)
  const apart = propagated([
    { per: 1, value: 0.7, errors: high },
    { per: -1, value: 0.5, errors: low },
  ])
  expect(apart).toBeCloseTo(
    low.own ** 2 + high.own ** 2 + low.common ** 2 + high.common ** 2 + (0.7 * high.gain) ** 2 + (0.5 * low.gain) ** 2,
    15,
  )
})
test('the clamp reads the current worse than the meter in series', () => {
  const clamp = instrumentOf({}, 'amp')
  const u = (tools: typeof TOOLS) => foretell('injected-far', cable, tools, SETTING).standardUncertainty
  expect(u(clamp)).toBeGreaterThan(1.2 * u(TOOLS))
})
test('the usual fault has the moments of a resistance even in its logarithm', () => {
  const [whole] = ohmBins(CONDUCTOR_SHORT_OHM, 1)
  expect(meanOf(USUAL_FAULT)).toBeCloseTo(whole?.mean ?? 0, 12)
  expect(varianceOf(USUAL_FAULT)).toBeCloseTo((whole?.sd ?? 0) ** 2, 12)
})
test('normal: known shares, and a mixture cut to a stretch', () => {
  expect(normalBelow(1.959964)).toBeCloseTo(0.975, 6)
  expect(normalBelow(-1)).toBeCloseTo(0.1586553, 6)
  const wide = [{ share: 1, mean: 3, sd: 1e4 }]
  expect(quantileWithin(wide, 0.025, 0, 40)).toBeCloseTo(1, 3)
  expect(quantileWithin([{ share: 1, mean: 99, sd: 1 }], 0.5, 0, 40)).toBe(40)
  expect(quantileWithin([{ share: 1, mean: -99, sd: 1 }], 0.5, 0, 40)).toBe(0)
})
test('taps at one place, or none, are a mistake of the caller', () => {
  expect(() => estimate({ method: 'taps', taps: [{ at: 0, volts: 1 }], ampere: 1 }, cable, TOOLS)).toThrow('found 1')
  expect(() => estimate({ method: 'taps', taps: [], ampere: 1 }, cable, TOOLS)).toThrow('found 0')
})
