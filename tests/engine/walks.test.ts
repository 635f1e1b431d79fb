// Reading on or going to look, and where to go once nothing can be read any more.
import { describe, expect, test } from 'vitest'
import { shares } from '../../engine/belief.ts'
import { choose } from '../../engine/choose.ts'
import { costOf } from '../../engine/cost.ts'
import { pinpointing } from '../../engine/pinpoint.ts'
import type { Situation } from '../../engine/plan.ts'
import { branchOf, plantOf } from '../../engine/plant.ts'
import type { Finding } from '../../engine/step.ts'
import type { Suspicion } from '../../engine/suspicion.ts'
import { tracing } from '../../engine/tracing.ts'
import { keyOf } from '../../engine/way.ts'
import { smallMachine } from '../bench/small.ts'
import { dead } from './machines.ts'
import { type Place, placedIn } from './placed.ts'
import { situationOf } from './shared.ts'
import { row, type Weights, weighted } from './weights.ts'

const cut = situationOf(row, dead(row))

/** Nobody can read or switch anything: only walks are left. */
class WalksAlone extends Set<string> {
  override has(key: string): boolean {
    return super.has(key) || !key.startsWith('{"kind":"finding"')
  }
}
/** Every walk that is asked for, one after the other, each in vain. */
const walks = (of: Weights, machine = row, from: Situation = cut): Finding[] => {
  const belief = weighted(of, machine)
  const setAside = new WalksAlone()
  const list: Finding[] = []
  for (let n = 0; n < 60; n++) {
    const step = choose(belief, { ...from, setAside })?.steps[0]
    if (step === undefined) return list
    if (step.kind !== 'finding') throw new Error(`asked for ${JSON.stringify(step)}`)
    list.push(step.finding)
    setAside.add(keyOf(step))
  }
  throw new Error('no end')
}
const named = (f: Finding): string => [f.fault, f.branch, f.run, f.load].filter(x => x !== undefined).join(' ')

describe('where nothing can be read any more', () => {
  const other = (x: Suspicion): number => {
    if (x.fault === 'open-plus') return x.branch === 0 ? 0.05 : 0
    if (x.fault === 'overload') return x.branch === undefined ? 0.04 : x.branch === 3 ? 0.03 : 0
    return x.fault === 'supply-low' ? 0.034 : 0
  }
  test('walks go by what they find for their seconds, whatever the fault', () => {
    const of: Weights = { short: [0.19, 0.18, 0.004], supplyDead: 0.05, noMains: 0.01, deviceOpen: [0, 0, 0.012, 0.0015], suspected: other }
    const every = walks(of)
    const list = every.slice(0, -1)
    // At last the likeliest branch once more, its run from end to end.
    expect(every.at(-1)).toEqual({
      fault: 'short',
      branch: 'B1',
      run: 'W1',
      alongRun: { best: 6, low: 0, high: 12 },
      fromTerminals: { best: 6, low: 0, high: 12 },
      probability: expect.closeTo(0.19, 9),
    })
    const worth = list.map(f => f.probability / costOf(plantOf(row), { kind: 'finding', finding: f }))
    expect(worth).toEqual([...worth].sort((a, b) => b - a))
    const names = list.map(named)
    for (const name of [
      'short-to-zero B1 W1',
      'load-short B1 K1',
      'load-short B2 K2',
      'open-plus B1 W1',
      'overload B4 K4',
      'overload',
      'supply-dead',
      'no-mains',
      'device-open B3',
      'supply-low',
    ])
      expect(
        names.filter(n => n === name || (name.startsWith('short') && n.endsWith('B1 W1') && n.startsWith('short'))),
        name,
      ).toHaveLength(1)
    // Less than two in a thousand, and branches of less than five, are not walked for.
    expect(names).not.toContain('device-open B4')
    expect(names.some(n => n.startsWith('short') && n.includes('B3'))).toBe(false)
    for (const f of list) expect(f.probability).toBeGreaterThan(0.002)
  })
  test('what is set low at the supply is gone to from a tenth on', () => {
    const low =
      (p: number) =>
      (x: Suspicion): number =>
        x.fault === 'supply-low' ? p / 3 : 0
    expect(walks({ short: [0.19, 0.19, 0.15], suspected: low(0.11) }).map(named)).toContain('supply-low')
    expect(walks({ short: [0.19, 0.19, 0.15], suspected: low(0.09) }).map(named)).not.toContain('supply-low')
  })
  test('along wiring that nobody has told, a branch is one walk', () => {
    const blind = { ...row, branches: row.branches.map(({ id }) => ({ id })) }
    expect(walks({ short: [0.4, 0.3, 0.006, 0.004] }, blind)).toEqual(
      [0.4, 0.3, 0.006].map((p, i) => ({ fault: 'short', branch: `B${i + 1}`, probability: p })),
    )
  })
  test('the likeliest branch’s places first while it holds more than a fifth', () => {
    expect(walks({ short: [0.1, 0.4, 0.1] })[0]?.branch).toBe('B2')
    expect(walks({ short: [0.1, 0.4, 0.1] })[1]?.branch).toBe('B2')
  })
  test('a device that was seen tripped is no question any more: why it opened is', () => {
    const hot = (x: Suspicion): number => (x.fault === 'overload' && x.branch === 1 ? 0.4 : 0)
    const tripped = { ...cut, positions: { ...cut.positions, devices: { ...cut.positions.devices, B2: 'tripped' } } } as const
    expect(named(walks({ suspected: hot, deviceOpen: [0, 0.5] }, row, tripped)[0] ?? { fault: 'short', probability: 0 })).toBe(
      'overload B2 K2',
    )
    expect(named(walks({ suspected: hot, deviceOpen: [0, 0.5] })[0] ?? { fault: 'short', probability: 0 })).toBe('device-open B2')
  })
})

