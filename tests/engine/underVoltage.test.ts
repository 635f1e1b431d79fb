// What shows under voltage only: go to the likeliest load, or switch on with some devices open first, whichever is expected to cost less.
import { describe, expect, test } from 'vitest'
import { type Belief, begin } from '../../engine/belief.ts'
import type { Machine, Supply } from '../../engine/machine.ts'
import type { Situation } from '../../engine/plan.ts'
import { plantOf } from '../../engine/plant.ts'
import { after, type Positions } from '../../engine/positions.ts'
import type { Finding, Look, Read, Step } from '../../engine/step.ts'
import type { Suspicion } from '../../engine/suspicion.ts'
import { liveFindings, shownLive, underVoltage } from '../../engine/underVoltage.ts'
import { keyOf, liveKeyOf } from '../../engine/way.ts'
import { dead, found, rowOfBranches } from './machines.ts'
import { act, device, lookingAt, seconds, sharesOf, situationOf, supply } from './shared.ts'

const row = rowOfBranches(3)
const limited = (mode: NonNullable<Supply['limit']>['mode']): Machine => ({
  ...row,
  supply: { ...row.supply, limit: { mode, current: 6 } },
})
const machine = limited('hiccup')
const beliefOf = (of: Machine): Belief => begin(plantOf(of), {}, 'comes-and-goes')
const belief = beliefOf(machine)
const LAMP: Look = { kind: 'look', look: 'supply-lamp' }
const BUS: Read = { kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus.zero' }
/** Loads that draw too much: how likely in B1, B2 …; and how likely all together are too much. */
const hot =
  (loads: readonly number[], all = 0) =>
  (x: Suspicion): number =>
    x.fault === 'overload' ? (x.branch === undefined ? all : (loads[x.branch] ?? 0)) : 0
const next = (of: Belief, suspected: (x: Suspicion) => number, s: Situation): ReturnType<typeof underVoltage> =>
  underVoltage(of, sharesOf(of, { suspected }), s)
const stepsOf = (of: ReturnType<typeof underVoltage>): readonly Step[] => (of !== undefined && 'steps' in of ? of.steps : [])
const closed = situationOf(machine, dead(machine, []))

describe('what is left to look at', () => {
  const held = (suspected: (x: Suspicion) => number, of = belief) => shownLive(of, sharesOf(of, { suspected }))
  test('neither what ohms and voltages trace nor another supply, nor what weighs nothing', () => {
    const kinds = new Set(held(() => 0.1).map(({ x }) => x.fault))
    expect(kinds).toEqual(new Set(['overload', 'in-rush', 'swapped', 'diode']))
    expect(held(hot([0.1, 1e-5, 1.1e-5])).map(({ x, w }) => [x.branch, w])).toEqual([
      [0, 0.1],
      [2, 1.1e-5],
    ])
  })
  test('one finding for each load, named for its likeliest fault, with the weight of all of its faults, likeliest first', () => {
    const list = held(x => {
      if (x.branch === 1) return { overload: 0.1, swapped: 0.3, diode: 0.2 }[x.fault as string] ?? 0
      if (x.branch === 0) return x.fault === 'overload' ? 0.05 : 0
      return x.branch === undefined ? ({ overload: 0.01, 'in-rush': 0.02 }[x.fault as string] ?? 0) : 0
    })
    const at = { best: 12, low: 12, high: 12 }
    expect(liveFindings(belief, list)).toEqual([
      { fault: 'swapped', branch: 'B2', load: 'K2', fromTerminals: at, probability: expect.closeTo(0.6, 9) },
      { fault: 'overload', branch: 'B1', load: 'K1', fromTerminals: at, probability: 0.05 },
      { fault: 'in-rush', probability: expect.closeTo(0.03, 9) },
    ])
  })
  test('the first of two alike gives its name', () => {
    expect(
      liveFindings(
        belief,
        held(x => (x.branch === 0 && x.load !== undefined ? 0.1 : 0)),
      )[0]?.fault,
    ).toBe('overload')
  })
  test('a load that sits at the terminals is no metres away; where the wiring is not told, the branch alone is named', () => {
    const near = beliefOf({
      ...machine,
      branches: machine.branches.map(b => ({ ...b, loads: b.loads?.map(l => ({ ...l, at: 'terminals' })) ?? [] })),
    })
    expect(liveFindings(near, held(hot([0.1]), near))).toMatchObject([
      { branch: 'B1', load: 'K1', fromTerminals: { best: 0, low: 0, high: 0 } },
    ])
    const blind = beliefOf({
      ...machine,
      branches: machine.branches.map(({ id, loads }) => ({ id, ...(loads === undefined ? {} : { loads }) })),
    })
    const findings = liveFindings(blind, held(hot([0.1]), blind))
    expect(findings).toEqual([{ fault: 'overload', branch: 'B1', probability: 0.1 }])
  })
})

describe('go and look', () => {
  test('at the one load that is suspected: a trial would tell nothing', () => {
    expect(next(belief, hot([0, 0.4]), closed)).toMatchObject({ fault: 'overload', branch: 'B2', load: 'K2', probability: 0.4 })
  })
  test('nothing suspected, nothing to do', () => {
    expect(next(belief, () => 0, closed)).toBeUndefined()
    expect(next(belief, hot([0.002, 0.003]), { ...closed, found: undefined } as unknown as Situation)).toBeUndefined()
  })
  test('where nobody knows how the devices were found, nothing is switched on: the likeliest load is looked at', () => {
    const { found: _, ...blind } = closed
    expect(next(belief, hot([0.1, 0.3, 0.2]), blind)).toMatchObject({ branch: 'B2' })
    const seen = next(belief, hot([0.1, 0.3, 0.2]), blind) as Finding
    expect(next(belief, hot([0.1, 0.3, 0.2]), { ...blind, setAside: new Set([keyOf({ kind: 'finding', finding: seen })]) })).toMatchObject({
      branch: 'B3',
    })
    expect(next(belief, hot([0.0029]), blind)).toBeUndefined()
    expect(next(belief, hot([0.0031]), blind)).toMatchObject({ branch: 'B1' })
  })
})

/** Many branches alike, every one as likely: minutes of looking, so that a trial pays. */
const many: Machine = { ...rowOfBranches(8), supply: machine.supply }
const eight = beliefOf(many)
const alike = hot(Array.from({ length: 8 }, () => 0.05))
const dead8 = situationOf(many, dead(many, []))

describe('a trial with some devices open', () => {
  // Going to a load is 60 s (its place is known, so no metres), a vain one 60 s more: each of eight holds 1/8.
  const NOW = lookingAt(
    Array.from({ length: 8 }, () => [1 / 8, 60] as const),
    60,
  )
  // Eight coils of 24/62 A, a limit of 6 A: one that takes too much takes from 2.903 to 24 A too much.
  const COIL = 24 / 62
  const ENOUGH = 6 - 8 * COIL
  /** `k` open: it has to take as much more as they draw to be too much still; the lamp says wrong in 3 of 100 either way. */
  const then = (k: number, n = 8): number => {
    const still = Math.log(24 / (ENOUGH + k * COIL)) / Math.log(24 / ENOUGH)
    const held = 0.03 + 0.94 * still
    const part = (down: boolean) =>
      lookingAt(
        Array.from({ length: n }, (_, i) => [(i < k ? (down ? 0.03 : 0.97) : down ? held : 1 - held) / n, 60] as const),
        60,
      )
    return part(true) + part(false)
  }
  test('four of eight open leaves least: the supply on, its lamp seen, and off again', () => {
    const plan = next(eight, alike, dead8)
    if (plan === undefined || !('steps' in plan)) throw new Error('a trial')
    const opened = plan.steps.filter(x => x.kind === 'act' && x.act.act === 'device')
    const costs = Array.from({ length: 8 }, (_, k) => 6 * k + 15 + 5 + 15 + then(k))
    expect(plan.expected).toBeCloseTo(Math.min(...costs), 6)
    expect(opened).toHaveLength(costs.indexOf(Math.min(...costs)))
    expect(plan.steps.slice(opened.length)).toEqual([supply('on'), LAMP, supply('off')])
    expect(plan.steps.slice(0, opened.length)).toEqual(opened.map((_, i) => device(`B${i + 1}`, 'open')))
    expect(plan.why).toEqual({
      key: 'live-trial',
      facts: { count: 8 - opened.length, before: Math.round(NOW), after: Math.round(then(opened.length)) },
    })
    expect(plan.expected).toBeLessThan(NOW)
  })
  test.each([
    ['hiccup', LAMP],
    ['latch-off', LAMP],
    ['constant-current', BUS],
    ['unknown', BUS],
  ] as const)('a supply that limits by %s says by its lamp alone whether it is held down, or by its voltage', (mode, seen) => {
    const of = { ...many, supply: { ...many.supply, limit: { mode, current: 6 } } }
    expect(stepsOf(next(beliefOf(of), alike, dead8)).at(-2)).toEqual(seen)
  })
  test('a supply of which nothing is told is read', () => {
    expect(stepsOf(next(beliefOf({ ...many, supply: {} }), alike, dead8)).at(-2)).toEqual(BUS)
  })
  test('the likeliest are opened first', () => {
    const plan = next(eight, hot([0.02, 0.02, 0.02, 0.06, 0.03, 0.02, 0.05, 0.02]), dead8)
    const opened = stepsOf(plan).flatMap(x => (x.kind === 'act' && x.act.act === 'device' ? [x.act.branch] : []))
    const likeliest = ['B4', 'B7', 'B5', 'B1', 'B2', 'B3', 'B6', 'B8'].slice(0, opened.length)
    expect(opened.length).toBeGreaterThan(2)
    expect(new Set(opened)).toEqual(new Set(likeliest))
  })
  test('what is seen with the same devices closed was seen before: others are opened', () => {
    const closedAt = (plan: ReturnType<typeof next>) =>
      stepsOf(plan).reduce((p, x) => (x.kind === 'act' && x.act.act === 'device' ? after(p, x.act) : p), dead8.positions)
    const first = closedAt(next(eight, alike, dead8))
    const second = closedAt(next(eight, alike, { ...dead8, taken: new Set([liveKeyOf(LAMP, first)]) }))
    expect(second.devices).not.toEqual(first.devices)
    // The same look with other devices closed, or with the supply as it was found, does not stand against it.
    expect(closedAt(next(eight, alike, { ...dead8, taken: new Set([keyOf(LAMP), liveKeyOf(LAMP, second)]) }))).toEqual(first)
  })
  test('a step that cannot be done leaves other trials; without any, the walk', () => {
    const cannot = (...steps: readonly Step[]): Situation => ({ ...dead8, setAside: new Set(steps.map(keyOf)) })
    const never = next(eight, alike, cannot(supply('on')))
    expect(never).toMatchObject({ fault: 'overload' })
    expect(next(eight, alike, cannot(LAMP))).toMatchObject({ fault: 'overload' })
    // Without B1's device every trial would close all: no answer tells loads apart.
    expect(next(eight, alike, cannot(device('B1', 'open')))).toMatchObject({ fault: 'overload' })
    // And once no walk is left either, even that trial is made.
    const walks = Array.from({ length: 8 }, (_, i): Step => {
      const at = { best: 12, low: 12, high: 12 }
      return {
        kind: 'finding',
        finding: { fault: 'overload', branch: `B${i + 1}`, load: `K${i + 1}`, fromTerminals: at, probability: 0.05 },
      }
    })
    expect(stepsOf(next(eight, alike, cannot(device('B1', 'open'), ...walks)))).toEqual([supply('on'), LAMP, supply('off')])
  })
  test('devices as they stand count: open ones that are to be closed, closed ones that are to be open, tripped ones never', () => {
    const acts = (
      devices: Readonly<Record<string, 'open' | 'closed' | 'tripped'>>,
      asFound: Positions = found(many),
    ): (readonly [string, string])[] =>
      stepsOf(
        next(eight, alike, {
          ...dead8,
          positions: { ...dead8.positions, devices: { ...dead8.positions.devices, ...devices } },
          found: asFound,
        }),
      ).flatMap(x => (x.kind === 'act' && x.act.act === 'device' ? [[x.act.branch, x.act.to] as const] : []))
    const plain = acts({})
    const open = plain.map(([id]) => id)
    // One that is open already needs no act; one that is open and to be closed is closed.
    expect(acts({ [open[0] ?? '']: 'open' })).toEqual(plain.slice(1))
    expect(acts({ B8: 'open' })).toContainEqual(['B8', 'closed'])
    // One that was found open stays so, and is none of those that are tried.
    const foundOpen = { ...found(many), devices: { ...found(many).devices, B8: 'open' } } as const
    expect(acts({ B8: 'open' }, foundOpen).map(([id]) => id)).not.toContain('B8')
    expect(acts({ B1: 'tripped' }).map(([id]) => id)).not.toContain('B1')
    expect(acts({ B1: 'tripped' }).length).toBeGreaterThan(1)
  })
  test('on a live machine the supply goes off first; runs, plugs and a source are put back in a dead circuit', () => {
    const live = situationOf(many, found(many))
    expect(stepsOf(next(eight, alike, live))[0]).toEqual(supply('off'))
    // Of a limit of 20 A one load takes most by itself: opening others tells the more, and pays for a longer way to it.
    const large = beliefOf({ ...many, supply: { ...many.supply, limit: { mode: 'hiccup', current: 20 } } })
    const ahead = (p: Partial<Positions>): readonly Step[] =>
      stepsOf(next(large, alike, { ...dead8, positions: { ...dead8.positions, ...p }, power: 'off' }))
    const prove = act({ act: 'prove-dead' })
    expect(ahead({ unplugged: ['B1/K1'] }).slice(0, 2)).toEqual([prove, act({ act: 'load', branch: 'B1', load: 'K1', to: 'plugged' })])
    expect(ahead({ openedRuns: ['B1/W1'] }).slice(0, 2)).toEqual([prove, act({ act: 'run', branch: 'B1', run: 'W1', to: 'joined' })])
    expect(ahead({ bus: 'opened' }).slice(0, 2)).toEqual([prove, act({ act: 'bus', to: 'joined' })])
    expect(ahead({ bond: 'opened' }).slice(0, 2)).toEqual([prove, act({ act: 'bond', to: 'joined' })])
    expect(ahead({ injector: { branch: 'B1', into: 'zero' } })[0]).toEqual(act({ act: 'inject', branch: 'B1', to: 'off' }))
    // With nothing to put back the circuit need not be dead for switching devices.
    expect(ahead({})[0]).toMatchObject({ act: { act: 'device' } })
    // What the trial itself costs counts the way to it.
    const [plain, way] = [next(eight, alike, dead8), next(eight, alike, live)].map(p => (p !== undefined && 'steps' in p ? p : undefined))
    expect((way?.expected ?? 0) - (plain?.expected ?? 0)).toBeCloseTo(15, 6)
    expect(seconds(eight, way?.steps ?? [])).toBeCloseTo(seconds(eight, plain?.steps ?? []) + 15, 9)
  })
  test('never more than twelve devices at once', () => {
    const lots: Machine = { ...rowOfBranches(40), supply: machine.supply }
    const plan = next(beliefOf(lots), hot(Array.from({ length: 40 }, () => 0.02)), situationOf(lots, dead(lots, [])))
    expect(stepsOf(plan).filter(x => x.kind === 'act' && x.act.act === 'device')).toHaveLength(12)
  })
  test('what is too much together is told by a trial as well: with few devices closed the supply stays up', () => {
    const plan = next(
      eight,
      hot(
        Array.from({ length: 8 }, () => 0.02),
        0.3,
      ),
      dead8,
    )
    expect(stepsOf(plan).length).toBeGreaterThan(3)
  })
})
