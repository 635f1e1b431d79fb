import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import fc from 'fast-check'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { database, type SessionRow } from '../../web/log/database.ts'
import { digestOne } from '../../web/log/digest.ts'
import { type ExportFile, exportMany } from '../../web/log/export.ts'
import type { Log } from '../../web/log/log.ts'
import { BLOCK } from '../../web/log/rows.ts'
import { openLog } from '../../web/log/store.ts'
import { write } from '../../web/log/written.ts'
import { answered, record, started, stored } from './samples.ts'

let log: Log
beforeEach(async () => {
  await Dexie.delete('ohmward')
  log = await openLog()
})
afterEach(() => {
  vi.restoreAllMocks()
  log.close()
})

/** The tables as they are, past all that is kept besides. */
const raw = async <T>(read: (db: ReturnType<typeof database>) => PromiseLike<T>): Promise<T> => {
  const db = database()
  await db.open()
  const found = await read(db)
  db.close()
  return found
}
const bare = ({ order: _order, ...summary }: SessionRow) => summary
const listed = () => raw(async db => (await db.sessions.orderBy('order').reverse().toArray()).map(bare))
const many = (count: number, from = 0) =>
  log.merge(Array.from({ length: count }, (_, i) => ({ id: `s${from + i}`, events: stored([started(`Press ${i % 7}`), answered(1)]) })))

test('the list is read in blocks, and says the same as the rows whatever was done to them since', async () => {
  await many(2 * BLOCK + 20)
  expect(await log.sessions()).toEqual(await listed())
  expect(await raw(db => db.blocks.count())).toBe(2)
  const id = `s${BLOCK + 3}`
  const changes: readonly (() => Promise<unknown>)[] = [
    () => log.append(id, answered(2)),
    () => log.append(id, { type: 'closed', branch: 'B1', wrong: 'plug wet', note: '' }),
    () => digestOne(log, id),
    () => log.saveSent(id, { head: 'a'.repeat(64), count: 4 }),
    () => log.append(id, { type: 'undone' }),
    () => log.merge([{ id: 's5', events: stored([started('Press 5'), answered(1), answered(2)]) }]),
    () => many(BLOCK, 5000),
    () => log.create(started('Press 9')),
  ]
  let changed = 0
  for (const change of changes) {
    const before = await log.sessions()
    await change()
    const after = await log.sessions()
    if (JSON.stringify(after) !== JSON.stringify(before)) changed += 1
    expect(after).toEqual(await listed())
  }
  expect(changed).toBeGreaterThan(5)
  expect(await raw(db => db.blocks.count())).toBe(3)
})

test('the second time the list is read, no old row is asked for one by one, however many there are', async () => {
  await many(4 * BLOCK)
  await log.sessions()
  // Counted at the browser's own door: each of these is one request, and gives so many values.
  let [requests, values] = [0, 0]
  for (const holder of [IDBObjectStore.prototype, IDBIndex.prototype]) {
    const plain = holder.getAll
    vi.spyOn(holder, 'getAll').mockImplementation(function (this: IDBIndex, ...given) {
      requests += 1
      const request = plain.apply(this, given)
      request.addEventListener('success', () => {
        values += request.result.length
      })
      return request
    })
  }
  const all = await log.sessions()
  expect(all).toHaveLength(4 * BLOCK)
  expect(requests).toBeLessThanOrEqual(4)
  expect(values).toBeLessThanOrEqual(BLOCK + 4)
})

test('a block that cannot be kept is not missed', async () => {
  await many(BLOCK + 20)
  const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
    throw new DOMException('full', 'QuotaExceededError')
  })
  expect(await log.sessions()).toHaveLength(BLOCK + 20)
  full.mockRestore()
  expect(await log.sessions()).toEqual(await listed())
})

test('the newest unfinished session of this phone is found behind any number of others', async () => {
  const own = await log.create(started('own'))
  await many(BLOCK + 20)
  expect(await log.open()).toBe(own)
})

const filesOf = async (ids: readonly string[], kind: 'json' | 'ndjson', source: Parameters<typeof exportMany>[0]): Promise<string[]> => {
  const files: ExportFile[] = []
  vi.useFakeTimers({ toFake: ['Date'], now: new Date('2026-11-25T10:00:00Z') })
  for await (const file of exportMany(source, ids, 'all', kind)) files.push(file)
  vi.useRealTimers()
  return files.map(({ text }) => text)
}

