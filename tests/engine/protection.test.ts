// Cases reckoned by hand, with the arithmetic beside each.
import { describe, expect, test } from 'vitest'
import { advise } from '../../engine/advice.ts'
import { bears } from '../../engine/capacity.ts'
import type { Branch, Load, Machine, Protection, Supply } from '../../engine/machine.ts'
import { USUAL } from '../../engine/prospect.ts'
import { protectionOf, verdictFor } from '../../engine/protection.ts'
import { guardOf, serviceOf } from '../../engine/service.ts'

const B4: Protection = { kind: 'breaker', rating: 4, curve: 'B' }
const steady = (current: number): Supply['limit'] => ({ mode: 'constant-current', current })
/** 40 m of 1.5 mm² to one junction, on a supply of 24 V. */
const machine = (
  limit: Supply['limit'] | undefined,
  protection: Protection | undefined,
  loads: readonly Load[] = [],
  more: readonly Branch[] = [],
): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'hand',
  name: 'by hand',
  supply: { setVoltage: 24, ...(limit && { limit }) },
  branches: [
    {
      id: 'B1',
      wiring: [{ id: 'W1', from: 'terminals', to: 'J1', length: 40, conductor: { area: 1.5, class: 5 } }],
      ...(protection && { protection }),
      loads,
    },
    ...more,
  ],
})
const coil = (watts: number): Load => ({ id: 'Y1', at: 'J1', kind: 'coil', watts })
const atOnce = (m: Machine) => verdictFor(m, 'B1', USUAL, 0.1)
const and = (m: Machine, supply: Partial<Supply>): Machine => ({ ...m, supply: { ...m.supply, ...supply } })

