// The machine's circuit where its acts have put it: earth, bus and bond, what a supply gives, what loads draw. By hand.
import { expect, test } from 'vitest'
import { branchOfPoint, circuitOf, energise, faulty, inject, ohmBetween, probeAt, voltageAt } from '../../engine/circuit.ts'
import type { Branch, Machine, Supply } from '../../engine/machine.ts'
import { plantOf, USUAL_FIGURES } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import { smallMachine } from '../bench/small.ts'
import { dead } from './machines.ts'

/** As found, but for the supply. */
const FOUND = dead(smallMachine, [])
const plantFor = (machine: Machine) => plantOf(machine, { ...USUAL_FIGURES, scale: () => 1 })
const withSupply = (supply: Supply, branches: readonly Branch[] = smallMachine.branches): Machine => ({ ...smallMachine, supply, branches })
const ohms = (red: string, black: string, more: Partial<Positions> = {}, machine = smallMachine, detail?: number): number => {
  const p = { ...FOUND, ...more }
  const c = circuitOf(plantFor(machine), p, detail)
  return ohmBetween(c, probeAt(c, p, red), probeAt(c, p, black))
}
const BOTH_OPEN = { devices: { B1: 'open', B2: 'open' } } as const

test('0 V is joined to earth by the bond alone, and by nothing in a machine that floats', () => {
  expect(ohms('bus.zero', 'earth')).toBeCloseTo(0.02, 6)
  expect(ohms('earth', 'bus.zero')).toBeCloseTo(0.02, 6)
  expect(ohms('bus.zero', 'earth', {}, withSupply({ ratedVoltage: 24 }))).toBeCloseTo(0.02, 6)
  expect(ohms('bus.zero', 'earth', { bond: 'opened' })).toBeGreaterThan(1e10)
  expect(ohms('bus.zero', 'earth', {}, withSupply({ zeroVoltBonded: false }))).toBeGreaterThan(1e10)
})

test('with every device open the bus shows the supply, 3.3 kΩ, and nothing once its lead is off', () => {
  expect(ohms('bus.plus', 'bus.zero', BOTH_OPEN)).toBeCloseTo(3300.004, 2)
  expect(ohms('supply.plus', 'supply.zero', BOTH_OPEN)).toBeCloseTo(3300, 2)
  expect(ohms('bus.plus', 'bus.zero', { ...BOTH_OPEN, bus: 'opened' })).toBeGreaterThan(1e9)
  expect(ohms('supply.plus', 'supply.zero', { bus: 'opened' })).toBeCloseTo(3300, 2)
})

test('a lumped branch shows at the bus through its closed device, and not through an open one', () => {
  // B2: 24²/9.6 = 60 Ω behind 5 m of 1 mm², 39 mΩ/m both ways, two joints, device and link; beside it the supply's 3.3 kΩ.
  const B2 = 60 + 5 * 0.039 + 0.001 + 0.03 + 0.003
  const only = { devices: { B1: 'open', B2: 'closed' } } as const
  for (const detail of [undefined, 0, 1])
    expect(ohms('bus.plus', 'bus.zero', only, smallMachine, detail)).toBeCloseTo((B2 * 3300.004) / (B2 + 3300.004), 3)
  expect(ohms('bus.plus', 'bus.zero', BOTH_OPEN, smallMachine, 0)).toBeCloseTo(3300.004, 1)
})

test('a point names its branch, the points of the cabinet none', () => {
  const points = ['B1.plus', 'B1/J1.zero', 'B2/W9.plus', 'bus.plus', 'bus.zero', 'supply.plus', 'supply.zero', 'earth']
  expect(points.map(branchOfPoint)).toEqual(['B1', 'B1', 'B2', undefined, undefined, undefined, undefined, undefined])
})

test('the near end of a run: the junction while joined, loose once opened, in the first run and in a later one', () => {
  const c = circuitOf(plantFor(smallMachine), FOUND)
  const node = (point: string, openedRuns: readonly string[] = []) => probeAt(c, { ...FOUND, openedRuns }, point).node
  expect(node('B1/W1.plus')).toBe(node('B1.plus'))
  expect(node('B1/W3.plus')).toBe(node('B1/J1.plus'))
  expect(node('B1/W1.plus', ['B1/W1'])).not.toBe(node('B1.plus'))
  expect(node('B1/W3.plus', ['B1/W3'])).not.toBe(node('B1/J1.plus'))
  expect(() => faulty(c, { kind: 'short-to-zero', run: 'W1', at: 1, ohm: 1 })).toThrow('not in this circuit')
  const lumped = circuitOf(plantFor(smallMachine), FOUND, 1)
  expect(() => faulty(lumped, { kind: 'short-to-zero', branch: 'B1', run: 'W1', at: 1, ohm: 1 })).toThrow(
    'branch B1 is not in this circuit',
  )
})

/** The circuit with the supply on: V between the poles of a place, and whether the supply is at its limit. */
const on = (machine: Machine, more: Partial<Positions> = {}, detail?: number) => {
  const p: Positions = { ...FOUND, supply: 'on', ...more }
  const c = circuitOf(plantFor(machine), p, detail)
  const state = energise(c, p)
  const volts = (place: string) => voltageAt(c.ladder, probeAt(c, p, `${place}.plus`)) - voltageAt(c.ladder, probeAt(c, p, `${place}.zero`))
  return { state, volts }
}

