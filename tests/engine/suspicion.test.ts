// Faults that are no short circuit: how likely each is before anything is read, when it holds the supply down, what ohms still see.
import { describe, expect, test } from 'vitest'
import { SHARES, type Shares } from '../../engine/fault.ts'
import type { Machine } from '../../engine/machine.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Point, ProbeRead } from '../../engine/step.ts'
import { holdsDown, isTraced, liveVolts, runId, type Suspicion, seenLoads, suspicionsOf, touched } from '../../engine/suspicion.ts'
import { smallMachine } from '../bench/small.ts'
import { dead, found } from './machines.ts'

const [B1, B2] = smallMachine.branches
if (B1 === undefined || B2 === undefined) throw new Error('two branches')
const plant = plantOf(smallMachine)
const zero: Shares = {
  ...{ short: 0, shortTripped: 0, flicker: 0, hotLoad: 0, polarity: 0, all: 0, inRush: 0, backfeed: 0 },
  ...{ deviceOpen: 0, open: 0, poorJoint: 0, supplyLow: 0, supplyDead: 0, noMains: 0, other: 0 },
}
/** A machine with a load of each kind, and one run that moves. */
const mixed: Machine = {
  ...smallMachine,
  branches: [
    {
      ...B1,
      wiring: (B1.wiring ?? []).map(run => (run.id === 'W2' ? { ...run, moving: true } : run)),
      loads: [
        { id: 'M', at: 'X1', kind: 'motor', watts: 24 },
        { id: 'E', at: 'X2', kind: 'electronic', watts: 12 },
      ],
    },
    {
      ...B2,
      loads: [
        { id: 'L', at: 'J9', kind: 'lamp', watts: 6 },
        { id: 'K', at: 'J9', kind: 'coil', watts: 9.6 },
      ],
    },
  ],
}
const from = (shares: Partial<Shares>, machine = mixed): Suspicion[] => suspicionsOf(plantOf(machine), { ...zero, ...shares })
const sum = (list: readonly Suspicion[]): number => list.reduce((all, x) => all + x.prior, 0)
const at = (list: readonly Suspicion[], fault: Suspicion['fault'], branch?: number, item?: number): Suspicion[] =>
  list.filter(x => x.fault === fault && x.branch === branch && (x.run ?? x.load) === item)

