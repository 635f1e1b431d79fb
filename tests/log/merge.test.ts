import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import fc from 'fast-check'
import { beforeEach, expect, test } from 'vitest'
import type { SessionEvent } from '../../web/flow/request.ts'
import { canonical } from '../../web/log/canonical.ts'
import { exportJson, exportLines, exportMany } from '../../web/log/export.ts'
import { readSessions } from '../../web/log/import.ts'
import { type Log, originOf, type StoredEvent } from '../../web/log/log.ts'
import { chain, verify } from '../../web/log/seal.ts'
import type { SealedSession } from '../../web/log/sheet.ts'
import { openLog } from '../../web/log/store.ts'
import { write } from '../../web/log/written.ts'
import { answered, MACHINE, outcome, record, SESSION, started, stored } from './samples.ts'

beforeEach(() => Dexie.delete('ohmward'))
/** A phone of its own: an empty log. */
const phone = async (): Promise<Log> => {
  await Dexie.delete('ohmward')
  return openLog()
}
/** All that a log holds: each event as its session, its number and its hash. */
const inventory = async (log: Log): Promise<string[]> => {
  const held: string[] = []
  for (const { id } of await log.sessions()) {
    const events = await log.events(id)
    const hashes = await chain(originOf(id), events)
    held.push(...events.map(({ seq }, i) => `${originOf(id)} ${seq} ${hashes[i]}`))
  }
  return [...new Set(held)].sort()
}
/** The tellings of each session: none is a part of another. */
const tellings = async (log: Log): Promise<string[]> => {
  const all = (await log.sessions()).map(async ({ id }) => `${originOf(id)} ${canonical(await log.events(id))}`)
  return (await Promise.all(all)).sort()
}
const taken = async (sets: readonly (readonly SealedSession[])[]) => {
  const log = await phone()
  for (const sessions of sets) await log.merge(sessions)
  const held = { inventory: await inventory(log), tellings: await tellings(log) }
  log.close()
  return held
}

/** Three phones that share some sessions: each went on, or not, from a common beginning in its own way. */
const tail = fc.array(
  fc.integer({ min: 1, max: 3 }).map(n => answered(n)),
  { maxLength: 3 },
)
const telling = fc
  .tuple(fc.constantFrom('s1', 's2', 's3'), tail)
  .map(([id, events]): SealedSession => ({ id, events: stored([started(id), ...events]) }))
const onePhone = fc.array(telling, { maxLength: 4 })
test('[seed 51] three phones come together alike in any order, in any grouping, and any number of times', async () => {
  let conflicts = 0
  await fc.assert(
    fc.asyncProperty(onePhone, onePhone, onePhone, async (a, b, c) => {
      const all = await taken([a, b, c])
      expect(await taken([c, a, b])).toEqual(all)
      expect(await taken([[...b, ...c], a])).toEqual(all)
      expect(await taken([a, b, c, b, a, c, c])).toEqual(all)
      // Nothing is lost and nothing doubled: the log holds just what went in.
      const given = new Set<string>()
      for (const { id, events } of [...a, ...b, ...c])
        for (const [i, hash] of (await chain(id, events)).entries()) given.add(`${id} ${i + 1} ${hash}`)
      expect(all.inventory).toEqual([...given].sort())
      if (all.tellings.length > new Set(all.tellings.map(one => one.slice(0, 2))).size) conflicts += 1
    }),
    { seed: 51, numRuns: 60 },
  )
  expect(conflicts).toBeGreaterThan(10) // or parted tellings were never tried
}, 120_000)

test('what two phones export comes together on a third, with their own sessions apart, in every form of file', async () => {
  const one = await phone()
  const id = await record(one)
  const open = await record(one, [started('Press 9'), answered(1)])
  const files = [await exportJson(one, id), await exportLines(one, open)]
  for await (const file of exportMany(one, [id, open], 'all', 'json')) files.push(file)
  const before = await inventory(one)
  one.close()
  const desk = await phone()
  const own = await record(desk, [started('Desk'), answered(1)])
  for (const { text } of [...files, ...files]) {
    const read = readSessions(text)
    if (!read.ok) throw new Error(read.message)
    await desk.merge(read.value.sessions)
  }
  expect(await inventory(desk)).toEqual(
    [...before, ...(await chain(own, await desk.events(own))).map((h, i) => `${own} ${i + 1} ${h}`)].sort(),
  )
  expect(
    (await desk.sessions())
      .filter(s => s.imported)
      .map(s => s.id)
      .sort(),
  ).toEqual([id, open].sort())
  // A session that is open elsewhere is not offered here to go on with.
  expect(await desk.open()).toBe(own)
  desk.close()
})

