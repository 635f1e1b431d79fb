import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import fc from 'fast-check'
import { beforeEach, expect, test } from 'vitest'
import type { Answer } from '../../engine/step.ts'
import type { SessionEvent } from '../../web/flow/request.ts'
import { exportJson, readExport } from '../../web/log/export.ts'
import { openLog } from '../../web/log/store.ts'
import { ANSWERS, answered, outcome, record, SESSION, started, stored } from './samples.ts'

beforeEach(() => Dexie.delete('ohmward'))

test('a session goes out and comes in again as it was', async () => {
  const log = await openLog()
  const id = await record(log)
  const stored = await log.events(id)
  const { name, mime, text } = await exportJson(log, id, '0.1.0')
  log.close()
  const read = readExport(text)
  expect(read).toEqual({ ok: true, value: { id, exportedAt: expect.any(String), appVersion: '0.1.0', events: SESSION, stored } })
  expect(name).toMatch(/^ohmward-Packer-4-Sud-\d{4}-\d\d-\d\dT\d\d-\d\d\.json$/)
  expect(mime).toBe('application/json')
})

const text = fc.string({ unit: 'binary', maxLength: 40 })
const value = fc.double({ noNaN: true, noDefaultInfinity: true }).map(x => x + 0)
const answer: fc.Arbitrary<Answer> = fc.oneof(
  fc.constantFrom(...ANSWERS),
  text.map(cannot => ({ cannot })),
  fc.record({ value: fc.oneof(value, fc.constant('OL' as const)), unsteady: fc.boolean(), ac: fc.boolean() }, { requiredKeys: ['value'] }),
)
const event: fc.Arbitrary<SessionEvent> = fc.oneof(
  fc.tuple(fc.integer({ min: 1, max: 1000 }), answer).map(([n, given]) => answered(n, given)),
  fc.constantFrom<SessionEvent>({ type: 'undone' }, { type: 'handedOver' }, { type: 'stopped' }),
  fc.record({ type: fc.constant('closed' as const), branch: text, wrong: text, note: text }),
)
test('[seed 32] a thousand sessions of any events come in as the same bytes', async () => {
  const sessions = fc.array(event, { maxLength: 30 }).map(events => stored([started(), ...events]))
  await fc.assert(
    fc.asyncProperty(sessions, async events => {
      const out = await exportJson({ events: async () => events }, 'id')
      const read = readExport(out.text)
      expect(JSON.stringify(read.ok && read.value.stored)).toBe(JSON.stringify(events))
    }),
    { seed: 32, numRuns: 1000 },
  )
})

test.each(['../../etc/passwd', 'a\\b:c*?"<>|', '', '…', 'x'.repeat(500), 'CON', '\u202Egpj.exe', 'Säge 3 – Nord'])(
  'a machine called %j gives a harmless file name',
  async machine => {
    const { name } = await exportJson({ events: async () => stored([started(machine)]) }, 'id')
    expect(name).toMatch(/^ohmward-[A-Za-z0-9-]{1,60}\.json$/)
    expect(name).not.toContain('--')
  },
)

test('a session that is not in the log is told, not exported empty', async () => {
  expect(await outcome(exportJson({ events: async () => [] }, 'nowhere'))).toBe('unknown')
})
