import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { begin, replay } from '../../web/flow/session.ts'
import { exportJson, readExport } from '../../web/log/export.ts'
import { readSessions } from '../../web/log/import.ts'
import { learnedOf } from '../../web/log/learned.ts'
import type { Log } from '../../web/log/log.ts'
import { openLog } from '../../web/log/store.ts'
import { played } from './played.ts'
import { answered, MACHINE, RECORD, record, started } from './samples.ts'

let log: Log
beforeEach(async () => {
  await Dexie.delete('ohmward')
  log = await openLog()
})
afterEach(() => log.close())

const closed = (found: typeof RECORD.found) => [
  started(),
  answered(1, { done: true }),
  { type: 'closed' as const, branch: 'B1', wrong: '', note: '', record: { ...RECORD, ...(found && { found }) } },
]

test('a machine that nothing was found at teaches nothing', async () => {
  await record(log, [started()])
  expect(await learnedOf(log, MACHINE.id)).toEqual([])
})

test('findings of this machine alone count, alike ones together, the most frequent first', async () => {
  for (let i = 0; i < 3; i++)
    await record(log, closed({ fault: 'short-to-zero', branch: 'B1', run: 'W1', alongRun: { best: i, low: 0, high: 4 } }))
  await record(log, closed({ fault: 'no-mains' }))
  await record(log, [{ ...started(), machine: { ...MACHINE, id: 'press-1' } }, ...closed({ fault: 'short', branch: 'B2' }).slice(1)])
  expect(await learnedOf(log, MACHINE.id)).toEqual([
    { fault: 'short-to-zero', branch: 'B1', run: 'W1', times: 3 },
    { fault: 'no-mains', times: 1 },
  ])
})

test('own sessions count before anybody looked at the review, and imported ones too', async () => {
  const at = { id: 'packer-9' }
  const [own, other] = [played(2, at), played(4, at)]
  await record(log, own.events)
  const taught = await learnedOf(log, 'packer-9')
  expect(taught).toEqual([expect.objectContaining({ fault: own.finding?.fault, branch: own.finding?.branch, times: 1 })])
  const events = other.events.map((event, i) => ({
    seq: i + 1,
    wall: '2026-11-25T14:05:00.000+01:00',
    zone: 'Europe/Berlin',
    mono: i,
    boot: 'c',
    event,
  }))
  const read = readSessions((await exportJson({ events: async () => events }, '3f6c0c5e-8a57-4c6f-9d0e-2b1a5c9e7d99')).text)
  if (!read.ok) throw new Error(read.message)
  await log.merge(read.value.sessions)
  expect((await learnedOf(log, 'packer-9')).reduce((sum, { times }) => sum + times, 0)).toBe(2)
})

test('machines of which only the branches were counted need not be the same: they teach nothing', async () => {
  await record(log, [{ ...started(), machine: { ...MACHINE, id: 'unknown-8' } }, ...closed({ fault: 'short', branch: 'B1' }).slice(1)])
  expect(await learnedOf(log, 'unknown-8')).toEqual([])
})

test('what a session started from goes out, comes in, and gives the same belief when it is played again', async () => {
  const first = {
    ...started(),
    symptom: 'one-branch-dead' as const,
    branch: 'B2',
    learned: [{ fault: 'short-to-zero' as const, branch: 'B1', run: 'W1', times: 3 }],
  }
  const id = await record(log, [first])
  const back = readExport((await exportJson(log, id)).text)
  if (!back.ok) throw new Error(back.message)
  const [event] = back.value.events
  expect(event).toEqual(first)
  const again = replay(back.value.events)
  expect(again.belief).toEqual(begin(first).belief)
  expect(again.belief).not.toEqual(begin(started()).belief)
  expect(again.fromLog).toMatchObject({ findings: 3 })
})

test.each([
  { what: 'no list', learned: 'B1', says: 'learned' },
  { what: 'a fault that is none', learned: [{ fault: 'rain', times: 1 }], says: 'learned[0].fault is "rain"' },
  { what: 'a count of nothing', learned: [{ fault: 'short', times: 0 }], says: 'learned[0].times is 0' },
  {
    what: 'more entries than any machine has places',
    learned: Array(1001).fill({ fault: 'short', times: 1 }),
    says: 'a list of 0 to 1000',
  },
])('a start with $what is refused by field and value', async ({ learned, says }) => {
  const id = await record(log, [started()])
  const file = JSON.parse((await exportJson(log, id)).text)
  file.events[0].event.learned = learned
  const back = readSessions(JSON.stringify(file))
  expect(back.ok ? '' : back.message).toContain(says)
})
