// Full load, what protects a conductor, and what would open at the far end: by hand. On B 4 A there are 0.0855 Ω beside the cable:
// supply and its leads 0.014, device 0.0675, 0 V link 0.003, a joint 0.001. 1.5 mm² at 70 °C: 0.031827 Ω/m out and back.
import { describe, expect, test } from 'vitest'
import { type Advice, advise } from '../../engine/advice.ts'
import { capacityOf } from '../../engine/capacity.ts'
import type { Branch, Load, Machine, Protection, Run, Supply } from '../../engine/machine.ts'
import { protectionOf } from '../../engine/protection.ts'
import { type Guarded, guardOf, serviceOf } from '../../engine/service.ts'

const B4: Protection = { kind: 'breaker', rating: 4, curve: 'B' }
const steady = (current: number): Supply => ({ setVoltage: 24, limit: { mode: 'constant-current', current } })
const run = (id: string, to: string, length: number, area = 1.5, from = 'terminals'): Run => ({
  id,
  from,
  to,
  length,
  conductor: { area, class: 5 },
})
const FORTY = [run('W1', 'J1', 40)]
const load = (id: string, at: string, watts: number, kind: Load['kind'] = 'coil'): Load => ({ id, at, kind, watts })
const branch = (more: Partial<Branch> = {}): Branch => ({ id: 'B1', protection: B4, wiring: FORTY, ...more })
const machine = (branches: readonly Branch[], supply: Supply = steady(60)): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'hand',
  name: 'by hand',
  supply,
  branches,
})
const draws = (watts: number): Branch => ({ id: 'B2', protection: B4, loads: [load('K2', 'terminals', watts)] })

describe('at full load', () => {
  test('a coil beside a steady current: each costs the other a little of the supply’s own resistance', () => {
    // Bus: U = 24 − 0.014 (I + 1); I = U / (24 + 1.34458): U = 23.986 / 1.00055239 = 23.97276 V, I = 0.94587 A.
    const found = serviceOf(
      machine([branch({ loads: [load('Y1', 'J1', 24)] }), { ...draws(24), loads: [load('K2', 'terminals', 24, 'electronic')] }]),
    )
    const [one, other] = found.branches
    expect([one?.ampere, other?.ampere]).toEqual([expect.closeTo(0.94587, 4), expect.closeTo(1, 4)])
    // 24 Ω × 0.94587 A; 23.97276 − 1 A × (0.0675 + 0.003) Ω.
    expect(one?.last).toEqual({ load: 'Y1', volts: expect.closeTo(22.7009, 3), drop: expect.closeTo(1.2991, 3) })
    expect(other?.last?.volts).toBeCloseTo(23.9023, 3)
    expect(found.ampere).toBeCloseTo(1.94587, 4)
    // The second branch has no wiring that anybody told.
    expect([one?.told, other?.told]).toEqual([true, false])
  })
  test('the load that gets least is named, wherever it stands in the list; a branch without loads has none', () => {
    const [near, far] = [load('K1', 'terminals', 24), load('Y1', 'J1', 24)]
    for (const loads of [
      [near, far],
      [far, near],
    ])
      expect(serviceOf(machine([branch({ loads })])).branches[0]?.last?.load).toBe('Y1')
    expect(serviceOf(machine([branch()])).branches[0]).toMatchObject({ ampere: expect.closeTo(0, 6), told: true })
  })
  test('every conductor and every load must be told', () => {
    const told = (more: Partial<Branch>) => serviceOf(machine([branch(more)])).branches[0]?.told
    const bare: Run = { id: 'W2', from: 'J1', to: 'X1', length: 1 }
    expect(told({ wiring: [...FORTY, bare] })).toBe(false)
    expect(told({ loads: [load('Y1', 'J1', 24), { id: 'Y2', at: 'J1', kind: 'coil' }] })).toBe(false)
    expect(told({ loads: [load('Y1', 'J1', 24)] })).toBe(true)
  })
  test('the limit, or else the rated current, is what the supply gives', () => {
    const over = (supply: Supply) => serviceOf(machine([branch({ loads: [load('Y1', 'J1', 24)] })], supply)).overloaded
    expect([over({ setVoltage: 24, ratedCurrent: 0.9 }), over({ setVoltage: 24, ratedCurrent: 1 }), over({ setVoltage: 24 })]).toEqual([
      true,
      false,
      false,
    ])
  })
})

