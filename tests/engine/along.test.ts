// The current over the length, by hand. Beside the cable there are 0.0855 Ω in the loop: supply and its leads 0.014, device of B 4 A
// 0.0675, 0 V link 0.003, joints 0.001. 1.5 mm² class 5: hot 0.0133 × (1 + 0.00393 × 50) = 0.0159135 Ω/m; cold, 5 °C and 8 % under,
// 0.0133 × 0.92 × (1 − 0.00393 × 15) = 0.0115147 Ω/m.
import { expect, test } from 'vitest'
import { along } from '../../engine/along.ts'
import type { Branch, Machine, Run } from '../../engine/machine.ts'
import { meet, USUAL } from '../../engine/prospect.ts'

const HOT = 2 * 0.0159135
const COLD = 2 * 0.0115147
const run = (id: string, from: string, to: string, length: number, area = 1.5): Run => ({
  id,
  from,
  to,
  length,
  conductor: { area, class: 5 },
})
const machine = (wiring: readonly Run[] | undefined): Machine => {
  const branch: Branch = { id: 'B1', protection: { kind: 'breaker', rating: 4, curve: 'B' }, ...(wiring && { wiring }) }
  return {
    format: 'ohmward.machine',
    version: 1,
    id: 'hand',
    name: 'by hand',
    supply: { setVoltage: 24, limit: { mode: 'constant-current', current: 60 } },
    branches: [{ id: 'B0' }, branch],
  }
}

test('from the terminals to the far end, in twelfths of each run: and never more than the limit', () => {
  const found = along(machine([run('W1', 'terminals', 'J1', 24), run('W2', 'J1', 'X1', 12)]), 'B1')
  expect(found?.to).toBe('X1')
  const metres = [0, ...Array.from({ length: 12 }, (_, k) => 2 * (k + 1)), ...Array.from({ length: 12 }, (_, k) => 24 + k + 1)]
  expect(found?.points.map(p => p.metres)).toEqual(metres.map(m => expect.closeTo(m, 9)))
  for (const { metres, high } of found?.points ?? []) {
    // The far end of the second run has its own joint: 2 × 0.0005 Ω more, none at the terminals.
    const joints = metres === 0 ? -0.001 : metres > 24 ? 0.001 : 0
    expect(high).toBeCloseTo(Math.min(60, 24 / (0.0855 + joints + COLD * metres)), 3)
  }
})

test('the lowest current leaves out what the other branches take of the limit, and does not count on any of it where that is not known', () => {
  const wiring = [run('W1', 'terminals', 'J1', 24)]
  // Of B0 nobody knows what it draws: all of the limit may be gone.
  expect(along(machine(wiring), 'B1')?.points.every(p => p.low === 0)).toBe(true)
  const alone = { ...machine(wiring), branches: machine(wiring).branches.slice(1) }
  for (const { metres, low } of along(alone, 'B1')?.points ?? [])
    expect(low).toBeCloseTo(Math.min(60, 24 / (0.0855 - (metres === 0 ? 0.001 : 0) + HOT * metres)), 3)
})

test('of several ends the one with the least current, though another lies farther out', () => {
  const alone = (wiring: readonly Run[]): Machine => ({ ...machine(wiring), branches: machine(wiring).branches.slice(1) })
  // 20 m of 0.5 mm² have 39 × 20 = 780 mΩ, 40 m of 1.5 mm² 13.3 × 40 = 532 mΩ.
  expect(along(alone([run('W1', 'terminals', 'J1', 40), run('W2', 'terminals', 'X1', 20, 0.5)]), 'B1')?.to).toBe('X1')
  expect(along(alone([run('W2', 'terminals', 'X1', 20, 0.5), run('W1', 'terminals', 'J1', 40)]), 'B1')?.to).toBe('X1')
})

test('nothing is drawn of wiring that is not told, or of a branch that is not there', () => {
  expect(along(machine(undefined), 'B1')).toBeUndefined()
  expect(along(machine([run('W1', 'terminals', 'J1', 5)]), 'B9')).toBeUndefined()
})

test('a hotter conductor lets less through, a fault of its own less again', () => {
  const alone = { ...machine([run('W1', 'terminals', 'J1', 40)]), branches: machine([run('W1', 'terminals', 'J1', 40)]).branches.slice(1) }
  const end = (assumed = USUAL) => along(alone, 'B1', assumed)?.points.at(-1)?.low ?? Number.NaN
  expect(end({ ...USUAL, faultOhm: 0.3 })).toBeCloseTo(24 / (24 / end() + 0.3), 4)
})

// Supply and leads have 0.014 Ω. Electronic loads draw their current from 16 V on, none below 15 V, a straight line between.
test.each([
  { what: 'no limit', limit: Infinity, siemens: 1, ampere: 2, volts: (24 - 0.028) / 1.014, limited: false, between: false },
  // 10 A less 4 A through 0.5 S: 12 V, too little for 4 A. On the line 0.5 V + 4 (V − 15) = 10: 70 / 4.5 = 15.56 V.
  { what: 'half starved', limit: 10, siemens: 0.5, ampere: 4, volts: 70 / 4.5, limited: true, between: true },
  // 0.5 V + 4 (V − 15) = 5 would be 14.4 V, below the line: all let go, 5 / 0.5 = 10 V.
  { what: 'starved', limit: 5, siemens: 0.5, ampere: 4, volts: 10, limited: true, between: false },
  // 16 V × 0.25 S + 4 A = 8 A: just fed.
  { what: 'just fed', limit: 8, siemens: 0.25, ampere: 4, volts: 16, limited: true, between: false },
  { what: 'no such load, little voltage', limit: 5, siemens: 1, ampere: 0, volts: 5, limited: true, between: false },
  // 24 V behind 0.014 Ω: 24 / (1 + 0.014 × 40).
  { what: 'a weak source', limit: Infinity, siemens: 40, ampere: 0, volts: 24 / 1.56, limited: false, between: false },
])('supply and loads meet: $what', ({ limit, siemens, ampere, volts, limited, between }) => {
  expect(meet(24, limit, siemens, ampere)).toEqual({ volts: expect.closeTo(volts, 9), limited, between })
})
