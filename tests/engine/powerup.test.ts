import { describe, expect, test } from 'vitest'
import { timeLine } from '../../engine/inrush.ts'
import type { Load, Machine } from '../../engine/machine.ts'
import { plantOf } from '../../engine/plant.ts'
import { powerUp, stagedFor } from '../../engine/powerup.ts'
import { invent } from '../bench/invent.ts'

/** Loads at the terminals of a branch each, so that only supply and device stand before them. */
const machine = (limit: number | undefined, ...loads: readonly (readonly [Load['kind'], number])[]): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'hand',
  name: 'by hand',
  supply: { setVoltage: 24, ...(limit !== undefined && { limit: { mode: 'constant-current', current: limit } }) },
  branches: loads.map(([kind, watts], i) => ({
    id: `B${i + 1}`,
    protection: { kind: 'breaker', rating: 6, curve: 'C' },
    loads: [{ id: `L${i + 1}`, at: 'terminals', kind, watts }],
  })),
})

const of = (m: Machine): readonly string[] => powerUp(m).steps.map(s => `${s.group} ${s.branch}`)
/** The same machine with a load's data sheet, by its branch. */
const sheet = (m: Machine, inRush: Readonly<Record<string, Load['inRush']>>): Machine => ({
  ...m,
  branches: m.branches.map(b => {
    const told = inRush[b.id]
    return told === undefined ? b : { ...b, loads: (b.loads ?? []).map(l => ({ ...l, inRush: told })) }
  }),
})
const fused = (m: Machine, ...ids: readonly string[]): Machine => ({
  ...m,
  branches: m.branches.map(b => (ids.includes(b.id) ? { ...b, protection: { kind: 'fuse', rating: 6 } } : b)),
})

describe('order', () => {
  test('the greatest in-rush first, and with it what still has room', () => {
    // In-rush without resistance before it: coil 12 W 0.5 A; lamp 12 W 10 × 0.5 = 5 A; motor 60 W 6 × 2.5 = 15 A; electronic 24 W 20 A.
    // Of 30 A, 20 + 5 + 0.5 fit at once; the motor's 15 A do not.
    const m = machine(30, ['coil', 12], ['lamp', 12], ['motor', 60], ['electronic', 24])
    expect(of(m)).toEqual(['0 B4', '0 B2', '0 B1', '1 B3'])
  })
  test('a data sheet changes it', () => {
    const m = machine(12, ['lamp', 24], ['motor', 24])
    expect(of(m)).toEqual(['0 B1', '1 B2'])
    expect(of(sheet(m, { B1: { peak: 5, seconds: 0.1 } }))).toEqual(['0 B2', '0 B1'])
  })
  test('a branch on a fuse comes with the supply: a fuse is fitted without voltage only', () => {
    const m = machine(12.5, ['lamp', 24], ['lamp', 24])
    expect(of(fused(m, 'B2'))).toEqual(['0 B2', '1 B1'])
    const both = powerUp(fused(m, 'B1', 'B2'))
    expect(both.steps.map(s => [s.group, s.past])).toEqual([
      [0, false],
      [0, true],
    ])
    expect(both.fitsAsUsual).toBe(false)
  })
  test('every branch once, on 50 random machines, seeds 1 to 50', () => {
    for (let seed = 1; seed <= 50; seed++) {
      const { machine: m } = invent(seed)
      expect(
        powerUp(m)
          .steps.map(s => s.branch)
          .sort(),
      ).toEqual(m.branches.map(b => b.id).sort())
    }
  })
})

describe('in groups, only where all at once surely asks for too much', () => {
  // Two lamps of 24 W, 9.74 A each at first (below), on 12.5 A.
  const lamps = machine(12.5, ['lamp', 24], ['lamp', 24])
  test('usual figures prove nothing, unless in-rush was found to be the fault', () => {
    expect(stagedFor(lamps)).toBeUndefined()
    expect(stagedFor(lamps, true)?.later.map(s => [s.branch, s.wait])).toEqual([['B2', 0.2]])
  })
  test('a data sheet does', () => {
    // 10 A at 24 V is 2.4 Ω, as the usual ten times: 24 / (2.4 + 0.0467 + 0.003) from 24 − 0.014 × 19.4 V: 2 × 9.69 A.
    const staged = stagedFor(sheet(lamps, { B1: { peak: 10, seconds: 0.1 }, B2: { peak: 10, seconds: 0.1 } }))
    expect(staged?.asked).toBeCloseTo(19.37, 1)
    expect(staged?.limit).toBe(12.5)
    expect(staged?.later.map(s => s.branch)).toEqual(['B2'])
    // One of them alone: 9.74 A and the other's certain 1 A are less than 12.5 A.
    expect(stagedFor(sheet(lamps, { B1: { peak: 10, seconds: 0.1 } }))).toBeUndefined()
  })
  test('not where everything fits, where no limit is known, nor where the loads are too much at rest as well', () => {
    const told = { B1: { peak: 10, seconds: 0.1 }, B2: { peak: 10, seconds: 0.1 } }
    expect(stagedFor(sheet(machine(25, ['lamp', 24], ['lamp', 24]), told))).toBeUndefined()
    expect(stagedFor(sheet(machine(undefined, ['lamp', 24], ['lamp', 24]), told))).toBeUndefined()
    expect(stagedFor(sheet(machine(1.5, ['lamp', 24], ['lamp', 24]), told))).toBeUndefined()
  })
})