describe('before anything is read', () => {
  test.each(Object.entries(SHARES))('%s: what is shared out is what the symptom gives', (_, shares) => {
    const list = suspicionsOf(plantOf(mixed), shares)
    const of = (...faults: readonly Suspicion['fault'][]): number => sum(list.filter(x => faults.includes(x.fault)))
    expect(of('open-plus', 'open-zero')).toBeCloseTo(shares.open, 12)
    expect(of('open-plus')).toBeCloseTo(of('open-zero'), 12)
    expect(of('poor-joint')).toBeCloseTo(shares.poorJoint, 12)
    expect(of('supply-low')).toBeCloseTo(shares.supplyLow, 12)
    expect(of('overload')).toBeCloseTo(shares.hotLoad + shares.all, 12)
    expect(of('in-rush')).toBeCloseTo(shares.inRush, 12)
    expect(of('backfeed')).toBeCloseTo(shares.backfeed, 12)
    // Four loads share alike; the lot of each that has no polarity to swap at a coil is doubled, a coil's parts in two.
    expect(of('swapped', 'diode')).toBeCloseTo(shares.polarity, 12)
    for (const x of list) expect(x.prior).toBeGreaterThan(0)
  })
  test('an open conductor: half by the number of runs, half by their metres, a moving one for six', () => {
    // Runs of 10, 4 (moving: 24), 6 and 5 m: 45 m as they count, 4 runs.
    const list = from({ open: 1, poorJoint: 1 })
    for (const [branch, run, metres] of [
      [0, 0, 10],
      [0, 1, 24],
      [0, 2, 6],
      [1, 0, 5],
    ] as const) {
      const w = 0.5 / 4 + (0.5 * metres) / 45
      for (const fault of ['open-plus', 'open-zero'] as const) expect(sum(at(list, fault, branch, run))).toBeCloseTo(w / 2, 12)
      const joints = at(list, 'poor-joint', branch, run)
      // 2 to 120 Ω in six equal ratios: the middle of each.
      expect(joints).toHaveLength(6)
      joints.forEach(({ ohm, prior }, i) => {
        expect((ohm ?? 0) / (2 * 60 ** ((i + 0.5) / 6))).toBeCloseTo(1, 1)
        expect(prior).toBeCloseTo(w / 6, 12)
      })
    }
  })
  test('a load that draws too much: motors 4, electronics 2, lamps and coils a half', () => {
    const list = from({ hotLoad: 1 })
    expect(list.map(x => [x.fault, x.branch, x.load, x.holds])).toEqual([
      ['overload', 0, 0, true],
      ['overload', 0, 1, true],
      ['overload', 1, 0, true],
      ['overload', 1, 1, true],
    ])
    expect(list.map(x => x.prior)).toEqual([4 / 7, 2 / 7, 0.5 / 7, 0.5 / 7].map(p => expect.closeTo(p, 12)))
  })
  test('wired the wrong way round: a coil’s diode conducts and holds the supply down, any other load does not', () => {
    const list = from({ polarity: 1 })
    expect(list.map(x => [x.fault, x.branch, x.load, x.holds, x.prior])).toEqual([
      ['swapped', 0, 0, false, expect.closeTo(0.25, 12)],
      ['swapped', 0, 1, false, expect.closeTo(0.25, 12)],
      ['swapped', 1, 0, false, expect.closeTo(0.25, 12)],
      ['swapped', 1, 1, true, expect.closeTo(0.125, 12)],
      ['diode', 1, 1, true, expect.closeTo(0.125, 12)],
    ])
  })
  test('at the supply: set low in three ways alike, too much together, too much at once; another supply at any branch, three in ten on the bus', () => {
    expect(from({ supplyLow: 0.3, all: 0.2, inRush: 0.1, backfeed: 0.4 })).toEqual([
      { fault: 'backfeed', branch: 0, prior: expect.closeTo(0.14, 12) },
      { fault: 'backfeed', branch: 1, prior: expect.closeTo(0.14, 12) },
      { fault: 'backfeed', prior: expect.closeTo(0.12, 12) },
      ...[14, 17, 20].map(volts => ({ fault: 'supply-low', volts, prior: expect.closeTo(0.1, 12) })),
      { fault: 'overload', prior: 0.2 },
      { fault: 'in-rush', prior: 0.1 },
    ])
  })
  test('a machine without loads has none of what lies in loads', () => {
    const bare = { ...mixed, branches: mixed.branches.map(b => ({ ...b, loads: [] })) }
    expect(from({ hotLoad: 1, polarity: 1 }, bare)).toEqual([])
  })
})

test('what voltages and ohms along the wiring can trace', () => {
  const is = (fault: Suspicion['fault']): boolean => isTraced({ fault, prior: 1 })
  for (const fault of ['open-plus', 'open-zero', 'poor-joint', 'supply-low', 'device-open'] as const) expect(is(fault), fault).toBe(true)
  for (const fault of ['overload', 'in-rush', 'swapped', 'diode', 'backfeed'] as const) expect(is(fault), fault).toBe(false)
})

