import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { canonical } from '../../web/log/canonical.ts'
import { couch } from '../../web/log/couch.ts'
import type { Desk } from '../../web/log/desk.ts'
import { type Log, originOf, type SessionSummary } from '../../web/log/log.ts'
import { receive, send, unsent } from '../../web/log/outbox.ts'
import { chain } from '../../web/log/seal.ts'
import type { EventLine } from '../../web/log/sheet.ts'
import { openLog } from '../../web/log/store.ts'
import { type Couch, couchServer } from './couchServer.ts'
import { answered, MACHINE, SESSION, started, stored } from './samples.ts'

let server: Couch
beforeAll(async () => {
  server = await couchServer()
})
afterAll(() => server.stop())
beforeEach(() => Dexie.delete('ohmward'))

let databases = 0
const freshDatabase = (): Promise<string> => server.database(`log${++databases}`)
const ask = async (address: string, path: string): Promise<{ rows: { id: string; doc: { hash: string } }[] }> =>
  (await fetch(`${address}/${path}`)).json()
/** Every event that the database holds, with its hash. */
const held = async (address: string): Promise<string[]> =>
  (await ask(address, '_all_docs?include_docs=true')).rows
    .filter(({ id }) => !id.startsWith('_'))
    .map(({ id, doc }) => `${id} ${doc.hash}`)
    .sort()

const ENDING = { result: 'restored', endedAt: '2026-11-25T14:05:00.000+01:00' } as const
/** A log with finished sessions, one of them long, and one that is still open. */
const phone = async (): Promise<Log> => {
  await Dexie.delete('ohmward')
  const log = await openLog()
  for (const events of [SESSION, [started(), ...Array.from({ length: 450 }, (_, i) => answered(i + 1)), { type: 'stopped' as const }]]) {
    const id = await log.create(started())
    for (const event of events.slice(1, -1)) await log.append(id, event)
    await log.append(id, events.at(-1) ?? { type: 'stopped' }, ENDING)
  }
  await log.create(started('still open'))
  return log
}
const expected = async (log: Log): Promise<string[]> => {
  const lines: string[] = []
  for (const { id, result } of await log.sessions()) {
    if (result === undefined) continue
    for (const [i, hash] of (await chain(originOf(id), await log.events(id))).entries())
      lines.push(`${id}:${String(i + 1).padStart(5, '0')} ${hash}`)
  }
  return lines.sort()
}
/** What was sent, by id. */
const sentIds = (sessions: readonly SessionSummary[]): string[] => sessions.flatMap(({ id, sent }) => (sent ? [id] : [])).sort()
const everything = async (log: Log): Promise<string> => canonical(await Promise.all((await log.sessions()).map(({ id }) => log.events(id))))

test('finished sessions go to the desk, each event once, and are done only then; the open one stays', async () => {
  const [log, address] = [await phone(), await freshDatabase()]
  const before = await everything(log)
  expect(unsent(await log.sessions())).toHaveLength(2)
  expect(await send(log, couch(address))).toEqual({ done: 2, differing: [], missing: [] })
  expect(await held(address)).toEqual(await expected(log))
  expect(await everything(log)).toBe(before)
  log.close()
})

test('sent five times, each time cut off somewhere else, before or after the desk took it, all is there once', async () => {
  const [log, address] = [await phone(), await freshDatabase()]
  const before = await everything(log)
  let cuts = 0
  for (let cut = 0; cut < 5; cut++) {
    for (const arrives of [false, true]) {
      let request = 0
      const desk = couch(address, async (at, options) => {
        const isCut = request++ === cut
        if (isCut && !arrives) throw new TypeError('the network is gone')
        const response = await fetch(at, options)
        if (isCut) throw new TypeError('the network is gone')
        return response
      })
      await send(log, desk).catch(() => {
        cuts += 1
      })
      expect(await everything(log)).toBe(before)
    }
  }
  expect(cuts).toBeGreaterThan(4)
  for (let i = 0; i < 5; i++) await send(log, couch(address))
  expect(await held(address)).toEqual(await expected(log))
  expect(await everything(log)).toBe(before)
  for (const { sent, result } of await log.sessions()) expect(sent === undefined).toBe(result === undefined)
  log.close()
})

test('what the desk holds comes in on another phone as it was, and a second time adds nothing', async () => {
  const [log, address] = [await phone(), await freshDatabase()]
  await send(log, couch(address))
  const sent = await expected(log)
  log.close()
  await Dexie.delete('ohmward')
  const other = await openLog()
  const taken = []
  for (const page of [1000, 50]) for await (const one of receive(other, couch(address, undefined, page))) taken.push(one)
  expect(taken).toMatchObject([
    { ok: true, added: 2, unsealed: 0 },
    { ok: true, added: 0, known: 2 },
  ])
  const lines: string[] = []
  for (const { id } of await other.sessions())
    for (const [i, hash] of (await chain(id, await other.events(id))).entries())
      lines.push(`${id}:${String(i + 1).padStart(5, '0')} ${hash}`)
  expect(lines.sort()).toEqual(sent)
  other.close()
})

