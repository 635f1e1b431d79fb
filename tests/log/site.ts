// A site's database with the sessions of years, and how long its views take: npm run site -- [--sessions 50000] [--answers 1]
// It runs on a database of the same protocol in this very process, in memory: figures of this computer, and no verdict. The sessions are
// generated, not played: the views look at their starts and their closing forms alone.

import type { FaultKind } from '../../engine/step.ts'
import type { SessionEvent } from '../../web/flow/request.ts'
import { couch } from '../../web/log/couch.ts'
import type { DeskLine } from '../../web/log/desk.ts'
import { chain } from '../../web/log/seal.ts'
import { couchServer } from './couchServer.ts'
import { answered, MACHINE, stored } from './samples.ts'

const option = (name: string, otherwise: number): number => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? otherwise : Number(process.argv[at + 1])
}
const count = option('sessions', 50_000)
const answers = option('answers', 1)
const MACHINES = 200
const FAULTS: readonly FaultKind[] = ['short-to-zero', 'short-to-earth', 'load-short', 'open-plus']
const BATCH = 1000
/** Sessions fall evenly into the years from 2021 on. */
const YEARS = 5

const wallOf = (i: number): string => {
  const at = new Date(Date.UTC(2021, 0, 1) + Math.floor((i / count) * YEARS * 365 * 86_400_000))
  return `${at.toISOString().slice(0, -1)}+00:00`
}
const linesOf = (i: number): DeskLine[] => {
  const machine = { ...MACHINE, id: `machine-${i % MACHINES}`, name: `Machine ${i % MACHINES}` }
  const branch = `B${1 + ((i * 7) % 12)}`
  const session = `00000000-0000-4000-8000-${String(i).padStart(12, '0')}`
  const found = { fault: FAULTS[(i * 13) % FAULTS.length] ?? 'short', branch }
  const events: SessionEvent[] = [
    { type: 'started', machine, kit: {}, symptom: 'all-dead' },
    ...Array.from({ length: answers }, (_, n) => answered(n + 1)),
    { type: 'closed', branch, wrong: '', note: '', record: { found } },
  ]
  const kept = stored(events).map(event => ({ ...event, wall: wallOf(i) }))
  const hashes = chain(session, kept)
  return kept.map((event, k) => ({
    format: 'ohmward.event',
    version: 1,
    session,
    hash: hashes[k] ?? '',
    ...event,
    'x-machine': machine.id,
  }))
}

const say = (line: string): void => {
  process.stdout.write(`${line}\n`)
}
const seconds = (from: number): string => `${((performance.now() - from) / 1000).toFixed(1)} s`

const server = await couchServer()
const address = await server.database('site')
const desk = couch(address)
const ask = async (view: string, query: Readonly<Record<string, unknown>>): Promise<{ rows: { key: unknown[]; value: number }[] }> => {
  const words = Object.entries(query).map(([key, value]) => `${key}=${encodeURIComponent(JSON.stringify(value))}`)
  return (await fetch(`${address}/_design/append/_view/${view}?${words.join('&')}`)).json()
}
const timed = async (what: string, view: string, query: Readonly<Record<string, unknown>>): Promise<void> => {
  const from = performance.now()
  const { rows } = await ask(view, query)
  const sum = rows.reduce((all, { value }) => all + value, 0)
  say(`${what.padEnd(44)} ${seconds(from).padStart(8)}   ${rows.length} rows, ${sum} sessions`)
}

const from = performance.now()
let batch: DeskLine[] = []
let documents = 0
const push = async (): Promise<void> => {
  documents += batch.length
  await desk.push(batch)
  batch = []
}
for (let i = 0; i < count; i++) {
  batch.push(...linesOf(i))
  if (batch.length >= BATCH) await push()
}
if (batch.length > 0) await push()
say(`${count} sessions, ${documents} documents, put in${' '.repeat(8)} ${seconds(from)}`)
const index = async (view: string): Promise<void> => {
  const from = performance.now()
  await ask(view, { limit: 0, reduce: false })
  say(`${`view ${view}, index made for the first time`.padEnd(44)} ${seconds(from).padStart(8)}`)
}
const quarter = ['2025', 4]
await index('branches')
await timed('which branches failed this quarter', 'branches', { start_key: quarter, end_key: [...quarter, {}], group_level: 4 })
const machine = [...quarter, 'machine-7']
await timed('the same of one machine', 'branches', { start_key: machine, end_key: [...machine, {}], group_level: 4 })
await index('faults')
await timed('what it was this quarter', 'faults', { start_key: quarter, end_key: [...quarter, {}], group_level: 3 })
await index('machines')
await timed('how many sessions each machine had', 'machines', { group_level: 1 })
await timed('sessions of one machine this year', 'machines', {
  start_key: ['machine-7', '2025'],
  end_key: ['machine-7', '2026'],
  group_level: 2,
})
await server.stop()
