// Which branch: the readings there are, what each costs, and what is left to search after it.
import { describe, expect, test } from 'vitest'
import { type Belief, begin } from '../../engine/belief.ts'
import type { Machine } from '../../engine/machine.ts'
import { narrowing, positionsAfter } from '../../engine/narrow.ts'
import type { Plan, Situation } from '../../engine/plan.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Read, Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { smallMachine } from '../bench/small.ts'
import { dead, found, rowOfBranches } from './machines.ts'
import { type Place, placedIn } from './placed.ts'
import { act, device, sharesOf, situationOf, supply } from './shared.ts'

const row = (n: number): Machine => rowOfBranches(n)
const beliefOf = (machine: Machine): Belief => begin(plantOf(machine), {}, 'all-dead')
const ohm = (place: string): Read => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })
const plansOf = (
  machine: Machine,
  short: readonly number[],
  s: Situation,
  more: { rest?: number; deviceOpen?: readonly number[] } = {},
): Plan[] => {
  const belief = beliefOf(machine)
  return narrowing(belief, { ...sharesOf(belief, { short, deviceOpen: more.deviceOpen ?? [] }), other: more.rest ?? 0 }, s)
}
const closed = (n: number): Situation => situationOf(row(n), dead(row(n), []))
const at = (plans: readonly Plan[], ...steps: readonly Step[]): Plan => {
  const plan = plans.find(p => JSON.stringify(p.steps) === JSON.stringify(steps))
  if (plan === undefined) throw new Error(`no plan ${JSON.stringify(steps)}`)
  return plan
}
const has = (plans: readonly Plan[], ...steps: readonly Step[]): boolean =>
  plans.some(p => JSON.stringify(p.steps) === JSON.stringify(steps))
const even = (n: number): number[] => Array.from({ length: n }, () => 1 / n)
const reads = (plans: readonly Plan[]): number => plans.filter(p => p.why.key === 'likeliest').length
const groups = (plans: readonly Plan[]): Plan[] => plans.filter(p => p.why.key === 'group')

describe('one branch that holds it all', () => {
  // Read already it costs a second to go on with, and the place takes 250 s from there.
  test('opened and read: 6 + 15 + 1 + 250 s; from a live machine the way to a dead one more, 15 + 40 s', () => {
    const steps = [device('B1', 'open'), ohm('B1')]
    expect(at(plansOf(row(3), [1], closed(3)), ...steps).expected).toBeCloseTo(272, 6)
    const live = situationOf(row(3), found(row(3)))
    expect(at(plansOf(row(3), [1], live), supply('off'), act({ act: 'prove-dead' }), ...steps).expected).toBeCloseTo(272 + 55, 6)
    // Its device open already, no six seconds.
    expect(at(plansOf(row(3), [1], situationOf(row(3), dead(row(3)))), ohm('B1')).expected).toBeCloseTo(266, 6)
  })
  test('at the bus with nothing opened it is still to be opened and read: 15 + 21 + 250 s', () => {
    expect(at(plansOf(row(3), [1], closed(3)), ohm('bus')).expected).toBeCloseTo(286, 6)
    // With it open and the others closed, its own reading is 15 s.
    expect(at(plansOf(row(3), [1, 0, 0], closed(3)), ohm('bus')).expected).toBeCloseTo(286, 6)
  })
  test('where nobody has told the wiring the place takes ten seconds more', () => {
    const blind = { ...row(3), branches: row(3).branches.map(({ id }) => ({ id })) }
    expect(at(plansOf(blind, [1], closed(3)), device('B1', 'open'), ohm('B1')).expected).toBeCloseTo(282, 6)
  })
  test('what lies in no branch is searched for after all of them', () => {
    // 0.6 in the branch, 0.4 elsewhere: both pay the second, and 250 s for the place.
    expect(at(plansOf(row(1), [0.6], closed(1), { rest: 0.4 }), device('B1', 'open'), ohm('B1')).expected).toBeCloseTo(272, 6)
    // With a second branch to read in vain, 21 s for the 0.4 alone where the reading told the first apart, give or take 2 of 100.
    const two = at(plansOf(row(2), [0.6, 0], closed(2), { rest: 0.4 }), device('B1', 'open'), ohm('B1')).expected
    expect(Math.abs(two - (272 + 0.4 * 21))).toBeLessThan(0.02 * 21)
  })
  test('a device that is open with nothing behind it counts with its branch', () => {
    const both = at(plansOf(row(3), [0.5], closed(3), { deviceOpen: [0.5] }), device('B1', 'open'), ohm('B1'))
    expect(both.expected).toBeCloseTo(272, 6)
    expect(both.why.facts['p']).toBe(100)
  })
})

