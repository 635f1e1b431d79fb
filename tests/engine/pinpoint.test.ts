// Where in the branch: of few places set by hand, what looking costs now, what each reading leaves, and which readings there are.
import { describe, expect, test } from 'vitest'
import type { Belief } from '../../engine/belief.ts'
import { shared as covarianceOf } from '../../engine/chain.ts'
import type { Kit } from '../../engine/machine.ts'
import { observe } from '../../engine/observe.ts'
import { pinpointing } from '../../engine/pinpoint.ts'
import type { Plan, Situation } from '../../engine/plan.ts'
import { branchOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import { predictedFor, standOf } from '../../engine/reading.ts'
import type { Read, Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { smallMachine } from '../bench/small.ts'
import { dead, INJECTOR } from './machines.ts'
import { type Place, placedIn } from './placed.ts'
import { act, device, lookingAt, situationOf } from './shared.ts'

const opened = situationOf(smallMachine, dead(smallMachine, ['B1']))
const plansOf = (belief: Belief, s: Situation = opened) => pinpointing(belief, branchOf(belief.plant, 'B1'), s)
const of = (list: readonly Place[], s: Situation = opened, kit: Kit = {}) => plansOf(placedIn('B1', list, smallMachine, kit), s)
const ohm = (place: string): Read => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })
const volt = (place: string): Read => ({ kind: 'read', meter: 'volt', red: `${place}.plus`, black: `${place}.zero` })
const AMP: Read = { kind: 'read', meter: 'amp', branch: 'B1' }
const named = (plans: readonly Plan[], ...steps: readonly Step[]): Plan => {
  const plan = plans.find(p => JSON.stringify(p.steps) === JSON.stringify(steps))
  if (plan === undefined) throw new Error(`no plan ${JSON.stringify(steps)}`)
  return plan
}
const namesOf = (plans: readonly Plan[]): Set<string> => new Set(plans.map(p => p.steps.map(nameOf).join(' ')))
const nameOf = (step: Step): string => {
  if (step.kind === 'act') return Object.values(step.act).join(':')
  if (step.kind === 'read') return step.meter === 'amp' ? 'amp' : `${step.meter}@${step.red}`
  return step.kind
}
const inW2: Place = { kind: 0, item: 1, at: 2, w: 0.5 }
const inW3: Place = { kind: 0, item: 2, at: 3, w: 0.5 }
// Common practice, no source: a vain walk counts 1,200 s more with a meter alone, 400 s with a source of current.
const ALONE = 1200
const FED = 400

describe('going to look now', () => {
  test('two runs, each half: 60 s, and in one of two cases 60 s more and the vain walk', () => {
    expect(of([inW2, inW3])).toMatchObject({ now: 60 + 0.5 * (60 + ALONE), best: 0.5, metres: 0 })
    expect(of([inW2, inW3], opened, INJECTOR).now).toBe(60 + 0.5 * (60 + FED))
  })
  test('one run: the metres that hold 95 of 100, 5 s each', () => {
    // 1 and 5 m, each half: a standard deviation of 2 m, 3.92 of which are 7.84 m.
    const run = of([
      { ...inW3, at: 1 },
      { ...inW3, at: 5 },
    ])
    expect(run.metres).toBeCloseTo(7.84, 9)
    expect(run.now).toBeCloseTo(60 + 5 * 7.84, 9)
    expect(run.best).toBe(1)
    // Of a place’s own spread six tenths count: its cell is even, not normal.
    expect(of([{ ...inW3, w: 1, atSd: 0.5 }]).metres).toBeCloseTo(3.92 * 0.3, 9)
    // Moved along, it is the same.
    expect(
      of([
        { ...inW3, at: 0.5 },
        { ...inW3, at: 4.5 },
      ]).metres,
    ).toBeCloseTo(7.84, 9)
  })
  test('a load and a run of the same number are two places; in a load there are no metres', () => {
    const both = of([
      { kind: 2, item: 2 - 1, at: 0, atSd: 3, w: 0.5 },
      { ...inW2, w: 0.5 },
    ])
    expect(both).toMatchObject({ best: 0.5, metres: 0, now: 60 + 0.5 * (60 + ALONE) })
  })
  test('the likelier for its cost first', () => {
    const three = of([
      { ...inW2, w: 0.3 },
      { ...inW3, w: 0.5 },
      { kind: 0, item: 0, at: 3, w: 0.2 },
    ])
    expect(three.now).toBeCloseTo(
      lookingAt(
        [
          [0.3, 60],
          [0.5, 60],
          [0.2, 60],
        ],
        ALONE,
      ),
      6,
    )
    expect(three.best).toBeCloseTo(0.5, 6)
  })
  test('many places, thinned to 120 by weight: 6 m evenly are 3.92 × 6/√12 m', () => {
    const even = of(Array.from({ length: 400 }, (_, i) => ({ ...inW3, at: (6 * (i + 0.5)) / 400, w: 1 / 400 })))
    expect(even.metres).toBeCloseTo((3.92 * 6) / Math.sqrt(12), 1)
    expect(even.best).toBe(1)
  })
})

