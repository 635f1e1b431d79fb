import { expect, test } from 'vitest'
import { live, ohmsBetween, voltsBetween } from './circuit.ts'
import { referenceCases, stateOf, truthOf } from './reference.ts'
import { shortInW3, smallTruth } from './small.ts'
import { solve } from './solver.ts'
import { foundState } from './truth.ts'

test.each(referenceCases().map((one, i) => [i, one.fault.kind, one] as const))(
  'the slow twin shows what the reference circuit %i (%s) shows, within 1e-4',
  (_i, _kind, one) => {
    const truth = truthOf(one)
    for (const reading of one.readings) {
      const { meter, red, black } = reading.ask
      const state = stateOf(one, reading)
      const shown = meter === 'ohm' ? ohmsBetween(truth, state, red, black) : voltsBetween(truth, state, live(truth, state), red, black)
      const off = Math.abs(shown - reading.true) / Math.max(Math.abs(reading.true), 1e-3)
      expect(off, `${reading.after}: ${meter} ${red} to ${black}: ${shown} for ${reading.true}`).toBeLessThan(1e-4)
    }
  },
)

test('an opened run has a loose end, with only what lies past it; the junction sees the rest', () => {
  const truth = smallTruth(shortInW3)
  const state = foundState(truth)
  state.supply = 'off'
  for (const branch of ['B1', 'B2']) state.devices.set(branch, 'open')
  state.opened.add('W3')
  // 2 m of 0.5 mm² there and back, 0.078 Ω/m, and the short circuit's 0.1 Ω (K2 past it is of no weight: 120 Ω).
  expect(ohmsBetween(truth, state, 'B1/W3.plus', 'B1/W3.zero')).toBeCloseTo(0.256, 3)
  // 4 m of the other run, its joint, and K1's 24²/4.8 = 120 Ω.
  expect(ohmsBetween(truth, state, 'B1/J1.plus', 'B1/J1.zero')).toBeCloseTo(120 + 4 * 0.078 + 0.001, 4)
  expect(ohmsBetween(truth, state, 'B1/W3.plus', 'B1/J1.plus')).toBe(Number.POSITIVE_INFINITY)
  state.opened.clear()
  expect(ohmsBetween(truth, state, 'B1/W3.plus', 'B1/J1.plus')).toBe(0)
})

test('a supply and a converter come to rest where their laws meet, by hand', () => {
  // 24 V through 20 Ω to a converter of 1.2 A: full would take all 24 V, so it stands on its slope, u = 24 - 20 · 1.2 (u - 15).
  const parts = {
    resistors: [
      { a: 'plus', b: 'in', ohm: 20 },
      { a: 'plus', b: 'zero', ohm: 1000 },
    ],
    feeds: [],
    draws: [{ plus: 'in', minus: 'zero', ampere: 1.2 }],
  }
  const at = (limit: number) => {
    const solved = solve({ ...parts, sources: [{ plus: 'plus', minus: 'zero', volts: 24, inside: 1e-6, limit }] })
    return [solved.at('in') - solved.at('zero'), solved.sources[0]?.ampere, solved.sources[0]?.limited] as const
  }
  const [u, ampere, limited] = at(1)
  expect(u).toBeCloseTo(384 / 25, 4)
  expect(ampere).toBeCloseTo(0.432 + 0.024, 4)
  expect(limited).toBe(false)
  // Limited to 0.1 A: what the 1000 Ω leave, v/1000 + 1.2 (u - 15) = 0.1 with u = v - 24 (u - 15).
  const [held, given, isHeld] = at(0.1)
  expect(given).toBe(0.1)
  expect(isHeld).toBe(true)
  const drawn = 1.2 * ((held ?? 0) - 15)
  expect((held + 20 * drawn) / 1000 + drawn).toBeCloseTo(0.1, 9)
})
