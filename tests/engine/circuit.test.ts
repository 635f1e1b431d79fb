import { expect, test } from 'vitest'
import { circuitOf, energise, faulty, inject, ohmBetween, probeAt, voltageAt } from '../../engine/circuit.ts'
import { referenceCases, stateOf, truthOf } from '../bench/reference.ts'
import { shortInW3, smallMachine, smallTruth } from '../bench/small.ts'
import { foundState } from '../bench/truth.ts'
import { faultFrom, plantFrom, positionsFrom } from './twin.ts'

const cases = referenceCases()

test('the reference holds 461 readings of 18 circuits with six kinds of fault', () => {
  expect(cases.length).toBe(18)
  expect(cases.reduce((sum, one) => sum + one.readings.length, 0)).toBe(461)
  expect(new Set(cases.map(one => one.fault.kind)).size).toBe(6)
})

test.each(cases.map((one, i) => [i, one.fault.kind, one] as const))(
  'the circuit shows what the reference circuit %i (%s) shows, within 1e-4',
  (_i, _kind, one) => {
    const truth = truthOf(one)
    const plant = plantFrom(truth)
    for (const reading of one.readings) {
      const { meter, red, black } = reading.ask
      const p = positionsFrom(truth, stateOf(one, reading))
      const circuit = faulty(circuitOf(plant, p), faultFrom(truth.fault))
      const [r, b] = [probeAt(circuit, p, red), probeAt(circuit, p, black)]
      let shown: number
      if (meter === 'ohm') shown = ohmBetween(circuit, r, b)
      else {
        if (p.injector === undefined) energise(circuit, p)
        else {
          const terminals = circuit.base[plant.indexOf.get(p.injector.branch) ?? -1] ?? Number.NaN
          // The reference's source gives its ampere whatever it meets.
          inject(circuit, terminals, p.injector.into, 1, 1e9)
        }
        shown = voltageAt(circuit.ladder, r) - voltageAt(circuit.ladder, b)
      }
      const off = Math.abs(shown / reading.true - 1)
      expect(off, `${reading.after}: ${meter} ${red} to ${black}: ${shown} for ${reading.true}`).toBeLessThan(1e-4)
    }
  },
)

const small = () => {
  const truth = smallTruth(shortInW3)
  const state = foundState(truth)
  state.supply = 'off'
  for (const branch of ['B1', 'B2']) state.devices.set(branch, 'open')
  return { truth, state, plant: plantFrom(truth) }
}
const ohms = ({ truth, state, plant }: ReturnType<typeof small>, red: string, black: string): number => {
  const p = positionsFrom(truth, state)
  const circuit = faulty(circuitOf(plant, p), faultFrom(truth.fault))
  return ohmBetween(circuit, probeAt(circuit, p, red), probeAt(circuit, p, black))
}

test('an opened run has a loose end with what lies past it, and the junction sees the rest, by hand', () => {
  const at = small()
  at.state.opened.add('W3')
  // 2 m of 0.5 mm² there and back, 0.078 Ω/m, and the short circuit's 0.1 Ω; K2 past it is of no weight (120 Ω).
  expect(ohms(at, 'B1/W3.plus', 'B1/W3.zero')).toBeCloseTo(0.256, 3)
  // 4 m of the other run, its two joints, and K1's 24²/4.8 = 120 Ω.
  expect(ohms(at, 'B1/J1.plus', 'B1/J1.zero')).toBeCloseTo(120 + 4 * 0.078 + 0.001, 4)
  expect(ohms(at, 'B1/W3.plus', 'B1/J1.plus')).toBeGreaterThan(1e11)
  at.state.opened.clear()
  expect(ohms(at, 'B1/W3.plus', 'B1/J1.plus')).toBe(0)
})

test('a shorted load that is unplugged is gone, with its short circuit', () => {
  const at = small()
  const truth = { ...at.truth, fault: { kind: 'load-short', branch: 'B1', load: 'K2', ohm: 0.05 } as const }
  at.state.unplugged.add('B1/K2')
  // Nothing is left but K1 and the way there: 10 m of 1 mm², 0.039 Ω/m, 4 m of 0.5 mm², 0.078 Ω/m, four joints.
  expect(ohms({ ...at, truth }, 'B1.plus', 'B1.zero')).toBeCloseTo(120 + 0.39 + 0.312 + 0.002, 3)
})

