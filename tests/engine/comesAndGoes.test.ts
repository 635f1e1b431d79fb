// A short circuit that comes and goes: what is read or walked next is what finds most for its seconds.
import { describe, expect, test } from 'vitest'
import { begin, type Shared, shares } from '../../engine/belief.ts'
import { comesAndGoes } from '../../engine/comesAndGoes.ts'
import { costOf } from '../../engine/cost.ts'
import { findingOf, spots } from '../../engine/locate.ts'
import type { Situation } from '../../engine/plan.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Finding, Read, Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { dead, found, rowOfBranches } from './machines.ts'
import { device, sharesOf, situationOf } from './shared.ts'

const machine = rowOfBranches(3)
const plant = plantOf(machine)
const belief = begin(plant, {}, 'comes-and-goes')
const unknown = begin(plantOf({ ...machine, branches: machine.branches.map(({ id }) => ({ id })) }), {}, 'comes-and-goes')
const ohm = (branch: string, reversed = false): Read => {
  const [red, black] = reversed ? ['zero', 'plus'] : ['plus', 'zero']
  return { kind: 'read', meter: 'ohm', red: `${branch}.${red}`, black: `${branch}.${black}` }
}
const closed = situationOf(machine, dead(machine, []))
const opened = situationOf(machine, dead(machine))
const flicker = (...p: readonly number[]): Shared => sharesOf(belief, { short: p, flicker: p })
const next = (shared: Shared, s: Situation, of = belief): readonly Step[] => {
  const plan = comesAndGoes(of, shared, s)
  return plan === undefined ? [] : 'steps' in plan ? plan.steps : [{ kind: 'finding', finding: plan }]
}
/** A branch read so many times, the probes the other way round each time. */
const watched = (times: number, branch: string) => Array.from({ length: times }, (_, i) => ({ read: ohm(branch, i % 2 === 1), shown: 50 }))

describe('a reading while what moves is moved', () => {
  test('the likeliest branch, past its open device; why says the branch and its share', () => {
    expect(comesAndGoes(belief, flicker(0.1, 0.5, 0.2), closed)).toEqual({
      steps: [device('B2', 'open'), ohm('B2')],
      expected: 0,
      why: { key: 'watch-moving', facts: { branch: 'B2', p: 50 } },
    })
    expect(next(flicker(0.1, 0.5, 0.2), opened)).toEqual([ohm('B2')])
  })
  test('read once already, the probes change places each time; read six times, the next branch is', () => {
    const readSo = (times: number) => ({ ...opened, ohms: times === 0 ? [] : watched(times, 'B2') })
    for (const times of [0, 1, 2, 3, 4, 5]) expect(next(flicker(0.1, 0.5, 0.2), readSo(times))).toEqual([ohm('B2', times % 2 === 1)])
    expect(next(flicker(0, 0.3, 0.29), readSo(6))).toEqual([ohm('B3')])
    // Readings at other points of the branch, or at the bus, are none of it.
    const beside = [{ read: { kind: 'read', meter: 'ohm', red: 'B2/J1.plus', black: 'B2/J1.zero' }, shown: 20 } as const]
    expect(next(flicker(0, 0.3, 0.29), { ...opened, ohms: [...watched(5, 'B2'), ...beside] })).toEqual([ohm('B2', true)])
  })
  test('per second: 0.4 × 0.3 over 15 s is more than 0.4 × 0.35 over 21 s with a device to open', () => {
    const some = situationOf(machine, dead(machine, ['B1']))
    expect(next(flicker(0.3, 0.35), some)).toEqual([ohm('B1')])
    expect(next(flicker(0.3, 0.45), some)).toEqual([device('B2', 'open'), ohm('B2')])
  })
  test('on a live machine it is made dead first', () => {
    const live = situationOf(machine, found(machine))
    const steps = next(flicker(0.1, 0.9, 0), live)
    expect(steps.at(-1)).toEqual(ohm('B2'))
    expect(steps.slice(0, -1).map(x => (x.kind === 'act' ? x.act.act : x.kind))).toEqual(['supply', 'prove-dead', 'device'])
  })
  test('what cannot be done is not asked for; what holds less than three in a thousand neither', () => {
    const cannot = { ...closed, setAside: new Set([keyOf(device('B2', 'open'))]) }
    expect(next(flicker(0.1, 0.5, 0.2), cannot)).toEqual([device('B3', 'open'), ohm('B3')])
    expect(next(flicker(0.0029, 0.003, 0), closed)).toEqual([])
    expect(next(sharesOf(unknown, { flicker: [0, 0.0031] }), closed, unknown)).toEqual([device('B2', 'open'), ohm('B2')])
    expect(next(flicker(), closed)).toEqual([])
  })
})

describe('a walk', () => {
  const read = { ...opened, ohms: ['B1', 'B2', 'B3'].flatMap(id => watched(6, id)) }
  test('once all is read, to the place that holds most for its seconds', () => {
    const [step] = next(flicker(0.3, 0.5, 0.2), read)
    if (step?.kind !== 'finding') throw new Error('a walk')
    const all = ['B1', 'B2', 'B3'].flatMap(id => spots(belief, id)).map(x => findingOf(x, true))
    const worth = (f: Finding): number => f.probability / costOf(plant, { kind: 'finding', finding: f })
    expect(worth(step.finding)).toBe(Math.max(...all.map(worth)))
    const seen = { ...read, setAside: new Set([keyOf(step)]) }
    const [second] = next(flicker(0.3, 0.5, 0.2), seen)
    expect(second?.kind).toBe('finding')
    expect(second).not.toEqual(step)
  })
  test('a branch with nothing to speak of is not walked', () => {
    for (const step of next(flicker(0, 0.5, 0), read)) expect(step).toMatchObject({ kind: 'finding', finding: { branch: 'B2' } })
    expect(next(flicker(0.002, 0.002, 0.002), read)).toEqual([])
  })
  test('where nobody has told the wiring, the branch itself', () => {
    const shared = sharesOf(unknown, { flicker: [0.2, 0.4, 0.004] })
    expect(next(shared, read, unknown)).toEqual([{ kind: 'finding', finding: { fault: 'intermittent', branch: 'B2', probability: 0.4 } }])
    expect(next(sharesOf(unknown, { flicker: [0, 0.0029] }), read, unknown)).toEqual([])
  })
  test('whichever finds more for its seconds comes first', () => {
    // Runs of a metre: 65 s and less for a walk, 15 + 40 + 6 + 15 = 76 s for a reading from a live machine, 15 s from one that is cut
    // off. A walk finds all of it, a reading shows 4 of 10.
    const near = { ...machine, branches: machine.branches.map(b => ({ ...b, wiring: b.wiring?.map(r => ({ ...r, length: 1 })) ?? [] })) }
    const short = begin(plantOf(near), {}, 'comes-and-goes')
    const shared = shares(short)
    expect(next(shared, situationOf(near, found(near)), short)[0]).toMatchObject({ kind: 'finding' })
    expect(next(shared, situationOf(near, dead(near)), short)).toEqual([ohm('B1')])
  })
})
