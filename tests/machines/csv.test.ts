import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readMachine } from '../../engine/check.ts'
import { csvOf, machineFrom } from '../../web/machines/csv.ts'
import { tableOf } from '../../web/machines/table.ts'
import { anyMachine } from './any.ts'

const SEED = 4180
const read = (text: string) => machineFrom(tableOf(text), 'Press 4')

describe('a terminal list', () => {
  const LIST = `\uFEFFBranch;Device;Rating (A);Curve;From;To;Length [m];mm²;Moving;Load;At;Watts\r
B1;breaker;4;c;;;;;;;;\r
B1;;;;terminals;J1;12,5;1,5;no;;;\r
B1;;;;J1;J2;3,25;0,75;yes;;;\r
B1;;;;;;;;;coil;J2;8\r
B2;;;;;;;;;lamp;terminals;2,4\r
`
  test('is read with decimal commas, any order of columns, and lines that do not say what they tell', () => {
    const { machine, problems, counts } = read(LIST)
    expect(problems).toEqual([])
    expect(counts).toEqual({ branches: 2, runs: 2, loads: 2 })
    expect(machine?.name).toBe('Press 4')
    expect(machine?.branches).toEqual([
      {
        id: 'B1',
        protection: { kind: 'breaker', rating: 4, curve: 'C' },
        wiring: [
          { id: '1-W1', from: 'terminals', to: 'J1', length: 12.5, conductor: { area: 1.5 }, moving: false },
          { id: '1-W2', from: 'J1', to: 'J2', length: 3.25, conductor: { area: 0.75 }, moving: true },
        ],
        loads: [{ id: '1-L1', kind: 'coil', at: 'J2', watts: 8 }],
      },
      { id: 'B2', loads: [{ id: '2-L1', kind: 'lamp', at: 'terminals', watts: 2.4 }] },
    ])
  })
  test.each([',', '\t'])('is the same with %j between the columns', separator => {
    const quoted = LIST.replace(/\d+,\d+/g, '"$&"').replaceAll(';', separator)
    expect(read(quoted)).toEqual(read(LIST))
  })
})

test.each([
  ['branch,to,length\nB1,J1,long', { line: 2, column: 'length', found: 'long', why: 'value' }],
  ['branch,to,length\nB1,J1,"1.234,5"', { line: 2, column: 'length', found: '1.234,5', why: 'value' }],
  ['branch,to,length\n\n\nB1,J1,-3', { line: 4, column: 'length', found: '-3', why: 'value' }],
  ['branch,to,length\nB1,,3', { line: 2, column: 'to', found: '', why: 'missing' }],
  ['branch,to,length\n,J1,3', { line: 2, column: 'branch', found: '', why: 'missing' }],
  ['branch,from,to,length\nB1,J9,J1,3', { line: 2, column: 'from', found: 'J9', why: 'hangs' }],
  ['branch,from,to,length\nB1,,J1,3\nB1,J1,J1,2', { line: 3, column: 'to', found: 'J1', why: 'hangs' }],
  ['branch,to,length,load,at\nB1,J1,3,,\nB1,,,coil,J7', { line: 3, column: 'at', found: 'J7', why: 'hangs' }],
  ['branch,id,to,length\nB1,W1,J1,3\nB2,W1,J2,3', { line: 3, column: 'id', found: 'W1', why: 'taken' }],
  ['branch,device\nB1,fuse\nB1,fuse', { line: 3, column: 'branch', found: 'B1', why: 'taken' }],
  ['branch,device\nB1,magic', { line: 2, column: 'device', found: 'magic', why: 'value' }],
  ['branch,device,rating\nB1,,4', { line: 2, column: 'rating', found: '4', why: 'alone' }],
  ['branch,to,length,area,awg\nB1,J1,3,1.5,16', { line: 2, column: 'awg', found: '16', why: 'both' }],
  ['branch,device\nsupply,fuse', { line: 2, column: 'branch', found: 'supply', why: 'value' }],
  ['item,branch\npump,B1', { line: 2, column: 'item', found: 'pump', why: 'item' }],
  ['from,to\nJ1,J2', { line: 1, column: 'branch', found: 'from to', why: 'header' }],
  ['branch,to,To\nB1,J1,J2', { line: 1, column: 'to', found: 'To', why: 'twice' }],
  ['branch,name\nB1,"open\nB2,b', { line: 2, found: '"', why: 'unclosed' }],
  ['', { line: 1, found: '', why: 'empty' }],
  ['branch,to\n', { line: 1, found: '', why: 'empty' }],
])('%j is refused at its place', (text, problem) => {
  const { machine, problems } = read(text)
  expect(machine).toBeUndefined()
  expect(problems).toEqual([problem])
})

test('every wrong cell is told at once, and no column is passed over in silence', () => {
  const { problems, unread } = read('branch,to,length,colour,watts,load,at\nB1,J1,x,red,,,\nB1,J2,0,,,,\nB2,,,,y,coil,terminals')
  expect(problems.map(({ line, column }) => `${line} ${column}`)).toEqual(['2 length', '3 length', '4 watts'])
  expect(unread).toEqual(['colour'])
})

test(`a machine that a table can say comes back as it was; seed ${SEED}`, () => {
  fc.assert(
    fc.property(anyMachine(true), told => {
      const checked = readMachine(told)
      if (!checked.ok) throw new Error(checked.message)
      const { machine, problems, unread } = read(csvOf(checked.value))
      expect({ problems, unread }).toEqual({ problems: [], unread: [] })
      expect(machine).toEqual(checked.value)
    }),
    { seed: SEED, numRuns: 60 },
  )
})

test(`2000 altered tables give a machine or name a line of the file, and never throw; seed ${SEED}`, () => {
  const right = csvOf({
    format: 'ohmward.machine',
    version: 1,
    id: 'm',
    name: 'M',
    supply: {},
    branches: [
      {
        id: 'B1',
        protection: { kind: 'fuse', rating: 2 },
        wiring: [
          { id: 'W1', from: 'terminals', to: 'J1', length: 4 },
          { id: 'W2', from: 'J1', to: 'J2', length: 2.5, moving: true },
        ],
        loads: [{ id: 'K1', at: 'J2', kind: 'coil', watts: 8 }],
      },
    ],
  })
  const sign = fc.constantFrom(',', ';', '"', '\n', '\r', '\t', '', '0', '-', 'J1', 'constructor', '__proto__', '\u0000', '1e999', '/')
  const change = fc.array(fc.record({ at: fc.nat(right.length), cut: fc.nat(6), put: sign }), { minLength: 1, maxLength: 4 })
  const seen = { right: 0, refused: 0 }
  fc.assert(
    fc.property(change, changes => {
      const text = changes.reduce((all, { at, cut, put }) => all.slice(0, at) + put + all.slice(at + cut), right)
      const { machine, problems } = read(text)
      expect(machine === undefined).toBe(problems.length > 0)
      const lines = text.split(/\r\n|\n|\r/).length
      for (const { line } of problems) expect(line >= 1 && line <= lines).toBe(true)
      if (machine) expect(readMachine(machine)).toEqual({ ok: true, value: machine })
      seen[machine ? 'right' : 'refused']++
    }),
    { seed: SEED, numRuns: 2000 },
  )
  expect(seen.refused).toBeGreaterThan(500)
  expect(seen.right).toBeGreaterThan(50)
})