describe('which readings there are', () => {
  const list = [inW2, inW3]
  const runs = ['W1', 'W2', 'W3'].map(w => `run:B1:${w}:opened ohm@B1.plus`)
  const loads = ['K1', 'K2'].map(k => `load:B1:${k}:unplugged ohm@B1.plus`)
  const junctions = ['ohm@B1/J1.plus', 'ohm@B1/X1.plus', 'ohm@B1/X2.plus']
  const zero = 'zero-leads ohm@B1.plus'
  test('with a meter alone, cut off and zeroed: terminals, junctions, each run opened, each load unplugged', () => {
    expect(namesOf(of(list).plans)).toEqual(new Set(['ohm@B1.plus', ...junctions, ...runs, ...loads]))
  })
  test('not zeroed: that too', () => {
    expect(namesOf(of(list, { ...opened, zeroed: false }).plans)).toContain(zero)
    expect(namesOf(of(list, { ...opened, zeroed: false }).plans).size).toBe(10)
  })
  test('what was read is not read again in the same state', () => {
    const taken = new Set([ohm('B1'), ohm('B1/X1')].map(keyOf))
    expect(namesOf(of(list, { ...opened, taken }).plans)).toEqual(new Set(['ohm@B1/J1.plus', 'ohm@B1/X2.plus', ...runs, ...loads]))
  })
  test('what cannot be done is left out, with all that begins with it', () => {
    const setAside = new Set([keyOf(act({ act: 'run', branch: 'B1', run: 'W2', to: 'opened' })), keyOf(ohm('B1/J1'))])
    const names = namesOf(of(list, { ...opened, setAside }).plans)
    expect(names).toEqual(new Set(['ohm@B1.plus', ...junctions.slice(1), runs[0], runs[2], ...loads]))
  })
  test('a run that is open and a load that is unplugged, or cannot be, are not asked for', () => {
    const positions: Positions = { ...opened.positions, openedRuns: ['B1/W2'], unplugged: ['B1/K1'] }
    const names = namesOf(of(list, { ...opened, positions }).plans)
    for (const name of [runs[1], loads[0]]) expect(names).not.toContain(name)
    for (const name of [runs[0], runs[2], loads[1]]) expect(names).toContain(name)
    const [B1, ...rest] = smallMachine.branches
    if (B1 === undefined) throw new Error('a branch')
    const fixed = { ...smallMachine, branches: [{ ...B1, loads: B1.loads?.map(l => ({ ...l, pluggable: l.id !== 'K1' })) ?? [] }, ...rest] }
    const wired = namesOf(plansOf(placedIn('B1', list, fixed)).plans)
    expect(wired).not.toContain(loads[0])
    expect(wired).toContain(loads[1])
  })
  test('from a closed device: it is opened first', () => {
    const closed = situationOf(smallMachine, dead(smallMachine, []))
    for (const { steps } of of(list, closed).plans) expect(steps[0]).toEqual(device('B1', 'open'))
  })
  describe('with a source of current', () => {
    const fedState = (into: 'zero' | 'earth' = 'zero'): Situation => ({
      ...opened,
      positions: { ...opened.positions, injector: { branch: 'B1', into } },
    })
    const fed = (plans: readonly Plan[]): Set<string> => new Set([...namesOf(plans)].filter(n => n.includes('volt') || n.includes('amp')))
    test('not yet joined: joined, the voltage at the terminals, and with it the current or one junction', () => {
      expect(fed(of(list, opened, INJECTOR).plans)).toEqual(
        new Set(['amp', 'volt@B1/J1.plus', 'volt@B1/X1.plus', 'volt@B1/X2.plus'].map(last => `inject:B1:on:zero volt@B1.plus ${last}`)),
      )
    })
    test('feeding: each reading alone, and the current before each', () => {
      const single = ['volt@B1.plus', 'volt@earth', 'volt@B1/J1.plus', 'volt@B1/X1.plus', 'volt@B1/X2.plus']
      const { plans } = of(list, fedState(), INJECTOR)
      expect(fed(plans)).toEqual(new Set(['amp', ...single, ...single.map(s => `amp ${s}`)]))
      const keys = (steps: readonly Step[]): string => named(plans, ...steps).why.key
      expect(keys([AMP])).toBe('current')
      expect(keys([volt('B1')])).toBe('narrow')
      expect(keys([AMP, volt('B1')])).toBe('current')
      expect(keys([{ kind: 'read', meter: 'volt', red: 'earth', black: 'B1.zero' }])).toBe('kind')
    })
    test('the current once read is not read again, before anything', () => {
      const { plans } = of(list, { ...fedState(), taken: new Set([keyOf(AMP), keyOf(volt('B1/J1'))]) }, INJECTOR)
      expect(fed(plans)).toEqual(new Set(['volt@B1.plus', 'volt@earth', 'volt@B1/X1.plus', 'volt@B1/X2.plus']))
    })
    test('into earth, it stays there', () => {
      const { plans } = of(list, fedState('earth'), INJECTOR)
      expect(named(plans, AMP).steps).toHaveLength(1)
      for (const { steps } of plans.filter(p => p.steps.some(x => x.kind === 'read' && x.meter !== 'ohm')))
        expect(steps.some(x => x.kind === 'act')).toBe(false)
    })
  })
})