describe('which readings there are', () => {
  test('past each of the five likeliest devices, and at the bus with one more open each time', () => {
    const plans = plansOf(row(8), [0.3, 0.2, 0.15, 0.1, 0.1, 0.05, 0.05, 0.05], closed(8))
    expect(reads(plans)).toBe(5)
    for (const id of ['B1', 'B2', 'B3', 'B4', 'B5']) expect(has(plans, device(id, 'open'), ohm(id)), id).toBe(true)
    expect(
      groups(plans)
        .map(p => p.why.facts['count'])
        .sort(),
    ).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
    expect(has(plans, device('B1', 'open'), device('B2', 'open'), ohm('bus'))).toBe(true)
    expect(plans.map(p => p.expected)).toEqual(plans.map(p => p.expected).sort((a, b) => a - b))
  })
  test('never more than twelve opened at once', () => {
    expect(Math.min(...groups(plansOf(row(20), even(20), closed(20))).map(p => Number(p.why.facts['count'])))).toBe(8)
  })
  test('a branch that was measured, or holds nothing, is neither read nor opened again', () => {
    const taken = new Set([keyOf(ohm('B1'))])
    const plans = plansOf(row(3), [0.5, 0.5, 1e-7], { ...closed(3), taken })
    expect(reads(plans)).toBe(1)
    expect(has(plans, device('B2', 'open'), ohm('B2'))).toBe(true)
    for (const p of plans) for (const x of p.steps) expect(x.kind === 'act' && x.act.act === 'device' && x.act.branch !== 'B2').toBe(false)
    // Measured, it costs a second to go back to instead of 21.
    expect(at(plans, ohm('bus')).expected).toBeLessThan(at(plansOf(row(3), [0.5, 0.5, 1e-7], closed(3)), ohm('bus')).expected)
  })
  test('the bus with nothing opened is read once; what cannot be done is left out', () => {
    expect(has(plansOf(row(3), even(3), { ...closed(3), taken: new Set([keyOf(ohm('bus'))]) }), ohm('bus'))).toBe(false)
    const cannot = (...steps: readonly Step[]): Plan[] =>
      plansOf(row(3), [0.4, 0.3, 0.3], { ...closed(3), setAside: new Set(steps.map(keyOf)) })
    expect(groups(cannot(ohm('bus')))).toEqual([])
    expect(reads(cannot(ohm('bus')))).toBe(3)
    expect(reads(cannot(ohm('B2')))).toBe(2)
    expect(groups(cannot(device('B1', 'open'))).map(p => p.steps)).toEqual([[ohm('bus')]])
  })
  test('through loads that nobody has told, the bus tells nothing but of one branch alone', () => {
    const blind = { ...row(3), branches: row(3).branches.map(({ id }) => ({ id })) }
    expect(groups(plansOf(blind, even(3), closed(3))).map(p => p.why.facts['count'])).toEqual([1])
    const one = { ...row(3), branches: row(3).branches.map((b, i) => (i === 2 ? { id: b.id } : b)) }
    expect(
      groups(plansOf(one, [0.2, 0.3, 0.5], closed(3)))
        .map(p => p.why.facts['count'])
        .sort(),
    ).toEqual([1, 2])
  })
})

describe('why', () => {
  const plans = plansOf(row(8), [0.3, 0.2, 0.15, 0.1, 0.1, 0.05, 0.05, 0.05], closed(8))
  test('of one branch: its share, its metres, whether part of it moves', () => {
    expect(at(plans, device('B1', 'open'), ohm('B1')).why).toEqual({
      key: 'likeliest',
      facts: { branch: 'B1', p: 30, metres: 12, moving: 0 },
    })
    const moving = { ...row(2), branches: row(2).branches.map(b => ({ ...b, wiring: b.wiring?.map(r => ({ ...r, moving: true })) ?? [] })) }
    expect(at(plansOf(moving, even(2), closed(2)), device('B1', 'open'), ohm('B1')).why.facts['moving']).toBe(1)
    const [one, ...rest] = smallMachine.branches.map(b => ({ ...b, wiring: b.wiring?.map(r => ({ ...r, moving: r.id === 'W2' })) ?? [] }))
    if (one === undefined) throw new Error('a branch')
    const part = { ...smallMachine, branches: [one, ...rest] }
    expect(at(plansOf(part, even(2), closed(2)), device('B1', 'open'), ohm('B1')).why.facts['moving']).toBe(1)
    const blind = { ...row(2), branches: row(2).branches.map(({ id }) => ({ id })) }
    expect(at(plansOf(blind, even(2), closed(2)), device('B1', 'open'), ohm('B1')).why.facts).not.toHaveProperty('metres')
  })
  test('of a group: up to six names of those that stay closed, their number and their share', () => {
    expect(at(plans, ohm('bus')).why).toEqual({ key: 'group', facts: { branches: 'B1, B2, B3, B4, B5, B6', count: 8, p: 100 } })
    expect(at(plans, device('B1', 'open'), device('B2', 'open'), ohm('bus')).why.facts).toEqual({
      branches: 'B3, B4, B5, B6, B7, B8',
      count: 6,
      p: 50,
    })
  })
})

