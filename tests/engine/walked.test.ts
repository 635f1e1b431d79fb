// Having gone and looked in vain: what is left of the place, and that nothing else moves.
import { expect, test } from 'vitest'
import { type Belief, begin } from '../../engine/belief.ts'
import { IN_LOAD } from '../../engine/place.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Finding } from '../../engine/step.ts'
import { runId, type Suspicion } from '../../engine/suspicion.ts'
import { walkedPast } from '../../engine/walked.ts'
import { smallMachine } from '../bench/small.ts'

// Common practice, no source: 2 of 100 are missed at a place, 15 of 100 along a whole cable.
const MISSED = Math.log(0.02)
const SOMEWHERE = Math.log(0.15)
const before = begin(plantOf(smallMachine), {}, 'all-dead')
const oneOut = begin(plantOf(smallMachine), {}, 'one-branch-dead')
const low = begin(plantOf(smallMachine), {}, 'all-low')
const after = (finding: Omit<Finding, 'probability'>, from: Belief = before): Belief => walkedPast(from, { ...finding, probability: 0.5 })

interface Place {
  readonly branch: number
  readonly inLoad: boolean
  readonly item: string
  readonly at: number
}
/** The places whose share has gone down, with by how much. */
const lessened = (belief: Belief): readonly (Place & { readonly by: number })[] =>
  belief.branches.flatMap((x, branch) => {
    const { wiring, loads } = belief.plant.branches[branch] ?? { wiring: { runs: [] }, loads: [] }
    return [...x.walked].flatMap((by, j) => {
      const inLoad = x.places.kind[j] === IN_LOAD
      const item = x.places.item[j] ?? -1
      const id = inLoad ? loads[item]?.load.id : wiring.runs[item]?.run.id
      return by === 0 ? [] : [{ branch, inLoad, item: id ?? '', at: x.places.at[j] ?? Number.NaN, by }]
    })
  })
const lowered = (belief: Belief, from = before): readonly Suspicion[] => {
  for (const [i, v] of belief.suspected.entries()) if (v !== from.suspected[i]) expect(v - (from.suspected[i] ?? 0)).toBeCloseTo(MISSED, 12)
  return belief.suspicions.filter((_, i) => belief.suspected[i] !== from.suspected[i])
}
/** Those that are so, of which there must be some. */
const all = (belief: Belief, is: (x: Suspicion) => boolean): readonly Suspicion[] => {
  const found = belief.suspicions.filter(is)
  expect(found.length).toBeGreaterThan(0)
  return found
}

test('a stretch of a run: half a metre past each end is looked at as well, in both kinds of conductor short, and nowhere else', () => {
  const alongRun = { best: 3.5, low: 3, high: 4 }
  const places = lessened(after({ fault: 'short', branch: 'B1', run: 'W1', alongRun }))
  expect(new Set(places.map(p => `${p.branch} ${p.item} ${p.inLoad}`))).toEqual(new Set(['0 W1 false']))
  const hit = new Set(places.map(p => p.at))
  const cells = new Set(
    [...(before.branches[0]?.places.at ?? [])].filter(
      (_, j) => before.branches[0]?.places.kind[j] !== IN_LOAD && before.branches[0]?.places.item[j] === 0,
    ),
  )
  expect(hit).toEqual(new Set([...cells].filter(at => at > 2.5 && at < 4.5)))
  expect(hit.size).toBeGreaterThan(0)
  for (const { by } of places) expect(by).toBeCloseTo(MISSED, 12)
})

test('a whole branch is easier missed', () => {
  const places = lessened(after({ fault: 'short', branch: 'B2' }))
  expect(places).toHaveLength(before.branches[1]?.places.count ?? 0)
  for (const { branch, by } of places) expect([branch, by]).toEqual([1, expect.closeTo(SOMEWHERE, 12)])
  // A run of which no stretch is named stands for its branch, but is looked at more closely.
  const run = lessened(after({ fault: 'short', branch: 'B2', run: 'W9' }))
  expect(run).toHaveLength(places.length)
  for (const { by } of run) expect(by).toBeCloseTo(MISSED, 12)
})

test('a load: its own short circuits, and what else of it shows while one looks', () => {
  const looked = after({ fault: 'load-short', branch: 'B1', load: 'K2' })
  const places = lessened(looked)
  expect(new Set(places.map(p => `${p.branch} ${p.item} ${p.inLoad}`))).toEqual(new Set(['0 K2 true']))
  expect(lowered(looked)).toEqual(all(before, x => x.branch === 0 && x.load === 1))
  for (const fault of ['swapped', 'diode'] as const) {
    const one = after({ fault, branch: 'B1', load: 'K2' })
    expect(lowered(one)).toEqual(all(before, x => x.branch === 0 && x.load === 1))
    expect(lessened(one)).toEqual([])
    // Of no load in particular: all loads of the branch.
    expect(lowered(after({ fault, branch: 'B1' }))).toEqual(all(before, x => x.branch === 0 && x.load !== undefined))
  }
})

test('another supply is looked for at one branch, or at the bus; too much load of all together at none', () => {
  expect(lowered(after({ fault: 'backfeed' }))).toEqual(all(before, x => x.fault === 'backfeed' && x.branch === undefined))
  expect(lowered(after({ fault: 'backfeed', branch: 'B2' }))).toEqual(all(before, x => x.fault === 'backfeed' && x.branch === 1))
  for (const fault of ['overload', 'in-rush'] as const)
    expect(lowered(after({ fault }))).toEqual(all(before, x => x.branch === undefined && (x.fault === 'overload' || x.fault === 'in-rush')))
})

test('an open conductor or a poor joint: along one run all of those, of the whole branch where no run is named', () => {
  for (const fault of ['open-plus', 'open-zero', 'poor-joint'] as const) {
    const inRun = all(oneOut, x => x.branch === 0 && runId(oneOut.plant, x) === 'W2')
    expect(lowered(after({ fault, branch: 'B1', run: 'W2' }, oneOut), oneOut)).toEqual(inRun)
    expect(inRun.length).toBeGreaterThan(2)
    expect(lowered(after({ fault, branch: 'B1' }, oneOut), oneOut)).toEqual(all(oneOut, x => x.branch === 0))
  }
  expect(lowered(after({ fault: 'supply-low' }, low), low)).toEqual(all(low, x => x.fault === 'supply-low'))
})

test('at the supply each finding lowers its own', () => {
  const dead = after({ fault: 'supply-dead' })
  expect([dead.supplyDead - before.supplyDead, dead.noMains - before.noMains]).toEqual([expect.closeTo(MISSED, 12), 0])
  const mains = after({ fault: 'no-mains' })
  expect([mains.supplyDead - before.supplyDead, mains.noMains - before.noMains]).toEqual([0, expect.closeTo(MISSED, 12)])
})

test("a device that was said to be open is its own branch's alone, and no place of a short circuit", () => {
  const looked = after({ fault: 'device-open', branch: 'B2' })
  expect(looked.branches.map((x, b) => x.deviceOpen - (before.branches[b]?.deviceOpen ?? 0))).toEqual([0, expect.closeTo(MISSED, 12)])
  expect(lessened(looked)).toEqual([])
})

test('a branch that the machine has not changes nothing', () => {
  expect(after({ fault: 'short', branch: 'B9' })).toEqual(before)
})