describe('what a reading leaves', () => {
  // Told apart at once: 0.05 Ω in W3, and 5 Ω in the load K1.
  const apart: readonly Place[] = [
    { kind: 0, item: 2, at: 3, ohm: 0.05, w: 0.5 },
    { kind: 2, item: 0, ohm: 5, w: 0.5 },
  ]
  test('told apart for sure, 60 s to the place: 15 s of ohms at the terminals make 75 s', () => {
    const { plans } = of(apart)
    const [first] = plans
    expect(first?.steps).toEqual([ohm('B1')])
    expect(first?.expected).toBeCloseTo(75, 6)
    expect(first?.why).toEqual({ key: 'narrow', facts: { branch: 'B1', before: 0, after: 0, ohm: 0 } })
    // From a junction it is a minute; unplugged, a minute before and one after.
    expect(named(plans, ohm('B1/J1')).expected).toBeCloseTo(120, 6)
    const unplugged = named(plans, act({ act: 'load', branch: 'B1', load: 'K2', to: 'unplugged' }), ohm('B1'))
    expect(unplugged.expected).toBeCloseTo(60 + 15 + 60 + 60, 6)
    expect(unplugged.why).toMatchObject({ key: 'load-aside', facts: { load: 'K2' } })
    expect(named(plans, act({ act: 'run', branch: 'B1', run: 'W2', to: 'opened' }), ohm('B1')).expected).toBeCloseTo(90 + 15 + 90 + 60, 6)
    expect(of(apart, situationOf(smallMachine, dead(smallMachine, []))).plans[0]?.expected).toBeCloseTo(81, 6)
  })
  test('a source of current comes off again: 45 s to join it, 45 s to take it off and half of 40 s to prove dead', () => {
    const { plans } = of(apart, opened, INJECTOR)
    const inject = act({ act: 'inject', branch: 'B1', to: 'on', into: 'zero' })
    const plan = named(plans, inject, volt('B1'), AMP)
    expect(plan.expected).toBeCloseTo(45 + 15 + 15 + 65 + 60, 6)
    expect(plan.why.key).toBe('inject')
    // Why says what the best by ohms and the best by a current would leave.
    expect(plan.why.facts).toMatchObject({ ohm: 0, fed: 0 })
  })
  test('a current alone tells no place', () => {
    const s: Situation = { ...opened, positions: { ...opened.positions, injector: { branch: 'B1', into: 'zero' } } }
    const { plans, now } = of(apart, s, INJECTOR)
    // Then whatever follows is done: the voltage at the terminals, 15 s.
    expect(named(plans, AMP).expected).toBeCloseTo(15 + Math.min(now, 15 + 60), 6)
    expect(named(plans, volt('B1')).expected).toBeCloseTo(75, 6)
  })
  // 1.0 and 1.1 Ω in the two loads: 10 % apart, the source’s current known to 8.7 %, the meter’s to 1 % or so.
  test('two ohms near each other, by Bayes’ rule', () => {
    const list: readonly Place[] = [
      { kind: 0, item: 1, at: 2, ohm: 0.5, ohmSd: 0.02, w: 0.5 },
      { kind: 0, item: 2, at: 2, ohm: 0.6, ohmSd: 0.01, w: 0.5 },
    ]
    const belief = placedIn('B1', list)
    const b = branchOf(belief.plant, 'B1')
    const own = belief.branches[0]
    if (own === undefined) throw new Error('a branch')
    const stand = standOf(belief.plant, b, opened.positions, {})
    for (const zeroed of [true, false]) {
      const row = predictedFor(stand, own.places, { read: ohm('B1'), positions: opened.positions, zeroed }, [0, 1], 0)
      const at = (a: Float64Array, j: number): number => a[j] ?? Number.NaN
      const sd = [0, 1].map(j =>
        Math.sqrt(covarianceOf(row, row, j, stand.dims, stand.spread, 0, at(own.places.ohmSd, j)) + at(row.fresh, j)),
      )
      const density = (x: number, j: number): number => Math.exp(-0.5 * ((x - at(row.mean, j)) / (sd[j] ?? 1)) ** 2) / (sd[j] ?? 1)
      const after = [0, 1].map(truth => {
        const [one, two] = [density(at(row.mean, truth), 0), density(at(row.mean, truth), 1)]
        return lookingAt(
          [
            [one / (one + two), 60],
            [two / (one + two), 60],
          ],
          ALONE,
        )
      })
      const alone = ((after[0] ?? 0) + (after[1] ?? 0)) / 2
      // No other reading left: only what this one leaves.
      const others = [ohm('B1/J1'), ohm('B1/X1'), ohm('B1/X2')].map(keyOf)
      const acts = [...b.wiring.runs.map(({ run }) => act({ act: 'run', branch: 'B1', run: run.id, to: 'opened' }))]
      const plugs = ['K1', 'K2'].map(load => act({ act: 'load', branch: 'B1', load, to: 'unplugged' }))
      const setAside = new Set([...others, ...[...acts, ...plugs, act({ act: 'zero-leads' })].map(keyOf)])
      const { plans, now } = plansOf(belief, { ...opened, zeroed, setAside })
      expect(plans).toHaveLength(1)
      expect(plans[0]?.expected).toBeCloseTo(15 + alone, 6)
      expect(alone).toBeGreaterThan(65)
      expect(alone).toBeLessThan(now)
    }
  })
  test('volts and the current that makes them: what both have in common tells nothing, so together they tell more than either', () => {
    const list: readonly Place[] = [
      { kind: 0, item: 1, at: 2, ohm: 1, w: 0.5 },
      { kind: 0, item: 2, at: 2, ohm: 1.25, w: 0.5 },
    ]
    const s: Situation = { ...opened, positions: { ...opened.positions, injector: { branch: 'B1', into: 'zero' } } }
    const places = [volt('B1/J1'), volt('B1/X1'), volt('B1/X2'), volt('earth'), ohm('B1'), ohm('B1/J1'), ohm('B1/X1'), ohm('B1/X2')]
    const earth: Read = { kind: 'read', meter: 'volt', red: 'earth', black: 'B1.zero' }
    const { plans } = of(list, { ...s, setAside: new Set([...places, earth].map(keyOf)) }, INJECTOR)
    const [pair, near, amp] = [named(plans, AMP, volt('B1')), named(plans, volt('B1')), named(plans, AMP)]
    // 25 % apart and known to 2 %: the pair leaves 60 s. The voltage alone leaves 8.7 % of the current in it.
    expect(pair.expected).toBeCloseTo(30 + 60, 1)
    expect(near.expected).toBeGreaterThan(15 + 61)
    // Either alone goes on with what the pair adds: 15 s.
    expect(amp.expected).toBeCloseTo(15 + 15 + 60, 1)
    expect(near.expected).toBeLessThanOrEqual(15 + 15 + 60.1)
  })
})