test('the desk refuses to change or to delete what it holds, and what differs there is told and stays unsent', async () => {
  const [log, address] = [await phone(), await freshDatabase()]
  const id = (await log.sessions())[1]?.id ?? ''
  const foreign = { _id: `${id}:00002`, hash: 'f'.repeat(64), event: { type: 'undone' } }
  const post = (docs: object[]) =>
    fetch(`${address}/_bulk_docs`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ docs }) })
  expect(await (await post([foreign])).json()).toMatchObject([{ ok: true }])
  expect(await (await post([{ ...foreign, hash: 'e'.repeat(64) }])).json()).toMatchObject([
    { error: expect.stringMatching(/forbidden|conflict/) },
  ])
  expect(await (await post([{ _id: 'without' }])).json()).toMatchObject([{ error: 'forbidden' }])
  expect(await send(log, couch(address))).toEqual({ done: 1, differing: [id], missing: [] })
  expect(unsent(await log.sessions()).map(s => s.id)).toEqual([id])
  log.close()
})

test('a desk that says all is well but keeps nothing is not believed', async () => {
  const log = await phone()
  const forgetful: Desk = { push: async () => undefined, hashes: async lines => lines.map(() => undefined), async *pull() {} }
  expect(await send(log, forgetful)).toMatchObject({ done: 0, missing: [expect.any(String), expect.any(String)] })
  expect(unsent(await log.sessions())).toHaveLength(2)
  log.close()
})

test('a session that grows after it was sent is sent again', async () => {
  const [log, address] = [await phone(), await freshDatabase()]
  await send(log, couch(address))
  expect(unsent(await log.sessions())).toEqual([])
  const id = (await log.sessions())[1]?.id ?? ''
  await log.append(id, { type: 'closed', branch: 'B1', wrong: 'late', note: '' })
  expect(await send(log, couch(address))).toEqual({ done: 1, differing: [], missing: [] })
  expect(await held(address)).toEqual(await expected(log))
  log.close()
})

test('the desk tells by its views which branches failed in a quarter, what it was, and the sessions of a machine', async () => {
  const [log, address] = [await phone(), await freshDatabase()]
  await send(log, couch(address))
  const view = async (name: string, query: string) => (await ask(address, `_design/append/_view/${name}?${query}`)).rows
  // The one session whose record holds a finding.
  const [year, quarter] = [String(new Date().getFullYear()), Math.ceil((new Date().getMonth() + 1) / 3)]
  const range = encodeURIComponent(JSON.stringify([year, quarter]))
  const until = encodeURIComponent(JSON.stringify([year, quarter, {}]))
  expect(await view('branches', `group_level=4&start_key=${range}&end_key=${until}`)).toEqual([
    { key: [year, quarter, MACHINE.id, 'B1'], value: 1 },
  ])
  expect(await view('faults', 'group_level=3')).toEqual([{ key: [year, quarter, 'short-to-zero'], value: 1 }])
  expect(await view('machines', 'group_level=1')).toEqual([{ key: [MACHINE.id], value: 2 }])
  log.close()
})

test('a session that is spoilt on the desk is refused and named; it keeps none of the others out', async () => {
  const log = await phone()
  const address = await freshDatabase()
  await send(log, couch(address))
  const ids = sentIds(await log.sessions())
  log.close()
  await Dexie.delete('ohmward')
  const other = await openLog()
  const desk: Desk = {
    ...couch(address),
    async *pull() {
      for await (const line of couch(address).pull()) {
        const { session, seq } = line as EventLine
        yield session === ids[0] && seq === 2 ? { ...(line as EventLine), mono: 1 } : line
      }
    },
  }
  const taken = []
  for await (const one of receive(other, desk)) taken.push(one)
  expect(taken.filter(({ ok }) => ok)).toMatchObject([{ added: 1 }])
  const refused = taken.filter(({ ok }) => !ok)
  expect(refused).toMatchObject([{ message: expect.stringContaining(ids[0] ?? '') }])
  expect((await other.sessions()).map(({ id }) => id)).toEqual([ids[1]])
  other.close()
})

test('a spoilt desk takes nothing into the log', async () => {
  const log = await openLog()
  const line = { format: 'ohmward.event', version: 1, session: 'x', hash: 'f'.repeat(64), ...stored([started()])[0] }
  const spoilt: Desk = {
    push: async () => undefined,
    hashes: async () => [],
    async *pull() {
      yield line
    },
  }
  for await (const taken of receive(log, spoilt)) expect(taken.ok).toBe(false)
  expect(await log.sessions()).toEqual([])
  log.close()
})