test('[seed 61] what leaves by the kept texts is, byte for byte, what leaves event by event, whatever came in between', async () => {
  const acts = fc.array(fc.constantFrom('answer', 'undo', 'close', 'look', 'new', 'join'), { minLength: 3, maxLength: 25 })
  let [kept, missing] = [0, 0]
  await fc.assert(
    fc.asyncProperty(acts, async given => {
      log.close()
      await Dexie.delete('ohmward')
      log = await openLog()
      let id = await record(log)
      let n = 0
      for (const act of given) {
        if (act === 'answer') await log.append(id, answered(++n))
        if (act === 'undo') await log.append(id, { type: 'undone' })
        if (act === 'close') await log.append(id, { type: 'closed', branch: 'B1', wrong: `Ω ${n}`, note: '\u2028\n"' })
        if (act === 'look') await digestOne(log, id)
        if (act === 'new') id = await log.create(started(`Press ${++n}`))
        if (act === 'join') await log.merge([{ id: 'other', events: stored([started(), ...Array(n).fill(answered(1))]) }])
      }
      const ids = (await log.sessions()).map(session => session.id)
      for (const text of await log.textsOf(ids))
        if (text) kept += 1
        else missing += 1
      for (const kind of ['json', 'ndjson'] as const)
        expect(await filesOf(ids, kind, log)).toEqual(await filesOf(ids, kind, { events: log.events }))
    }),
    { seed: 61, numRuns: 40 },
  )
  expect(Math.min(kept, missing)).toBeGreaterThan(10) // or only one of the two ways was tried
})

test('kept texts are found whichever are asked for, and in that order: all of a log, some of it, and what is not there', async () => {
  const COUNT = 130
  await many(COUNT)
  const ids = Array.from({ length: COUNT }, (_, i) => `s${i}`)
  for (const [i, id] of ids.entries()) if (i % 11 !== 0) await digestOne(log, id)
  const one = async (id: string) => (await log.textsOf([id]))[0]
  const alone = new Map<string, unknown>()
  for (const id of ids) alone.set(id, await one(id))
  expect([...alone.values()].filter(Boolean)).toHaveLength(COUNT - Math.ceil(COUNT / 11))
  const third = ids.filter((_, i) => i % 3 === 0)
  for (const asked of [ids, [...ids].reverse(), third, ids.slice(20, 90), ['nowhere', 's1', 's0'], []])
    expect(await log.textsOf(asked)).toEqual(asked.map(id => alone.get(id)))
  // More than are read together: the file holds each session once, told as event by event.
  expect(await filesOf(ids, 'json', log)).toEqual(await filesOf(ids, 'json', { events: log.events }))
  expect(await filesOf(third, 'ndjson', log)).toEqual(await filesOf(third, 'ndjson', { events: log.events }))
})

test('a session that is gone while its file is made is told, though it was read ahead', async () => {
  await many(60)
  const ids = [...Array.from({ length: 60 }, (_, i) => `s${i}`), 'zz']
  await expect(filesOf(ids, 'json', log)).rejects.toThrow('not in the log any more')
  vi.useRealTimers()
})

test('exported is what was seen to leave as it is: a session that went on since is not marked, and going on takes the mark away', async () => {
  const id = await record(log)
  await digestOne(log, id)
  const [before] = await log.sessions()
  if (!before) throw new Error('no session')
  await log.saveExported([before], 'noon')
  expect((await log.sessions())[0]?.exported).toBe('noon')
  await log.append(id, answered(50))
  expect((await log.sessions())[0]?.exported).toBeUndefined()
  await log.saveExported([before], 'one')
  expect((await log.sessions())[0]?.exported).toBeUndefined()
})

test('a text holds as many hashes as events, and counts its bytes', () => {
  const { events, bytes, hashes, count } = write('id', stored([started('Ω'), answered(1)]))
  expect([events.split(',\n').length, hashes.length, count]).toEqual([2, 128, 2])
  expect(bytes).toBe(new TextEncoder().encode(events).length)
})