describe('one load that holds more than the rest', () => {
  const held =
    (of: { readonly own: number; readonly loads?: number; readonly traced?: number }) =>
    (x: Suspicion): number => {
      if (x.fault === 'overload') return x.branch === 1 ? of.own : x.branch === 2 ? (of.loads ?? 0) : 0
      return x.fault === 'open-plus' && x.branch === 0 ? (of.traced ?? 0) : 0
    }
  const first = (of: Weights): string => {
    const step = choose(weighted(of), cut)?.steps[0]
    return step?.kind === 'finding' ? named(step.finding) : 'read on'
  }
  test('is looked at before anything is read', () => {
    const of = { short: [0.2], deviceOpen: [0, 0, 0.2], suspected: held({ own: 0.24, loads: 0.12, traced: 0.2 }) }
    expect(first(of)).toBe('overload B2 K2')
  })
  test.each([
    ['the short circuits', { short: [0.15, 0.15], suspected: held({ own: 0.24 }) }],
    ['what the wiring can show', { suspected: held({ own: 0.24, traced: 0.26 }), short: [0.05] }],
    ['the open devices', { deviceOpen: [0.1, 0.1, 0.1], suspected: held({ own: 0.24 }), short: [0.1] }],
  ] as const)('but not where %s hold more', (_, of) => {
    expect(first(of)).not.toBe('overload B2 K2')
  })
  test('and not where it cannot be gone to', () => {
    const of = { short: [0.2], suspected: held({ own: 0.4 }) }
    const [walk] = choose(weighted(of), cut)?.steps ?? []
    if (walk === undefined) throw new Error('a walk')
    expect(first(of)).toBe('overload B2 K2')
    expect(choose(weighted(of), { ...cut, setAside: new Set([keyOf(walk)]) })?.steps[0]).not.toEqual(walk)
  })
})

describe('tracing, or going to look', () => {
  const runs =
    (of: Readonly<Record<string, number>>) =>
    (x: Suspicion): number =>
      x.fault === 'open-plus' ? (of[`B${(x.branch ?? -1) + 1}`] ?? 0) : 0
  test('the best reading while it is expected to cost less than looking now', () => {
    const belief = weighted({ suspected: runs({ B1: 0.2, B2: 0.25, B3: 0.3 }) })
    const { plans, now } = tracing(belief, shares(belief), cut)
    expect(plans[0]?.expected).toBeLessThan(now)
    expect(choose(belief, cut)).toEqual(plans[0])
  })
  test('devices that may be open count beside open conductors against short circuits', () => {
    const key = (open: number): string | undefined => {
      const belief = weighted({ suspected: runs({ B1: 0.15, B2: 0.1 }), deviceOpen: [open], short: [0.2, 0.12] })
      const { plans } = tracing(belief, shares(belief), cut)
      return JSON.stringify(choose(belief, cut)) === JSON.stringify(plans[0]) ? 'traced' : 'not'
    }
    expect(key(0.1)).toBe('traced')
    expect(key(0.04)).toBe('not')
  })
  test('where nothing can be read the likeliest run is gone to; of unknown wiring, only from three in ten on', () => {
    expect(named(walks({ suspected: runs({ B1: 0.2, B2: 0.3 }) })[0] ?? { fault: 'short', probability: 0 })).toBe('open-plus B2 W2')
    const blind = { ...row, branches: row.branches.map(({ id }) => ({ id })) }
    expect(walks({ suspected: runs({ B2: 0.31 }), short: [0.2], supplyDead: 0.1 }, blind).map(named)[0]).toBe('open-plus B2')
    expect(walks({ suspected: runs({ B2: 0.29 }), short: [0.2], supplyDead: 0.1 }, blind).map(named)[0]).toBe('supply-dead')
  })
})

describe('where in the branch: reading on, or going to look', () => {
  const s = situationOf(smallMachine, dead(smallMachine))
  const apart: readonly Place[] = [
    { kind: 0, item: 2, at: 3, ohm: 0.05, w: 0.5 },
    { kind: 2, item: 0, ohm: 5, w: 0.5 },
  ]
  test('the best reading while it costs less than looking now', () => {
    const belief = placedIn('B1', apart)
    const { plans, now } = pinpointing(belief, branchOf(belief.plant, 'B1'), s)
    expect(plans[0]?.expected).toBeLessThan(now)
    expect(choose(belief, s)).toEqual(plans[0])
  })
  test('nothing to be had from reading on: the likeliest place, and once that is seen, the next', () => {
    const belief = placedIn('B1', [
      { kind: 0, item: 2, at: 3, ohm: 0.05, w: 0.6 },
      { kind: 2, item: 0, ohm: 5, w: 0.4 },
    ])
    const setAside = new WalksAlone()
    const one = choose(belief, { ...s, setAside })?.steps[0]
    expect(one).toMatchObject({ kind: 'finding', finding: { run: 'W3', probability: 0.6 } })
    if (one !== undefined) setAside.add(keyOf(one))
    expect(choose(belief, { ...s, setAside })?.steps[0]).toMatchObject({ kind: 'finding', finding: { load: 'K1', probability: 0.4 } })
  })
  test('nine in ten sure, and a reading that saves less than five seconds: go', () => {
    const sure = placedIn('B1', [
      { kind: 0, item: 2, at: 3, ohm: 0.05, w: 0.99 },
      { kind: 2, item: 0, ohm: 5, w: 0.01 },
    ])
    expect(choose(sure, s)?.why.key).toBe('go-look')
    const { plans, now } = pinpointing(sure, branchOf(sure.plant, 'B1'), s)
    expect(plans[0]?.expected).toBeGreaterThan(now - 5)
  })
})
