import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { SCHEMA } from '../../web/log/database.ts'
import type { Log } from '../../web/log/log.ts'
import { openLog } from '../../web/log/store.ts'
import { answered, MACHINE, outcome, record, SESSION, started } from './samples.ts'

let log: Log
beforeEach(async () => {
  await Dexie.delete('ohmward')
  log = await openLog()
})
afterEach(() => {
  vi.unstubAllGlobals()
  log.close()
})
const numbers = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1)

test('fifty quick taps are kept in the order of the taps, with no gap', async () => {
  const id = await log.create(started())
  const seqs = await Promise.all(numbers(50).map(n => log.append(id, answered(n))))
  expect(seqs).toEqual(numbers(50).map(n => n + 1))
  expect((await log.events(id)).map(({ seq, event }) => [seq, event])).toEqual([
    [1, started()],
    ...numbers(50).map(n => [n + 1, answered(n)]),
  ])
})

test('what was stored stays as it was, whatever is added', async () => {
  const id = await record(log)
  const before = await log.events(id)
  await log.append(id, { type: 'undone' })
  await log.append(id, answered(1, { value: 99 }))
  const after = await log.events(id)
  expect(after.slice(0, before.length)).toEqual(before)
  expect(after).toHaveLength(before.length + 2)
})

test('saved is said only after the transaction has committed, strictly', async () => {
  const seen: string[] = []
  const plain = IDBDatabase.prototype.transaction
  const spy = vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...given) {
    const transaction = plain.apply(this, given)
    if (given[1] === 'readwrite') transaction.addEventListener('complete', () => seen.push(`committed, ${given[2]?.durability}`))
    return transaction
  })
  const watched = await openLog() // the library takes hold of the method as it opens
  const id = await watched.create(started())
  seen.push('saved')
  await watched.append(id, answered(1)).then(() => seen.push('saved'))
  await watched.saveDraft(id, '23.').then(() => seen.push('saved'))
  await watched.saveMachine(MACHINE).then(() => seen.push('saved'))
  watched.close()
  spy.mockRestore()
  expect(seen).toEqual(numbers(4).flatMap(() => ['committed, strict', 'saved']))
})

test('a session row and its first event come together or not at all', async () => {
  const uncloneable = { ...started(), kit: { clamp: (() => true) as unknown as boolean } }
  expect(await outcome(log.create(uncloneable))).toBe('unknown')
  expect(await log.sessions()).toEqual([])
  expect(await log.open()).toBeUndefined()
})

test('a session that is not in the log is refused, and nothing is stored', async () => {
  expect(await outcome(log.append('nowhere', answered(1)))).toBe('unknown')
  expect(await log.events('nowhere')).toEqual([])
})

test('after closing and opening again all is there: events, draft, machines', async () => {
  const id = await record(log)
  await log.saveDraft(id, '23.')
  await log.saveMachine(MACHINE)
  const events = await log.events(id)
  log.close()
  log = await openLog()
  expect(await log.events(id)).toEqual(events)
  expect(events.map(({ event }) => event)).toEqual(SESSION)
  expect(await log.draft(id)).toBe('23.')
  expect(await log.machines()).toEqual([MACHINE])
})

test('a draft belongs to its session and ends with the answer', async () => {
  const [one, two] = [await log.create(started()), await log.create(started())]
  await log.saveDraft(one, '0.7')
  expect([await log.draft(one), await log.draft(two)]).toEqual(['0.7', ''])
  await log.append(one, answered(1))
  expect(await log.draft(one)).toBe('')
})

test('sessions are listed newest first even when the clock goes back, with what their events say', async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date('2026-11-25T10:00:00Z') })
  const first = await log.create(started('Press 1'))
  vi.setSystemTime(new Date('2026-11-24T10:00:00Z'))
  const second = await log.create(started('Press 2'))
  vi.useRealTimers()
  expect(await log.open()).toBe(second)
  await log.append(second, { type: 'closed', branch: 'B1', wrong: 'plug wet', note: '' })
  await log.append(second, answered(9, { done: true }), { result: 'restored', endedAt: '2026-11-24T10:05:00.000+00:00' })
  expect(await log.open()).toBe(first)
  const [newest, oldest] = await log.sessions()
  expect(newest).toMatchObject({
    id: second,
    machineName: 'Press 2',
    result: 'restored',
    endedAt: '2026-11-24T10:05:00.000+00:00',
    branch: 'B1',
    wrong: 'plug wet',
  })
  expect(Object.keys(oldest ?? {}).sort()).toEqual(['id', 'machineId', 'machineName', 'startedAt'])
  expect(oldest?.startedAt).toBe((await log.events(first))[0]?.wall)
})