test('a session that went on elsewhere grows; told in two ways it is kept in both, told so, and goes out under its own id', async () => {
  const log = await phone()
  const id = await record(log, [started(), answered(1)])
  const own = await log.events(id)
  const more = (event: SessionEvent): StoredEvent[] => [...own, { ...(own[1] as StoredEvent), seq: 3, event }]
  expect(await log.merge([{ id, events: own }])).toEqual({ added: 0, grown: 0, known: 1, conflicts: [] })
  expect(await log.merge([{ id, events: more(answered(2)) }])).toEqual({ added: 0, grown: 1, known: 0, conflicts: [] })
  expect(await log.merge([{ id, events: more({ type: 'undone' }) }])).toEqual({ added: 0, grown: 0, known: 0, conflicts: [`${id}~2`] })
  expect(await log.merge([{ id, events: more({ type: 'undone' }) }])).toEqual({ added: 0, grown: 0, known: 1, conflicts: [] })
  expect((await log.events(id))[2]?.event).toEqual(answered(2))
  const read = readSessions((await exportJson(log, `${id}~2`)).text)
  const claim = read.ok ? read.value.sessions[0] : undefined
  expect(claim?.id).toBe(id)
  expect(claim?.events[2]?.event).toEqual({ type: 'undone' })
  expect(claim && (await verify(claim)).ok).toBe(true)
  expect((await log.sessions()).map(s => s.id)).toEqual([`${id}~2`, id])
  log.close()
})

test('all come in or none', async () => {
  const log = await phone()
  const id = await record(log)
  const before = await inventory(log)
  const broken = [
    { id: 'good', events: stored(SESSION) },
    { id: 'bad', events: stored([{ type: 'undone' }]) },
  ]
  expect(await outcome(log.merge(broken))).toBe('unknown')
  const uncloneable = { ...answered(1), note: () => 1 } as unknown as SessionEvent
  expect(await outcome(log.merge([{ id: 'new', events: stored([started(), uncloneable]) }]))).toBe('unknown')
  expect(await inventory(log)).toEqual(before)
  expect((await log.sessions()).map(s => s.id)).toEqual([id])
  log.close()
})

test('facts and seal belong to the events they count, and fall with the next one', async () => {
  const log = await phone()
  const id = await record(log, [started(), answered(1)])
  const written = write(id, await log.events(id))
  await log.saveFacts(id, { events: 1, times: {}, cannots: [] }, written)
  expect((await log.sessions())[0]?.facts).toBeUndefined()
  await log.saveFacts(id, { events: 2, times: {}, cannots: [], result: 'stopped', endedAt: 'then' }, written)
  expect((await log.sessions())[0]).toMatchObject({ facts: { events: 2 }, result: 'stopped' })
  expect(await log.seal(id)).toEqual({ head: written.head, count: 2 })
  await log.append(id, answered(2))
  expect((await log.sessions())[0]?.facts).toBeUndefined()
  expect(await log.seal(id)).toBeUndefined()
  log.close()
})

test.each([
  { version: 1, more: {} },
  { version: 2, more: { people: 'code' } },
])('a log of version $version opens with all that it held, is listed, and leaves as it was', async ({ version, more }) => {
  const old = new Dexie('ohmward')
  old.version(version).stores({ sessions: 'id, &order', events: '[session+seq]', drafts: 'session', machines: 'id', ...more })
  await old.open()
  await old.table('sessions').add({ id: 'old', order: 1, machineId: MACHINE.id, machineName: MACHINE.name, startedAt: 'then' })
  await old.table('events').bulkAdd(stored(SESSION).map(event => ({ session: 'old', ...event })))
  old.close()
  const log = await openLog()
  expect(await log.events('old')).toEqual(stored(SESSION))
  const file = JSON.parse((await exportJson(log, 'old')).text)
  expect(file.seal.count).toBe(SESSION.length)
  for await (const { text } of exportMany(log, ['old'], 'all', 'json'))
    expect(JSON.parse(text).sessions).toEqual([{ id: 'old', seal: file.seal, events: stored(SESSION) }])
  await log.savePerson({ code: 'M17', name: 'Ada' })
  await log.append('old', answered(99))
  expect(await log.people()).toEqual([{ code: 'M17', name: 'Ada' }])
  expect((await log.sessions()).map(s => s.id)).toEqual(['old'])
  log.close()
})

test('several sessions are read at once as each by itself, neighbours or not, in the order asked for', async () => {
  const log = await phone()
  await log.merge(
    ['a', 'b', 'c', 'd'].map((id, i) => ({ id, events: stored([started(id), ...Array.from({ length: i }, (_, n) => answered(n + 1))]) })),
  )
  for (const ids of [['a', 'b', 'c', 'd'], ['d', 'b'], ['b'], ['c', 'b', 'd'], [], ['a', 'nowhere']])
    expect(await log.eventsOfMany(ids)).toEqual(await Promise.all(ids.map(id => log.events(id))))
  log.close()
})
