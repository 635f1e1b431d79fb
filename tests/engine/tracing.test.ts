// Where a conductor is open: what looking costs now, what each voltage or resistance along the branch leaves, by hand.
// In the small machine W1 is 10 m, W2 4 m and W3 6 m: 110, 80 and 90 s to go and look; a vain walk counts 120 s more.
import { describe, expect, test } from 'vitest'
import { type Belief, begin } from '../../engine/belief.ts'
import type { Machine } from '../../engine/machine.ts'
import type { Plan, Situation } from '../../engine/plan.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Read, Step } from '../../engine/step.ts'
import { runId, type Suspicion } from '../../engine/suspicion.ts'
import { traced, tracing } from '../../engine/tracing.ts'
import { keyOf } from '../../engine/way.ts'
import { smallMachine } from '../bench/small.ts'
import { dead, found, rowOfBranches } from './machines.ts'
import { act, device, sharesOf, situationOf, supply } from './shared.ts'

const VAIN = 120
const beliefOf = (machine: Machine): Belief => begin(plantOf(machine), {}, 'one-load-dead')
const belief = beliefOf(smallMachine)
/** Weights by run and fault, as 'W1 open-plus'; or by fault alone at the supply. */
const weighed = (
  of: Belief,
  list: Readonly<Record<string, number>>,
  more: { short?: readonly number[]; tripped?: readonly number[]; deviceOpen?: readonly number[] } = {},
) =>
  sharesOf(of, {
    ...more,
    suspected: (x: Suspicion) => list[[runId(of.plant, x), x.fault, x.ohm].filter(v => v !== undefined).join(' ')] ?? 0,
  })
const plansOf = (list: Readonly<Record<string, number>>, s: Situation, more = {}, of = belief) => tracing(of, weighed(of, list, more), s)
const read = (meter: 'volt' | 'ohm', place: string): Read => ({ kind: 'read', meter, red: `${place}.plus`, black: `${place}.zero` })
const at = (plans: readonly Plan[], ...steps: readonly Step[]): Plan => {
  const plan = plans.find(p => JSON.stringify(p.steps) === JSON.stringify(steps))
  if (plan === undefined) throw new Error(`no plan ${JSON.stringify(steps)}`)
  return plan
}
const lasts = (plans: readonly Plan[]): Set<string> =>
  new Set(plans.map(p => p.steps.at(-1)).map(x => (x?.kind === 'read' && x.meter !== 'amp' ? `${x.meter} ${x.red}` : '')))
const live = situationOf(smallMachine, found(smallMachine))
const cut = situationOf(smallMachine, dead(smallMachine, ['B1']))
const two = { 'W1 open-plus': 0.3, 'W2 open-plus': 0.3 }

describe('going to look now', () => {
  const now = (list: Readonly<Record<string, number>>, more = {}): number => plansOf(list, live, more).now
  test('run by run, the likelier for its length first', () => {
    expect(now({ 'W2 open-plus': 0.2 })).toBeCloseTo(80, 9)
    expect(now(two)).toBeCloseTo(80 + 0.5 * (110 + VAIN), 9)
    expect(now({ 'W1 open-plus': 0.4, 'W2 open-plus': 0.2 })).toBeCloseTo(110 + (80 + VAIN) / 3, 9)
  })
  test('whoever looks along a run sees plus, 0 V and joints alike', () => {
    expect(now({ 'W2 open-plus': 0.1, 'W2 open-zero': 0.2, 'W2 poor-joint 11': 0.1 })).toBeCloseTo(80, 9)
  })
  test('a device and the supply are in the cabinet: 60 s, no metres; each a place of its own', () => {
    expect(now({ 'supply-low': 0.3 })).toBeCloseTo(60, 9)
    expect(now({}, { deviceOpen: [0.2] })).toBeCloseTo(60, 9)
    expect(now({ 'W2 open-plus': 0.25 }, { deviceOpen: [0.5, 0.25] })).toBeCloseTo(60 + 0.5 * (60 + VAIN) + 0.25 * (80 + VAIN), 9)
  })
  test('what voltages and ohms cannot trace, and what weighs nothing, plays no part', () => {
    expect(now({ 'W2 open-plus': 0.2, overload: 0.5, 'in-rush': 0.4, 'W1 open-plus': 1e-5 })).toBeCloseTo(80, 9)
  })
})