// What every case shares. Beside the cable: supply and its leads 0.010 + 2 × 0.002 = 0.014 Ω, device 0.25/4 + 0.005 = 0.0675 Ω,
// 0 V link 0.003 Ω, joints 2 × 0.0005 = 0.001 Ω: 0.0855 Ω. Cable at 70 °C: 0.0133 × (1 + 0.00393 × 50) = 0.015913 Ω/m, 0.031827 for
// both conductors. B 4 A opens from 1.5 × 5 × 4 = 30 A and stays closed up to 3 × 4 = 12 A.
describe('does it open at once?', () => {
  test('up to 22.45 m', () => {
    // 24 V / 30 A = 0.8 Ω; less 0.0855 leaves 0.7145 Ω of cable, 0.7145 / 0.031827 = 22.45 m.
    const v = atOnce(machine(steady(60), B4))
    expect(v.opens).toBe('up to')
    expect(v.upTo).toBeCloseTo(22.45, 1)
    expect(v.endsIn).toBe('W1')
    // Cold, 5 °C and 8 % under: 0.0133 × 0.92 × (1 − 0.00393 × 15) = 0.011515 Ω/m. At 40 m 2 × 0.4606 + 0.0855 = 1.0067 Ω, 23.8 A:
    // above 12 A, so that nowhere does it certainly stay closed.
    expect(v.neverPast).toBeCloseTo(40, 6)
    // 24 / (0.0855 + 40 × 0.031827) = 17.67 A at the far end; the limit of 60 A at the terminals.
    expect(v.figures.lowFar).toBeCloseTo(17.67, 2)
    expect([v.figures.lowNear, v.figures.highNear]).toEqual([60, 60])
  })
  test('always: B 1 A needs 7.5 A and gets 15.5 A at the far end', () => {
    // Device 0.25/1 + 0.005 = 0.255 Ω: 0.014 + 0.255 + 0.003 + 0.001 + 1.27308 = 1.5461 Ω, 24 / 1.5461 = 15.52 A.
    const v = atOnce(machine(steady(60), { ...B4, rating: 1 }))
    expect([v.opens, v.upTo]).toEqual(['always', 40])
    expect(v.figures.lowFar).toBeCloseTo(15.52, 2)
  })
  test('never: C 10 A stays closed up to 5 × 10 = 50 A, and the supply gives 12 A', () => {
    expect(atOnce(machine(steady(12), { kind: 'breaker', rating: 10, curve: 'C' })).opens).toBe('never')
    expect(atOnce(machine({ mode: 'hiccup', current: 12 }, { kind: 'breaker', rating: 10, curve: 'C' })).opens).toBe('never')
  })
  test('perhaps: 20 A lies between 12 A and 30 A, where the standard promises nothing', () => {
    expect(atOnce(machine(steady(20), B4)).opens).toBe('perhaps')
  })
  test('a reserve counts if it lasts as long as the device takes', () => {
    expect(atOnce(and(machine(steady(20), B4), { reserve: { current: 60, seconds: 0.1 } })).upTo).toBeCloseTo(22.45, 1)
    expect(atOnce(and(machine(steady(20), B4), { reserve: { current: 60, seconds: 0.05 } })).opens).toBe('perhaps')
  })
  test('a data sheet goes before the standard: set at 5 A, open from 6 A within 0.05 s, it opens at the 17.67 A of the far end', () => {
    const electronic: Protection = { kind: 'electronic', rating: 4, dataSheet: { carries: 5, opens: 6, seconds: 0.05 } }
    expect(atOnce(machine(steady(8), electronic))).toMatchObject({ opens: 'always', upTo: 40, seconds: 0.05 })
    // Slower than 0.1 s it says nothing of what happens at once; 5 A of supply never go past the 5 A that it carries.
    const slow: Protection = { kind: 'electronic', rating: 4, dataSheet: { carries: 5, opens: 6, seconds: 1 } }
    expect(atOnce(machine(steady(8), slow))).toMatchObject({ opens: 'not known', missing: ['data sheet'] })
    expect(protectionOf(machine(steady(8), slow))[0]?.inTime).toMatchObject({ opens: 'always', seconds: 1 })
    expect(atOnce(machine(steady(5), electronic)).opens).toBe('never')
  })
  test('IEC 60947-2: the letter tells no magnetic value, the data sheet does', () => {
    expect(atOnce(machine(steady(60), { ...B4, standard: 'IEC 60947-2' }))).toMatchObject({
      opens: 'not known',
      missing: ['declared magnetic value'],
    })
    // Declared 5 × 4 A × 1.5 for d.c. = 30 A, as with IEC 60898-1.
    const declared = { ...B4, standard: 'IEC 60947-2', dataSheet: { carries: 12, opens: 30, seconds: 0.1 } } as const
    expect(atOnce(machine(steady(60), declared)).upTo).toBeCloseTo(22.45, 1)
  })
  test('what other branches draw is no longer there for the short', () => {
    // 30.2 A of limit: with another branch drawing 24 W by a steady 1 A from 16 V on. At 20 m the loop would take
    // 24 / (0.0855 + 0.63654) = 33.2 A; the limit leaves 30.2 − 1 = 29.2 A while the bus stays above 16 V, and
    // (30.2 − 1) × (0.72204 − 0.014) = 20.7 V does. 29.2 A is less than 30 A.
    const other: Branch = { id: 'B2', protection: B4, loads: [{ id: 'K2', at: 'terminals', kind: 'electronic', watts: 24 }] }
    expect(atOnce(machine(steady(30.2), B4)).upTo).toBeCloseTo(22.45, 1)
    const v = atOnce(machine(steady(30.2), B4, [], [other]))
    // Nearer than where 29.2 A hold the bus at 16 V, (16 / 29.2 + 0.014 − 0.0855) / 0.031827 = 14.97 m, the other load lets go.
    expect(v.opens).toBe('up to')
    expect(v.upTo).toBeLessThan(14.97)
    expect(v.upTo).toBeGreaterThan(13)
  })
  test('a fault of 0.3 Ω of its own costs 0.3 / 0.031827 = 9.43 m', () => {
    const poor = verdictFor(machine(steady(60), B4), 'B1', { ...USUAL, faultOhm: 0.3 }, 0.1)
    expect(poor.upTo).toBeCloseTo(22.45 - 9.43, 1)
  })
})