describe('what a reading leaves to search', () => {
  test('of two alike, reading one tells both apart: 21 s, and then its own second or the other’s 21 s', () => {
    const { expected } = at(plansOf(row(2), [0.5, 0.5], closed(2)), device('B1', 'open'), ohm('B1'))
    // 2 of 100 answers are astray and cost a second search: under half a second in all; never less than a search that knows.
    const known = 21 + 250 + (0.5 * 1 + 0.5 * 21)
    expect(expected).toBeGreaterThan(known - 1e-6)
    expect(expected).toBeLessThan(known + 0.02 * 22)
  })
  test('at the bus with one of two open, the same for 15 s more and six less to go on', () => {
    const { expected } = at(plansOf(row(2), [0.5, 0.5], closed(2)), device('B1', 'open'), ohm('bus'))
    const known = 6 + 15 + 250 + 0.5 * 15 + 0.5 * 21
    expect(expected).toBeGreaterThan(known - 1e-6)
    expect(expected).toBeLessThan(known + 0.5)
  })
  test('the bus with nothing opened tells no branch: each is read in turn', () => {
    expect(at(plansOf(row(4), even(4), closed(4)), ohm('bus')).expected).toBeCloseTo(15 + 250 + (21 * (4 + 3 + 2 + 1)) / 4, 0)
  })
  test('of sixteen alike, opening half of them leaves less than reading one', () => {
    const plans = plansOf(row(16), even(16), closed(16))
    expect(plans[0]?.why.key).toBe('group')
    const one = at(plans, device('B1', 'open'), ohm('B1')).expected
    expect(plans[0]?.expected).toBeLessThan(one)
    // And the likelier one branch is, the less is left.
    expect(at(plansOf(row(16), [0.5, ...even(15).map(x => x / 2)], closed(16)), device('B1', 'open'), ohm('B1')).expected).toBeLessThan(one)
  })
  test('with the leads not zeroed a short circuit still stands out', () => {
    const s = { ...closed(2), zeroed: false }
    for (const steps of [
      [device('B1', 'open'), ohm('B1')],
      [device('B1', 'open'), ohm('bus')],
    ] as const)
      expect(
        Math.abs(at(plansOf(row(2), [0.5, 0.5], s), ...steps).expected - at(plansOf(row(2), [0.5, 0.5], closed(2)), ...steps).expected),
      ).toBeLessThan(0.5)
  })
  test('among many lamps, cold and of low ohms, the bus tells less than among coils', () => {
    const lamps = (watts: number): Machine => ({
      ...row(6),
      branches: row(6).branches.map(b => ({ ...b, loads: b.loads?.map(l => ({ ...l, kind: 'lamp' as const, watts })) ?? [] })),
    })
    const left = (machine: Machine): number => {
      const open = ['B1', 'B2', 'B3'].map(id => device(id, 'open'))
      return at(plansOf(machine, even(6), closed(6)), ...open, ohm('bus')).expected
    }
    expect(left(row(6))).toBeLessThan(left(lamps(200)))
  })
})

