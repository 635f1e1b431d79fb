// How often a short circuit that comes and goes was there: learned from each reading, so that clean ohms weigh less the more of them there were.
import { expect, test } from 'vitest'
import { AT_FIRST, type Belief, shares } from '../../engine/belief.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import { dead, rowOfBranches } from './machines.ts'
import { startOf } from './weighed.ts'

const machine = rowOfBranches(4)
const positions = dead(machine)
const ohm = (shown: number): Evidence => ({
  of: 'read',
  read: { kind: 'read', meter: 'ohm', red: 'B2.plus', black: 'B2.zero' },
  positions,
  zeroed: true,
  shown,
  unsteady: false,
})
const read = (...shown: readonly number[]): Belief => shown.map(ohm).reduce(observe, startOf(machine))
const presentOf = (b: Belief) => b.branches[1]?.present
const flickerOf = (b: Belief): number => (shares(b).flicker[1] ?? 0) / (shares(b).flicker[0] ?? 0)

test('clean ohms count as away, low ones as there, in one and the same branch only', () => {
  const clean = read(62)
  expect(presentOf(clean)?.there).toBeCloseTo(AT_FIRST.there, 2)
  expect(presentOf(clean)?.away).toBeCloseTo(AT_FIRST.away + 1, 2)
  expect(clean.branches[0]?.present).toEqual(AT_FIRST)
  const low = read(0.6)
  expect(presentOf(low)?.there).toBeCloseTo(AT_FIRST.there + 1, 1)
  expect(presentOf(low)?.away).toBeCloseTo(AT_FIRST.away, 1)
})
test('of one clean reading after the other each takes less: 3/5, 4/6, 5/7, as a beta distribution of the share tells', () => {
  const odds = [read(), read(62), read(62, 62), read(62, 62, 62)].map(flickerOf)
  const left = odds.slice(1).map((x, i) => x / (odds[i] as number))
  ;[3 / 5, 4 / 6, 5 / 7].forEach((share, i) => {
    expect(left[i]).toBeCloseTo(share, 2)
  })
})