describe('what is not known stays not known, and names what is missing', () => {
  test.each([
    {
      why: 'a supply that pulses may stop before the device opens',
      limit: { mode: 'hiccup', current: 60 } as const,
      device: B4,
      missing: ['supply behaviour'],
    },
    { why: 'no limit and no rated current', limit: undefined, device: B4, missing: ['supply limit'] },
    { why: 'no characteristic', limit: steady(60), device: { kind: 'breaker', rating: 4 } as const, missing: ['characteristic'] },
    { why: 'no rating', limit: steady(60), device: { kind: 'breaker', curve: 'B' } as const, missing: ['rating'] },
    { why: 'no kind of fuse', limit: steady(60), device: { kind: 'fuse', rating: 4 } as const, missing: ['kind of fuse'] },
    {
      why: 'an electronic device without its data sheet',
      limit: steady(60),
      device: { kind: 'electronic', rating: 4 } as const,
      missing: ['data sheet'],
    },
    { why: 'type Z stands in no standard', limit: steady(60), device: { ...B4, curve: 'Z' } as const, missing: ['confirmed figure'] },
    { why: 'nothing of the device', limit: steady(60), device: undefined, missing: ['device'] },
  ])('$why', ({ limit, device, missing }) => {
    const v = atOnce(machine(limit, device))
    expect([v.opens, v.upTo, v.missing]).toEqual(['not known', 0, missing])
  })
  test('wiring and conductor', () => {
    const m = machine(steady(60), B4)
    const [b] = m.branches
    const run = { id: 'W1', from: 'terminals', to: 'J1', length: 40 }
    const without = (wiring: Branch['wiring']) => ({
      ...m,
      branches: [{ id: 'B1', ...(b?.protection && { protection: b.protection }), ...(wiring && { wiring }) }],
    })
    expect(atOnce(without(undefined)).missing).toEqual(['wiring'])
    expect(atOnce(without([run])).missing).toEqual(['conductor'])
  })
  test('a machine of which nothing is told', () => {
    const m: Machine = {
      format: 'ohmward.machine',
      version: 1,
      id: 'u',
      name: 'unknown',
      supply: {},
      branches: [{ id: 'B1' }, { id: 'B2' }],
    }
    const found = protectionOf(m)
    expect(found.map(p => [p.atOnce.opens, p.inTime.opens, p.later])).toEqual([
      ['not known', 'not known', 'supply does not last'],
      ['not known', 'not known', 'supply does not last'],
    ])
    expect(advise(m, found, serviceOf(m))).toEqual([{ branch: 'B1' }, { branch: 'B2' }])
    expect(guardOf(m, found).map(g => g.is)).toEqual(['not known', 'not known'])
  })
  test('how long the supply lasts is asked for only where it decides', () => {
    expect(atOnce(and(machine({ mode: 'hiccup', current: 60 }, B4), { holds: 0.1 })).upTo).toBeCloseTo(22.45, 1)
    expect(atOnce(machine({ mode: 'hiccup', current: 20 }, B4)).opens).toBe('perhaps')
    // A supply that the loop cannot bring to its limit does not pulse: 24 / 0.0855 = 280.7 A at most.
    expect(atOnce(machine({ mode: 'hiccup', current: 300 }, B4)).upTo).toBeCloseTo(22.45, 1)
  })
})

describe('and later?', () => {
  const later = (limit: number) => protectionOf(machine(steady(limit), B4))[0]?.later
  // At the far end the lesser of 17.67 A and the limit: 17.67/4 = 4.4, 8/4 = 2, 4.5/4 = 1.125, 5/4 = 1.25 times the rating.
  test.each([
    [60, 'within a minute'],
    [8, 'within an hour'],
    [4.5, 'not in an hour'],
    [5, 'not known'],
  ])('%s A of constant current: %s', (limit, word) => expect(later(limit)).toBe(word))
  test('within 5 s, a quick 2 A fuse opens from 2.75 × 2 = 5.5 A: always, on 8 A', () => {
    const m = (fuse: 'F' | 'T') => machine(steady(8), { kind: 'fuse', rating: 2, fuse })
    expect(protectionOf(m('F'))[0]?.inTime).toMatchObject({ opens: 'always', seconds: 2 })
    expect(protectionOf(m('T'))[0]?.inTime).toMatchObject({ opens: 'not known', missing: ['confirmed figure'] })
  })
})

