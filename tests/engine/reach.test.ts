// How far out a device opens, on wiring that forks: by hand. Beside the cable the loop has 0.014 Ω of supply and its leads, the device's
// 0.25 Ω over its rating and 0.005, 0.003 of the 0 V link, and 0.001 of joints a run: 0.0845 Ω and the joints for 4 A. Hot, at 70 °C,
// 1.5 mm² has 0.0133 × 1.1965 × 2 = 0.031827 Ω/m out and back, 0.5 mm² 0.039 × 1.1965 × 2 = 0.093327; cold, at 5 °C and 8 % under,
// 0.0133 × 0.92 × 0.94105 × 2 = 0.023029 and 0.067530. B 4 A opens from 1.5 × 5 × 4 = 30 A and stays closed up to 12 A.
import { expect, test } from 'vitest'
import type { Branch, Machine, Protection, Run, Supply } from '../../engine/machine.ts'
import { USUAL } from '../../engine/prospect.ts'
import { lasts, protectionOf, verdictFor } from '../../engine/protection.ts'

const run = (id: string, from: string, to: string, length: number, area: number | undefined = 1.5): Run => ({
  id,
  from,
  to,
  length,
  ...(area === 0 ? {} : { conductor: { area, class: 5 } }),
})
/** 10 m to J1; from there X1, and X2 5 m on with X3 behind it on a thin cable. */
const fork = (toX1: number, toX3: number): readonly Run[] => [
  run('W1', 'terminals', 'J1', 10),
  run('W2', 'J1', 'X1', toX1),
  run('W3', 'J1', 'X2', 5),
  run('W4', 'X2', 'X3', toX3, 0.5),
]
const B4: Protection = { kind: 'breaker', rating: 4, curve: 'B' }
const STEADY: Supply = { setVoltage: 24, limit: { mode: 'constant-current', current: 60 } }
const machine = (branches: readonly Branch[], supply: Supply = STEADY): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'hand',
  name: 'by hand',
  supply,
  branches,
})
const branch = (wiring: readonly Run[] | undefined, protection: Protection | undefined = B4, id = 'B1'): Branch => ({
  id,
  ...(wiring && { wiring }),
  protection,
})
const atOnce = (m: Machine, id = 'B1') => verdictFor(m, id, USUAL, 0.1)

test('on each way outwards as far as the current is enough; the nearest end of that counts and is named', () => {
  // Towards X1: (24 / 30 − 0.0845 − 0.002) / 0.031827 = 22.42 m of 30. Towards X3: 0.8 − 0.0845 − 0.003 − 15 × 0.031827 = 0.2351 Ω,
  // 2.52 m of the thin one's 4.
  const near = atOnce(machine([branch(fork(20, 4))]))
  expect(near).toMatchObject({ opens: 'up to', endsIn: 'W4' })
  expect(near.upTo).toBeCloseTo(17.52, 1)
  // 2 m of it are whole, and the other way counts.
  const far = atOnce(machine([branch(fork(20, 2))]))
  expect(far).toMatchObject({ opens: 'up to', endsIn: 'W2' })
  expect(far.upTo).toBeCloseTo(22.42, 1)
  // The least current is that of the end that gets least: 24 / (0.0865 + 30 × 0.031827) = 23.05 A at X1.
  expect(far.figures.lowFar).toBeCloseTo(23.05, 2)
  // With 8 m towards X1 and 2 m towards X3 nothing is left out, and no run is named.
  const all = atOnce(machine([branch(fork(8, 2))]))
  expect([all.opens, all.upTo, 'endsIn' in all]).toEqual(['always', 18, false])
})

test('what hangs on a run that is not reached whole is not reached', () => {
  // 22.45 m of 30 in the first run: the one behind it counts for nothing, however short.
  const v = atOnce(machine([branch([run('W1', 'terminals', 'J1', 30), run('W2', 'J1', 'X1', 0.1)])]))
  expect([v.endsIn, v.neverPast]).toEqual(['W1', expect.closeTo(30.1, 6)])
  expect(v.upTo).toBeCloseTo(22.45, 1)
  // Too little at the terminals already: nowhere.
  const none = atOnce(machine([branch(fork(8, 2), { ...B4, rating: 10 })]))
  expect([none.opens, none.upTo, 'endsIn' in none]).toEqual(['perhaps', 0, false])
})

test('past where the highest current falls below what it carries, it certainly stays closed', () => {
  // B 10 A stays closed up to 30 A: device 0.03 Ω, (0.8 − 0.047 − 0.002) / 0.023029 = 32.61 m towards X1; X3, at 19 m, is nearer.
  const v = atOnce(machine([branch(fork(40, 4), { ...B4, rating: 10 })]))
  expect(v.neverPast).toBeCloseTo(32.61, 1)
  const never = atOnce(machine([branch(fork(40, 4), { ...B4, rating: 20 })]))
  expect([never.opens, never.neverPast, never.upTo, 'endsIn' in never]).toEqual(['never', 0, 0, false])
})

