// The current of a short circuit, least and most, summed up by hand along the loop that it flows in.
import { expect, test } from 'vitest'
import type { Branch, Load, Machine, Run, Supply } from '../../engine/machine.ts'
import { branchOf, plantOf, USUAL_FIGURES, voltsOf } from '../../engine/plant.ts'
import { currentAt, currentAtTerminals, exact, highest, limitsOf, lowest, meet, USUAL } from '../../engine/prospect.ts'

// Ω: inside the supply and its two leads; a device of 10 A, 0.25/10 and 5 mΩ, with the 0 V link; two joints of half a milliohm;
// 10 m there and back of 1 mm², class 5, 19.5 mΩ/m at 20 °C (IEC 60228).
const SOURCE = 0.01 + 2 * 0.002
const DEVICE = 0.03 + 0.003
const JOINTS = 0.001
const CABLE = 2 * 10 * 0.0195
/** 1 + 0.00393 (at − 20), IEC 60028. */
const warm = (at: number): number => 1 + 0.00393 * (at - 20)

const branch = (id: string, loads: readonly Load[], more: Partial<Branch> = {}, run: Partial<Run> = {}): Branch => ({
  id,
  protection: { kind: 'breaker', rating: 10 },
  wiring: [{ id: `${id}W`, from: 'terminals', to: 'X', length: 10, conductor: { area: 1, class: 5 }, ...run }],
  loads,
  ...more,
})
const machine = (branches: readonly Branch[], supply: Supply = { setVoltage: 24 }): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'hand',
  name: 'By hand',
  supply,
  branches,
})
const load = (id: string, kind: Load['kind'], watts?: number, at = 'X'): Load => ({
  id,
  kind,
  at,
  ...(watts === undefined ? {} : { watts }),
})
type Bound = typeof lowest
const farEnd = (of: Bound, m: Machine, limit = Infinity, ohm = 0, at = 10) => {
  const x = of(m, limit, { ...USUAL, faultOhm: ohm })
  return currentAt(x, branchOf(x.plant, 'B1'), 0, at)
}
/** Every conductor as the table has it at 20 °C. */
const known = (m: Machine, ohm: number, at: number, limit = Infinity) => {
  const plant = plantOf(m, { ...USUAL_FIGURES, scale: () => 1 })
  return currentAt(exact(plant, 24, limit, ohm), branchOf(plant, 'B1'), 0, at)
}

test('least with hot conductors and the fault, most with cold ones 8 % under the maximum and none', () => {
  const m = machine([branch('B1', [])])
  expect(farEnd(lowest, m, Infinity, 0.1).ampere).toBeCloseTo(24 / (SOURCE + DEVICE + JOINTS + CABLE * warm(70) + 0.1), 3)
  expect(farEnd(highest, m, Infinity, 0.1).ampere).toBeCloseTo(24 / (SOURCE + DEVICE + JOINTS + 0.92 * CABLE * warm(5)), 2)
})

test('a run that is hotter or colder than taken for granted counts with its own temperature, and only then', () => {
  const loop = (cable: number) => 24 / (SOURCE + DEVICE + JOINTS + CABLE * cable)
  const at = (of: Bound, temperature: number) => farEnd(of, machine([branch('B1', [], {}, { temperature })])).ampere
  expect(at(lowest, 90)).toBeCloseTo(loop(warm(90)), 2)
  expect(at(lowest, 20)).toBeCloseTo(loop(warm(70)), 2)
  expect(at(highest, -10)).toBeCloseTo(loop(0.92 * warm(-10)), 2)
  expect(at(highest, 20)).toBeCloseTo(loop(0.92 * warm(5)), 2)
})

test("the branch's own loads draw through the device in the most, not in the least", () => {
  const m = machine([branch('B1', [load('A1', 'electronic', 48, 'terminals')])])
  const bare = machine([branch('B1', [])])
  expect(farEnd(lowest, m).ampere).toBeCloseTo(farEnd(lowest, bare).ampere, 6)
  // 2 A at the terminals: the short circuit behind them loses what they take from the voltage there.
  const [ahead, behind] = [SOURCE + DEVICE, JOINTS + 0.92 * CABLE * warm(5)]
  const volts = (24 - 2 * ahead) / (1 + ahead / behind)
  expect(farEnd(highest, m).ampere).toBeCloseTo(2 + volts / behind, 2)
})

test('a supply at its limit is shared with the other branches, by conductance', () => {
  const own = 1 / (DEVICE + JOINTS + CABLE * warm(70))
  const share = (other: number) => (10 * own) / (own + other)
  const beside = (...others: Branch[]) => farEnd(lowest, machine([branch('B1', []), ...others]), 10)
  expect(beside().ampere).toBeCloseTo(10, 9)
  expect(beside().limited).toBe(true)
  // A coil of 48 W is 12 Ω behind its own hot wiring.
  const coil = 1 / (12 + DEVICE + JOINTS + CABLE * warm(70))
  expect(beside(branch('B2', [load('K', 'coil', 48)])).ampere).toBeCloseTo(share(coil), 4)
  // Nobody told what one of its loads takes, or that it has any: at most its rating of 10 A, at 24 V.
  expect(beside(branch('B2', [load('K', 'coil', 48), load('L', 'coil')])).ampere).toBeCloseTo(share(10 / 24), 4)
  expect(beside(branch('B2', [])).ampere).toBeCloseTo(share(10 / 24), 4)
  expect(beside({ id: 'B2', protection: { kind: 'breaker', rating: 10 } }).ampere).toBeCloseTo(share(10 / 24), 4)
  // The most leaves the others out.
  expect(farEnd(highest, machine([branch('B1', []), branch('B2', [load('K', 'coil', 48)])]), 10).ampere).toBeCloseTo(10, 9)
})

