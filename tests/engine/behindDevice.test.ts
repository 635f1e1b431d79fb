// A short circuit behind a closed device, as the bus shows it: out of ohms in series and side by side, by hand.
import { describe, expect, test } from 'vitest'
import { type AtBus, aheadOf, atTerminals, ohmsAtBus, voltsAtLimit } from '../../engine/atBus.ts'
import { meterOf, split } from '../../engine/meter.ts'
import { IN_LOAD, type Places, TO_ZERO } from '../../engine/place.ts'
import { branchOf, plantOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import {
  AT,
  EARTH,
  FAULT_OHM,
  FIRST_RUN,
  LEADS,
  OHM_GAIN,
  OHM_OFFSET,
  type Row,
  TEMPERATURE,
  VOLT_GAIN,
  ZEROING,
} from '../../engine/reading.ts'
import { smallMachine } from '../bench/small.ts'
import { dead, found } from './machines.ts'

const plant = plantOf(smallMachine)
const branch = branchOf(plant, 'B1')
/** Two short circuits: 2 m into W3, and in the load K1; each of 0.1 Ω. */
const placesOf = (): Places => ({
  count: 2,
  kind: Uint8Array.of(TO_ZERO, IN_LOAD),
  item: Int32Array.of(2, 0),
  at: Float64Array.of(2, 0),
  atSd: Float64Array.of(0.4, 0),
  ohm: Float64Array.of(0.1, 0.1),
  ohmSd: Float64Array.of(0.01, 0.01),
  prior: Float64Array.of(0.5, 0.5),
})
const places = placesOf()
const cut = dead(smallMachine)
const shut = dead(smallMachine, [])
const own = (positions = cut, of = places): Row => atTerminals(plant, branch, of, positions, {})
// A second branch of 60 Ω, known to a tenth, beside it.
const seen = (siemens = 1 / 60, sd = 0.1 / 60): AtBus => ({
  ...{ plant, kit: {}, branch, places, positions: shut },
  others: { siemens, sd, openChance: 0, untold: 0 },
})
const at = (of: Float64Array, j: number): number => of[j] ?? Number.NaN
const slope = (row: Row, j: number, d: number): number => at(row.slope, j * (FIRST_RUN + 3) + d)
const ahead = aheadOf(branch)

test('ahead of the terminals: 0.25/10 + 0.005 Ω of a device of 10 A, and 3 mΩ to the 0 V bus', () => {
  expect(ahead).toBeCloseTo(0.033, 9)
})

describe('at the terminals', () => {
  test('the loop out and back, beside the branch’s own loads; the same whatever the device’s position', () => {
    const [w1, w2, w3] = branch.runOhm
    const loop = 0.1 + 2 * ((w1 ?? 0) + (w3 ?? 0) / 3)
    expect(Math.abs(at(own().mean, 0) - loop)).toBeLessThan(0.005)
    expect(Math.abs(at(own().mean, 1) - (0.1 + 2 * ((w1 ?? 0) + (w2 ?? 0))))).toBeLessThan(0.005)
    expect(own(shut)).toEqual(own(cut))
    expect(own(found(smallMachine)).shown).toBe(0)
  })
  test('of other states other rows: unplugged, the load takes its short circuit with it; opened, a run hides what is behind', () => {
    const hidden = (p: Partial<Positions>): number[] => [...own({ ...cut, ...p }).hidden]
    expect(hidden({})).toEqual([0, 0])
    expect(hidden({ unplugged: ['B1/K1'] })).toEqual([0, 1])
    expect(hidden({ openedRuns: ['B1/W3'] })).toEqual([1, 0])
    expect(hidden({ openedRuns: ['B1/W1'] })).toEqual([1, 1])
    // What is unplugged or opened in another branch is no matter here; nor does an earlier state stay.
    expect(hidden({ unplugged: ['B2/K1'], openedRuns: ['B2/W9'] })).toEqual([0, 0])
    expect(hidden({})).toEqual([0, 0])
  })
  test('reckoned once for one state, anew for other places', () => {
    expect(own()).toBe(own())
    expect(own(cut, placesOf())).not.toBe(own())
    const other = placesOf()
    other.ohm[0] = 0.2
    expect(at(own(cut, other).mean, 0) - at(own().mean, 0)).toBeCloseTo(0.1, 2)
  })
})

describe('ohms at the bus', () => {
  test.each([true, false])('zeroed: %s', zeroed => {
    const row = ohmsAtBus(seen(), 0.4, zeroed)
    expect(row.shown).toBe(0.4)
    expect([...row.hidden]).toEqual([0, 0])
    const meter = meterOf({})
    for (const j of [0, 1]) {
      const behind = at(own().mean, j) + ahead
      const ohm = 1 / (1 / behind + 1 / 60)
      const passes = (ohm / behind) ** 2
      // Leads add a quarter of an ohm until they are zeroed.
      expect(at(row.mean, j)).toBeCloseTo(ohm + (zeroed ? 0 : 0.25), 9)
      for (const d of [AT, FAULT_OHM, EARTH, TEMPERATURE, FIRST_RUN, FIRST_RUN + 1, FIRST_RUN + 2])
        expect(slope(row, j, d)).toBeCloseTo(passes * slope(own(), j, d), 9)
      expect(slope(row, j, zeroed ? ZEROING : LEADS)).toBe(1)
      expect(slope(row, j, zeroed ? LEADS : ZEROING)).toBe(0)
      expect([slope(row, j, OHM_OFFSET), slope(row, j, OHM_GAIN), slope(row, j, VOLT_GAIN)]).toEqual([1, at(row.mean, j), 0])
      // The meter's own step, 2 per mille of the contact, a tenth of the device's 30 mΩ, and a tenth of what lies beside.
      const fresh = split(meter, 'ohm', ohm).fresh ** 2 + (0.002 * ohm) ** 2 + (passes * 0.1 * 0.03) ** 2 + (ohm ** 2 * (0.1 / 60)) ** 2
      expect(at(row.fresh, j) / fresh).toBeCloseTo(1, 9)
    }
  })
  test('what lies beside it lowers them, and makes them less sure', () => {
    const [alone, beside] = [ohmsAtBus(seen(0, 0), 0, true), ohmsAtBus(seen(1, 0.5), 0, true)]
    for (const j of [0, 1]) {
      expect(at(beside.mean, j)).toBeLessThan(at(alone.mean, j))
      expect(at(beside.fresh, j)).toBeGreaterThan(at(alone.fresh, j))
      expect(Math.abs(slope(beside, j, FAULT_OHM))).toBeLessThan(Math.abs(slope(alone, j, FAULT_OHM)))
    }
  })
})

test('volts at the bus while the supply gives its limit: its amperes times those ohms, known to 4 %', () => {
  const row = voltsAtLimit(seen(), 1.5, 5)
  const meter = meterOf({})
  for (const j of [0, 1]) {
    const behind = at(own().mean, j) + ahead
    const ohm = 1 / (1 / behind + 1 / 60)
    const passes = 5 * (ohm / behind) ** 2
    const volts = 5 * ohm
    expect(at(row.mean, j)).toBeCloseTo(volts, 9)
    for (const d of [AT, FAULT_OHM, EARTH, TEMPERATURE, FIRST_RUN, FIRST_RUN + 1, FIRST_RUN + 2])
      expect(slope(row, j, d)).toBeCloseTo(passes * slope(own(), j, d), 9)
    // No leads, no ohm range, no zeroing in a voltage.
    for (const d of [LEADS, OHM_OFFSET, OHM_GAIN, ZEROING]) expect(slope(row, j, d)).toBe(0)
    expect(slope(row, j, VOLT_GAIN)).toBe(at(row.mean, j))
    const { fresh, offset } = split(meter, 'volt', volts)
    const variance = fresh ** 2 + offset ** 2 + (0.04 * volts) ** 2 + (passes * 0.1 * 0.03) ** 2 + (5 * ohm ** 2 * (0.1 / 60)) ** 2
    expect(at(row.fresh, j) / variance).toBeCloseTo(1, 9)
  }
  expect(row.shown).toBe(1.5)
})
