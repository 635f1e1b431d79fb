import { expect, test } from 'vitest'
import { capacityOf } from '../../engine/capacity.ts'
import { supplyRefused } from '../../engine/source.ts'

const THIN = { area: 0.75, class: 5 } as const

test.each([
  { what: 'a constant current within both ratings', limit: { mode: 'constant-current', current: 5.5 }, rating: 6, refused: undefined },
  { what: 'pulses', limit: { mode: 'hiccup', current: 5.5 }, rating: 6, refused: 'not-constant-current' },
  { what: 'a supply that shuts off', limit: { mode: 'latch-off', current: 5.5 }, rating: 6, refused: 'not-constant-current' },
  { what: 'a supply that nobody knows', limit: { mode: 'unknown', current: 5.5 }, rating: 6, refused: 'not-constant-current' },
  { what: 'a limit that nobody knows', limit: { mode: 'constant-current' }, rating: 6, refused: 'not-constant-current' },
  { what: 'more than the device is rated for', limit: { mode: 'constant-current', current: 6.1 }, rating: 6, refused: 'over-device' },
  { what: 'more than the conductor carries', limit: { mode: 'constant-current', current: 11 }, rating: 16, refused: 'over-conductor' },
  { what: 'a device that nobody knows', limit: { mode: 'constant-current', current: 5 }, rating: undefined, refused: 'rating-not-known' },
] as const)('$what', ({ limit, rating, refused }) => {
  expect(supplyRefused(limit, THIN, rating)).toBe(refused)
})

test('0.75 mm² carries 12 A at 30 °C and √(30/40) of it, 10.4 A, in the air of a machine: just below is allowed, just above is not', () => {
  const carries = capacityOf(0.75, 40) ?? 0
  expect(carries).toBeCloseTo(12 * Math.sqrt(0.75), 9)
  const at = (current: number) => supplyRefused({ mode: 'constant-current', current }, THIN, 20)
  expect([at(carries - 0.01), at(carries + 0.01)]).toEqual([undefined, 'over-conductor'])
})
test('a conductor that is not named, or below the table, is not fed', () => {
  const limit = { mode: 'constant-current', current: 1 } as const
  expect(supplyRefused(limit, undefined, 6)).toBe('rating-not-known')
  expect(supplyRefused(limit, { area: 0.14 }, 6)).toBe('rating-not-known')
})
