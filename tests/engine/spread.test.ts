// How far off a reading may be: the spread of what is common to several, what is fresh in each, and what a reading does not see.
import { expect, test } from 'vitest'
import type { Kit, Machine, Run } from '../../engine/machine.ts'
import { IN_LOAD, type Places, TO_ZERO } from '../../engine/place.ts'
import { branchOf, plantOf, USUAL_FIGURES } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import { CURRENT, FIRST_RUN, injectorOf, predictedFor, standOf, TEMPERATURE } from '../../engine/reading.ts'
import type { Read } from '../../engine/step.ts'
import { smallMachine } from '../bench/small.ts'
import { dead } from './machines.ts'
import { onePlace } from './placed.ts'

const KIT: Kit = { injector: { ampere: 1, volts: 24 } }
const OPEN = dead(smallMachine)
const FED: Positions = { ...OPEN, injector: { branch: 'B1', into: 'zero' } }
const OHM: Read = { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' }
const VOLT: Read = { kind: 'read', meter: 'volt', red: 'B1.plus', black: 'B1.zero' }
const AMP: Read = { kind: 'read', meter: 'amp', branch: 'B1' }
interface How {
  readonly kit?: Kit
  readonly unsteady?: boolean
  readonly places?: Places
  readonly machine?: Machine
}
/** 4 m out in W1 to 0 V, 0.1 Ω, unless it is told otherwise. */
const row = (read: Read, positions: Positions, how: How = {}) => {
  const plant = plantOf(how.machine ?? smallMachine, { ...USUAL_FIGURES, scale: () => 1 })
  const stand = standOf(plant, branchOf(plant, 'B1'), positions, how.kit ?? KIT)
  const places = how.places ?? onePlace(TO_ZERO, 0, 4, 0.1)
  return predictedFor(stand, places, { read, positions, zeroed: true }, [0], 0, how.unsteady)
}
const first = (numbers: ArrayLike<number>): number => numbers[0] ?? Number.NaN
const seen = (read: Read, positions: Positions, how: How = {}): boolean => first(row(read, positions, how).hidden) === 0

const runs = smallMachine.branches[0]?.wiring ?? []
const spreadOf = (wiring: readonly Run[] | undefined): Float64Array => {
  const machine = {
    ...smallMachine,
    branches: smallMachine.branches.map(({ wiring: own, ...b }) => {
      const now = b.id === 'B1' ? wiring : own
      return now === undefined ? b : { ...b, wiring: now }
    }),
  }
  const plant = plantOf(machine)
  return standOf(plant, branchOf(plant, 'B1'), OPEN, KIT).spread
}

test('the temperature is known better where every run tells it: a fifth of 10 K either way, rectangular', () => {
  // 10/√3 K · 0.00393 per kelvin (IEC 60028) = 2.27 %.
  const usual = (10 / Math.sqrt(3)) * 0.00393
  expect(spreadOf(runs)[TEMPERATURE]).toBeCloseTo(usual, 9)
  expect(spreadOf(runs.map((run, i) => (i === 0 ? { ...run, temperature: 30 } : run)))[TEMPERATURE]).toBeCloseTo(usual, 9)
  expect(spreadOf(runs.map(run => ({ ...run, temperature: 30 })))[TEMPERATURE]).toBeCloseTo(usual / 5, 9)
})

test('a conductor 0 to 8 % under the maximum, one that nobody has named, and wiring that nobody has told', () => {
  // A rectangle 8 % wide about 96 %: 0.08/√12/0.96 = 2.41 %.
  const named = 0.08 / Math.sqrt(12) / 0.96
  const spread = spreadOf(runs.map((run, i) => (i === 1 ? { id: run.id, from: run.from, to: run.to, length: run.length } : run)))
  expect(spread[FIRST_RUN]).toBeCloseTo(named, 9)
  expect(spread[FIRST_RUN + 1]).toBeGreaterThan(5 * named)
  expect(spread[FIRST_RUN + 2]).toBeCloseTo(named, 9)
  expect(spread).toHaveLength(FIRST_RUN + 3)
  expect(spreadOf(undefined)[FIRST_RUN]).toBe(spread[FIRST_RUN + 1])
})

test('the fault past an opened run is not seen, by ohms or by an injected current; ahead of it, it is', () => {
  const past = { places: onePlace(TO_ZERO, 2, 2, 0.1) }
  for (const [read, positions] of [
    [OHM, OPEN],
    [VOLT, FED],
  ] as const) {
    expect(seen(read, positions, past)).toBe(true)
    expect(seen(read, { ...positions, openedRuns: ['B1/W3'] }, past)).toBe(false)
    expect(seen(read, { ...positions, openedRuns: ['B1/W3'] })).toBe(true)
  }
})

test('a shorted load is seen while plugged, and not once it is unplugged', () => {
  const load = (id: string) => {
    const found = branchOf(plantOf(smallMachine), 'B1').loads.findIndex(l => l.load.id === id)
    return { places: onePlace(IN_LOAD, found, 0, 0.1) }
  }
  for (const id of ['K1', 'K2']) {
    expect(seen(OHM, OPEN, load(id))).toBe(true)
    expect(seen(OHM, { ...OPEN, unplugged: [`B1/${id}`] }, load(id))).toBe(false)
  }
  expect(seen(OHM, { ...OPEN, unplugged: ['B1/K1'] }, load('K2'))).toBe(true)
  // The conductor's short circuit stays, whatever is unplugged.
  expect(seen(OHM, { ...OPEN, unplugged: ['B1/K1', 'B1/K2'] })).toBe(true)
})

test('a voltage between points that a sound branch would not raise either says nothing of the fault', () => {
  // From the terminals to the next junction a sound branch drops 0.4 A · 0.2 Ω: too little to call the fault unseen.
  const along: Read = { kind: 'read', meter: 'volt', red: 'B1.plus', black: 'B1/J1.plus' }
  expect(seen(along, FED)).toBe(true)
})

test('a shorted load conducts what its short circuit does, no longer what it did itself', () => {
  // A coil of 576 W, 1 Ω, with a short circuit of 1 Ω in it: 1 Ω is left of it, not half an ohm.
  const branches = smallMachine.branches.map(b => ({ ...b, loads: (b.loads ?? []).map(l => (l.id === 'K1' ? { ...l, watts: 576 } : l)) }))
  const machine = { ...smallMachine, branches }
  const which = branchOf(plantOf(machine), 'B1').loads.findIndex(l => l.load.id === 'K1')
  const shown = first(row(OHM, OPEN, { machine, places: onePlace(IN_LOAD, which, 0, 1) }).mean)
  // 10 m of 39 mΩ/m, 4 m of 78 mΩ/m, four joints, and 1 Ω beside K2's 120 Ω further on.
  const load = 1 + 4 * 0.078 + 0.001
  const other = 120 + 6 * 0.078 + 0.001
  expect(shown).toBeCloseTo(10 * 0.039 + 0.001 + (load * other) / (load + other), 4)
})

test('an ampere reading moves with the current that is injected, and is as good as the meter: 1 % and three steps', () => {
  for (const ampere of [1, 0.5]) {
    const read = row(AMP, FED, { kit: { injector: { ampere, volts: 24 } } })
    expect(first(read.mean)).toBe(ampere)
    expect(read.slope[CURRENT]).toBe(ampere)
    expect(read.slope.filter(s => s !== 0)).toHaveLength(1)
    // 1 % of it; two steps of 1 mA that stay, one that is fresh, and half a step of rounding; all rectangular, thus over √3.
    const variance = ((0.01 * ampere) ** 2 + 0.002 ** 2 + 0.001 ** 2 + 0.0005 ** 2) / 3
    expect(first(read.fresh)).toBeCloseTo(variance, 12)
  }
})

test('what is fresh in ohms and volts: the last count, and loads beside the fault known no better than their watts', () => {
  // Two coils of 120 Ω known to 10 %: their conductance varies by √2 · 0.1/120 S. Read are 0.256 Ω, so it hardly counts.
  const loads = (Math.SQRT2 * 0.1) / 120
  const ohm = row(OHM, OPEN)
  const r = first(ohm.mean)
  const count = (step: number) => (step ** 2 + (step / 2) ** 2) / 3
  expect(first(ohm.fresh)).toBeCloseTo(count(0.1) + (0.002 * r) ** 2 + (r * r * loads) ** 2, 9)
  // A fault cut off: 120 Ω of the one coil left, known to a tenth, 12 Ω. Nothing else in the reading is as far off.
  const alone = row(OHM, { ...OPEN, openedRuns: ['B1/W2'] }, { places: onePlace(TO_ZERO, 1, 2, 0.1) })
  expect(Math.sqrt(first(alone.fresh))).toBeGreaterThan(11.5)
  expect(Math.sqrt(first(alone.fresh))).toBeLessThan(12.5)
  const volt = row(VOLT, FED)
  const v = first(volt.mean)
  // Steps of 0.1 mV up to 0.6 V: two that stay with the meter, and what is fresh.
  expect(first(volt.fresh)).toBeCloseTo((2 * 1e-4) ** 2 / 3 + count(1e-4) + (v * v * loads) ** 2, 9)
  const half = row(VOLT, FED, { kit: { injector: { ampere: 0.5, volts: 24 } } })
  const w = first(half.mean)
  expect(first(half.fresh)).toBeCloseTo((2 * 1e-4) ** 2 / 3 + count(1e-4) + ((w * w * loads) / 0.5) ** 2, 9)
})

test('a display that will not settle is five times as far off; a settled one is what is taken for granted', () => {
  for (const [read, positions] of [
    [OHM, OPEN],
    [VOLT, FED],
    [AMP, FED],
  ] as const) {
    const steady = first(row(read, positions, { unsteady: false }).fresh)
    expect(first(row(read, positions).fresh)).toBe(steady)
    const ratio = first(row(read, positions, { unsteady: true }).fresh) / steady
    expect(ratio).toBeGreaterThan(16)
    expect(ratio).toBeLessThanOrEqual(25 + 1e-9)
  }
})

test('a source that feeds another branch leaves this one an ohm reading; a kit that names no source has 1 A of 24 V', () => {
  const other: Positions = { ...OPEN, injector: { branch: 'B2', into: 'zero' } }
  expect(first(row(OHM, other).mean)).toBeCloseTo(first(row(OHM, OPEN).mean), 9)
  expect(injectorOf({})).toEqual({ ampere: 1, volts: 24 })
  expect(injectorOf({ injector: { ampere: 2, volts: 12 } })).toEqual({ ampere: 2, volts: 12 })
})
