// Ohms and injected volts, weighed by Bayes' rule: what a branch that is cut off shows, and what the bus shows of those that are closed.
import { describe, expect, test } from 'vitest'
import { type AtBus, ohmsAtBus } from '../../engine/atBus.ts'
import type { Belief } from '../../engine/belief.ts'
import { extend } from '../../engine/chain.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import type { PlantBranch } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import { predictedFor, standOf } from '../../engine/reading.ts'
import { type Sound, soundDensity, soundOf, together } from '../../engine/sound.ts'
import type { ProbeRead, Read } from '../../engine/step.ts'
import { isTraced, type Suspicion, seenLoads } from '../../engine/suspicion.ts'
import { smallMachine } from '../bench/small.ts'
import { dead } from './machines.ts'
import { normal, now, orWrong, startOf } from './weighed.ts'

const before = startOf()
const { plant } = before
const cut = dead(smallMachine)
const ohm = (place: string): ProbeRead => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })
const read = (of: Read, shown: number | 'OL', positions: Positions, more: { zeroed?: boolean; unsteady?: boolean } = {}): Evidence => ({
  ...{ of: 'read', read: of, positions, zeroed: true, shown, unsteady: false },
  ...more,
})
/** OL comes by itself in 5 of 100 wrong readings. */
const chanceOf = (s: Sound, shown: number | 'OL', zeroed = true): number => {
  const density = soundDensity(s, shown, zeroed ? 0 : 0.25)
  return shown === 'OL' ? 0.98 * density + 0.02 * 0.05 : orWrong(density, shown)
}
const branchAt = (b: number): PlantBranch => {
  const found = plant.branches[b]
  if (found === undefined) throw new Error('no such branch')
  return found
}
const gain = (after: Belief, from = before): number[] => from.suspicions.map((_, i) => (after.suspected[i] ?? 0) - (from.suspected[i] ?? 0))
const near = (value: number | undefined, expected: number, name = ''): void => expect(value, name).toBeCloseTo(expected, 9)

describe('a branch that is cut off', () => {
  const [B1, own] = [branchAt(0), before.branches[0]]
  if (own === undefined) throw new Error('a branch')
  test.each([
    [60, true, false],
    [60, false, false],
    [0.5, true, false],
    [0.5, true, true],
    ['OL', true, false],
  ] as const)('%s Ω, zeroed: %s, unsteady: %s', (shown, zeroed, unsteady) => {
    const after = observe(before, read(ohm('B1'), shown, cut, { zeroed, unsteady }))
    const sound = chanceOf(soundOf(B1, cut), shown, zeroed)
    const now1 = after.branches[0]
    near(now1?.sound, Math.log(sound))
    const row = predictedFor(
      standOf(plant, B1, cut, {}),
      own.places,
      { read: ohm('B1'), positions: cut, zeroed },
      Int32Array.from({ length: own.places.count }, (_, j) => j),
      shown,
      unsteady,
    )
    const { log } = extend(own.chain, row, Math.log(sound))
    for (let j = 0; j < own.places.count; j += 5) {
      near(now1?.chain.log[j], log[j] ?? Number.NaN, `place ${j}`)
      // One that comes and goes is there four times in ten; else the branch is a sound one.
      if (own.flicker[j] !== -Infinity)
        near((now1?.flicker[j] ?? 0) - (own.flicker[j] ?? 0), Math.log(now(Math.exp(log[j] ?? 0), sound)), `flicker ${j}`)
    }
    // The other branch and what lies at the supply are as they were; they are weighed by this branch's being sound.
    expect(after.branches[1]).toBe(before.branches[1])
    expect([after.supplyDead, after.noMains, after.other]).toEqual([before.supplyDead, before.noMains, before.other])
    gain(after).forEach((g, i) => {
      const x = before.suspicions[i] as Suspicion
      const own1 = x.branch === 0 && isTraced(x)
      near(g, own1 ? Math.log(chanceOf(seenLoads(plant, cut, ohm('B1'), x), shown, zeroed) / sound) : 0, JSON.stringify(x))
    })
  })
  test('with a run opened, beyond it: what is sound there is what its probes still see', () => {
    const open = { ...cut, openedRuns: ['B1/W2'] }
    const far = ohm('B1/W2')
    for (const shown of [120, 0.5, 'OL'] as const) {
      near(observe(before, read(far, shown, open)).branches[0]?.sound, Math.log(chanceOf(seenLoads(plant, open, far), shown)))
      // A run opened in another branch is no matter.
      const other = { ...cut, openedRuns: ['B2/W9'] }
      near(observe(before, read(ohm('B1'), shown, other)).branches[0]?.sound, Math.log(chanceOf(soundOf(B1, other), shown)))
    }
  })
})