describe('the chance to hold the supply down', () => {
  const p = found(mixed)
  const of = (machine: Machine, positions: Positions, x: Omit<Suspicion, 'prior'>): number =>
    holdsDown(plantOf(machine), positions, { ...x, prior: 1 })
  test('an open conductor never does, another supply tells nothing either way', () => {
    expect(of(mixed, p, { fault: 'open-plus', branch: 0, run: 0, holds: true })).toBe(0)
    expect(of(mixed, p, { fault: 'supply-low', volts: 14 })).toBe(0)
    expect(of(mixed, p, { fault: 'backfeed', branch: 0 })).toBe(0.5)
  })
  test('a load does while it is joined and its device closed', () => {
    const hot = { fault: 'overload', branch: 0, load: 1, holds: true } as const
    expect(of(mixed, p, hot)).toBe(1)
    expect(of(mixed, p, { ...hot, holds: false })).toBe(0)
    expect(of(mixed, { ...p, devices: { ...p.devices, B1: 'tripped' } }, hot)).toBe(0)
    expect(of(mixed, { ...p, unplugged: ['B1/E'] }, hot)).toBe(0)
    const diode = { fault: 'diode', branch: 1, load: 1, holds: true } as const
    expect(of(mixed, { ...p, devices: { ...p.devices, B1: 'open' } }, diode)).toBe(1)
  })
  // In service: 24 W of motor 1 A, 12 W of electronics 0.5 A, 6 W of lamp 0.25 A, 9.6 W of coil 0.4 A: 2.15 A.
  test.each([
    // [limit A, the least too much A, still drawn A]: of 5 A it takes 2.85 more to go past the limit, with E alone 4.5.
    ['5 A', 5, 2.85, 24],
    // Of 2 A the loads draw more already: a twentieth of the limit is noticed.
    ['2 A', 2, 0.1, 24],
    // Nothing told: the loads draw 7 tenths of it.
    ['not told', undefined, 2.15 / 0.7 - 2.15, 24],
    // A large supply: up to twice what is needed.
    ['40 A', 40, 37.85, 75.7],
  ] as const)('a load that draws too much does so with fewer others the less surely, at a limit of %s', (_, current, enough, most) => {
    const hot = { fault: 'overload', branch: 0, load: 1, holds: true } as const
    const told: Machine = { ...mixed, supply: current === undefined ? {} : { limit: { mode: 'hiccup', current } } }
    const limit = current ?? 2.15 / 0.7
    for (const [still, positions] of [
      [2.15, p],
      [1.5, { ...p, devices: { ...p.devices, B2: 'open' } }],
      [0.5, { ...p, unplugged: ['B1/M'], devices: { ...p.devices, B2: 'open' } }],
    ] as const) {
      const needed = Math.max(limit - still, enough)
      expect(of(told, positions, hot)).toBeCloseTo(1 - Math.log(needed / enough) / Math.log(most / enough), 9)
    }
  })
  test('what nobody can draw still holds with the chance that loads and limit are mistold', () => {
    const large: Machine = {
      ...mixed,
      supply: { limit: { mode: 'hiccup', current: 24.6 } },
      branches: mixed.branches.map(b => ({ ...b, loads: b.loads?.map(l => (l.id === 'M' ? { ...l, watts: 480 } : l)) ?? [] })),
    }
    // A motor of 20 A unplugged and B2 open, E alone would have to take 24.1 A more, past the 24 A that one load takes at most.
    const alone: Positions = { ...p, unplugged: ['B1/M'], devices: { ...p.devices, B2: 'open' } }
    expect(of(large, alone, { fault: 'overload', branch: 0, load: 1, holds: true })).toBe(0.05)
  })
  const logistic = (z: number): number => 1 / (1 + Math.exp(-1.702 * z))
  const share = (ampere: number, start: number): number => logistic((ampere / 2.15 - start) / 0.08)
  test.each([
    ['all', {}, [], 2.15],
    ['B2 open', { B2: 'open' }, [], 1.5],
    ['B1 tripped', { B1: 'tripped' }, [], 0.65],
    ['the motor unplugged', {}, ['B1/M'], 1.15],
    ['all but lamp and motor', {}, ['B1/M', 'B2/L'], 0.9],
  ] as const)('what is too much together, by what is drawn: %s', (_, devices, unplugged, ampere) => {
    const positions = { ...p, devices: { ...p.devices, ...devices }, unplugged }
    const told = { ...mixed, supply: { ...mixed.supply, limit: { mode: 'hiccup', current: 1.6 } } } as const
    // In-rush from three quarters of the whole load on; overload from the limit's own share, 1.6 of 2.15 A, at most 85 of 100.
    expect(of(mixed, positions, { fault: 'in-rush' })).toBeCloseTo(share(ampere, 0.75), 9)
    expect(of(told, positions, { fault: 'in-rush' })).toBeCloseTo(share(ampere, 0.75), 9)
    expect(of(told, positions, { fault: 'overload' })).toBeCloseTo(share(ampere, 1.6 / 2.15), 9)
    expect(of(mixed, positions, { fault: 'overload' })).toBeCloseTo(share(ampere, 0.85), 9)
    const untold = { ...mixed, supply: {} }
    expect(of(untold, positions, { fault: 'overload' })).toBeCloseTo(share(ampere, 0.85), 9)
  })
  test('branches of which nobody has told the loads count one like the other; a machine without any load holds nothing down', () => {
    const blind = { ...mixed, supply: {}, branches: ['A', 'B', 'C', 'D'].map(id => ({ id })) }
    const all = found(blind)
    const three = { ...all, devices: { ...all.devices, D: 'open' } } as const
    expect(of(blind, three, { fault: 'in-rush' })).toBeCloseTo(0.5, 9)
    expect(of(blind, all, { fault: 'overload' })).toBeCloseTo(logistic(0.15 / 0.08), 9)
    const bare = { ...mixed, branches: mixed.branches.map(b => ({ ...b, loads: [] })) }
    expect(of(bare, p, { fault: 'overload' })).toBe(0)
  })
})