describe('what protects the conductor', () => {
  const guard = (more: Partial<Branch>, supply = steady(60)): Guarded | undefined => {
    const m = machine([branch(more)], supply)
    return guardOf(m, protectionOf(m))[0]
  }
  // 1.5 mm² carries 18 × √(30/40) = 15.588 A at 40 °C, and 1.45 times it is 22.6 A.
  const carries = capacityOf(1.5, 40) ?? Number.NaN
  const sheet = (holds: number, opens: number): Protection => ({
    kind: 'electronic',
    rating: 4,
    dataSheet: { carries: holds, opens, seconds: 1 },
  })
  test.each<{ protection: Protection; is: Guarded['is']; why: string }>([
    { protection: { kind: 'breaker', rating: carries, curve: 'C' }, is: 'by the device', why: 'rated for just what it carries' },
    { protection: { kind: 'breaker', rating: 15.6, curve: 'C' }, is: 'no', why: 'rated for more' },
    { protection: { kind: 'breaker', rating: 15, curve: 'C', standard: 'IEC 60947-2' }, is: 'by the device', why: '1.3 × 15 A' },
    { protection: { kind: 'breaker', rating: 4, curve: 'Z' }, is: 'not known', why: 'no standard says when Z opens' },
    { protection: { kind: 'fuse', rating: 10, fuse: 'F' }, is: 'by the device', why: '2.1 × 10 = 21 A' },
    { protection: { kind: 'fuse', rating: 11, fuse: 'F' }, is: 'no', why: '2.1 × 11 = 23.1 A' },
    { protection: { kind: 'fuse', rating: 15, fuse: 'UL' }, is: 'by the device', why: '1.35 × 15 = 20.3 A' },
    { protection: { kind: 'fuse', rating: 10, fuse: 'T' }, is: 'not known', why: 'from memory' },
    { protection: { kind: 'fuse', rating: 16 }, is: 'no', why: 'rated for more, whatever its kind' },
    { protection: { kind: 'electronic', rating: 4 }, is: 'not known', why: 'no data sheet' },
    { protection: sheet(15, 22), is: 'by the device', why: 'both within' },
    { protection: sheet(16, 22), is: 'no', why: 'carries more' },
    { protection: sheet(15, 23), is: 'no', why: 'opens later' },
    { protection: { kind: 'none', rating: 4 }, is: 'no', why: 'nothing there' },
    { protection: { kind: 'breaker', curve: 'B' }, is: 'not known', why: 'no rating' },
  ])('$protection.kind $protection.rating A $protection.fuse: $is ($why)', ({ protection, is }) => {
    expect(guard({ protection })).toMatchObject({ is, run: 'W1', area: 1.5, carries })
    // A supply that gives no more than the conductor carries protects it where the device does not.
    const bySupply = is === 'by the device' ? is : 'by the supply'
    expect(guard({ protection }, steady(carries))?.is).toBe(bySupply)
    // Without any limit stated nobody knows what the supply gives.
    expect(guard({ protection }, { setVoltage: 24 })?.is).toBe(is === 'no' ? 'not known' : is)
  })
  test('a branch of whose device nothing is known', () => {
    const m = machine([{ id: 'B1', wiring: FORTY }])
    expect(guardOf(m, protectionOf(m))[0]?.is).toBe('not known')
  })
  test('the thinnest conductor counts, wherever it stands', () => {
    for (const wiring of [
      [run('W1', 'J1', 5, 0.75), run('W2', 'X1', 5, 2.5, 'J1')],
      [run('W2', 'J1', 5, 2.5), run('W1', 'X1', 5, 0.75, 'J1')],
    ])
      expect(guard({ wiring })).toMatchObject({ run: 'W1', area: 0.75, carries: expect.closeTo(12 * Math.sqrt(0.75), 9) })
  })
  test('one conductor that is not told, or is thinner than any table, leaves it unknown and is named', () => {
    expect(guard({ wiring: [...FORTY, { id: 'W2', from: 'J1', to: 'X1', length: 1 }] })).toEqual({
      branch: 'B1',
      is: 'not known',
      run: 'W2',
    })
    expect(guard({ wiring: [run('W1', 'J1', 5, 0.34)] })).toEqual({ branch: 'B1', is: 'not known', run: 'W1' })
    const m = machine([{ id: 'B1', protection: B4 }])
    expect(guardOf(m, protectionOf(m))).toEqual([{ branch: 'B1', is: 'not known' }])
  })
  test('a device that does not certainly open leaves the heat to nobody', () => {
    expect(guard({})?.short).toEqual({ ampere: 60, bears: 5, opensIn: Infinity })
    expect(guardOf(machine([branch()]), [])[0]?.short).toEqual({ ampere: Infinity, bears: 0, opensIn: Infinity })
  })
})

