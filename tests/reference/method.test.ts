import { describe, expect, test } from 'vitest'
import { type Cable, DEAD_SHORT } from '../../engine/cable.ts'
import { ideal } from '../../engine/foretell.ts'
import { estimate } from '../../engine/method.ts'
import { BY_SIMULATION, COLUMNS, closedForm, HALF_OHM, offBy, PLAIN, SETTING, simulate, simulated, wire } from '../bench/methods.ts'
import published from './method.json' with { type: 'json' }

const SEED = 3

describe(published.source, () => {
  test('the columns stand in the order of the file', () => {
    expect(published.columns).toEqual(COLUMNS)
    expect(published.rows).toHaveLength(15)
  })
  const cells = published.rows.flatMap(({ area, length, metres }) =>
    COLUMNS.map((column, i) => ({ column, area, length, written: metres[i] ?? '' })),
  )
  const kept = cells.filter(({ written }) => !written.endsWith('*'))
  test.each(kept.filter(({ column }) => !BY_SIMULATION.has(column)))('$column, $area mm², $length m: $written m in closed form', cell => {
    expect(offBy(closedForm(cell.column, cell.area, cell.length), cell.written)).toBeLessThan(0.03)
  })
  // The ratio to a sound loop divides by a reading: the closed form is an approximation there, the worse the smaller the loop.
  test.each(kept.filter(({ column }) => BY_SIMULATION.has(column)))('$column, $area mm², $length m: $written m simulated', cell => {
    expect(offBy(simulated(cell.column, cell.area, cell.length, 20_000, SEED), cell.written)).toBeLessThan(0.03)
    expect(offBy(closedForm(cell.column, cell.area, cell.length), cell.written)).toBeLessThan(
      cell.area === 0.75 && cell.length === 10 ? 0.04 : 0.03,
    )
  })
  test('a loop too small for the meter is refused in the very cells that are no use as numbers', () => {
    const starred = cells.filter(({ written }) => written.endsWith('*'))
    expect(starred).toHaveLength(12)
    for (const { column, area, length } of cells.filter(cell => BY_SIMULATION.has(cell.column))) {
      const method = ({ C1: 'one-end-healthy', C2: 'two-ends-healthy', C3: 'far-jumper' } as const)[column as 'C1' | 'C2' | 'C3']
      const cable = wire(area, length)
      const { refusedBecause } = estimate(ideal(method, length / 3, 0, cable, SETTING), cable, PLAIN, DEAD_SHORT)
      expect(refusedBecause === 'loop-too-small').toBe(starred.some(cell => cell.area === area && cell.length === length))
    }
  })
})

test(published.bound.source, () => {
  const { conductor, sigma, taps, place, knownSlope, unknownSlope } = published.bound
  const silent = () => ({ gain: 0, common: 0, own: sigma, range: 0, limit: sigma })
  const still = () => ({ gain: 0, common: 0, own: 0, range: 0, limit: 0 })
  const tools = { ohm: silent, volt: silent, ampere: still }
  const spread = (of: number): Cable => ({ ...wire(conductor.area, 30), spread: of })
  const claimed = (of: number) =>
    estimate(ideal('taps', place, 0.1, spread(of), { ampere: 1, taps }), spread(of), tools).standardUncertainty
  expect(Math.abs(claimed(0) - knownSlope)).toBeLessThan(0.5e-5)
  expect(Math.abs(claimed(Number.POSITIVE_INFINITY) - unknownSlope)).toBeLessThan(0.5e-5)
})

describe(published.oneEnd.source, () => {
  const like = {
    cable: wire(1.5, 30),
    tools: PLAIN,
    setting: SETTING,
    fault: HALF_OHM,
    ohm: (from: { between: (a: number, b: number) => number }) => from.between(0, 0.5),
    shape: 'even' as const,
  }
  test(`[seed ${SEED}] with a 0.1 Ω meter the bound always holds, and says more than the length in 19 of 100 cases`, () => {
    const { bounded, boundTells } = simulate({ ...like, method: 'one-end' }, 4000, SEED)
    expect(bounded).toBeGreaterThan(0.9995)
    expect(Math.abs(boundTells - published.oneEnd.belowLength)).toBeLessThan(0.02)
  })
  test(`[seed ${SEED}] with 1 A and four wires it lies 8.6 m past the place on average`, () => {
    const { bounded, overshoot } = simulate({ ...like, method: 'injected-near' }, 4000, SEED)
    expect(bounded).toBeGreaterThan(0.9995)
    expect(Math.abs(overshoot - published.oneEnd.overshoot)).toBeLessThan(0.3)
  })
})