test('a suspicion’s run, and the branch that a reading touches', () => {
  expect(runId(plant, { fault: 'open-plus', branch: 0, run: 2, prior: 1 })).toBe('W3')
  expect(runId(plant, { fault: 'open-plus', branch: 7, run: 0, prior: 1 })).toBeUndefined()
  expect(runId(plant, { fault: 'open-plus', branch: 0, run: 9, prior: 1 })).toBeUndefined()
  expect(runId(plant, { fault: 'overload', branch: 0, load: 0, prior: 1 })).toBeUndefined()
  expect(runId(plant, { fault: 'in-rush', prior: 1 })).toBeUndefined()
  const volt = (red: Point, black: Point): string | undefined => touched(plant, { kind: 'read', meter: 'volt', red, black })?.id
  expect(volt('B1.plus', 'B1.zero')).toBe('B1')
  expect(volt('earth', 'B2/J9.zero')).toBe('B2')
  expect(volt('bus.plus', 'supply.zero')).toBeUndefined()
  expect(touched(plant, { kind: 'read', meter: 'amp', branch: 'B2' })?.id).toBe('B2')
})

describe('what an ohmmeter still sees', () => {
  const cut = dead(smallMachine)
  const ohm = (place: string): ProbeRead => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })
  const seen = (place: string, x?: Omit<Suspicion, 'prior'>, p = cut): ReturnType<typeof seenLoads> =>
    seenLoads(plant, p, ohm(place), x === undefined ? undefined : { ...x, prior: 1 })
  // Coils of 4.8 W are 120 Ω each, known to a tenth: 60 Ω side by side, known to a tenth over √2.
  test('both coils, one of them, none', () => {
    // The wiring adds 0.6 Ω.
    expect(1 / seen('B1').siemens).toBeCloseTo(60.56, 1)
    expect(seen('B1').sd / seen('B1').siemens).toBeCloseTo(0.1 / Math.SQRT2, 2)
    expect(seen('B1').openChance).toBe(0.005)
    expect(seen('B1').untold).toBe(0)
    const one = seen('B1', { fault: 'open-plus', branch: 0, run: 1 })
    expect(1 / one.siemens).toBeCloseTo(120.8, 1)
    expect(one.sd / one.siemens).toBeCloseTo(0.1, 2)
    const none = seen('B1', { fault: 'open-zero', branch: 0, run: 0 })
    expect(none.siemens).toBeLessThan(1e-8)
    expect(none.sd).toBeLessThan(2e-9)
    expect(none.openChance).toBe(0.95)
    // A break in another branch is none of this one's.
    expect(seen('B1', { fault: 'open-plus', branch: 1, run: 0 })).toEqual(seen('B1'))
    expect(seen('B1', { fault: 'overload', branch: 0, load: 0 })).toEqual(seen('B1'))
  })
  test('a joint lies in series with what is behind it', () => {
    for (const ohms of [4, 15, 60])
      expect(1 / seen('B1', { fault: 'poor-joint', branch: 0, run: 0, ohm: ohms }).siemens).toBeCloseTo(60.56 + ohms, 1)
    // From beyond the joint the coil is seen as it is.
    expect(1 / seen('B2/J9', { fault: 'poor-joint', branch: 1, run: 0, ohm: 60 }).siemens).toBeCloseTo(60, 0)
  })
  test('at the bus it is the branches that are closed; their spread is a tenth', () => {
    const shut = dead(smallMachine, ['B1'])
    const bus = seen('bus', undefined, shut)
    // 60 Ω of the coil beside the 3,300 Ω of a supply that is off.
    expect(1 / bus.siemens).toBeCloseTo(58.9, 0)
    expect(bus.sd / bus.siemens).toBeCloseTo(0.1, 6)
    expect(bus.openChance).toBe(0.01)
    expect(bus.untold).toBe(0)
    expect(1 / seen('bus', { fault: 'open-plus', branch: 1, run: 0 }, shut).siemens).toBeGreaterThan(3000)
  })
  test('with every load unplugged its spread counts as a tenth of what is left', () => {
    const bare = { ...cut, unplugged: ['B1/K1', 'B1/K2'] }
    const left = seen('B1', undefined, bare)
    expect(left.siemens).toBeLessThan(1e-8)
    expect(left.sd).toBeGreaterThanOrEqual(1e-9)
    expect(left.sd).toBeLessThan(1.1e-9)
  })
  test('branches that nobody has told keep saying so', () => {
    const blind = plantOf({ ...smallMachine, branches: [{ id: 'B1' }] })
    expect(seenLoads(blind, cut, ohm('B1')).untold).toBe(1)
  })
})

