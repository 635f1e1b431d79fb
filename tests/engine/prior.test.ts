// What the log and the technician know beforehand, in the belief that a session starts from.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Belief, begin, branchShares, placeLogs, shares } from '../../engine/belief.ts'
import { type Learned, WORTH } from '../../engine/history.ts'
import type { Machine } from '../../engine/machine.ts'
import { IN_LOAD } from '../../engine/place.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Known } from '../../engine/prior.ts'
import type { FaultKind, Symptom } from '../../engine/step.ts'

const machine: Machine = {
  format: 'ohmward.machine',
  version: 1,
  id: 'packer',
  name: 'Packer',
  supply: { zeroVoltBonded: true },
  branches: [
    {
      id: 'B1',
      wiring: [
        { id: 'W1', from: 'terminals', to: 'J1', length: 10 },
        { id: 'W2', from: 'J1', to: 'X1', length: 5, moving: true },
      ],
      loads: [
        { id: 'Y1', at: 'X1', kind: 'coil' },
        { id: 'K1', at: 'J1', kind: 'coil' },
      ],
    },
    { id: 'B2', wiring: [{ id: 'W3', from: 'terminals', to: 'X2', length: 60 }], loads: [{ id: 'Y2', at: 'X2', kind: 'electronic' }] },
    { id: 'B3' },
  ],
}
const plant = plantOf(machine)
const start = (symptom: Symptom, known?: Known): Belief => begin(plant, {}, symptom, known)
const found = (fault: FaultKind, branch?: string, item: Pick<Learned, 'run' | 'load'> = {}, times = 1): Learned => ({
  fault,
  ...(branch === undefined ? {} : { branch }),
  ...item,
  times,
})
/** Of all short circuits, those on a run or in a load. */
const shortShare = (b: Belief, branch: number, item: number, inLoad = false): number => {
  const own = b.branches[branch]
  const logs = placeLogs(b, branch)
  const { evidence, short } = shares(b)
  const here = logs.reduce(
    (sum, v, j) => (own?.places.item[j] === item && (own.places.kind[j] === IN_LOAD) === inLoad ? sum + Math.exp(v - evidence) : sum),
    0,
  )
  return here / short.reduce((a, v) => a + v)
}
const openShare = (b: Belief, branch: number, run?: number): number => {
  const { suspected } = shares(b)
  const of = (is: (s: Belief['suspicions'][number]) => boolean): number =>
    suspected.reduce((sum, v, i) => (is(b.suspicions[i] as Belief['suspicions'][number]) ? sum + v : sum), 0)
  const all = of(s => s.run !== undefined)
  return of(s => s.branch === branch && s.run !== undefined && (run === undefined || s.run === run)) / all
}

test('another supply puts nothing out of service: a branch that is named says nothing of where one feeds', () => {
  const fed = (b: Belief): number[] =>
    b.suspicions.flatMap((x, i) => (x.fault === 'backfeed' ? [shares(b).suspected[i] ?? Number.NaN] : []))
  expect(fed(start('trips-again', { branch: 'B2' }))).toEqual(fed(start('trips-again')).map(x => expect.closeTo(x, 12)))
})

