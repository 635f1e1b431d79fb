import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import fc from 'fast-check'
import { beforeEach, expect, test } from 'vitest'
import type { Answer, Step } from '../../engine/step.ts'
import type { Entry, Request } from '../../web/flow/request.ts'
import { COMMA, POINT, table, textCell } from '../../web/log/csv.ts'
import { exportCsv } from '../../web/log/export.ts'
import { exportOverview } from '../../web/log/overview.ts'
import { openLog } from '../../web/log/store.ts'
import { answered, started } from './samples.ts'

beforeEach(() => Dexie.delete('ohmward'))

/**
 * Reads a table as a spreadsheet does that separates by `separator`: quotes count only at the head of a cell, and what stands
 * between a closing quote and the next separator still belongs to the cell.
 */
const cells = (text: string, separator: string): string[][] => {
  const rows: string[][] = []
  const pattern = new RegExp(`(?:"((?:[^"]|"")*)"?)?([^${separator}\r\n]*)(${separator}|\r\n|\r|\n|$)`, 'y')
  let row: string[] = []
  while (pattern.lastIndex < text.length) {
    const [, quoted = '', bare = '', end] = pattern.exec(text) ?? []
    row.push(quoted.replaceAll('""', '"') + bare)
    if (end === separator) continue
    rows.push(row)
    row = []
  }
  return rows
}
const NUMBER = /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/
const runs = (cell: string): boolean => /^[\s\p{C}]*[=+\-@−＝＋－＠]/u.test(cell)

const step = (n: number, asked: Step): Request => ({ say: 'step', n, seconds: 15, step: asked, why: { key: 'k', facts: {} } })
const entry = (request: Request, answer: Answer): Entry => ({ request, answer, stage: 'narrowing', power: 'live' })
const volt: Step = { kind: 'read', meter: 'volt', red: 'B1.plus', black: 'B1.zero' }

test('each answered step is a line in the words of the machine', async () => {
  const log = await openLog()
  const id = await log.create(started())
  const ohm: Step = { kind: 'read', meter: 'ohm', red: 'B1/W1.plus', black: 'B1/W1.zero' }
  const stretch = { best: 4, low: 3.21, high: 5 }
  const entries = [
    entry({ say: 'confirm', n: 1, caution: 'voltage-may-return', acts: [] }, { done: true }),
    entry(step(2, { kind: 'act', act: { act: 'inject', branch: 'B1', to: 'on', into: 'earth' } }), { cannot: '=no source, "none"' }),
    entry(step(3, { kind: 'act', act: { act: 'prove-dead' } }), { volts: 23.8 }),
    entry(step(4, { kind: 'act', act: { act: 'zero-leads' } }), { value: -0.2 }),
    entry(step(5, { kind: 'look', look: 'device', branch: 'B1' }), { seen: 'tripped' }),
    entry(step(6, { kind: 'read', meter: 'amp', branch: 'B1' }), { value: -1, unsteady: true, ac: true }),
    entry(step(7, ohm), { value: 'OL' }),
    entry(step(8, { kind: 'finding', finding: { fault: 'short-to-zero', branch: 'B1', run: 'W1', alongRun: stretch, probability: 0.9 } }), {
      confirmed: true,
    }),
  ]
  for (const { request, answer } of entries) await log.append(id, answered(request.n, answer))
  await log.append(id, { type: 'handedOver' })
  await log.append(id, { type: 'undone' }) // the handing over
  await log.append(id, { type: 'undone' }) // the answer
  const last = await log.append(id, answered(8, { confirmed: true }))
  const walls = (await log.events(id)).map(({ wall }) => wall)
  const { name, mime, text } = await exportCsv(log, id, entries)
  log.close()
  expect(text.startsWith('\uFEFFseq,wall,stage,kind,what,value,unit,seconds,remark\r\n')).toBe(true)
  expect(text.slice(1).split('\r\n').slice(1)).toEqual([
    `2,${walls[1]},narrowing,confirm,voltage-may-return,done,,,`,
    `3,${walls[2]},narrowing,act,inject B1 on into-earth,cannot,,15,"'=no source, ""none"""`,
    `4,${walls[3]},narrowing,act,prove-dead,23.8,V,15,`,
    `5,${walls[4]},narrowing,act,zero-leads,-0.2,Ω,15,`,
    `6,${walls[5]},narrowing,look,device B1,tripped,,15,`,
    `7,${walls[6]},narrowing,read,amp B1,-1,A,15,unsteady ac`,
    `8,${walls[7]},narrowing,read,ohm B1/W1.plus B1/W1.zero,OL,Ω,15,`,
    `${last},${walls[last - 1]},narrowing,finding,short-to-zero B1 W1 3.2..5.0 m,confirmed,,15,`,
    '',
  ])
  expect(mime).toBe('text/csv;charset=utf-8')
  expect(name).toMatch(/^ohmward-Packer-4-Sud-\d{4}-\d\d-\d\dT\d\d-\d\d\.csv$/)
})