describe('what a reading leaves', () => {
  // Told apart, half of the cases are 80 s and half 110 s.
  const APART = 0.5 * 80 + 0.5 * 110
  test('the voltage at the junction between two runs tells them apart: a minute on a live machine', () => {
    const { plans, now } = plansOf(two, live)
    const plan = at(plans, read('volt', 'B1/J1'))
    expect(Math.abs(plan.expected - (60 + APART))).toBeLessThan(1)
    expect(plan.why).toEqual({ key: 'trace-volts', facts: { branch: 'B1', p: 100, before: Math.round(now), after: Math.round(APART) } })
    // At the terminals and beyond both it is the same either way.
    expect(at(plans, read('volt', 'B1')).expected).toBeCloseTo(15 + now, 0)
    expect(at(plans, read('volt', 'B1/X1')).expected).toBeCloseTo(60 + now, 0)
    // And past the other run it parts them as the junction does.
    expect(Math.abs(at(plans, read('volt', 'B1/X2')).expected - (60 + APART))).toBeLessThan(1)
  })
  test('ohms from the cabinet count the coils that are left: none behind W1, one behind W2', () => {
    const { plans, now } = plansOf(two, cut)
    const there = at(plans, read('ohm', 'B1')).expected
    expect(there).toBeGreaterThan(15 + APART - 1e-6)
    expect(there).toBeLessThan(15 + now - 20)
    expect(plans[0]?.steps).toEqual([read('ohm', 'B1')])
    // From a closed device on a live machine it is 15 + 40 + 6 s more.
    const way = [supply('off'), act({ act: 'prove-dead' }), device('B1', 'open')]
    expect(at(plansOf(two, live).plans, ...way, read('ohm', 'B1')).expected - there).toBeCloseTo(61, 6)
  })
  test('nothing fed in at the supply: a device that is open shows at its terminals', () => {
    const { plans } = plansOf({ 'W2 open-plus': 0.3 }, live, { deviceOpen: [0.3] })
    expect(Math.abs(at(plans, read('volt', 'B1')).expected - (15 + 0.5 * 60 + 0.5 * 80))).toBeLessThan(1)
    // Ohms past it tell nothing of the device: a coil of two is left either way or both are.
    expect(
      Math.abs(at(plans, supply('off'), act({ act: 'prove-dead' }), device('B1', 'open'), read('ohm', 'B1')).expected - (61 + 15 + 70)),
    ).toBeLessThan(1)
  })
  test('a supply set low shows anywhere', () => {
    const { plans } = plansOf({ 'W2 open-plus': 0.4, 'supply-low': 0.1 }, live)
    expect(Math.abs(at(plans, read('volt', 'B1')).expected - (15 + (0.3 * 60 + 0.4 * 80) / 0.7))).toBeLessThan(2)
  })
  test('a branch with nothing suspected in it tells nothing', () => {
    const { plans, now } = plansOf(two, live)
    expect(at(plans, read('volt', 'B2/J9')).expected).toBeCloseTo(60 + now, 0)
    expect(at(plans, read('volt', 'B2/J9')).why.facts['p']).toBe(0)
  })
  test('more joints than one, by Bayes’ rule: 4 and 15 Ω before coils of 60 Ω are told from a break, not from each other’s run', () => {
    const { plans } = plansOf({ 'W1 poor-joint 5.5': 0.2, 'W1 poor-joint 11': 0.2, 'W1 open-plus': 0.2 }, cut)
    expect(at(plans, read('ohm', 'B1')).expected).toBeCloseTo(15 + 110, 6)
  })
})

describe('which readings there are', () => {
  const volts = ['B1', 'B1/J1', 'B1/X1', 'B1/X2', 'B2', 'B2/J9'].map(p => `volt ${p}.plus`)
  const ohms = volts.map(v => v.replace('volt', 'ohm'))
  test('volts and ohms at the terminals and at every junction', () => {
    expect(lasts(plansOf(two, live).plans)).toEqual(new Set([...volts, ...ohms]))
  })
  test('with a short circuit that may be there, nobody walks out while it is fed', () => {
    const at20 = (short: number, tripped = 0): Set<string> => lasts(plansOf(two, live, { short: [short], tripped: [tripped] }).plans)
    expect(at20(0.2)).toContain('volt B1/J1.plus')
    expect(at20(0.21)).not.toContain('volt B1/J1.plus')
    expect(at20(0.21)).toContain('volt B1.plus')
    // Behind a device that has opened it is not fed.
    expect(at20(0.3, 0.15)).toContain('volt B1/J1.plus')
  })
  test('a dead machine is made live for volts, where it is known how it was found', () => {
    const { found: _, ...blind } = cut
    expect(lasts(plansOf(two, blind).plans)).toEqual(new Set(ohms))
    const { found: __, ...on } = live
    expect(lasts(plansOf(two, on).plans)).toEqual(new Set([...volts, ...ohms]))
    const steps = plansOf(two, cut).plans.map(p => p.steps)
    expect(steps).toContainEqual([device('B1', 'closed'), supply('on'), read('volt', 'B1/J1')])
  })
  test('what was read in this state is not read again, what cannot be done is left out', () => {
    const taken = { ...live, taken: new Set([read('volt', 'B1/J1'), read('ohm', 'B1')].map(keyOf)) }
    // Ohms need another state: there it may be read.
    expect(lasts(plansOf(two, taken).plans)).toEqual(new Set([...volts.filter(v => v !== 'volt B1/J1.plus'), ...ohms]))
    const cannot = { ...live, setAside: new Set([keyOf(supply('off'))]) }
    expect(lasts(plansOf(two, cannot).plans)).toEqual(new Set(volts))
  })
  test('a branch that nobody has told is read at its terminals alone; never more than three branches, the likeliest', () => {
    const blind: Machine = { ...rowOfBranches(5), branches: rowOfBranches(5).branches.map(({ id }) => ({ id })) }
    const of = beliefOf(blind)
    const per: readonly number[] = [0.1, 0.02, 0.3, 0.2, 0.01]
    const shared = sharesOf(of, { suspected: x => (x.fault === 'open-plus' ? (per[x.branch ?? -1] ?? 0) : 0) })
    const { plans } = tracing(of, shared, situationOf(blind, found(blind)))
    for (const id of ['B1', 'B3', 'B4']) expect(lasts(plans)).toContain(`ohm ${id}.plus`)
    for (const id of ['B2', 'B5']) expect(lasts(plans)).not.toContain(`ohm ${id}.plus`)
    for (const last of lasts(plans)) expect(last).not.toContain('/')
  })
})