describe('the log', () => {
  test.each(['all-dead', 'one-branch-dead', 'comes-and-goes'] as const)(
    '%s: nothing in the log changes nothing, to the last bit',
    symptom => {
      const [with0, without] = [start(symptom, { learned: [] }), start(symptom)]
      expect(shares(with0)).toEqual(shares(without))
      expect(with0.fromLog).toEqual({ findings: 0, share: 0 })
    },
  )
  test('three alike lift a run from its prior as a prior worth 20 entries says: (20 p + 3)/(20 + 3)', () => {
    // 'trips-again', which says nothing of how low a short circuit is: the shares are those of the prior alone.
    const [before, after] = [start('trips-again'), start('trips-again', { learned: [found('short-to-zero', 'B1', { run: 'W2' }, 3)] })]
    const p = shortShare(before, 0, 1)
    // To the hundredth: loads that draw too much count apart, and what comes and goes lies in conductors alone.
    expect(shortShare(after, 0, 1)).toBeCloseTo((WORTH * p + 3) / (WORTH + 3), 1)
    expect(shortShare(after, 1, 0)).toBeCloseTo((WORTH * shortShare(before, 1, 0)) / (WORTH + 3), 1)
  })
  test('the small case of five causes: 4, 2, 2, 1, 1 and counts 6, 1, 0, 0, 3 give .50 .15 .10 .05 .20', () => {
    // Five equal runs but for their lengths, a prior worth ten: so the counts are doubled for a prior worth twenty.
    const five: Machine = {
      ...machine,
      branches: [4, 2, 2, 1, 1].map((length, i) => ({ id: `B${i}`, wiring: [{ id: `W${i}`, from: 'terminals', to: 'X', length }] })),
    }
    const learned = [6, 1, 0, 0, 3].flatMap((n, i) => (n === 0 ? [] : [found('short', `B${i}`, { run: `W${i}` }, 2 * n)]))
    const b = begin(plantOf(five), {}, 'trips-again', { learned })
    const { short } = shares(b)
    const all = short.reduce((sum, v) => sum + v)
    expect([...short].map(v => Number((v / all).toFixed(6)))).toEqual([0.5, 0.15, 0.1, 0.05, 0.2])
  })
  test('conductors that broke and joints that failed count together, devices by themselves', () => {
    const learned = [found('open-plus', 'B2', { run: 'W3' }), found('poor-joint', 'B2', { run: 'W3' }), found('device-open', 'B1', {}, 5)]
    const [before, after] = [start('one-load-dead'), start('one-load-dead', { learned })]
    expect(openShare(after, 1)).toBeCloseTo((WORTH * openShare(before, 1) + 2) / (WORTH + 2), 9)
    const { deviceOpen } = shares(after)
    expect(deviceOpen[0]).toBeCloseTo(deviceOpen.reduce((a, v) => a + v) * ((WORTH / 3 + 5) / (WORTH + 5)), 9)
  })
  test('a place where a short circuit came and went counts as a short circuit; a load that was joined wrongly counts for that load', () => {
    const worn = [found('intermittent', 'B1', { run: 'W2' }, 3)]
    expect(shortShare(start('trips-again', { learned: worn }), 0, 1)).toBeGreaterThan(shortShare(start('trips-again'), 0, 1) + 0.05)
    const learned = [found('swapped', 'B1', { load: 'Y1' }, 5)]
    const at = (b: Belief): number => {
      const all = b.suspicions.map((s, i) => ({ ...s, p: shares(b).suspected[i] ?? 0 })).filter(s => s.fault === 'swapped')
      return all.filter(s => s.branch === 0 && s.load === 0).reduce((sum, s) => sum + s.p, 0) / all.reduce((sum, s) => sum + s.p, 0)
    }
    const p = at(start('one-load-dead'))
    expect(p).toBeGreaterThan(0)
    expect(at(start('one-load-dead', { learned }))).toBeCloseTo((WORTH * p + 5) / (WORTH + 5), 9)
  })
  test('each kind of fault keeps the weight that the symptom gives it', () => {
    const learned = [found('short', 'B2', {}, 30), found('device-open', 'B3', {}, 30), found('open-zero', 'B1', { run: 'W1' }, 30)]
    const totals = (b: Belief) => {
      const s = shares(b)
      const sum = (of: Float64Array) => of.reduce((a, v) => a + v, 0)
      return [sum(s.short), sum(s.deviceOpen), sum(s.suspected), s.supplyDead, s.noMains, s.other]
    }
    for (const symptom of ['trips-again', 'one-branch-dead'] as const)
      totals(start(symptom, { learned })).forEach((v, i) => {
        expect(v).toBeCloseTo(totals(start(symptom))[i] ?? 0, 9)
      })
  })
  test('it says how many findings count, and what share of the prior is theirs', () => {
    const learned = [
      found('short', 'B2', {}, 3),
      found('open-plus', 'B1', {}, 2),
      found('no-mains', undefined, {}, 9),
      found('short', 'B9'),
    ]
    // A dead supply is no open conductor: those two findings do not count there.
    const { findings, share } = start('all-dead', { learned }).fromLog
    expect(findings).toBe(3)
    expect(share).toBeCloseTo((0.842 * 3) / 23, 12)
    expect(start('one-load-dead', { learned }).fromLog.findings).toBe(5)
  })
  const entry = fc.record({
    fault: fc.constantFrom<FaultKind>('short', 'short-to-earth', 'load-short', 'open-zero', 'device-open', 'supply-dead'),
    branch: fc.constantFrom('B1', 'B2', 'B3', 'B9'),
    run: fc.constantFrom('W1', 'W2', 'W3', 'Y1'),
    times: fc.integer({ min: 1, max: 10_000 }),
  })
  test('[seed 6] whatever the log says, no cause gets probability zero and all of them sum to 1', () => {
    fc.assert(
      fc.property(
        fc.array(entry, { maxLength: 12 }),
        fc.constantFrom<Symptom>('all-dead', 'one-branch-dead', 'trips-again'),
        (learned, symptom) => {
          const b = start(symptom, { learned })
          const s = shares(b)
          for (let k = 0; k < plant.branches.length; k++) expect(Math.min(...placeLogs(b, k))).toBeGreaterThan(-Infinity)
          const parts = [...s.short, ...s.deviceOpen, ...s.suspected, s.supplyDead, s.noMains, s.other]
          expect(Math.min(...parts)).toBeGreaterThan(0)
          expect(parts.reduce((a, v) => a + v)).toBeCloseTo(1, 9)
        },
      ),
      { seed: 6, numRuns: 60 },
    )
  })
})

describe('what is out of service', () => {
  test('a branch that is named holds 97 of 100 of what lies in branches, and of each kind', () => {
    const b = start('one-branch-dead', { branch: 'B1' })
    const s = shares(b)
    for (const of of [s.short, s.deviceOpen]) expect((of[0] ?? 0) / of.reduce((a, v) => a + v)).toBeCloseTo(0.97, 2)
    expect(openShare(b, 0)).toBeCloseTo(0.97, 9)
    expect(Math.min(...branchShares(b))).toBeGreaterThan(0.001)
  })
  test('a load that is named leaves open conductors on the way to it, and short circuits anywhere in its branch', () => {
    const b = start('one-load-dead', { branch: 'B1', load: 'K1' })
    expect(openShare(b, 0, 0)).toBeCloseTo(0.97, 9)
    expect(openShare(b, 0, 1)).toBeLessThan(0.03)
    const { short } = shares(b)
    expect((short[0] ?? 0) / short.reduce((a, v) => a + v)).toBeCloseTo(0.97, 2)
  })
  test('a name that the machine does not have changes nothing', () => {
    expect(shares(start('one-branch-dead', { branch: 'B9' }))).toEqual(shares(start('one-branch-dead')))
  })
  test('log and name work together', () => {
    const learned = [found('open-plus', 'B1', { run: 'W2' }, 5)]
    const [alone, both] = [start('one-load-dead', { branch: 'B1' }), start('one-load-dead', { branch: 'B1', learned })]
    expect(openShare(both, 0)).toBeCloseTo(0.97, 9)
    expect(openShare(both, 0, 1)).toBeGreaterThan(openShare(alone, 0, 1) + 0.1)
  })
})
