// The machine in ohms, by hand, and what an ohmmeter shows of its sound wiring.
import { describe, expect, test } from 'vitest'
import type { Load, Machine } from '../../engine/machine.ts'
import { normalBelow } from '../../engine/normal.ts'
import { branchOf, plantOf, USUAL_FIGURES } from '../../engine/plant.ts'
import { asFound, type Positions } from '../../engine/positions.ts'
import { below, inService, type Sound, soundBelow, soundDensity, soundOf, together } from '../../engine/sound.ts'
import { smallMachine } from '../bench/small.ts'

const machine = (loads: readonly Load[], more: object = {}): Machine => ({
  ...smallMachine,
  branches: [
    { id: 'B1', wiring: [{ id: 'W1', from: 'terminals', to: 'J1', length: 10, conductor: { area: 1, class: 5 }, ...more }], loads },
  ],
})
const load = (kind: Load['kind'], watts?: number, at = 'J1'): Load => ({
  id: `${kind} ${at}`,
  at,
  kind,
  ...(watts === undefined ? {} : { watts }),
})
const first = (m: Machine) => branchOf(plantOf(m), 'B1')
const near = (x: number) => expect.closeTo(x, 12)

describe('the machine in ohms', () => {
  test('a conductor lies 4 % under the table’s maximum at 20 °C, or at the run’s own temperature', () => {
    // 1 mm², class 5: 19.5 Ω/km.
    expect([...first(machine([])).runOhm]).toEqual([near(0.0195 * 10 * 0.96)])
    expect([...first(machine([], { temperature: 50 })).runOhm]).toEqual([near(0.0195 * 10 * 0.96 * 1.1179)])
    const other = { ...USUAL_FIGURES, scale: (run: string) => (run === 'W1' ? 0.92 : 9) }
    expect([...(plantOf(machine([]), other).branches[0]?.runOhm ?? [])]).toEqual([near(0.0195 * 10 * 0.92)])
  })
  test('a device has 0.25 Ω over its rating and 5 mΩ, 6 A where it is not told, unless its own is given', () => {
    const plant = plantOf({ ...smallMachine, branches: [...smallMachine.branches, { id: 'B3' }] })
    expect(plant.branches.map(b => b.deviceOhm)).toEqual([near(0.03), near(0.03), near(0.25 / 6 + 0.005)])
    const own = { ...USUAL_FIGURES, deviceOhm: (branch: string) => (branch === 'B2' ? 0.5 : 0.1) }
    expect(plantOf(smallMachine, own).branches.map(b => b.deviceOhm)).toEqual([0.1, 0.5])
  })
  test('branches are found by id; one that is not there is a mistake', () => {
    const plant = plantOf(smallMachine)
    expect([branchOf(plant, 'B2').index, [...plant.indexOf]]).toEqual([
      1,
      [
        ['B1', 0],
        ['B2', 1],
      ],
    ])
    expect(() => branchOf(plant, 'B9')).toThrow('no branch B9 in machine small')
  })
  const hot = 24 / 576
  test.each([
    // 24 W at 24 V: 1 A, 1/24 S.
    { kind: 'coil', siemens: hot, sd: 0.1 * hot, live: hot, ampere: 0 },
    { kind: 'lamp', siemens: 6 * hot, sd: 3.5 * hot, live: hot, ampere: 0 },
    { kind: 'motor', siemens: 4 * hot, sd: 3.5 * hot, live: hot, ampere: 0 },
    { kind: 'electronic', siemens: 1 / 40_000, sd: 1 / 5000, live: 0, ampere: 1 },
  ] as const)('a $kind of 24 W', ({ kind, siemens, sd, live, ampere }) => {
    expect(first(machine([load(kind, 24)])).loads[0]).toMatchObject({
      run: 0,
      siemens: near(siemens),
      siemensSd: near(sd),
      liveSiemens: near(live),
      liveAmpere: near(ampere),
    })
  })
  test('a load whose watts nobody told counts as 5 W, within 70 %', () => {
    const five = 5 / 576
    expect(first(machine([load('coil')])).loads[0]).toMatchObject({ siemens: near(five), siemensSd: near(0.7 * five) })
    expect(first(machine([load('electronic')])).loads[0]?.liveAmpere).toBeCloseTo(5 / 24, 12)
  })
  test('a load sits at the far end of a run, or at the terminals', () => {
    expect(
      first(machine([load('coil', 5), load('coil', 5, 'terminals')]))
        .loads.map(l => l.run)
        .sort(),
    ).toEqual([-1, 0])
    // Where no wiring is told, all but those of the cabinet sit at its stand-in.
    const untold = plantOf({ ...smallMachine, branches: [{ id: 'B1', loads: [load('coil', 5, 'X7')] }] })
    expect(untold.branches[0]?.loads.map(l => l.run)).toEqual([0])
  })
})

