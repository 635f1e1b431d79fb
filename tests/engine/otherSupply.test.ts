// Which branch another supply feeds: groups of devices opened with the supply off, the bus read after each, then branch by branch.
import { describe, expect, test } from 'vitest'
import { begin } from '../../engine/belief.ts'
import { otherSupply } from '../../engine/otherSupply.ts'
import type { Situation } from '../../engine/plan.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Finding, Read, Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { dead, rowOfBranches } from './machines.ts'
import { device, sharesOf, situationOf } from './shared.ts'

const machine = rowOfBranches(10)
const belief = begin(plantOf(machine), {}, 'all-dead')
const volts = (place: string): Read => ({ kind: 'read', meter: 'volt', red: `${place}.plus`, black: `${place}.zero` })
/** How likely another supply feeds B1, B2 …, and the bus; what else is suspected has the rest and plays no part. */
const next = (fed: readonly number[], positions: Positions, more: Partial<Situation> = {}, bus = 0): ReturnType<typeof otherSupply> =>
  otherSupply(
    belief,
    sharesOf(belief, { suspected: x => (x.fault === 'backfeed' ? (x.branch === undefined ? bus : (fed[x.branch] ?? 0)) : 0.7) }),
    situationOf(machine, positions, { power: 'off', ...more }),
  )
const PROVE_DEAD: Step = { kind: 'act', act: { act: 'prove-dead' } }
const open = (...ids: readonly string[]): Positions => dead(machine, ids)
const taken = (...places: readonly string[]): Pick<Situation, 'taken'> => ({ taken: new Set(places.map(p => keyOf(volts(p)))) })
const steps = (of: ReturnType<typeof otherSupply>): readonly Step[] => (of !== undefined && 'steps' in of ? of.steps : [])
const even = Array.from({ length: 10 }, () => 0.05)

describe('when it is looked for', () => {
  test('with the supply off and nothing fed in; where it is proved dead only past devices that may have been open then', () => {
    expect(next(even, open())).toBeDefined()
    expect(next(even, { ...open(), supply: 'on' })).toBeUndefined()
    const proved = { power: 'provedDead' } as const
    expect(next(even, open(), proved)).toBeUndefined()
    expect(steps(next([0.003, 0.0021], open('B1', 'B2'), proved))).toEqual([volts('B1')])
    expect(next([0.003, 0.0019], open('B1', 'B2'), proved)).toBeUndefined()
    expect(next([0.003, 0.0021], open('B2'), proved)).toBeUndefined()
    // Named only from where it would be looked for at all.
    expect(next([0, 0.04], open('B2'), { ...proved, ...taken('B2') })).toBeUndefined()
    expect(next([0, 0.06], open('B2'), proved)).toMatchObject({ fault: 'backfeed', branch: 'B2' })
    expect(next(even, { ...open('B1'), injector: { branch: 'B1', into: 'zero' } })).toBeUndefined()
  })
  test('from a chance of 5 in 100 on; once begun, while half a hundredth is left', () => {
    expect(next([0.02, 0.029], open())).toBeUndefined()
    expect(next([0.025, 0.025], open())).toBeDefined()
    const begun = { ...taken('B3') }
    expect(next([0.003, 0.003], open('B3'), begun)).toBeDefined()
    expect(next([0.003, 0.0019], open('B3'), begun)).toBeUndefined()
    // A voltage read at a branch whose device is closed is no beginning.
    expect(next([0.003, 0.003], open(), begun)).toBeUndefined()
    expect(next([0.003, 0.003], open('B4'), begun)).toBeUndefined()
  })
})