describe('what would', () => {
  const advice = (m: Machine) => advise(m, protectionOf(m), serviceOf(m))[0]
  test('rating, conductor and electronic device for B 4 A at 40 m', () => {
    const found = advice(machine(steady(60), B4))
    // B 2 A: 15 A from 24 / (0.014 + 0.13 + 0.004 + 1.27308) = 16.89 A opens. B 3 A: 22.5 A from 24 / (0.014 + 0.0883 + 0.004 + 1.27308) = 17.4 A does not.
    expect(found?.breaker).toEqual({ rating: 2, curve: 'B' })
    // 0.7145 Ω / 80 m / 1.1965 = 7.46 Ω/km at 20 °C: 2.5 mm² has 7.98, 4 mm² has 4.95.
    expect(found?.area).toBe(4)
    // 24 / 1.35858 = 17.67 A without any limit: no supply reaches 30 A.
    expect(found?.supply).toBeUndefined()
    // No load; the conductor carries 18 × √(30/40) = 15.59 A, less than the 17.67 A of the loop and the 60 A of the supply.
    expect(found?.electronic?.most).toBeCloseTo(15.59, 2)
  })
  test('the supply for B 2 A with 2 A drawn elsewhere', () => {
    // 15 A to open, and 48 W at the terminals of another branch, at most 48/24 = 2 A: 17 A. The loop would give 16.89 A.
    const other: Branch = { id: 'B2', protection: B4, loads: [{ id: 'Y2', at: 'terminals', kind: 'coil', watts: 48 }] }
    const m = machine(steady(10), { ...B4, rating: 2 }, [], [other])
    expect(advice(m)?.supply).toBe(17)
    expect(atOnce({ ...m, supply: { ...m.supply, limit: { mode: 'constant-current', current: 17 } } }).opens).toBe('always')
    expect(atOnce({ ...m, supply: { ...m.supply, limit: { mode: 'constant-current', current: 15 } } }).opens).not.toBe('always')
  })
  test('two branches instead of one', () => {
    // 48 W at each of two junctions 20 m out: 4 A on one breaker of B 4 A, which opens up to 22.45 m; 2 A each on two. B 2 A needs 15 A.
    const run = (id: string, to: string) => ({ id, from: 'terminals', to, length: 38, conductor: { area: 1.5, class: 5 as const } })
    const load = (id: string, at: string): Load => ({ id, at, kind: 'coil', watts: 48 })
    const branch: Branch = {
      id: 'B1',
      protection: B4,
      wiring: [run('W1', 'J1'), run('W2', 'J2')],
      loads: [load('Y1', 'J1'), load('Y2', 'J2')],
    }
    const found = advice({ ...machine(steady(60), B4), branches: [branch] })
    expect(found?.halves).toEqual({ first: ['Y1'], second: ['Y2'], rating: 2, curve: 'B' })
    expect(found?.breaker).toBeUndefined()
  })
  test('nothing is advised where the device opens everywhere', () => {
    expect(advice(machine(steady(60), { ...B4, rating: 1 }))).toEqual({ branch: 'B1' })
  })
})

describe('conductor and voltage drop', () => {
  test('24 W at 40 m', () => {
    // 24 Ω behind 0.0855 + 1.27308 = 1.35858 Ω: 24 / 25.35858 = 0.94643 A, 22.714 V left, 1.286 V lost: 5.36 % of 24 V.
    const served = serviceOf(machine(steady(60), B4, [coil(24)])).branches[0]
    expect(served?.ampere).toBeCloseTo(0.94643, 4)
    expect(served?.last?.volts).toBeCloseTo(22.714, 3)
    expect(served?.last?.drop).toBeCloseTo(1.286, 3)
  })
  test('more load than the supply gives', () => {
    expect(serviceOf(machine(steady(0.9), B4, [coil(24)])).overloaded).toBe(true)
    expect(serviceOf(machine(steady(1), B4, [coil(24)])).overloaded).toBe(false)
  })
  test.each([
    { rating: 13, limit: 60, is: 'by the device', why: '13 A ≤ 15.59 A' },
    { rating: 16, limit: 60, is: 'no', why: '16 A > 15.59 A, and the supply gives 60 A' },
    { rating: 16, limit: 15, is: 'by the supply', why: '15 A ≤ 15.59 A whatever the device does' },
  ])('C $rating A on 1.5 mm² at 40 °C, supply $limit A: $is ($why)', ({ rating, limit, is }) => {
    const m = machine(steady(limit), { kind: 'breaker', rating, curve: 'C' })
    expect(guardOf(m, protectionOf(m))[0]).toMatchObject({ is, run: 'W1', area: 1.5 })
  })
  test('heat of a short circuit', () => {
    // (115 × 0.5)² / 60² = 3306 / 3600 = 0.918 s.
    expect(bears(0.5, 60)).toBeCloseTo(0.918, 2)
    const m = machine(steady(60), { ...B4, rating: 1 })
    // 1.5 mm² at 60 A: (115 × 1.5)² / 3600 = 8.27 s, counted as 5 s; the device takes 0.1 s.
    expect(guardOf(m, protectionOf(m))[0]?.short).toEqual({ ampere: 60, bears: 5, opensIn: 0.1 })
  })
})
