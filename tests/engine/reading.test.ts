import { expect, test } from 'vitest'
import type { Kit } from '../../engine/machine.ts'
import { census, IN_LOAD, type Places, placesOf, TO_EARTH, TO_ZERO } from '../../engine/place.ts'
import { branchOf, type Figures, plantOf, USUAL_FIGURES } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import {
  AT,
  CURRENT,
  EARTH,
  FAULT_OHM,
  FIRST_RUN,
  LEADS,
  OHM_GAIN,
  OHM_OFFSET,
  predictedFor,
  type Row,
  standOf,
  TEMPERATURE,
  VOLT_GAIN,
  ZEROING,
} from '../../engine/reading.ts'
import type { Read } from '../../engine/step.ts'
import { invent } from '../bench/invent.ts'
import { type Chance, chance } from '../bench/random.ts'
import { smallMachine } from '../bench/small.ts'
import { onePlace } from './placed.ts'

const { machine } = invent(7, { branches: 4, bonded: true })
const KIT: Kit = { injector: { ampere: 1, volts: 24 } }
const cutOff: Positions = {
  supply: 'off',
  bus: 'joined',
  bond: 'joined',
  devices: Object.fromEntries(machine.branches.map((b, i) => [b.id, i % 2 === 0 ? ('open' as const) : ('closed' as const)])),
  unplugged: [],
  openedRuns: [],
}

