import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import { beforeEach, expect, test } from 'vitest'
import { exportJson, readExport } from '../../web/log/export.ts'
import { openLog } from '../../web/log/store.ts'
import { outcome, record, SESSION, started, stored } from './samples.ts'

beforeEach(() => Dexie.delete('ohmward'))

test('a session goes out and comes in again as it was', async () => {
  const log = await openLog()
  const id = await record(log)
  const stored = await log.events(id)
  const { name, mime, text } = await exportJson(log, id, { appVersion: '0.1.0' })
  log.close()
  const read = readExport(text)
  expect(read).toEqual({ ok: true, value: { id, exportedAt: expect.any(String), appVersion: '0.1.0', events: SESSION, stored } })
  expect(name).toMatch(/^ohmward-Packer-4-Sud-\d{4}-\d\d-\d\dT\d\d-\d\d\.json$/)
  expect(mime).toBe('application/json')
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
