// Whether a device that was said to be opened is open: looked at once somebody has walked in vain.
import { describe, expect, test } from 'vitest'
import { type Belief, shares } from '../../engine/belief.ts'
import { doubtedDevice } from '../../engine/doubt.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import type { Plan } from '../../engine/plan.ts'
import type { FaultKind, Finding, Look } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { dead, rowOfBranches } from './machines.ts'
import { situationOf } from './shared.ts'
import { startOf } from './weighed.ts'

const machine = rowOfBranches(4)
// Of four branches the third has by far the most wiring.
const long = {
  ...machine,
  branches: machine.branches.map((b, i) => (i === 2 ? { ...b, wiring: b.wiring?.map(r => ({ ...r, length: 60 })) ?? [] } : b)),
}
const positions = dead(machine)
const before = startOf(long)
const ohm = (branch: string, shown: number): Evidence => ({
  of: 'read',
  read: { kind: 'read', meter: 'ohm', red: `${branch}.plus`, black: `${branch}.zero` },
  positions,
  zeroed: true,
  shown,
  unsteady: false,
})
const finding = (branch: string, fault: FaultKind = 'short-to-zero', run = 1): Finding => ({
  fault,
  branch,
  run: `W${run}`,
  probability: 0.5,
})
const keys = (...findings: readonly Finding[]): ReadonlySet<string> => new Set(findings.map(f => keyOf({ kind: 'finding', finding: f })))
const lookAt = (branch: string): Look => ({ kind: 'look', look: 'device', branch })
const doubted = (belief: Belief, walked: readonly Finding[], more: Partial<Parameters<typeof doubtedDevice>[1]> = {}): Plan | undefined =>
  doubtedDevice(belief, situationOf(long, positions, { setAside: keys(...walked), ...more }))
const inVain = (belief: Belief, ...findings: readonly Finding[]): Belief =>
  findings.reduce((b, f) => observe(b, { of: 'looked', finding: f }), belief)
const short = (b: Belief): number => shares(b).short.reduce((sum, p, i) => sum + p - (shares(b).flicker[i] ?? 0), 0)

const low = observe(observe(before, ohm('B2', 0.4)), ohm('B2', 0.4))

describe('a branch read past its device and walked in vain', () => {
  const walked = finding('B2', 'short')
  const after = inVain(low, walked)
  test('its device is looked at, for five seconds', () => {
    expect(doubted(after, [walked])).toEqual({ steps: [lookAt('B2')], expected: 5, why: { key: 'device-open', facts: { branch: 'B2' } } })
  })
  test('not before anybody has walked, nor twice, nor where it cannot be seen, nor one that counts as closed', () => {
    expect(doubted(after, [])).toBeUndefined()
    expect(doubted(after, [walked], { taken: new Set([keyOf(lookAt('B2'))]) })).toBeUndefined()
    expect(doubted(after, [walked], { setAside: new Set([...keys(walked), keyOf(lookAt('B2'))]) })).toBeUndefined()
    expect(doubted(after, [walked], { positions: dead(long, ['B1', 'B3', 'B4']) })).toBeUndefined()
  })
  test('either alone is no reason: walked without a reading of its own, or read without having been walked', () => {
    expect(doubted(inVain(before, walked), [walked])).toBeUndefined()
    expect(doubted(low, [walked])).toBeUndefined()
  })
})

describe('two walks in vain, and a short circuit that stays is still the likelier', () => {
  const one = finding('B2', 'short-to-zero')
  const other = finding('B2', 'load-short', 2)
  test('then all other devices are looked at, the one with most wiring behind it first', () => {
    expect(short(low)).toBeGreaterThan(0.5)
    expect(doubted(low, [one])).toBeUndefined()
    expect(doubted(low, [one, other])?.steps).toEqual([lookAt('B3')])
    expect(doubted(low, [one, other], { taken: new Set([keyOf(lookAt('B3'))]) })?.steps).toHaveLength(1)
    expect(doubted(low, [one, other], { taken: new Set([keyOf(lookAt('B3'))]) })?.steps).not.toEqual([lookAt('B3')])
    expect(doubted(low, [one, other], { positions: dead(long, []) })).toBeUndefined()
  })
  test('walks for what is no short circuit that stays do not count', () => {
    for (const fault of ['intermittent', 'open-plus', 'overload', 'backfeed'] as const)
      expect(doubted(low, [one, finding('B2', fault, 2)]), fault).toBeUndefined()
    expect(doubted(low, [one, finding('B2', 'short-to-earth', 2)])).toBeDefined()
  })
  test('unless the bus was low when it was last read: walks for what comes and goes count as well', () => {
    const atBus = (...shown: readonly (number | 'OL')[]) => ({
      ohms: shown.map(x => ({ read: { kind: 'read', meter: 'ohm', red: 'bus.plus', black: 'bus.zero' } as const, shown: x })),
    })
    const walks = [finding('B2', 'intermittent', 1), finding('B2', 'intermittent', 2)]
    expect(doubted(low, walks, atBus(40, 0.8))?.steps).toEqual([lookAt('B3')])
    for (const shown of [[0.8, 40], ['OL'], [2.1], []] as const) expect(doubted(low, walks, atBus(...shown)), `${shown}`).toBeUndefined()
    expect(doubted(low, walks.slice(1), atBus(0.8))).toBeUndefined()
    // Then what seems to come and go may be one that stays, behind a device left closed.
    const clean = ['B1', 'B2', 'B3', 'B4'].reduce((b, id) => observe(b, ohm(id, 62)), before)
    expect(short(clean)).toBeLessThan(0.1)
    expect(shares(clean).flicker.reduce((sum, p) => sum + p, 0)).toBeGreaterThan(0.5)
    expect(doubted(clean, walks, atBus(0.8))?.steps).toEqual([lookAt('B3')])
  })
  test('ohms that speak for no short circuit any more leave no device in doubt', () => {
    const clean = ['B1', 'B2', 'B3', 'B4'].reduce((b, id) => observe(observe(b, ohm(id, 62)), ohm(id, 62)), before)
    expect(short(clean)).toBeLessThan(0.1)
    // Much of what is left comes and goes: that is no short circuit that stays.
    expect(shares(clean).flicker.reduce((sum, p) => sum + p, 0)).toBeGreaterThan(0.3)
    expect(doubted(clean, [one, other])).toBeUndefined()
  })
})