test.each([
  { style: POINT, why: 'points and commas' },
  { style: COMMA, why: 'decimal commas and semicolons' },
])('[seed 24] every number comes back from a table with $why as it went in', async ({ style }) => {
  const log = await openLog()
  const id = await log.create(started())
  const number = fc.double({ noNaN: true, noDefaultInfinity: true })
  const values = fc.sample(number, { seed: 24, numRuns: 10_000 }).concat(-1, -0.05, 1e21, -1e-7, Number.MAX_VALUE, 5e-324)
  const { text } = await exportCsv(
    log,
    id,
    values.map((value, i) => entry(step(i + 1, volt), { value })),
    style,
  )
  log.close()
  const rows = cells(text.slice(1), style.separator).slice(1)
  expect(rows.filter(row => row.length !== 9)).toEqual([])
  const read = rows.map(row => (row[5] ?? '').replace(style.decimal, '.'))
  expect(read.filter(cell => !NUMBER.test(cell))).toEqual([])
  expect(read.map(Number)).toEqual(values.map(value => value + 0)) // minus nought is nought
})

const PAYLOADS = [
  '=1+1',
  '+1',
  '-1',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  '\0=1',
  '  =1',
  '\u00A0=1',
  '\u200B=1',
  '＝1',
  '−1',
  '\n-1',
  ';=1',
  'a;=1+1;b',
  'a\t=1',
  'a\n=1',
  '"=1',
  '";=1',
  ',=1',
  'a";=1;"',
  ' \t1',
  '\0',
  '\t',
]
const hostile = fc.oneof(
  fc.array(fc.constantFrom(...PAYLOADS, 'a', ' ', '"', ',', ';', '\n', '\r', "'"), { maxLength: 8 }).map(parts => parts.join('')),
  fc.string({ unit: 'binary' }),
)
test.each([
  { separator: ',', style: POINT },
  { separator: ';', style: POINT },
  { separator: ',', style: COMMA },
  { separator: ';', style: COMMA },
])(
  '[seed 30] no text is run as a formula by a spreadsheet that separates by $separator, in a table that separates by $style.separator',
  ({ separator, style }) => {
    const inert = (texts: readonly string[]): void => {
      const written = table([texts.map(text => text)], style).slice(1)
      expect(cells(written, separator).flat().filter(runs)).toEqual([])
      if (separator === style.separator) expect(cells(written, separator)[0]?.filter(text => /^\s*[\t\r\0]/.test(text))).toEqual([])
    }
    for (const payload of PAYLOADS) inert([payload, payload])
    fc.assert(fc.property(fc.array(hostile, { minLength: 1, maxLength: 4 }), inert), { seed: 30, numRuns: 4000 })
  },
)

const plainWords = fc.array(fc.constantFrom('24 V', 'B1/W1.plus', 'a-b', '"', ',', ' ', '\r\n', '\n', '\r', '=', 'Ω', '.', '断線', "'"), {
  maxLength: 8,
})
test('[seed 41] a text that is no formula comes back from the table as it went in', () => {
  const harmless = plainWords.map(words => ['x', ...words].join('')).filter(text => !/[\r\n,][\s"]*=/.test(text))
  fc.assert(
    fc.property(harmless, fc.constantFrom(POINT, COMMA), (text, style) => {
      expect(cells(`${textCell(text, style)}${style.separator}1`, style.separator)).toEqual([[text, '1']])
    }),
    { seed: 41, numRuns: 5_000 },
  )
})

test('many sessions are a line each, with what is known of them', () => {
  const facts = {
    events: 9,
    found: { fault: 'short-to-zero' as const, branch: 'B1', run: 'W1', alongRun: { best: 3.25, low: 2.5, high: 4 } },
    times: { down: 1180.5, diagnosis: 600 },
    cannots: [{ what: 'bond opened', why: 'x' }],
    who: '=M17',
  }
  const session = { id: 's1', machineId: 'm', machineName: 'Säge; 3', startedAt: 'then', result: 'restored' as const, facts }
  const { name, text } = exportOverview(
    [session, { id: 's2', machineId: 'm', machineName: 'Säge; 3', startedAt: 'now' }],
    'Säge; 3 2026-11',
    COMMA,
  )
  expect(name).toBe('ohmward-Sage-3-2026-11.csv')
  const [head = [], one = [], two = []] = cells(text.slice(1), ';')
  const at = (row: readonly string[], column: string) => row[head.indexOf(column)]
  expect(['name', 'branch', 'metres', 'down', 'checkOut', 'technician', 'notDone'].map(column => at(one, column))).toEqual([
    'Säge; 3',
    'B1',
    '3,25',
    '1180,5',
    '',
    "'=M17",
    '1',
  ])
  expect([two.length, at(two, 'session'), at(two, 'fault')]).toEqual([head.length, 's2', ''])
})
