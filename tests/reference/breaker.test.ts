import { describe, expect, test } from 'vitest'
import { AT_ONCE, breakerGates, type Curve, DIRECT_CURRENT, thermal } from '../../engine/breaker.ts'
import { deviceOf } from '../../engine/device.ts'
import { bandWithin } from '../../engine/gate.ts'
import published from './breaker.json' with { type: 'json' }
import { named } from './named.ts'

const RATING = 10
const of = (curve: Curve, rating: number, seconds: number) => bandWithin(breakerGates(curve), rating, seconds)

describe('test points of the thermal part', () => {
  test.each(named(published.points))('%s', (_, row) => {
    const { times, notBefore, within, mostRating } = row
    for (const curve of ['B', 'C', 'D'] as const) {
      const gate = breakerGates(curve).find(g => g.times === times)
      expect({ notBefore: gate?.notBefore, within: gate?.within, confirmed: gate?.confirmed }).toEqual({
        notBefore,
        within,
        confirmed: true,
      })
      // A larger breaker than the row is for gets no promise from it.
      expect(gate?.ratings).toEqual([0, mostRating])
    }
  })
  test('[mcb-a63] [mcb-b63] [mcb-c32]: between two points nothing is certain', () => {
    expect([1.13, 1.14, 1.44, 1.45, 2.54, 2.55].map(times => thermal(times, RATING))).toEqual([
      'not in an hour',
      'not known',
      'not known',
      'within an hour',
      'within an hour',
      'within a minute',
    ])
    expect(thermal(2.55, 40)).toBe('within an hour')
    expect(thermal(2.55, 80)).toBe('not known')
  })
})

describe('magnetic bands', () => {
  test.each(named(published.types))('%s', (_, row) => {
    expect(row.seconds).toBe(AT_ONCE)
    const { holds, opens } = of(row.curve as Curve, RATING, AT_ONCE)
    expect(holds).toBeCloseTo(row.low * RATING, 9)
    expect(opens).toBeCloseTo(row.high * published.direct.high * RATING, 9)
  })
  test.each(named(published.devices))('%s', (_, row) => {
    const [curve, { rating }] = [row.curve as Curve, row]
    const atOnce = of(curve, rating, AT_ONCE)
    expect(atOnce.holds).toBeCloseTo(row.holds, 9)
    expect(atOnce.opens).toBeCloseTo(row.opensDirect, 9)
    expect(atOnce.opens / DIRECT_CURRENT).toBeCloseTo(row.opens, 9)
    expect(of(curve, rating, 3600).holds).toBeCloseTo(row.carries, 9)
    expect(of(curve, rating, 3600).opens).toBeCloseTo(row.opensInAnHour, 9)
  })
  test(`[${published.direct.id}] ${published.direct.standard}: the greater factor, which promises less`, () => {
    expect(DIRECT_CURRENT).toBe(published.direct.high)
  })
})

test(`[${published.conventional.id}] ${published.conventional.standard}`, () => {
  const { times, hours, hoursAbove, mostRating } = published.conventional
  const opens = (rating: number, hours: number) => bandWithin(breakerGates('C', 'IEC 60947-2'), rating, 3600 * hours).opens
  expect(opens(10, hours)).toBeCloseTo(times * 10, 9)
  expect(opens(mostRating + 17, hours)).toBe(Infinity)
  expect(opens(mostRating + 17, hoursAbove)).toBeCloseTo(times * (mostRating + 17), 9)
  // Its magnetic value is declared on the breaker, and no letter tells it.
  expect(deviceOf({ kind: 'breaker', rating: 10, curve: 'C', standard: 'IEC 60947-2' }, AT_ONCE).missing).toEqual([
    'declared magnetic value',
  ])
})

test('what is from memory decides nothing: type Z, and breakers built for direct current', () => {
  const z = deviceOf({ kind: 'breaker', rating: 4, curve: 'Z' }, AT_ONCE)
  expect([z.band.opens, z.missing]).toEqual([Infinity, ['confirmed figure']])
  expect(z.fromMemory.opens).toBeCloseTo(4 * 3 * 1.5, 9)
  const direct = deviceOf({ kind: 'breaker', rating: 4, curve: 'B', standard: 'IEC 60898-2' }, AT_ONCE)
  expect([direct.band.opens, direct.fromMemory.opens]).toEqual([Infinity, 28])
})