describe('a branch that is fed by a source of current', () => {
  const fed: Positions = { ...cut, injector: { branch: 'B1', into: 'zero' } }
  const volt: Read = { kind: 'read', meter: 'volt', red: 'B1.plus', black: 'B1.zero' }
  const soundOfB1 = (of: Read, shown: number | 'OL'): number | undefined => observe(before, read(of, shown, fed)).branches[0]?.sound
  test('sound, it takes the source’s whole voltage: anything from 4 V on, 22 V of them alike', () => {
    near(soundOfB1(volt, 20), Math.log(orWrong(1 / 22, 20)))
    near(soundOfB1(volt, 4.1), Math.log(orWrong(1 / 22, 4.1)))
    near(soundOfB1(volt, -20), Math.log(orWrong(1 / 22, -20)))
    near(soundOfB1(volt, 4), Math.log(orWrong(0.002, 4)))
    near(soundOfB1(volt, 0.5), Math.log(orWrong(0.002, 0.5)))
    near(soundOfB1(volt, 'OL'), Math.log(0.98 * 0.002 + 0.02 * 0.05))
  })
  test('sound, it takes little current: below 0.8 A as dense as 1 a volt, above less', () => {
    const amp: Read = { kind: 'read', meter: 'amp', branch: 'B1' }
    near(soundOfB1(amp, 0.4), Math.log(orWrong(1, 0.4)))
    near(soundOfB1(amp, 0.79), Math.log(orWrong(1, 0.79)))
    near(soundOfB1(amp, 0.8), Math.log(orWrong(0.3, 0.8)))
    near(soundOfB1(amp, 'OL'), Math.log(0.98 * 0.3 + 0.02 * 0.05))
  })
  test('a diode that conducts keeps 1.4 V, give or take 0.6; what is only too much load draws as a sound one', () => {
    for (const shown of [1.4, 2, 20, 'OL'] as const) {
      const diode = shown === 'OL' ? 0.02 * 0.05 : orWrong(normal(shown, 1.4, 0.6), shown)
      const sound = Math.exp(soundOfB1(volt, shown) ?? Number.NaN)
      gain(observe(before, read(volt, shown, fed))).forEach((g, i) => {
        const x = before.suspicions[i] as Suspicion
        const conducts = x.branch === 0 && x.holds === true && x.fault !== 'overload'
        near(g, conducts ? Math.log(diode / sound) : 0, JSON.stringify(x))
      })
    }
  })
  test('a current says nothing of it', () => {
    for (const g of gain(observe(before, read({ kind: 'read', meter: 'amp', branch: 'B1' }, 0.9, fed)))) near(g, 0)
  })
})

describe('ohms at the bus', () => {
  const shut = (...open: readonly string[]): Positions => dead(smallMachine, open)
  test.each([
    ['both closed', []],
    ['B1 open', ['B1']],
    ['both open', ['B1', 'B2']],
  ] as const)('%s', (_, open) => {
    const p = shut(...open)
    const closed = plant.branches.filter(b => p.devices[b.id] === 'closed')
    const sounds = (but?: PlantBranch): Sound => together(closed.filter(b => b !== but).map(b => soundOf(b, p)))
    for (const [shown, zeroed] of [
      [30, true],
      [0.6, true],
      [0.6, false],
      ['OL', true],
    ] as const) {
      const after = observe(before, read(ohm('bus'), shown, p, { zeroed }))
      const all = Math.log(chanceOf(sounds(), shown, zeroed))
      near(after.supplyDead - before.supplyDead, all)
      near(after.noMains - before.noMains, all)
      near(after.other - before.other, all)
      for (const b of plant.branches) {
        const [own, next] = [before.branches[b.index], after.branches[b.index]]
        if (own === undefined || next === undefined) throw new Error('two branches')
        const isClosed = closed.includes(b)
        // Opened by itself, the device takes its branch out of what the bus sees.
        const without = isClosed ? Math.log(chanceOf(sounds(b), shown, zeroed)) : all
        near(next.tripped - own.tripped, without)
        near(next.deviceOpen - own.deviceOpen, without)
        expect(next.sound).toBe(own.sound)
        expect(next.chain.log).toEqual(own.chain.log)
        const seen: AtBus = { plant, kit: {}, branch: b, places: own.places, positions: p, others: sounds(b) }
        const log = isClosed ? extend(own.chain, ohmsAtBus(seen, shown, zeroed), all).log : undefined
        expect(next.chain.rows).toHaveLength(isClosed ? 1 : 0)
        for (let j = 0; j < own.places.count; j += 5) {
          const there = log?.[j] ?? all
          near((next.outside[j] ?? 0) - (own.outside[j] ?? 0), there, `${b.id} ${j}`)
          if (own.flicker[j] !== -Infinity)
            near(
              (next.flicker[j] ?? 0) - (own.flicker[j] ?? 0),
              isClosed ? Math.log(now(Math.exp(there), Math.exp(all))) : all,
              `flicker ${b.id} ${j}`,
            )
        }
      }
      gain(after).forEach((g, i) => {
        const x = before.suspicions[i] as Suspicion
        const b = x.branch === undefined ? undefined : branchAt(x.branch)
        const own = b !== undefined && closed.includes(b) && isTraced(x)
        near(g, own ? Math.log(chanceOf(seenLoads(plant, p, ohm('bus'), x), shown, zeroed)) : all, JSON.stringify(x))
      })
    }
  })
})

describe('a reading that nothing can be made of', () => {
  test('ohms at the terminals of a branch whose device is closed leave everything as it was', () => {
    expect(observe(before, read(ohm('B1'), 0.5, dead(smallMachine, [])))).toBe(before)
  })
  test('so do volts at the bus while a branch is fed', () => {
    const fed: Positions = { ...cut, injector: { branch: 'B1', into: 'zero' } }
    expect(observe(before, read({ kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus.zero' }, 3, fed))).toBe(before)
  })
})