describe('waiting', () => {
  test('two lamps that would be too much at once', () => {
    // Each 24 W: 24 / (2.4 + 0.0467 + 0.003 + 0.014) = 9.74 A at first and 1 A in the end, dying away in about 0.1 s. Both at once 19.5 A.
    const found = powerUp(machine(12.5, ['lamp', 24], ['lamp', 24]))
    expect(found.steps[0]).toMatchObject({ wait: 0, past: false })
    expect(found.steps[0]?.peak).toBeCloseTo(9.74, 1)
    // After t the first draws 1 + 8.74 e^(−t/0.1): below 12.5 − 9.74 = 2.76 A from t = 0.1 × ln(8.74 / 1.76) = 0.16 s on.
    expect(found.steps[1]?.wait).toBe(0.2)
    expect([found.atLimit, found.fitsAsUsual]).toEqual([0, true])
    // The figures are usual ones, so that nobody may call it certain.
    expect([found.fits, found.guessed]).toEqual(['not known', ['B1/L1', 'B2/L2']])
  })
  test('with room enough, no wait', () => {
    expect(powerUp(machine(25, ['lamp', 24], ['lamp', 24])).steps.map(s => s.wait)).toEqual([0, 0])
  })
  test('what never fits is named, and how long the supply is at its limit', () => {
    // 10 × 60/24 = 25 A of a supply of 12 A.
    const found = powerUp(machine(12, ['lamp', 60], ['coil', 6]))
    expect(found.steps.map(s => s.past)).toEqual([true, false])
    expect(found.fitsAsUsual).toBe(false)
    expect(found.atLimit).toBeGreaterThan(0.02)
    expect(Math.max(...found.line.map(m => m.ampere))).toBeCloseTo(12, 9)
    expect(found.lowest).toBeLessThan(20.4)
  })
  test('known in-rush makes it certain; coils have none', () => {
    expect(powerUp(machine(12, ['coil', 24], ['coil', 24])).fits).toBe('yes')
    const told = { B1: { peak: 20, seconds: 0.01 } }
    expect(powerUp(sheet(machine(12, ['lamp', 24]), told)).fits).toBe('no')
    expect(powerUp(sheet(machine(25, ['lamp', 24]), told)).fits).toBe('yes')
  })
  test('a limit that nobody knows', () => {
    const found = powerUp(machine(undefined, ['lamp', 24], ['lamp', 24]))
    expect([found.fits, found.fitsAsUsual, found.limit]).toEqual(['not known', undefined, undefined])
    expect(found.steps.map(s => s.wait)).toEqual([0, 1])
  })
  test('within the limit wherever it says so, on 60 random machines with three times their supply, seeds 1 to 60', () => {
    let fitting = 0
    for (let seed = 1; seed <= 60; seed++) {
      const { machine: m, supply } = invent(seed)
      const strong: Machine = { ...m, supply: { ...m.supply, limit: { mode: 'constant-current', current: 3 * supply.limit } } }
      const found = powerUp(strong)
      if (!found.fitsAsUsual) continue
      fitting++
      // Asked for without any limit it stays below the limit all the same.
      const asked = timeLine(plantOf(strong), found.steps, (found.steps.at(-1)?.at ?? 0) + 1, Infinity)
      expect(Math.max(...asked.map(x => x.ampere)), `seed ${seed}`).toBeLessThanOrEqual(3 * supply.limit)
    }
    expect(fitting).toBeGreaterThan(20)
  })
})

describe('what is asked for, and what may be called certain', () => {
  const coil = machine(12, ['coil', 24])
  const supplied = (supply: Machine['supply']) => powerUp({ ...coil, supply: { setVoltage: 24, ...supply } }).limit
  const limit = { mode: 'constant-current', current: 12 } as const
  test('a limit, else the rated current; a reserve above it, if it lasts as long as an in-rush, 1 s', () => {
    expect(supplied({ limit, ratedCurrent: 10 })).toBe(12)
    expect(supplied({ ratedCurrent: 10 })).toBe(10)
    expect(supplied({ limit, reserve: { current: 20, seconds: 1 } })).toBe(20)
    expect(supplied({ limit, reserve: { current: 20, seconds: 0.9 } })).toBe(12)
    expect(supplied({ limit, reserve: { current: 5, seconds: 5 } })).toBe(12)
    expect(supplied({ reserve: { current: 20, seconds: 5 } })).toBe(20)
    expect('limit' in powerUp(machine(undefined, ['coil', 24]))).toBe(false)
  })
  test('nothing is certain while a branch has loads that nobody has told, or one of no known watts', () => {
    const beside = (loads: readonly Load[] | undefined): Machine => ({
      ...coil,
      branches: [...coil.branches, { id: 'B2', protection: { kind: 'breaker', rating: 6 }, ...(loads && { loads }) }],
    })
    const known: Load = { id: 'K2', at: 'terminals', kind: 'coil', watts: 24 }
    const fits = (loads?: readonly Load[]) => powerUp(beside(loads)).fits
    expect(fits([known])).toBe('yes')
    expect([fits(), fits([]), fits([known, { id: 'K3', at: 'terminals', kind: 'coil' }])]).toEqual(['not known', 'not known', 'not known'])
  })
})