interface Case {
  readonly id: string
  readonly places: Places
  readonly read: Read
  readonly positions: Positions
  readonly zeroed: boolean
}
test('a short circuit to earth of a supply that is said to float shows as one of a bonded supply with 0.8 Ω of earth path', () => {
  const read = { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' } as const
  const ohms = (zeroVoltBonded: boolean, figures: Partial<Figures> = {}): number[] => {
    const plant = plantOf({ ...machine, supply: { ...machine.supply, zeroVoltBonded } }, { ...USUAL_FIGURES, ...figures })
    const b = branchOf(plant, 'B1')
    const places = placesOf(plant, b, census(plant))
    const stand = standOf(plant, b, cutOff, KIT)
    const which = [...places.kind.keys()].filter(j => places.kind[j] === TO_EARTH).slice(0, 40)
    const { mean, slope } = predictedFor(stand, places, { read, positions: cutOff, zeroed: true }, which, 0)
    return [...mean, ...which.map((_, j) => slope[j * stand.dims + EARTH] ?? Number.NaN)]
  }
  const [floating, bonded] = [ohms(false), ohms(true, { earthOhm: 0.8 })]
  expect(floating).toHaveLength(80)
  floating.forEach((x, i) => {
    expect(x).toBeCloseTo(bonded[i] ?? Number.NaN, 6)
  })
  // It lies in the hypothesis alone: no other one has its 0 V earthed.
  expect(Math.min(...floating.slice(0, 40))).toBeGreaterThan(0.8)
})

interface Moved {
  readonly at?: number
  readonly ohm?: number
  readonly figures?: Partial<Figures>
  readonly ampere?: number
}
const moved = (c: Case, by: Moved): Places => ({
  ...c.places,
  at: c.places.at.map(x => x + (by.at ?? 0)),
  ohm: c.places.ohm.map(x => x * (1 + (by.ohm ?? 0))),
})
const rowOf = (c: Case, by: Moved = {}): Row => {
  const plant = plantOf(machine, { ...USUAL_FIGURES, ...by.figures })
  const kit = { injector: { ampere: by.ampere ?? 1, volts: 24 } }
  return predictedFor(standOf(plant, branchOf(plant, c.id), c.positions, kit), moved(c, by), c, [0], 0)
}
const meanOf = (c: Case, by: Moved): number => rowOf(c, by).mean[0] ?? Number.NaN
const STEP = 1e-4
/** Central difference: its own error goes with the step squared. */
const difference = (c: Case, by: (h: number) => Moved, h = STEP): number => (meanOf(c, by(h)) - meanOf(c, by(-h))) / (2 * h)

const someCase = (own: Chance, kind: number, what: 'ohm' | 'zero' | 'earth'): Case => {
  const plant = plantOf(machine)
  const branch = own.pick(plant.branches.filter(b => cutOff.devices[b.id] === 'open'))
  const run = own.whole(0, branch.wiring.runs.length - 1)
  const load = own.whole(0, branch.loads.length - 1)
  const length = branch.wiring.runs[run]?.run.length ?? 1
  const place = own.yes(0.4) ? branch.id : `${branch.id}/${own.pick(branch.wiring.runs).far}`
  const pair: [string, string] =
    what === 'earth' && own.yes(0.3) ? ['earth', `${branch.id}.zero`] : [`${place}.plus`, own.yes(0.2) ? 'earth' : `${place}.zero`]
  return {
    id: branch.id,
    places: onePlace(
      kind,
      kind === IN_LOAD ? load : run,
      kind === IN_LOAD ? 0 : own.between(0.1, 0.9) * length,
      own.logBetween(0.005, 0.3),
    ),
    read: { kind: 'read', meter: what === 'ohm' ? 'ohm' : 'volt', red: pair[0], black: pair[1] },
    positions: what === 'ohm' ? cutOff : { ...cutOff, injector: { branch: branch.id, into: what } },
    zeroed: own.yes(0.5),
  }
}

const KINDS = { 'to 0 V': TO_ZERO, 'to earth': TO_EARTH, 'in a load': IN_LOAD } as const

test.each(Object.keys(KINDS).flatMap(kind => (['ohm', 'zero', 'earth'] as const).map(what => [kind as keyof typeof KINDS, what] as const)))(
  'a short %s, read as %s: every slope is what a small change makes of the reading (40 cases)',
  (kind, what) => {
    const own = chance(11)
    for (let i = 0; i < 40; i++) {
      const c = someCase(own, KINDS[kind], what)
      const plant = plantOf(machine)
      const runs = branchOf(plant, c.id).wiring.runs
      const { slope, mean } = rowOf(c)
      const scaled = (hit: (run: string) => boolean, h: number): Moved => ({
        figures: { scale: run => USUAL_FIGURES.scale(run) * (hit(run) ? 1 + h : 1) },
      })
      const leads = what !== 'ohm' || c.zeroed ? 0 : 0.25
      const value = (mean[0] ?? Number.NaN) - leads
      const expected = new Map<number, number>([
        [AT, c.places.kind[0] === IN_LOAD ? 0 : difference(c, h => ({ at: h }))],
        [FAULT_OHM, difference(c, h => ({ ohm: h })) / (c.places.ohm[0] ?? Number.NaN)],
        [EARTH, difference(c, h => ({ figures: { earthOhm: USUAL_FIGURES.earthOhm * (1 + h) } }))],
        [TEMPERATURE, difference(c, h => scaled(() => true, h))],
        [CURRENT, what === 'ohm' ? 0 : difference(c, h => ({ ampere: 1 + h }))],
        // A gain multiplies what is shown; an offset and the leads add to it.
        [VOLT_GAIN, what === 'ohm' ? 0 : value],
        [OHM_GAIN, what === 'ohm' ? value + leads : 0],
        [OHM_OFFSET, what === 'ohm' ? 1 : 0],
        [LEADS, what === 'ohm' && !c.zeroed ? 1 : 0],
        [ZEROING, what === 'ohm' && c.zeroed ? 1 : 0],
        ...runs.map(({ run }, k): [number, number] => [FIRST_RUN + k, difference(c, h => scaled(id => id === run.id, h))]),
      ])
      expect(expected.size).toBe(slope.length)
      // Against the largest of all: what is lost in a difference of two readings is a share of the reading.
      const most = Math.max(Math.abs(value), ...slope.map(Math.abs))
      for (const [which, theirs] of expected) {
        const ours = slope[which] ?? Number.NaN
        expect(Math.abs(ours - theirs) / most, `case ${i}, ${JSON.stringify(c.read)}, slope ${which}: ${ours} for ${theirs}`).toBeLessThan(
          1e-6,
        )
      }
    }
  },
)

test('a branch is put back as it was after each place: the same reading in any order', () => {
  const plant = plantOf(machine)
  const b = branchOf(plant, 'B1')
  const places = placesOf(plant, b, census(plant))
  const stand = standOf(plant, b, cutOff, KIT)
  const asked = { read: { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' }, positions: cutOff, zeroed: true } as const
  const forward = Array.from({ length: places.count }, (_, j) => j)
  const there = predictedFor(stand, places, asked, forward, 0).mean
  const back = predictedFor(stand, places, asked, [...forward].reverse(), 0).mean
  expect([...back].reverse()).toEqual([...there])
  const alone = predictedFor(standOf(plant, b, cutOff, KIT), places, asked, [17], 0).mean
  expect(alone[0]).toBe(there[17])
})

const small = (read: Read, more: Partial<Positions>, zeroed = true): Row => {
  const plant = plantOf(smallMachine, { ...USUAL_FIGURES, scale: () => 1 })
  const positions: Positions = { ...cutOff, devices: { B1: 'open', B2: 'open' }, ...more }
  const b = branchOf(plant, 'B1')
  return predictedFor(standOf(plant, b, positions, KIT), onePlace(TO_ZERO, 0, 4, 0.1), { read, positions, zeroed }, [0], 0)
}
const injected = { injector: { branch: 'B1', into: 'zero' } } as const

test('4 m of 1 mm² and 0.1 Ω, by hand: in ohm, and in volt while 1 A is injected', () => {
  // 4 m out and back of 19.5 mΩ/m, two joints of 0.5 mΩ and the fault. What lies past it, 60 Ω, takes 0.2 % of 0.1 Ω.
  const ohm = 8 * 0.0195 + 0.001 + 0.1
  const at = (read: Read, more: Partial<Positions>, zeroed = true) => small(read, more, zeroed).mean[0] ?? Number.NaN
  expect(at({ kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' }, {})).toBeCloseTo(ohm, 3)
  expect(at({ kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' }, {}, false)).toBeCloseTo(ohm + 0.25, 3)
  expect(at({ kind: 'read', meter: 'volt', red: 'B1.plus', black: 'B1.zero' }, injected)).toBeCloseTo(ohm, 3)
  // Past the fault only the coils draw: of 0.1 V they leave 60/60.1 at the fault, 60/60.23 at J1, 120/120.47 at X2.
  expect(at({ kind: 'read', meter: 'volt', red: 'B1/X2.plus', black: 'B1/X2.zero' }, injected)).toBeCloseTo(0.09906, 4)
  expect(at({ kind: 'read', meter: 'amp', branch: 'B1' }, injected)).toBe(1)
})

test('what is fresh in a reading grows at least fourfold where the display will not settle', () => {
  const plant = plantOf(smallMachine)
  const b = branchOf(plant, 'B1')
  const positions: Positions = { ...cutOff, devices: { B1: 'open', B2: 'open' }, ...injected }
  for (const read of [
    { kind: 'read', meter: 'volt', red: 'B1.plus', black: 'B1.zero' },
    { kind: 'read', meter: 'amp', branch: 'B1' },
  ] as const) {
    const fresh = [false, true].map(
      unsteady =>
        predictedFor(standOf(plant, b, positions, KIT), onePlace(TO_ZERO, 0, 4, 0.1), { read, positions, zeroed: true }, [0], 0, unsteady)
          .fresh[0],
    )
    expect(Math.sqrt((fresh[1] ?? 0) / (fresh[0] ?? 1))).toBeGreaterThan(4)
  }
})

test('a shorted load that is unplugged takes its short circuit with it', () => {
  const plant = plantOf(smallMachine)
  const b = branchOf(plant, 'B1')
  const positions: Positions = { ...cutOff, devices: { B1: 'open', B2: 'open' }, unplugged: ['B1/K1'] }
  const which = b.loads.findIndex(l => l.load.id === 'K1')
  const asked = { read: { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' }, positions, zeroed: true } as const
  // Left is K2 of 24²/4.8 = 120 Ω, whatever K1 was.
  expect(predictedFor(standOf(plant, b, positions, KIT), onePlace(IN_LOAD, which, 0, 0.1), asked, [0], 0).mean[0]).toBeGreaterThan(100)
})