test('a branch lumped at the bus shows the same there as in detail', () => {
  const at = small()
  at.state.devices.set('B2', 'closed')
  at.state.devices.set('B1', 'closed')
  const p = positionsFrom(at.truth, at.state)
  const whole = faulty(circuitOf(at.plant, p), faultFrom(at.truth.fault))
  const lumped = faulty(circuitOf(at.plant, p, 0), faultFrom(at.truth.fault))
  const shown = [whole, lumped].map(c => ohmBetween(c, probeAt(c, p, 'B1.plus'), probeAt(c, p, 'B1.zero')))
  expect(shown[0]).toBeCloseTo(shown[1] ?? Number.NaN, 12)
  expect(() => probeAt(lumped, p, 'B2.plus')).toThrow('no such point')
})

test('what is not in the machine is refused by name', () => {
  const { plant, truth, state } = small()
  const p = positionsFrom(truth, state)
  const fresh = () => circuitOf(plant, p)
  for (const point of ['B9.plus', 'B1/J7.zero', 'B1', 'B1.minus', 'supply']) expect(() => probeAt(fresh(), p, point)).toThrow(point)
  const spot = { branch: 'B1', run: 'W1', at: 1, ohm: 1 }
  expect(() => faulty(fresh(), { kind: 'short-to-zero', ...spot, run: 'W99' })).toThrow('no run W99 in branch B1')
  expect(() => faulty(fresh(), { kind: 'load-short', branch: 'B1', load: 'K99' })).toThrow('no load K99 in branch B1')
  expect(() => faulty(fresh(), { kind: 'short-to-zero', ...spot, branch: 'B7' })).toThrow('branch B7 is not in this circuit')
  expect(() => faulty(fresh(), { kind: 'swapped', ...spot })).toThrow('no circuit for swapped')
})

test('an injector gives its ampere until its voltage is spent, by hand', () => {
  const { plant, truth, state } = small()
  state.opened.add('W1')
  state.injector = { branch: 'B1', into: 'zero' }
  const p = positionsFrom(truth, state)
  // The only way is through 1e12 Ω of an opened run, so the source stands at its 24 V.
  const circuit = faulty(circuitOf(plant, p), faultFrom(truth.fault))
  inject(circuit, circuit.base[0] ?? Number.NaN, 'zero', 1, 24)
  const at = (point: string) => voltageAt(circuit.ladder, probeAt(circuit, p, point))
  expect(at('B1.plus') - at('B1.zero')).toBeCloseTo(24, 9)
})

test('a supply gives its limit into a short circuit and its voltage to sound wiring, by hand', () => {
  const { plant, truth, state } = small()
  state.supply = 'on'
  for (const branch of ['B1', 'B2']) state.devices.set(branch, 'closed')
  const p = positionsFrom(truth, state)
  const circuit = faulty(circuitOf(plant, p), faultFrom(truth.fault))
  expect(energise(circuit, p)).toBe('at its limit')
  const across = (c: typeof circuit, place: string) =>
    voltageAt(c.ladder, probeAt(c, p, `${place}.plus`)) - voltageAt(c.ladder, probeAt(c, p, `${place}.zero`))
  // 5 A through leads, device and link, 10 m of 1 mm², 2 m of 0.5 mm², four joints and 0.1 Ω; the coils take a fifth of a percent.
  expect(across(circuit, 'supply')).toBeCloseTo(5 * (0.004 + 0.03 + 0.003 + 0.39 + 0.156 + 0.002 + 0.1), 1)
  const sound = circuitOf(plant, p)
  expect(energise(sound, p)).toBe('holds')
  expect(across(sound, 'supply')).toBeCloseTo(24 - 0.01 * (19.2 / 24), 3)
})

test('a supply just too small for sound wiring gives its limit, by hand', () => {
  const { truth, state } = small()
  state.supply = 'on'
  for (const branch of ['B1', 'B2']) state.devices.set(branch, 'closed')
  const p = positionsFrom(truth, state)
  // 0.8 A are wanted and 0.7 A given: 0.7 A · 30 Ω, and some tenths of an ohm of wiring.
  const supply = { ...smallMachine.supply, limit: { mode: 'constant-current', current: 0.7 } as const }
  const weak = circuitOf(plantFrom({ ...truth, machine: { ...smallMachine, supply } }), p)
  expect(energise(weak, p)).toBe('at its limit')
  const at = (point: string) => voltageAt(weak.ladder, probeAt(weak, p, point))
  expect(at('supply.plus') - at('supply.zero')).toBeGreaterThan(21)
  expect(at('supply.plus') - at('supply.zero')).toBeLessThan(21.3)
})