test('each branch has its own device and wiring', () => {
  const m = machine([branch(fork(8, 2)), branch([run('V1', 'terminals', 'J9', 40)], { ...B4, rating: 10 }, 'B2')])
  expect([atOnce(m).opens, atOnce(m, 'B2').opens]).toEqual(['always', 'perhaps'])
  expect(protectionOf(m).map(p => [p.branch, p.length])).toEqual([
    ['B1', 18],
    ['B2', 40],
  ])
  expect(() => atOnce(m, 'B9')).toThrow('no branch B9 in machine hand')
})

test('what is missing is named once, the own branch and the others apart', () => {
  const missing = (m: Machine, id?: string) => atOnce(m, id).missing
  const m = machine([branch(fork(20, 4)), { id: 'B2' }])
  expect([missing(m), missing(m, 'B2')]).toEqual([['load of other branches'], ['wiring', 'device']])
  // A device's rating says what the branch may draw at most.
  expect(missing(machine([branch(fork(20, 4)), { id: 'B2', protection: B4 }]))).toEqual([])
  expect(missing(machine([branch([...fork(20, 4), run('W5', 'X3', 'X4', 1, 0)])]))).toEqual(['conductor'])
  expect(missing(machine([branch(fork(20, 4))]))).toEqual([])
})

test('what figures from memory would say stands beside, and only where they are what is missing', () => {
  // Type Z, from memory: open from 1.5 × 3 × 4 = 18 A, which 40 m of 1.5 mm² do not let through: 24 / 1.3586 = 17.7 A.
  const z = atOnce(machine([branch([run('W1', 'terminals', 'J1', 40)], { ...B4, curve: 'Z' })]))
  expect(z).toMatchObject({ opens: 'not known', upTo: 0, missing: ['confirmed figure'], fromMemory: 'up to' })
  expect('fromMemory' in atOnce(machine([branch(fork(20, 4), { kind: 'breaker', rating: 4 })]))).toBe(false)
  expect('fromMemory' in atOnce(machine([branch(fork(20, 4))]))).toBe(false)
  // Where it certainly stays closed, it does so whatever the figures are.
  const held = atOnce(machine([branch(fork(20, 4), { ...B4, curve: 'Z' })], { ...STEADY, limit: { mode: 'constant-current', current: 4 } }))
  expect([held.opens, held.missing]).toEqual(['never', []])
})

test('a supply lasts by its kind, its hold time or its reserve, to the second that is needed', () => {
  const with_ = (supply: Partial<Supply>) => machine([], { limit: { mode: 'hiccup', current: 60 }, ...supply })
  expect(lasts(machine([]), 3600)).toBe(true)
  expect([0.1, 0.11].map(s => lasts(with_({ holds: 0.1 }), s))).toEqual([true, false])
  expect([5, 5.1].map(s => lasts(with_({ reserve: { current: 90, seconds: 5 } }), s))).toEqual([true, false])
  expect(lasts(with_({}), 0.1)).toBe(false)
})

test('with no limit stated the rated current is certain: enough, or the limit is what is missing', () => {
  const supply = (ratedCurrent: number): Supply => ({ setVoltage: 24, ratedCurrent, holds: 10 })
  const v = (ratedCurrent: number, others: readonly Branch[] = []) =>
    atOnce(machine([branch(fork(20, 4)), ...others], supply(ratedCurrent)))
  expect(v(31)).toMatchObject({ opens: 'up to', endsIn: 'W4', missing: [] })
  expect(v(20)).toMatchObject({ opens: 'not known', upTo: 0, missing: ['supply limit'] })
  // 31 A less the 2 A that another branch draws: near the cabinet too little, as far as anybody knows.
  const other: Branch = { id: 'B2', protection: B4, loads: [{ id: 'K2', at: 'terminals', kind: 'coil', watts: 48 }] }
  expect(v(31, [other])).toMatchObject({ opens: 'not known', missing: ['supply limit'] })
})

test('should the current last, the thermal part of a breaker is judged at the far end; no other device has one', () => {
  const later = (protection: Protection) => protectionOf(machine([branch([run('W1', 'terminals', 'J1', 40)], protection)]))[0]?.later
  // 17.67 A are 4.4 times 4 A.
  expect([later(B4), later({ kind: 'fuse', rating: 4 }), later({ kind: 'breaker', curve: 'B' })]).toEqual([
    'within a minute',
    'not known',
    'not known',
  ])
})