describe('groups of the square root of their number', () => {
  test.each([
    [10, 4],
    [9, 3],
    [5, 3],
    [4, 2],
    [2, 2],
  ])('of %d branches that may be fed, %d are opened and the bus is read', (n, group) => {
    // The later the likelier, so that the order is seen.
    const fed = Array.from({ length: n }, (_, i) => (1 + 0.01 * i) / (2 * n))
    const ids = Array.from({ length: group }, (_, i) => `B${n - i}`)
    expect(next(fed, open())).toEqual({
      steps: [...ids.map(id => device(id, 'open')), volts('bus')],
      expected: 6 * group + 15,
      why: { key: 'other-supply', facts: { count: group } },
    })
  })
  test('a branch of less than a thousandth of it is none of them', () => {
    expect(steps(next([0.3, 0.3, 0.3, 0.3, 0.0011], open())).filter(x => x.kind === 'act')).toHaveLength(2)
    // 0.0013 of 1.2013 is more than a thousandth: five branches, three a group.
    expect(steps(next([0.3, 0.3, 0.3, 0.3, 0.0013], open())).filter(x => x.kind === 'act')).toHaveLength(3)
  })
  test('one closed branch alone is no group: it is left', () => {
    const seen = { setAside: new Set([keyOf({ kind: 'finding', finding: { fault: 'backfeed', branch: 'B1', probability: 0.5 } })]) }
    expect(steps(next([0.5], open(), seen))).toEqual([PROVE_DEAD])
    // But the bus itself may be fed: then it tells which of the two.
    expect(steps(next([0.5], open(), seen, 0.2))).toEqual([device('B1', 'open'), volts('bus')])
  })
  test('what cannot be opened leaves single readings', () => {
    const cannot = { setAside: new Set([keyOf(device('B1', 'open')), keyOf(device('B2', 'open'))]) }
    expect(steps(next([0.3, 0.3], open(), cannot))).toEqual([PROVE_DEAD])
    expect(steps(next([0.3, 0.3, 0.1], open('B3'), cannot))).toEqual([volts('B3')])
  })
})

describe('past an opened device', () => {
  test('once what is open holds more than what is closed, its branches are read, the likeliest first', () => {
    expect(next([0.1, 0.2, 0.1, 0.05], open('B1', 'B2'))).toEqual({
      steps: [volts('B2')],
      expected: 15,
      why: { key: 'other-supply-branch', facts: {} },
    })
    expect(steps(next([0.1, 0.2, 0.1, 0.05], open('B1', 'B2'), taken('B2')))).toEqual([volts('B1')])
    const cannot = { setAside: new Set([keyOf(volts('B2'))]) }
    expect(steps(next([0.1, 0.2, 0.1, 0.05], open('B1', 'B2'), cannot))).toEqual([volts('B1')])
  })
  test('while what is closed holds as much, the next group is opened', () => {
    expect(steps(next([0.1, 0.1, 0.1, 0.1], open('B1', 'B2')))).toEqual([device('B3', 'open'), device('B4', 'open'), volts('bus')])
    expect(steps(next([0.1, 0.11, 0.1, 0.1], open('B1', 'B2')))).toEqual([volts('B2')])
  })
  test('all read, and nothing closed to go on with: it may have run empty, and is proved dead again; where that was refused nothing is asked', () => {
    expect(next([0.3, 0.3], open('B1', 'B2'), taken('B1', 'B2'))).toMatchObject({ steps: [PROVE_DEAD], why: { key: 'prove-dead-again' } })
    expect(next([0.02, 0.02], open('B1', 'B2'), taken('B1', 'B2'))).toBeUndefined()
    expect(next([0.3, 0.3], open('B1', 'B2'), { ...taken('B1', 'B2'), setAside: new Set([keyOf(PROVE_DEAD)]) })).toBeUndefined()
  })
  test('a branch that holds nothing any more is not read', () => {
    expect(steps(next([0.0002, 0.3, 0.3], open('B1', 'B2', 'B3'), taken('B2', 'B3')))).toEqual([PROVE_DEAD])
  })
})

test('from three quarters on the branch is named, with its share of all', () => {
  const finding: Finding = { fault: 'backfeed', branch: 'B2', probability: 0.08 }
  expect(next([0.02, 0.08], open())).toEqual({ ...finding, probability: expect.closeTo(0.08, 9) })
  expect(next([0.03, 0.08], open())).toMatchObject({ why: { key: 'other-supply' } })
  // Said to be wrong already, in another share: the search goes on.
  const seen = { setAside: new Set([keyOf({ kind: 'finding', finding })]) }
  expect(next([0.02, 0.08], open(), seen)).toMatchObject({ why: { key: 'other-supply' } })
  // At the bus, it has no branch.
  expect(next([0.02], open(), {}, 0.08)).toEqual({ fault: 'backfeed', probability: expect.closeTo(0.08, 9) })
})