describe('the same belief told otherwise is answered the same', () => {
  const list: readonly Place[] = [
    { kind: 0, item: 0, at: 4, atSd: 0.4, ohm: 0.1, ohmSd: 0.02, w: 0.25 },
    { kind: 0, item: 1, at: 2, atSd: 0.4, ohm: 0.2, ohmSd: 0.02, w: 0.25 },
    { kind: 1, item: 2, at: 5, atSd: 0.4, ohm: 0.05, ohmSd: 0.02, w: 0.25 },
    { kind: 2, item: 1, ohm: 0.3, ohmSd: 0.05, w: 0.25 },
  ]
  const read = (belief: Belief): Belief =>
    [0.6, 0.62].reduce(
      (b, shown) => observe(b, { of: 'read', read: ohm('B1'), positions: opened.positions, zeroed: true, shown, unsteady: false }),
      belief,
    )
  const none: Place = { kind: 0, item: 0, at: 9, atSd: 0.1, ohm: 0.25, ohmSd: 0.01, w: 1e-9 }
  const halves = list.flatMap(p => [
    { ...p, w: p.w / 2 },
    { ...p, w: p.w / 2 },
  ])
  test.each([
    ['in another order', [...list].reverse()],
    ['with places of no weight among them', [none, ...list.flatMap(p => [p, none])]],
    ['each place in two halves', halves],
  ] as const)('%s', (_, other) => {
    for (const known of [(b: Belief) => b, read])
      for (const kit of [{}, INJECTOR]) {
        const [a, b] = [list, other].map(l => plansOf(known(placedIn('B1', l, smallMachine, kit))))
        if (a === undefined || b === undefined) throw new Error('two')
        // Thinned to 120, a share is known to a hundredth.
        expect(b.now / a.now).toBeCloseTo(1, 1)
        for (const { steps, expected } of a.plans) expect(named(b.plans, ...steps).expected / expected).toBeCloseTo(1, 1)
      }
  })
  test('a reading taken already leaves little to be had from the same one', () => {
    const setAside = new Set(
      [
        ...[ohm('B1/J1'), ohm('B1/X1'), ohm('B1/X2')],
        ...['W1', 'W2', 'W3'].map(run => act({ act: 'run', branch: 'B1', run, to: 'opened' })),
        ...['K1', 'K2'].map(load => act({ act: 'load', branch: 'B1', load, to: 'unplugged' })),
      ].map(keyOf),
    )
    const gain = (b: Belief): number => {
      const { plans, now } = plansOf(b, { ...opened, setAside })
      return now - ((plans[0]?.expected ?? 0) - 15)
    }
    const start = placedIn('B1', list)
    expect(gain(read(start))).toBeLessThan(0.35 * gain(start))
  })
})