describe('what would open at the far end', () => {
  const advice = (branches: readonly Branch[], supply = steady(60)): Advice | undefined => {
    const m = machine(branches, supply)
    return advise(m, protectionOf(m), serviceOf(m))[0]
  }
  test('a breaker carries the load: 60 W draw 2.19 A, so 2 A are too few, and B 3 A does not open', () => {
    // 24 / (9.6 + 1.35858) = 2.19 A; 48 W draw 24 / 13.35858 = 1.80 A, and B 2 A opens.
    expect(advice([branch({ loads: [load('Y1', 'J1', 48)] })])?.breaker).toEqual({ rating: 2, curve: 'B' })
    const more = advice([branch({ loads: [load('Y1', 'J1', 60)] })])
    expect(more?.breaker).toBeUndefined()
    expect(more?.electronic).toEqual({ above: expect.closeTo(2.19, 2), most: expect.closeTo(15.59, 2) })
    expect(Object.values(more ?? {})).not.toContain(undefined)
  })
  test('and the conductor carries the breaker: 0.5 mm² 7.8 A, so that 6 A is the most', () => {
    // 2 m: 24 / (0.0645 + 0.1867) = 95.5 A on 6 A; C opens from 90 A. B 13 A would open as well.
    const thin = branch({ protection: { ...B4, rating: 32 }, wiring: [run('W1', 'J1', 2, 0.5)] })
    expect(advice([thin], steady(200))?.breaker).toEqual({ rating: 6, curve: 'C' })
  })
  test('a supply that pulses must not be needed at its limit', () => {
    const pulsing = (current: number): Supply => ({ setVoltage: 24, limit: { mode: 'hiccup', current } })
    expect(advice([branch()], steady(20))?.breaker).toEqual({ rating: 2, curve: 'B' })
    expect(advice([branch()], pulsing(20))?.breaker).toBeUndefined()
    expect(advice([branch()], pulsing(400))?.breaker).toEqual({ rating: 2, curve: 'B' })
  })
  test('a thicker conductor is thicker than the thickest that lies there', () => {
    // 36 m in all: (0.8 − 0.0865) / 72 / 1.1965 = 8.28 Ω/km, which 2.5 mm² has; half of it is 2.5 mm² already.
    const mixed = [run('W1', 'J1', 18, 1.5), run('W2', 'X1', 18, 2.5, 'J1')]
    expect(advice([branch({ wiring: mixed })])?.area).toBe(4)
    expect(advice([branch({ wiring: [run('W1', 'J1', 36, 1.5)] })])?.area).toBe(2.5)
  })
  test('the supply gives what opens the device, and the others’ load on top: 15 A and 2 A', () => {
    const two = branch({ protection: { ...B4, rating: 2 }, loads: [load('Y1', 'J1', 24)] })
    expect(advice([two, draws(48)], steady(10))?.supply).toBe(17)
    // A device of which nothing is promised opens at no current that could be named.
    expect(advice([{ ...two, protection: { kind: 'breaker', rating: 2 } }], steady(10))?.supply).toBeUndefined()
    expect(advice([{ ...two, protection: { ...B4, curve: 'Z' } }], steady(10))?.supply).toBeUndefined()
    expect(advice([{ ...two, protection: { kind: 'breaker', rating: 2 } }], steady(10))?.area).toBeUndefined()
    // Nothing is promised of its magnetic part; what is of its thermal part takes an hour.
    const declared = advice([{ ...two, protection: { ...B4, rating: 2, standard: 'IEC 60947-2' } }], steady(10))
    expect([declared?.supply, declared?.area]).toEqual([undefined, undefined])
    // A supply that pulses at its limit gives it for long enough where the limit is not reached: 20 A would do.
    expect(advice([two], { setVoltage: 24, limit: { mode: 'hiccup', current: 5 } })?.supply).toBe(15)
  })
  test('an electronic device is set within the supply less the others, above the own load', () => {
    const own = branch({ loads: [load('Y1', 'J1', 24)] })
    // 48 W at the terminals of the other branch draw a little less than 2 A.
    expect(advice([own, draws(48)], steady(10))?.electronic?.most).toBeCloseTo(8.02, 1)
    expect(advice([own], { setVoltage: 24, ratedCurrent: 10 })?.electronic?.most).toBeCloseTo(10, 9)
    expect(advice([own], steady(0.9))?.electronic).toBeUndefined()
    expect(advice([own], { setVoltage: 24 })?.electronic).toBeUndefined()
  })
  const arms = (...watts: readonly number[]): Partial<Branch> => ({
    wiring: watts.map((_, i) => run(`W${i + 1}`, `J${i + 1}`, 38)),
    loads: watts.map((w, i) => load(`Y${i + 1}`, `J${i + 1}`, w)),
  })
  test('two branches share the loads evenly, the largest first, each with its own wiring', () => {
    expect(advice([branch(arms(24, 48, 24))])?.halves).toEqual({ first: ['Y2'], second: ['Y1', 'Y3'], rating: 2, curve: 'B' })
    // 72 W are 3 A: on the larger half B 3 A would be needed, which does not open.
    expect(advice([branch(arms(72, 24))])?.halves).toBeUndefined()
  })
  test('what the other half draws is no longer there for the short: 16 A less 2 A are too few for B 2 A, 18 A are enough', () => {
    expect(advice([branch(arms(48, 48))], steady(16))?.halves).toBeUndefined()
    expect(advice([branch(arms(48, 48))], steady(18))?.halves).toMatchObject({ rating: 2, curve: 'B' })
  })
  test('one load, a load in the cabinet, or a fuse cannot be halved', () => {
    expect(advice([branch(arms(48))])?.halves).toBeUndefined()
    expect(advice([branch({ ...arms(48, 48), protection: { kind: 'fuse', rating: 4, fuse: 'T' } })])?.halves).toBeUndefined()
    for (const at of [
      ['J1', 'terminals'],
      ['terminals', 'J1'],
    ] as const)
      expect(advice([branch({ loads: at.map((place, i) => load(`Y${i + 1}`, place, 48)) })])?.halves).toBeUndefined()
  })
  test('nothing is advised where figures are missing', () => {
    expect(advice([branch({ wiring: [run('W1', 'J1', 40, 0.34)] })])).toEqual({ branch: 'B1' })
    expect(advice([branch({ loads: [{ id: 'Y1', at: 'J1', kind: 'coil' }] })])).toEqual({ branch: 'B1' })
    expect(advise(machine([branch()]), [], serviceOf(machine([branch()])))).toEqual([{ branch: 'B1' }])
  })
  test('the thinnest conductor limits the breaker, wherever it stands', () => {
    // 1 m of 0.5 mm² behind 1 m of 2.5 mm²: 7.8 A.
    const wiring = [run('W1', 'J1', 1, 2.5), run('W2', 'X1', 1, 0.5, 'J1')]
    expect(advice([branch({ protection: { ...B4, rating: 32 }, wiring })], steady(200))?.breaker?.rating).toBe(6)
  })
})