describe('groups', () => {
  const guardedBy = (m: Machine, id: string, protection: Machine['branches'][number]['protection']): Machine => ({
    ...m,
    branches: m.branches.map(({ protection: own, ...b }) => {
      const now = b.id === id ? protection : own
      return now === undefined ? b : { ...b, protection: now }
    }),
  })
  test('a wire without a device comes with the supply, an electronic device is switched like a breaker', () => {
    const m = machine(12.5, ['lamp', 24], ['lamp', 24])
    expect(of(guardedBy(m, 'B2', undefined))).toEqual(['0 B2', '1 B1'])
    expect(of(guardedBy(m, 'B2', { kind: 'none' }))).toEqual(['0 B2', '1 B1'])
    expect(of(guardedBy(m, 'B2', { kind: 'electronic', rating: 6 }))).toEqual(['0 B1', '1 B2'])
  })
  test('three lamps wait for one another', () => {
    // Each 1 + 8.74 e^(−t/0.1) A. At 0.4 s the first two still draw 1.16 + 2.18 A: with 9.74 A more than 12.5 A. At 0.7 s 2.07 A.
    const { steps } = powerUp(machine(12.5, ['lamp', 24], ['lamp', 24], ['lamp', 24]))
    expect(steps.map(s => s.wait)).toEqual([0, 0.2, 0.5])
    expect(steps.map(s => Math.round(s.at * 1e6) / 1e6)).toEqual([0, 0.2, 0.7])
  })
  test('what has room at first but not when the next comes waits for it', () => {
    // A coil of 1 A beside the first lamp's 9.74 A; but at 0.2 s the lamps ask for 2.18 + 9.74 = 11.92 A, and 12.92 A are too many.
    expect(of(machine(12.5, ['lamp', 24], ['lamp', 24], ['coil', 24]))).toEqual(['0 B1', '1 B2', '2 B3'])
    // 0.25 A have room: 12.17 A.
    expect(of(machine(12.5, ['lamp', 24], ['lamp', 24], ['coil', 6]))).toEqual(['0 B1', '0 B3', '1 B2'])
  })
  test('two that never fit, each after the other has settled, and for how long the supply is at its limit', () => {
    const found = powerUp(machine(12, ['lamp', 60], ['lamp', 58]))
    expect(found.steps.map(s => [s.group, s.wait, s.past])).toEqual([
      [0, 0, true],
      [1, 1, true],
    ])
    // 2.5 + 22.5 e^(−t/0.1) A is down to 12 A after 0.1 ln(22.5/9.5) = 0.086 s. Held down the lamp warms more slowly, by less than half.
    const { atLimit } = powerUp(machine(12, ['lamp', 60]))
    expect(atLimit).toBeGreaterThan(0.086)
    expect(atLimit).toBeLessThan(2 * 0.086)
  })
  test('with no limit known nothing is past it', () => {
    const m = machine(undefined, ['lamp', 24], ['lamp', 24], ['lamp', 24])
    expect(powerUp(fused(m, 'B1', 'B2')).steps.map(s => [s.group, s.wait, s.past])).toEqual([
      [0, 0, false],
      [0, 0, false],
      [1, 1, false],
    ])
  })
  test('nothing is put off where all come with the supply anyway; a load of unknown watts does not hide the others', () => {
    const told = { B1: { peak: 10, seconds: 0.1 }, B2: { peak: 10, seconds: 0.1 } }
    const lamps = sheet(machine(12.5, ['lamp', 24], ['lamp', 24]), told)
    expect(stagedFor(fused(lamps, 'B1', 'B2'))).toBeUndefined()
    const more: Machine = { ...lamps, branches: [...lamps.branches, { id: 'B3', loads: [{ id: 'K', at: 'terminals', kind: 'coil' }] }] }
    expect(stagedFor(more)?.asked).toBeGreaterThan(19)
    expect(stagedFor(more)?.asked).toBeLessThan(21)
  })
  test('a machine of no branches has nothing to switch on', () => {
    expect(powerUp(machine(5)).steps).toEqual([])
  })
})