describe('short circuits that differ in ohms are told apart at the bus with nothing opened', () => {
  const [shut, bus] = [situationOf(smallMachine, dead(smallMachine, [])), ohm('bus')]
  /** B1 as these places, half of all; B2 any short circuit of its 5 m. */
  const expected = (list: readonly Place[], s = shut): number => {
    const belief = placedIn('B1', list)
    return at(narrowing(belief, sharesOf(belief, { short: [0.5, 0.5] }), s), bus).expected
  }
  const low: Place = { kind: 0, item: 0, at: 0.5, ohm: 0.1, w: 1 }
  const high: Place = { kind: 2, item: 0, ohm: 8, w: 1 }
  const near = (value: number, known: number): void => {
    expect(value).toBeGreaterThan(known - 1e-6)
    expect(value).toBeLessThan(known + 1.5)
  }
  test('8 Ω in a load against tenths of an ohm: each is known, and read by 21 s', () => near(expected([high]), 15 + 250 + 21))
  test('tenths against tenths: the second is read after the first', () => {
    // A centimetre of difference here or there tells a little.
    expect(expected([low])).toBeGreaterThan(15 + 250 + 21 * 1.35)
    expect(expected([low])).toBeLessThan(15 + 250 + 21 * 1.5 + 1e-6)
  })
  test('half of them 8 Ω: those are known; of the rest B2 is read first', () => {
    const mixed = expected([
      { ...low, w: 0.5 },
      { ...high, w: 0.5 },
    ])
    // 0.25 known; 0.5 and 0.25 in turn.
    expect(Math.abs(mixed - (15 + 250 + 21 * (0.25 + 0.5 + 0.5)))).toBeLessThan(1.5)
    // Their order in the branch is no matter, nor a place of no weight.
    const turned = expected([
      { ...high, w: 0.5 },
      { ...low, at: 9, ohm: 60, w: 1e-9 },
      { ...low, w: 0.5 },
    ])
    expect(turned).toBeCloseTo(mixed, 6)
  })
  test('leads of a quarter of an ohm move both alike', () => near(expected([high], { ...shut, zeroed: false }), 15 + 250 + 21))
  test('beside a branch of 8 Ω of its own, 8 Ω of a fault and 4 Ω of both are told apart', () => {
    // 72 W of coil are 8 Ω, known to a tenth: sound it shows them, with a fault of 8 Ω beside 4 Ω and less.
    const [B1, B2] = smallMachine.branches
    if (B1 === undefined || B2 === undefined) throw new Error('two branches')
    const machine = { ...smallMachine, branches: [B1, { ...B2, loads: [{ id: 'K9', at: 'J9', kind: 'coil', watts: 72 } as const] }] }
    const belief = placedIn('B1', [high], machine)
    const s = situationOf(machine, dead(machine, []))
    // B1's fault, or one in no branch: told apart, the 0.5 that is nowhere is searched by reading both.
    const plans = narrowing(belief, { ...sharesOf(belief, { short: [0.5, 0] }), noMains: 0.25, supplyDead: 0.25 }, s)
    near(at(plans, bus).expected, 15 + 250 + 21 + 0.5 * 21)
  })
})

describe('volts between two outgoing plus terminals', () => {
  const held: Machine = { ...row(4), supply: { ...row(4).supply, limit: { mode: 'constant-current', current: 12 } } }
  const live = situationOf(held, found(held))
  const drop = (red: string, black: string): Read => ({ kind: 'read', meter: 'volt', red: `${red}.plus`, black: `${black}.plus` })
  const drops = (s: Situation, machine = held): Plan[] => plansOf(machine, [0.4, 0.3, 0.2, 0.1], s).filter(p => p.why.key === 'drop')
  test('each pair, the likelier on red, with nothing to switch; the rest is what it leaves', () => {
    const plans = drops(live)
    expect(plans).toHaveLength(6)
    expect(at(plans, drop('B1', 'B2')).why.facts).toEqual({ branches: 'B1, B2', count: 2, p: 70 })
    // 15 s, 55 s to a dead circuit; then each is told apart but for the other two: B1 and B2 first, B3 before B4.
    const known = 15 + 55 + 250 + 0.4 * 21 + 0.3 * 21 + 0.2 * 21 + 0.1 * 42
    expect(at(plans, drop('B1', 'B2')).expected).toBeGreaterThan(known - 1e-6)
    expect(at(plans, drop('B1', 'B2')).expected).toBeLessThan(known + 1.5)
    // Among the others the less likely is read second: B4 there, and B2 where B3 and B4 are compared.
    expect(at(plans, drop('B3', 'B4')).expected - at(plans, drop('B1', 'B2')).expected).toBeCloseTo(0.98 * 0.2 * 21, 0)
  })
  test('only with the supply on and live, nothing fed in, both devices closed, and once', () => {
    expect(drops(situationOf(held, dead(held, [])))).toEqual([])
    expect(drops({ ...live, power: 'off' })).toEqual([])
    expect(drops({ ...live, positions: { ...live.positions, injector: { branch: 'B1', into: 'zero' } } })).toEqual([])
    expect(drops({ ...live, positions: { ...live.positions, devices: { ...live.positions.devices, B1: 'tripped' } } })).toHaveLength(3)
    expect(drops({ ...live, taken: new Set([keyOf(drop('B1', 'B2'))]) })).toHaveLength(5)
    expect(drops({ ...live, setAside: new Set([keyOf(drop('B1', 'B3'))]) })).toHaveLength(5)
    expect(drops(live, { ...held, supply: {} })).toEqual([])
  })
  test('of many branches, the six likeliest', () => {
    const many = { ...row(9), supply: held.supply }
    expect(plansOf(many, even(9), situationOf(many, found(many))).filter(p => p.why.key === 'drop')).toHaveLength(15)
  })
})

test('positions after a plan: its acts, in their order', () => {
  const p = positionsAfter(dead(row(2), []), [device('B1', 'open'), ohm('B1'), supply('on'), supply('off'), device('B2', 'open')])
  expect(p).toEqual(dead(row(2)))
})