describe('what it sees beyond an opened run', () => {
  const cut = dead(mixed)
  const ohm = (place: string): ProbeRead => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })
  const beyond = (run: string, place: string): ReturnType<typeof seenLoads> =>
    seenLoads(
      plantOf(mixed),
      { ...cut, openedRuns: [`B1/${run}`] },
      { kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` },
    )
  test('nothing, where no load is behind the probes', () => {
    const none = beyond('W1', 'B1')
    expect(none.siemens).toBeLessThan(1e-7)
    expect(none.sd).toBe(1e-9)
    expect(none.openChance).toBe(0.95)
  })
  test('known as well as the loads on the probes’ own side: an electronic one there, the motor cut off', () => {
    const side = beyond('W2', 'B1')
    expect(1 / side.siemens).toBeCloseTo(40_000, -2)
    expect(side.sd).toBeCloseTo(1 / 5000, 8)
    expect(side.openChance).toBe(0.4)
    // A broken conductor cuts off as an opened run does.
    const x = { branch: 0, run: 1, prior: 1 }
    for (const fault of ['open-plus', 'open-zero'] as const) {
      const broken = seenLoads(plantOf(mixed), cut, ohm('B1'), { fault, ...x })
      expect(broken.siemens).toBeCloseTo(side.siemens, 7)
      expect(broken.sd).toBeCloseTo(side.sd, 7)
      expect(broken.openChance).toBe(side.openChance)
    }
  })
  test('an electronic load alone: 40 kΩ that may be 5 kΩ or nothing', () => {
    const alone = beyond('W3', 'B1/W3')
    expect(1 / alone.siemens).toBeCloseTo(40_000, -2)
    expect(alone.sd).toBeCloseTo(1 / 5000, 8)
    expect(alone.openChance).toBe(0.4)
  })
  test('a winding, known no worse than all of itself', () => {
    // A motor of 24 W at rest: a quarter of 24 Ω, and that give or take seven eighths, from the loose end as from the motor's own.
    for (const place of ['B1/W2', 'B1/X1']) {
      const winding = beyond('W2', place)
      expect(1 / winding.siemens).toBeCloseTo(6, 0)
      expect(winding.sd / winding.siemens).toBeCloseTo(0.875, 2)
      expect(winding.openChance).toBe(0.005)
    }
  })
})

test('the voltage of a probe is the circuit’s: half of it behind a joint of the coil’s own 60 Ω', () => {
  // 9.6 W of coil are 24²/9.6 = 60 Ω; wiring, device and supply drop up to 0.2 V ahead of it.
  const volts = (red: string, black: string, x?: Omit<Suspicion, 'prior'>): number =>
    liveVolts(plant, found(smallMachine), { kind: 'read', meter: 'volt', red, black }, x === undefined ? undefined : { ...x, prior: 1 })
  const atCoil = (x?: Omit<Suspicion, 'prior'>): number => volts('B2/J9.plus', 'B2/J9.zero', x)
  const near = (v: number, expected: number): void => expect(Math.abs(v - expected)).toBeLessThan(0.2)
  near(atCoil({ fault: 'poor-joint', branch: 1, run: 0, ohm: 60 }), 12)
  near(atCoil(), 24)
  near(atCoil({ fault: 'open-zero', branch: 1, run: 0 }), 0)
  // With 0 V open before the coil its far side floats up to plus.
  near(volts('B2/J9.zero', 'B2.zero', { fault: 'open-zero', branch: 1, run: 0 }), 24)
  near(volts('B2/J9.zero', 'B2.zero', { fault: 'open-plus', branch: 1, run: 0 }), 0)
  near(atCoil({ fault: 'supply-low', volts: 17 }), 17)
  near(atCoil({ fault: 'device-open', branch: 0 }), 24)
  expect(atCoil({ fault: 'device-open', branch: 1 })).toBe(0)
  // Faults of another branch leave this one whole; readings at the bus look into the branch that is suspected.
  near(atCoil({ fault: 'open-plus', branch: 0, run: 0 }), 24)
  near(volts('bus.plus', 'bus.zero', { fault: 'open-plus', branch: 1, run: 0 }), 24)
})
