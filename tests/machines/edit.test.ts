import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { oven } from '../../content/demoOven.ts'
import { sorter } from '../../content/demoSorter.ts'
import { readMachine } from '../../engine/check.ts'
import type { Machine } from '../../engine/machine.ts'
import { type Changed, countedMachine, type Spot, textsAt, without, withTexts } from '../../web/machines/edit.ts'
import { FIELDS } from '../../web/machines/fields.ts'
import { machineIdFor } from '../../web/machines/ids.ts'
import { anyMachine } from './any.ts'

const SEED = 7
const read = (json: unknown): Machine => {
  const checked = readMachine(json)
  if (!checked.ok) throw new Error(checked.message)
  return checked.value
}
const done = (changed: Changed): Machine => {
  if (!changed.ok) throw new Error(JSON.stringify(changed.wrong))
  return changed.value
}
const wrongOf = (changed: Changed) => (changed.ok ? [] : changed.wrong)

test.each([
  [demo, 12],
  [oven, 12],
  [sorter, 24],
])('an example is a machine file as it stands', (example, count) => {
  const machine = read(example)
  expect(machine.branches).toHaveLength(count)
  expect(machine.branches.every(({ wiring = [], loads = [] }) => wiring.length > 0 && loads.length > 0)).toBe(true)
})

describe('a machine described from its count alone', () => {
  const counted = countedMachine('m', 'M', 2)
  const first: Spot = { item: 'run', branch: 0 }
  test('gets ids that nobody thought up, each at the end of what is there', () => {
    const one = done(withTexts(counted, first, { ...textsAt(counted, first), length: '12,5' }))
    const two = done(withTexts(one, first, { ...textsAt(one, first), length: '3', moving: 'yes' }))
    const load: Spot = { item: 'load', branch: 0 }
    const three = done(withTexts(two, load, { ...textsAt(two, load), load: 'coil', watts: '8' }))
    expect(three.branches[0]).toEqual({
      id: 'B1',
      wiring: [
        { id: '1-W1', from: 'terminals', to: '1-J1', length: 12.5 },
        { id: '1-W2', from: '1-J1', to: '1-J2', length: 3, moving: true },
      ],
      loads: [{ id: '1-L1', kind: 'coil', at: '1-J2', watts: 8 }],
    })
    const third: Spot = { item: 'branch' }
    expect(done(withTexts(three, third, textsAt(three, third))).branches.map(({ id }) => id)).toEqual(['B1', 'B2', 'B3'])
  })
  test.each([
    [{ length: '' }, { key: 'length', found: '', why: 'missing' }],
    [{ length: 'long' }, { key: 'length', found: 'long', why: 'value' }],
    [{ length: '0' }, { key: 'length', found: '0', why: 'value' }],
    [
      { length: '4', area: '1,5', awg: '16' },
      { key: 'awg', found: '16', why: 'both' },
    ],
    [
      { length: '4', stranded: 'yes' },
      { key: 'stranded', found: 'yes', why: 'alone' },
    ],
    [
      { length: '4', id: 'a/b' },
      { key: 'id', found: 'a/b', why: 'value' },
    ],
    [
      { length: '4', from: 'nowhere' },
      { key: 'from', found: 'nowhere', why: 'hangs' },
    ],
  ])('%j is refused by field and value', (texts, wrong) => {
    expect(wrongOf(withTexts(counted, first, { ...textsAt(counted, first), ...texts }))).toEqual([wrong])
  })
  test('keeps one branch at least', () => {
    expect(wrongOf(without(countedMachine('m', 'M', 1), { item: 'branch', branch: 0 }))).toMatchObject([{ why: 'last' }])
  })
})

describe('the demo machine', () => {
  const machine = read(demo)
  const spot: Spot = { item: 'run', branch: 2, index: 0 }
  test('keeps what hangs on a junction that gets another name', () => {
    const changed = done(withTexts(machine, spot, { ...textsAt(machine, spot), to: 'box 7' })).branches[2]
    expect(changed?.wiring?.map(({ from }) => from)).toEqual(['terminals', 'box 7', '3-J2', 'box 7'])
  })
  test('does not lose a run that something hangs on', () => {
    expect(wrongOf(without(machine, spot))).toEqual([{ key: 'to', found: '3-J1', why: 'hangs' }])
    expect(done(without(machine, { item: 'load', branch: 2, index: 1 })).branches[2]?.loads?.map(({ id }) => id)).toEqual(['Y31', 'S33'])
  })
  test('says which id is taken', () => {
    expect(wrongOf(withTexts(machine, spot, { ...textsAt(machine, spot), id: '4-W1' }))).toMatchObject([
      { key: 'id', found: '4-W1', why: 'taken' },
    ])
  })
  test('keeps figures of a data sheet, which no form shows, until the device is another', () => {
    const dataSheet = { carries: 4, opens: 8, seconds: 0.1 }
    const told = read({ ...machine, branches: [{ ...machine.branches[0], protection: { kind: 'electronic', rating: 4, dataSheet } }] })
    const at: Spot = { item: 'branch', branch: 0 }
    expect(done(withTexts(told, at, { ...textsAt(told, at), rating: '6' })).branches[0]?.protection).toEqual({
      kind: 'electronic',
      rating: 6,
      dataSheet,
    })
    expect(done(withTexts(told, at, { ...textsAt(told, at), device: 'none', rating: '' })).branches[0]?.protection).toEqual({
      kind: 'none',
    })
  })
})

test(`saving any form unchanged changes nothing; seed ${SEED}`, () => {
  fc.assert(
    fc.property(anyMachine(false), told => {
      const machine = read(told)
      const spots: Spot[] = [{ item: 'machine' }, { item: 'supply' }]
      for (const [branch, { wiring = [], loads = [] }] of machine.branches.slice(0, 3).entries()) {
        spots.push({ item: 'branch', branch })
        spots.push(
          ...wiring.map((_, index): Spot => ({ item: 'run', branch, index })),
          ...loads.map((_, index): Spot => ({ item: 'load', branch, index })),
        )
      }
      for (const spot of spots) {
        expect(Object.keys(textsAt(machine, spot)).sort()).toEqual(FIELDS[spot.item].map(({ key }) => key).sort())
        expect(withTexts(machine, spot, textsAt(machine, spot))).toEqual({ ok: true, value: machine })
      }
    }),
    { seed: SEED, numRuns: 40 },
  )
})

test('an id for a machine is made of its name, and is another when that is taken', () => {
  expect(machineIdFor('Füller 2 (Süd)', [])).toBe('fuller-2-sud')
  expect(machineIdFor('Press', ['press', 'press-2'])).toBe('press-3')
  expect(machineIdFor('Ω', [])).toBe('machine')
  expect(machineIdFor('constructor', [])).toBe('constructor-2')
})