test('while no branch holds more than half, loads are counted from the cabinet, branch after branch', () => {
  const machine: Machine = { ...rowOfBranches(4) }
  const of = beliefOf(machine)
  const s = situationOf(machine, dead(machine))
  const plansFor = (per: readonly number[]): Plan[] =>
    tracing(of, sharesOf(of, { suspected: x => (x.fault === 'open-plus' ? (per[x.branch ?? -1] ?? 0) : 0) }), s).plans
  for (const { why, steps } of plansFor([0.25, 0.25, 0.25, 0.25])) {
    expect(why.key).toBe('trace-ohms')
    expect(steps.at(-1)).toMatchObject({ meter: 'ohm', red: expect.stringMatching(/^B\d\.plus$/) })
  }
  expect(new Set(plansFor([0.51, 0.25, 0.24]).map(p => p.why.key))).toEqual(new Set(['trace-ohms', 'trace-volts']))
})

test('a junction that would tell two of three runs apart is left for later as well', () => {
  // B1 holds half: W1 and W2 alike; B2 the other half.
  const { plans, now } = plansOf(
    { 'W1 open-plus': 0.2, 'W2 open-plus': 0.2, 'W9 open-plus': 0.4 },
    situationOf(smallMachine, dead(smallMachine)),
  )
  expect(now).toBeCloseTo(85 + 0.5 * (80 + VAIN) + 0.25 * (110 + VAIN), 6)
  expect(lasts(plans)).toEqual(new Set(['ohm B1.plus', 'ohm B2.plus']))
  for (const { expected } of plans) expect(expected).toBeLessThan(now)
  // With more than half in one branch the junctions count too.
  const clear = plansOf({ 'W1 open-plus': 0.21, 'W2 open-plus': 0.2, 'W9 open-plus': 0.4 }, situationOf(smallMachine, dead(smallMachine)))
  expect(lasts(clear.plans)).toContain('ohm B1/J1.plus')
})

describe('what is likeliest, as a finding', () => {
  const findings = (list: Readonly<Record<string, number>>, of = belief, more = {}) => traced(of, weighed(of, list, more))
  test('a run by its whole length, named for its likeliest fault, with all that its run holds', () => {
    expect(
      findings({ 'W3 open-plus': 0.1, 'W3 open-zero': 0.2, 'W3 poor-joint 5.5': 0.05, 'W3 poor-joint 11': 0.05, 'W1 open-plus': 0.15 }),
    ).toEqual([
      {
        fault: 'open-zero',
        branch: 'B1',
        run: 'W3',
        alongRun: { best: 3, low: 0, high: 6 },
        fromTerminals: { best: 13, low: 10, high: 16 },
        probability: expect.closeTo(0.4, 9),
      },
      {
        fault: 'open-plus',
        branch: 'B1',
        run: 'W1',
        alongRun: { best: 5, low: 0, high: 10 },
        fromTerminals: { best: 5, low: 0, high: 10 },
        probability: 0.15,
      },
    ])
  })
  test('joints of several sizes are one fault', () => {
    expect(findings({ 'W3 open-plus': 0.1, 'W3 poor-joint 5.5': 0.06, 'W3 poor-joint 11': 0.05 })[0]?.fault).toBe('poor-joint')
  })
  test('at the supply it has no branch; a device is not among them; where the wiring is not told, the branch alone', () => {
    expect(findings({ 'supply-low': 0.1 }, belief, { deviceOpen: [0.5] })).toEqual([
      { fault: 'supply-low', probability: expect.closeTo(0.3, 9) },
    ])
    const blind = beliefOf({ ...smallMachine, branches: smallMachine.branches.map(({ id }) => ({ id })) })
    const shared = sharesOf(blind, { suspected: x => (x.fault === 'open-plus' && x.branch === 1 ? 0.2 : 0) })
    expect(traced(blind, shared)).toEqual([{ fault: 'open-plus', branch: 'B2', probability: expect.closeTo(0.2, 9) }])
  })
})

test('positions that are not the ones found are put back for volts: an unplugged load first', () => {
  const p: Positions = { ...dead(smallMachine, ['B1']), unplugged: ['B1/K1'] }
  const steps = plansOf(two, situationOf(smallMachine, p)).plans.map(x => x.steps)
  expect(steps).toContainEqual([
    act({ act: 'load', branch: 'B1', load: 'K1', to: 'plugged' }),
    device('B1', 'closed'),
    supply('on'),
    read('volt', 'B1'),
  ])
})
