// Figures from data sheets as they are typed on the designer's page: into the machine file, checked, and out again.
import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { readMachine } from '../../engine/check.ts'
import type { Machine } from '../../engine/machine.ts'
import { fieldsOf, keepFigures, SUPPLY, typedFrom, withTyped } from '../../web/screens/designerFigures.ts'

const read = readMachine(demo)
if (!read.ok) throw new Error(read.message)
const machine: Machine = read.value
const fuseAt = machine.branches.findIndex(b => b.protection?.kind === 'fuse')
const first = machine.branches[0]
if (first === undefined) throw new Error('the demo has branches')

test('nothing typed, nothing changed', () => expect(withTyped(machine, {})).toEqual({ ok: true, value: machine }))

test('each figure lands in the machine in SI units, with a comma or a point', () => {
  const found = withTyped(machine, {
    'supply.reserve.current': '90',
    'supply.reserve.seconds': '0,1',
    'supply.holds': ' 0.25 ',
    'branches.0.protection.standard': 'IEC 60947-2',
    'branches.0.protection.dataSheet.carries': '12',
    'branches.0.protection.dataSheet.opens': '30',
    'branches.0.protection.dataSheet.seconds': '0.1',
    'branches.0.loads.0.inRush.peak': '18',
    'branches.0.loads.0.inRush.seconds': '2,5',
    'branches.0.loads.0.capacitance': '680',
    [`branches.${fuseAt}.protection.fuse`]: 'F',
  })
  if (!found.ok) throw new Error(found.message)
  const { supply, branches } = found.value
  expect([supply.reserve, supply.holds]).toEqual([{ current: 90, seconds: 0.1 }, 0.25])
  expect(branches[0]?.protection).toMatchObject({ standard: 'IEC 60947-2', dataSheet: { carries: 12, opens: 30, seconds: 0.1 } })
  expect(branches[0]?.loads?.[0]).toMatchObject({ inRush: { peak: 18, seconds: 0.0025 }, capacitance: 0.00068 })
  expect(branches[fuseAt]?.protection?.fuse).toBe('F')
  // What is emptied again is gone again.
  expect(withTyped(found.value, {})).toEqual({ ok: true, value: machine })
})

test('what the machine holds stands in the fields, and typed again it is the same machine', () => {
  const typed = { 'supply.holds': '0.25', 'branches.0.loads.0.capacitance': '680', 'branches.0.loads.0.inRush.peak': '18' }
  const told = withTyped(machine, { ...typed, 'branches.0.loads.0.inRush.seconds': '0.7' })
  if (!told.ok) throw new Error(told.message)
  const shown = typedFrom(told.value, text => text.replace('.', ','))
  expect(shown).toEqual({ ...typed, 'supply.holds': '0,25', 'branches.0.loads.0.inRush.seconds': '0,7' })
  expect(withTyped(told.value, shown)).toEqual(told)
})

test.each([
  { typed: { 'supply.reserve.current': '90' }, why: 'without its seconds' },
  { typed: { 'branches.0.protection.dataSheet.carries': '5', 'branches.0.protection.dataSheet.opens': '6' }, why: 'without its time' },
])('a figure told in parts counts as not known until all stand: $why', ({ typed }) =>
  expect(withTyped(machine, typed)).toEqual({ ok: true, value: machine }),
)

test.each([
  { typed: { 'supply.holds': 'long' }, field: 'supply.holds', found: '"long"' },
  { typed: { 'supply.holds': '-1' }, field: 'supply.holds', found: '-1' },
  { typed: { 'supply.reserve.current': '11', 'supply.reserve.seconds': '1' }, field: 'supply.reserve.current', found: '11' },
  { typed: { 'branches.0.loads.0.capacitance': '2e9' }, field: 'branches[0].loads[0].capacitance', found: '2000' },
])('$field is refused with the value found there: $found', ({ typed, field, found }) => {
  const answer = withTyped(machine, typed)
  expect(answer).toMatchObject({ ok: false, field, found })
  expect(answer.ok ? '' : answer.message).toContain(found)
})

test('what a device or a load cannot have is not asked for', () => {
  const names = (b: typeof first) => fieldsOf(b, 0).map(f => f.label)
  expect(names(first)).toEqual(['standard', 'carries', 'opensFrom', 'opensWithin', 'peak', 'dies', 'capacitance'])
  expect(names({ id: 'B', protection: { kind: 'none' }, loads: [{ id: 'Y', at: 'terminals', kind: 'coil' }] })).toEqual([])
  expect(names({ id: 'B', protection: { kind: 'electronic' }, loads: [{ id: 'M', at: 'terminals', kind: 'motor' }] })).toEqual([
    'carries',
    'opensFrom',
    'opensWithin',
    'peak',
    'dies',
  ])
  expect(SUPPLY.map(f => f.label)).toEqual(['reserve', 'reserveSeconds', 'holds'])
})

test('the phone’s own copy takes the figures, unless its wiring is another', async () => {
  const told = withTyped(machine, { 'supply.holds': '0.25' })
  if (!told.ok) throw new Error(told.message)
  let kept: readonly Machine[] = [{ ...machine, retired: true } as Machine]
  const log = {
    machines: async () => [...kept],
    saveMachine: async (m: Machine) => {
      kept = [m]
    },
  }
  expect(await keepFigures(log, told.value)).toBe(true)
  expect(kept).toEqual([{ ...told.value, retired: true }])
  const other = { ...machine, branches: machine.branches.slice(1) }
  expect(await keepFigures(log, other)).toBe(false)
  expect(await keepFigures(log, { ...told.value, id: 'another' })).toBe(false)
  expect(kept).toEqual([{ ...told.value, retired: true }])
})