test('an unknown share of a limit may be all of it; of a supply without one it takes nothing', () => {
  const m = machine([branch('B1', []), { id: 'B2' }])
  expect(farEnd(lowest, m, 10)).toEqual({ ampere: 0, volts: 0, limited: true, between: false })
  expect(farEnd(lowest, m).ampere).toBeCloseTo(24 / (SOURCE + DEVICE + JOINTS + CABLE * warm(70)), 3)
})

// A short circuit 5 m out: half the cable ahead of it, and at 1 A a volt an ohm.
const AHEAD = SOURCE + DEVICE + JOINTS + CABLE / 2

test('a converter past the fault draws its 2 A while it has 16 V, and nothing once it has not', () => {
  const m = machine([branch('B1', [load('A1', 'electronic', 48)])])
  const fed = (ohm: number) => (24 - 2 * AHEAD) / (1 + AHEAD / ohm)
  expect(fed(3)).toBeGreaterThan(16)
  expect(known(m, 3, 5).ampere).toBeCloseTo(2 + fed(3) / 3, 6)
  // 14.9, 15.9 and 7 V are left at the fault: also where it is the load's own current that pulls it under 16 V, it stays off.
  for (const ohm of [0.4, 0.512, 0.1]) {
    expect(fed(ohm)).toBeLessThan(16)
    expect(known(m, ohm, 5).ampere).toBeCloseTo(24 / (AHEAD + ohm), 6)
  }
})

test('of two converters the one past the fault starves, the one at the terminals goes on drawing', () => {
  const m = machine([branch('B1', [load('A1', 'electronic', 48, 'terminals'), load('A2', 'electronic', 24)])])
  const [ahead, behind] = [SOURCE + DEVICE, JOINTS + CABLE / 2 + 0.1]
  const volts = (24 - 2 * ahead) / (1 + ahead / behind)
  expect(volts).toBeGreaterThan(16)
  expect(known(m, 0.1, 5).ampere).toBeCloseTo(2 + volts / behind, 6)
})

test('coils beside the fault draw by the voltage left there, behind the rest of the run', () => {
  // 24²/57.6 = 10 Ω behind 8 m more; the fault of 1 Ω lies 2 m out.
  const past = (8 / 10) * CABLE + 10
  const both = (1 * past) / (1 + past)
  const m = machine([branch('B1', [load('K1', 'coil', 57.6)])])
  expect(known(m, 1, 2).ampere).toBeCloseTo(24 / (SOURCE + DEVICE + JOINTS + CABLE / 5 + both), 6)
  const plant = plantOf(m, { ...USUAL_FIGURES, scale: () => 1 })
  const near = (1 * (JOINTS + CABLE + 10)) / (1 + JOINTS + CABLE + 10)
  expect(currentAtTerminals(exact(plant, 24, Infinity, 1), branchOf(plant, 'B1')).ampere).toBeCloseTo(24 / (SOURCE + DEVICE + near), 6)
})

test('known loads of other branches take their share of a limit', () => {
  const m = machine([branch('B1', []), branch('B2', [load('K', 'coil', 48)])])
  const own = 1 / (DEVICE + JOINTS + CABLE / 2 + 0.1)
  const other = 1 / (12 + DEVICE + JOINTS + CABLE)
  expect(known(m, 0.1, 5, 10).ampere).toBeCloseTo((10 * own) / (own + other), 6)
})

test('converters between 15 and 16 V meet the supply on their way, by hand', () => {
  // Resistors of 10 Ω and converters of 2 A together.
  const at = (limit: number) => meet(24, limit, 0.1, 2)
  expect(at(Infinity).volts).toBeCloseTo((24 - 2 * SOURCE) / (1 + 0.1 * SOURCE), 9)
  expect(at(Infinity)).toMatchObject({ limited: false, between: false })
  expect(at(4).volts).toBeCloseTo((4 - 2) / 0.1, 9)
  expect(at(4)).toMatchObject({ limited: true, between: false })
  // 3 A: 0.1 V + 2 (V − 15) = 3, V = 33/2.1. 1 A: nothing but the resistors, 10 V.
  expect(at(3).volts).toBeCloseTo(33 / 2.1, 9)
  expect(at(3)).toMatchObject({ limited: true, between: true })
  expect(at(1).volts).toBeCloseTo(10, 9)
  expect(at(1)).toMatchObject({ limited: true, between: false })
})

test('what a supply gives for certain and at most', () => {
  const of = (supply: Supply, seconds = 5) => limitsOf(machine([], supply), seconds)
  const limit = { mode: 'constant-current', current: 6 } as const
  expect(of({})).toEqual({ low: 0, high: Infinity })
  expect(of({ ratedCurrent: 5 })).toEqual({ low: 5, high: Infinity })
  expect(of({ ratedCurrent: 5, limit })).toEqual({ low: 6, high: 6 })
  // A reserve counts as certain only when it lasts as long as is asked for.
  expect(of({ limit, reserve: { current: 20, seconds: 1 } })).toEqual({ low: 6, high: 20 })
  expect(of({ limit, reserve: { current: 20, seconds: 5 } })).toEqual({ low: 20, high: 20 })
  expect(of({ ratedCurrent: 5, reserve: { current: 20, seconds: 1 } })).toEqual({ low: 5, high: Infinity })
  expect([{ setVoltage: 25, ratedVoltage: 12 }, { ratedVoltage: 12 }, {}].map(supply => voltsOf(machine([], supply)))).toEqual([25, 12, 24])
})

test('a run that the branch does not have is refused by name', () => {
  const plant = plantOf(machine([branch('B1', [])]))
  expect(() => currentAt(exact(plant, 24, 10, 0), branchOf(plant, 'B1'), 9, 1)).toThrow('no run 9 in branch B1')
})