test('a supply holds its set voltage, else its rated one, else 24 V', () => {
  const open = (supply: Supply) => on(withSupply(supply), BOTH_OPEN).volts('supply')
  expect(open({ setVoltage: 26, ratedVoltage: 24 })).toBeCloseTo(26, 6)
  expect(open({ ratedVoltage: 12 })).toBeCloseTo(12, 6)
  expect(open({})).toBeCloseTo(24, 6)
})

test('with no limit told, a supply gives 30 % above its rated current, and any current with no figure at all', () => {
  // 0.8 A are wanted: three coils of 4.8, 4.8 and 9.6 W. 1.3 · 0.61 = 0.793 A is short of it, 1.3 · 0.62 = 0.806 A is not.
  expect(on(withSupply({ ratedCurrent: 0.61 })).state).toBe('at its limit')
  expect(on(withSupply({ ratedCurrent: 0.62 })).state).toBe('holds')
  expect(on(withSupply({})).state).toBe('holds')
})

const CONVERTERS: readonly Branch[] = [
  {
    id: 'B1',
    protection: { kind: 'breaker', rating: 10 },
    wiring: [{ id: 'W1', from: 'terminals', to: 'X1', length: 10, conductor: { area: 1, class: 5 } }],
    loads: [{ id: 'A1', at: 'X1', kind: 'electronic', watts: 48 }],
  },
  { id: 'B2', loads: [{ id: 'A2', at: 'terminals', kind: 'electronic', watts: 24 }] },
]
const SUPPLY: Supply = { setVoltage: 24, limit: { mode: 'constant-current', current: 5 } }

test('a converter draws its watts over 24 V as a steady current, unless it is unplugged or lumped', () => {
  // 2 A through 10 m there and back of 19.5 mΩ/m, and two joints of half a milliohm.
  const drop = (more: Partial<Positions>) => {
    const { volts } = on(withSupply(SUPPLY, CONVERTERS), more)
    return volts('B1') - volts('B1/X1')
  }
  expect(drop({})).toBeCloseTo(2 * 0.391, 6)
  expect(drop({ unplugged: ['B1/A1'] })).toBeCloseTo(0, 6)
  // 3 A through 10 mΩ in the supply; 1 A where one of the two is unplugged.
  const supply = (more: Partial<Positions>) => on(withSupply(SUPPLY, CONVERTERS), more).volts('supply')
  expect(supply({})).toBeCloseTo(24 - 0.03, 6)
  expect(supply({ unplugged: ['B1/A1'] })).toBeCloseTo(24 - 0.01, 6)
  expect(on(withSupply(SUPPLY, CONVERTERS), {}, 0).volts('supply')).toBeCloseTo(24 - 0.02, 4)
})

test('behind 5 Ω of poor joint a converter of 2 A pulls itself below 16 V, and then draws nothing', () => {
  const p: Positions = { ...FOUND, supply: 'on' }
  const left = (ohm: number) => {
    const c = circuitOf(plantFor(withSupply(SUPPLY, CONVERTERS)), p)
    faulty(c, { kind: 'poor-joint', branch: 'B1', run: 'W1', at: 5, ohm })
    energise(c, p)
    return voltageAt(c.ladder, probeAt(c, p, 'B1/X1.plus')) - voltageAt(c.ladder, probeAt(c, p, 'B1/X1.zero'))
  }
  // 2 A · 3 Ω leave 18 V less the wiring's; 2 A · 5 Ω would leave 14 V, so it is off and 24 V stand there.
  const wiring = 2 * (0.391 + 0.004 + 0.003 + 0.25 / 10 + 0.005) + 3 * 0.01 + 1 * 0.004
  expect(left(3)).toBeCloseTo(24 - 6 - wiring, 3)
  expect(left(5)).toBeCloseTo(24 - 0.014, 2)
})

test('a source that returns by earth shows the path to earth, and stops at its voltage', () => {
  const p: Positions = { ...FOUND, ...BOTH_OPEN }
  const shown = (ampere: number, volts: number) => {
    const c = faulty(circuitOf(plantFor(smallMachine), p), { kind: 'short-to-earth', branch: 'B1', run: 'W1', at: 4, ohm: 0.1 })
    inject(c, c.base[0] ?? Number.NaN, 'earth', ampere, volts)
    return voltageAt(c.ladder, probeAt(c, p, 'B1.plus'))
  }
  // One conductor: a joint, 4 m of 19.5 mΩ/m, 0.1 Ω and 0.05 Ω back to the bond. Through the coils and 0 V goes a thousandth of it.
  const path = 0.0005 + 4 * 0.0195 + 0.1 + 0.05
  expect(shown(1, 24)).toBeCloseTo(path, 2)
  expect(shown(2, 24)).toBeCloseTo(2 * shown(1, 24), 9)
  expect(shown(1, 0.1)).toBeCloseTo(0.1, 9)
})

test('the same question twice has the same answer: a meter leaves nothing behind in the circuit', () => {
  const c = circuitOf(plantFor(smallMachine), FOUND)
  const ask = () => ohmBetween(c, probeAt(c, FOUND, 'B1.plus'), probeAt(c, FOUND, 'B1/X1.zero'))
  const first = ask()
  inject(c, c.base[0] ?? Number.NaN, 'zero', 1, 24)
  expect(ask()).toBe(first)
  expect(ask()).toBe(first)
})
