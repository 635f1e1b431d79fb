// Published bridge and two-end tests. A bridge in balance shares the loop's resistance as its arms do, so it is given here as the
// two readings whose difference it balances.
import { describe, expect, test } from 'vitest'
import { type Cable, DEAD_SHORT } from '../../engine/cable.ts'
import type { Instrument } from '../../engine/instrument.ts'
import { estimate } from '../../engine/method.ts'
import published from './fault-location.json' with { type: 'json' }
import { named } from './named.ts'

const still = () => ({ gain: 0, common: 0, own: 0, range: 0, limit: 0 })
const EXACT: Instrument = { ohm: still, volt: still, ampere: still }
const cable = (length: number, core: number): Cable => ({ length, lengthSd: 0, core, loop: 2 * core, spread: 0, leastLoop: 2 * core })
const rule = (id: string): string => {
  const found = published.rules.find(row => row.id === id)
  return `[${id}] ${found?.standard}`
}
/** Both readings may hold any way back. */
const WAY_BACK = 3
/** A loop bridge in balance with this share of the loop on the faulty core's side. */
const murray = (around: number, share: number, length: number) =>
  estimate(
    { method: 'far-jumper', around, healthy: around * (1 - share) + WAY_BACK, faulty: around * share + WAY_BACK },
    cable(length, around / 2 / length),
    EXACT,
  )

test.each(named(published.murray))('%s', (_, row) => {
  const around = (2 * row.length * row.ohmPerKm) / 1000
  expect(murray(around, row.faulty / (row.sound + row.faulty), row.length).place).toBeCloseTo(row.place, 9)
})
describe('by the rules of the books', () => {
  test.each([
    [1, 3],
    [20, 80],
    [7, 9],
  ])(`${rule('f-murray')}, arms %i and %i`, (q, p) => {
    expect(murray(8, q / (p + q), 120).place).toBeCloseTo((2 * 120 * q) / (p + q), 9)
  })
  test(`${rule('f-murray-r')}: ${published.hawkins.divisions} of ${published.hawkins.of}, in miles`, () => {
    const { divisions, of, loopOhm, ohmPerMile, printedMiles, miles } = published.hawkins
    const toFault = (loopOhm * divisions) / of
    const line = { ...cable(2, ohmPerMile / 2) }
    const { place, loopOhm: shown } = estimate({ method: 'one-end', near: toFault }, line, EXACT, DEAD_SHORT)
    expect(place).toBeCloseTo(miles, 4)
    expect(place).toBeCloseTo(printedMiles, 2)
    expect(shown).toBe(toFault)
  })
  test.each([
    [0, 100],
    [0.6, 70],
    [1.9, 5],
  ])(`${rule('f-varley')}: equal arms, %f Ω set`, (set, place) => {
    const [loop, length] = [2, 100]
    const byRule = ((loop - set) / 2 / (loop / 2)) * length
    const { place: ours } = estimate(
      { method: 'far-jumper', around: loop, healthy: WAY_BACK + set, faulty: WAY_BACK },
      cable(length, loop / 2 / length),
      EXACT,
    )
    expect(byRule).toBeCloseTo(place, 9)
    expect(ours).toBeCloseTo(byRule, 9)
  })
  test.each([
    { near: 1.2, far: 0.8, r: 0.0133, length: 60 },
    { near: 0.31, far: 0.92, r: 0.0195, length: 24 },
  ])(`${rule('f-two-end')}: $near and $far Ω`, ({ near, far, r, length }) => {
    const { place, faultOhm } = estimate({ method: 'two-ends', near, far }, cable(length, r), EXACT)
    expect(place).toBeCloseTo(length / 2 + (near - far) / (4 * r), 9)
    expect(faultOhm).toBeCloseTo((near + far) / 2 - r * length, 9)
  })
  test.each([
    { near: 0.2, far: 0.6, length: 40 },
    { near: 2, far: 0.5, length: 15 },
  ])(`${rule('f-two-end-dead')}: $near and $far Ω`, ({ near, far, length }) => {
    // The two together are the sound loop.
    const healthy = near + far
    const { place, faultOhm } = estimate({ method: 'two-ends-healthy', near, far, healthy }, cable(length, healthy / 2 / length), EXACT)
    expect(place).toBeCloseTo((length * near) / (near + far), 9)
    expect(faultOhm).toBeCloseTo(0, 12)
  })
})