const off = (more: Partial<Positions> = {}): Positions => ({ ...asFound(['B1', 'B2']), supply: 'off', ...more })
const small = branchOf(plantOf(smallMachine), 'B1')
describe('sound wiring to an ohmmeter', () => {
  // Coils of 4.8 W: 120 Ω. Out and back 0.3744 Ω to J1, then 0.29952 and 0.44928; a joint of 0.001 a run.
  const [one, two] = [120 + 0.29952 + 0.001, 120 + 0.44928 + 0.001]
  test('loads side by side, each behind its cable', () => {
    const found = soundOf(small, off())
    expect(1 / found.siemens).toBeCloseTo(0.3754 + 1 / (1 / one + 1 / two), 6)
    // The cable in series takes as much of their spread as of themselves.
    expect(found.sd).toBeCloseTo(((Math.SQRT2 * 0.1) / 120) * found.siemens * 60, 8)
    expect([found.openChance, found.untold]).toEqual([0.005, 0])
  })
  test('what is unplugged or cut off takes its share along', () => {
    for (const p of [off({ unplugged: ['B1/K1'] }), off({ openedRuns: ['B1/W2'] })]) {
      expect(1 / soundOf(small, p).siemens).toBeCloseTo(0.3754 + two, 5)
      expect(soundOf(small, p).sd).toBeCloseTo((0.1 / 120) * soundOf(small, p).siemens * 120, 8)
    }
    for (const p of [off({ unplugged: ['B1/K1', 'B1/K2'] }), off({ openedRuns: ['B1/W1'] }), off({ openedRuns: ['B1/W2', 'B1/W3'] })])
      expect(soundOf(small, p)).toMatchObject({ siemens: expect.closeTo(0, 9), sd: 1e-9, openChance: 0.95 })
    // Another branch's things are not its own.
    expect(soundOf(small, off({ unplugged: ['B2/K1'], openedRuns: ['B2/W2'] }))).toEqual(soundOf(small, off()))
  })
  test('electronic loads alone may show nothing at all, 4 of 10 each', () => {
    const chance = (...loads: Load[]) => soundOf(first(machine(loads)), off()).openChance
    const e = load('electronic', 5)
    expect([chance(e), chance(e, { ...e, id: 'e2' }), chance(e, load('lamp', 5))]).toEqual([0.4, near(0.16), 0.005])
  })
  test('of untold loads a few tens of ohm to kilohms', () => {
    const untold = plantOf({ ...smallMachine, branches: [{ id: 'B1' }] }).branches[0]
    if (untold === undefined) throw new Error('no branch')
    expect(soundOf(untold, off())).toEqual({ siemens: 0.04, sd: 0.06, openChance: 0.2, untold: 1 })
    expect(inService(untold, off()).untold).toBe(1)
  })
  test('in service what is plugged draws, within 30 %', () => {
    const all = inService(small, off())
    expect([all.siemens, all.sd, all.openChance, all.untold]).toEqual([near(2 / 120), expect.closeTo(0.6 / 120, 8), 0, 0])
    expect(inService(small, off({ unplugged: ['B1/K2'] })).siemens).toBeCloseTo(1 / 120, 12)
  })
  test('branches side by side: conductances and variances add, and all must be silent for silence', () => {
    const s = (siemens: number, sd: number, openChance: number, untold: number): Sound => ({ siemens, sd, openChance, untold })
    expect(together([s(1, 3, 0.5, 1), s(2, 4, 0.4, 0), s(3, 0, 1, 2)])).toEqual({ siemens: 6, sd: 5, openChance: near(0.2), untold: 3 })
    expect(together([])).toEqual({ siemens: 0, sd: 0, openChance: 1, untold: 0 })
  })
  test('the logistic stands within a hundredth for the normal', () => {
    for (let z = -4; z <= 4; z += 0.25) expect(Math.abs(below(z) - normalBelow(z))).toBeLessThan(0.01)
  })
})

describe('how likely a reading is of sound wiring', () => {
  /** Of what shows a number, the share below `ohm`, by adding up the densities in small steps. */
  const summed = (s: Sound, ohm: number): number => {
    let sum = 0
    const steps = 20_000
    const [from, to] = [Math.log(1e-4), Math.log(ohm)]
    for (let i = 0; i < steps; i++) {
      const at = Math.exp(from + ((i + 0.5) * (to - from)) / steps)
      sum += soundDensity(s, at, 0) * at * ((to - from) / steps)
    }
    return sum / (1 - s.openChance)
  }
  const coil: Sound = { siemens: 1 / 62, sd: 0.1 / 62, openChance: 0.005, untold: 0 }
  const heavy: Sound = { siemens: 1, sd: 0.1, openChance: 0.005, untold: 0 }
  const untold: Sound = { siemens: 0.04, sd: 0.06, openChance: 0.2, untold: 1 }
  test.each([
    ['a coil of 62 Ω', coil, [55, 62, 70, 500]],
    ['loads of 1 Ω together', heavy, [0.8, 1, 1.2, 1.9]],
    ['loads that nobody told', untold, [2, 2.5, 40, 2000, 200_000]],
    ['three branches of those', { ...untold, untold: 3 }, [0.8, 40, 2000]],
  ])('%s: the share below is what the densities add up to, within 3 of 100', (_, sound, at) => {
    for (const ohm of at) expect(Math.abs(soundBelow(sound, ohm) - summed(sound, ohm)), `${ohm} Ω`).toBeLessThan(0.03)
  })
  test('OL has its own chance, what conducts nothing no other', () => {
    expect([coil, untold].map(s => soundDensity(s, 'OL', 0))).toEqual([0.005, 0.2])
    const nothing = { siemens: 0, sd: 0, openChance: 0.95, untold: 0 }
    expect([soundDensity(nothing, 62, 0), soundBelow(nothing, 62), soundDensity(nothing, 'OL', 0)]).toEqual([0, 0, 0.95])
  })
  test('leads that are expected are taken off', () => {
    expect(soundDensity(coil, 62.4, 0.4)).toBeCloseTo(soundDensity(coil, 62, 0), 12)
    expect(soundDensity(heavy, 1.4, 0.4)).toBeCloseTo(soundDensity(heavy, 1, 0), 12)
  })
  test('never more than all of it', () => expect(soundBelow(untold, 1e9)).toBe(1))
})