test('the list says what still stands: taking back the last answer reopens a session', async () => {
  const id = await log.create(started())
  const ending = { result: 'restored', endedAt: '2026-11-24T10:05:00.000+00:00' } as const
  await log.append(id, answered(1, { done: true }), ending)
  await log.append(id, { type: 'closed', branch: 'B1', wrong: 'plug wet', note: '' })
  await log.append(id, { type: 'closed', branch: 'B2', wrong: 'plug dry', note: '' })
  expect(await log.open()).toBeUndefined()
  await log.append(id, { type: 'undone' }, ending) // the second closing form; the session stays ended
  expect(await log.sessions()).toMatchObject([{ ...ending, branch: 'B1', wrong: 'plug wet' }])
  await log.append(id, { type: 'undone' }, ending)
  await log.append(id, { type: 'undone' })
  expect(await log.open()).toBe(id)
  expect(Object.keys((await log.sessions())[0] ?? {}).sort()).toEqual(['id', 'machineId', 'machineName', 'startedAt'])
})

test('two pages on one session share its numbers without a gap', async () => {
  const other = await openLog()
  const id = await log.create(started())
  await Promise.all(numbers(10).flatMap(n => [log.append(id, answered(n)), other.append(id, answered(n))]))
  expect((await log.events(id)).map(({ seq }) => seq)).toEqual(numbers(21))
  other.close()
})

test('a page that does not know what another page has added writes nothing more, and says so', async () => {
  const other = await openLog()
  const id = await log.create(started())
  expect(await log.append(id, answered(1), undefined, 1)).toBe(2)
  await expect(other.append(id, answered(1), undefined, 1)).rejects.toMatchObject({
    kind: 'closed',
    message: expect.stringContaining('another window'),
  })
  expect((await log.events(id)).map(({ event }) => event)).toEqual([started(), answered(1)])
  expect(await other.append(id, answered(2), undefined, 2)).toBe(3)
  other.close()
})

test('a newer version closes the old page, which then writes nothing', async () => {
  const id = await log.create(started())
  const told = vi.fn()
  log.onClosed(told)
  const gone = vi.fn()
  log.onClosed(gone)()
  const newer = new Dexie('ohmward')
  const known = { sessions: 'id, &order', events: '[session+seq]', drafts: 'session', machines: 'id', people: 'code' }
  newer.version(SCHEMA + 1).stores({ ...known, texts: 'session', blocks: 'block', photos: '[session+hash]', more: 'id' })
  await newer.open()
  expect(told).toHaveBeenCalledOnce()
  expect(gone).not.toHaveBeenCalled()
  expect(await outcome(log.append(id, answered(1)))).toBe('closed')
  expect(await outcome(log.saveDraft(id, '1'))).toBe('closed')
  expect(await newer.table('events').count()).toBe(1)
  expect(await newer.table('drafts').count()).toBe(0)
  newer.close()
  expect(await outcome(openLog())).toBe('closed') // an old page that starts later would otherwise write with its old schema
  const late = vi.fn()
  log.onClosed(late)
  expect(late).toHaveBeenCalledOnce()
})

test('the browser is asked to keep the log once, after the first saved answer', async () => {
  const persist = vi.fn(async () => true)
  vi.stubGlobal('navigator', { storage: { persisted: async () => false, persist } })
  const id = await log.create(started())
  expect(persist).not.toHaveBeenCalled()
  await log.append(id, answered(1))
  await log.append(id, answered(2))
  await vi.waitFor(() => expect(persist).toHaveBeenCalledOnce())
})
