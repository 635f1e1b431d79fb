import 'fake-indexeddb/auto'
import { Dexie } from 'dexie'
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest'
import { canonical } from '../../web/log/canonical.ts'
import { exportJson, exportLines } from '../../web/log/export.ts'
import type { Log, StoredEvent } from '../../web/log/log.ts'
import { Chain } from '../../web/log/seal.ts'
import { openLog } from '../../web/log/store.ts'
import { takeIn } from '../../web/log/takeIn.ts'
import { asSession, write } from '../../web/log/written.ts'
import { answered, record, SESSION, started, stored } from './samples.ts'

let log: Log
beforeEach(async () => {
  await Dexie.delete('ohmward')
  log = await openLog()
})
afterEach(() => log.close())

const source = { events: async () => stored(SESSION) }
const people = [
  { code: 'M17', name: 'Ada' },
  { code: 'M18', name: 'Bo' },
]
const JSON_FILE = (await exportJson(source, 'elsewhere', { people })).text
const LINES = (await exportLines(source, 'elsewhere')).text
const one = JSON.parse(JSON_FILE)
const { format: _format, version: _version, exportedAt, people: _people, ...session } = one
const several = (sessions: unknown, more: object = {}): string =>
  JSON.stringify({ format: 'ohmward.sessions', version: 1, exportedAt, ...more, sessions })
const everything = async (): Promise<string> => {
  const ids = (await log.sessions()).map(({ id }) => id)
  return canonical([await log.sessions(), await log.people(), await Promise.all(ids.map(id => log.events(id)))])
}

test('a file comes in; a second time it adds nothing; its names come with it, but change none that are known', async () => {
  await log.savePerson({ code: 'M18', name: 'Boris' })
  expect(await takeIn(log, JSON_FILE)).toEqual({ ok: true, unsealed: 0, added: 1, grown: 0, known: 0, conflicts: [] })
  const before = await everything()
  expect(await takeIn(log, `\uFEFF${LINES}`)).toMatchObject({ ok: true, added: 0, known: 1 })
  expect(await takeIn(log, several([session]))).toMatchObject({ ok: true, added: 0, known: 1 })
  expect(await everything()).toBe(before)
  expect(await log.people()).toEqual([people[0], { code: 'M18', name: 'Boris' }])
})
test('a session without a seal comes in, and is told', async () => {
  const { seal: _seal, ...bare } = one
  expect(await takeIn(log, JSON.stringify(bare))).toMatchObject({ ok: true, unsealed: 1, added: 1 })
})

const nested = (levels: number): string => '['.repeat(levels) + ']'.repeat(levels)
const first = LINES.split('\n')[0] ?? ''
const bigLine = `${first}\n`
const OHM = { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' } as const
/** As long as a session may be: all of it is read before the seal is compared. */
const long = [
  ...stored([started()]),
  ...Array.from({ length: 24_000 }, (_, i) => ({ ...(stored([answered(1, { value: 12.5 }, OHM)])[0] as StoredEvent), seq: i + 2 })),
]
const LONG = asSession('long', write('long', long)).replace(/"mono":0(?=,"seq":23999,)/, '"mono":1')
/** `hashed`: events that may be hashed before it is refused; none where it is not said. */
const HOSTILE: { why: string; file: string; says: string | RegExp; hashed?: number }[] = [
  {
    why: 'one number altered in a session of 24001 events',
    file: several([JSON.parse(LONG)]),
    says: 'Its events were changed',
    hashed: 24_001,
  },
  { why: 'a later version of one session', file: JSON_FILE.replace('"version": 1', '"version": 3'), says: 'version is 3, but must be 1' },
  { why: 'a later version of several', file: several([session], { version: 2, more: 1 }), says: 'version is 2, but must be 1' },
  { why: 'a later version in a line', file: LINES.replace('"version":1', '"version":7'), says: 'version is 7, but must be 1' },
  { why: 'another format', file: JSON_FILE.replace('ohmward.session', 'ohmward.plan'), says: 'format is "ohmward.plan"' },
  { why: 'a prototype', file: JSON_FILE.replace('{', '{"__proto__":{"polluted":1},'), says: '__proto__ is' },
  { why: 'a prototype in a line', file: LINES.replace('"event":{', '"event":{"__proto__":{"polluted":1},'), says: '__proto__ is' },
  { why: 'a constructor in a session of several', file: several([{ ...session, constructor: {} }]), says: 'constructor is' },
  { why: 'an id that is a path', file: several([{ ...session, id: '../1' }]), says: 'sessions[0].id is "../1"' },
  { why: "an id as the log's own for a second telling", file: several([{ ...session, id: 'x~2' }]), says: 'sessions[0].id is "x~2"' },
  { why: '11 MB', file: `${JSON_FILE}${' '.repeat(11_000_000)}`, says: 'bytes long' },
  { why: '11 MB of lines', file: bigLine.repeat(Math.ceil(11_000_000 / bigLine.length)), says: 'bytes long' },
  { why: 'five million brackets', file: '['.repeat(5_000_000), says: 'levels deep' },
  { why: 'too deep in a note', file: JSON_FILE.replace('{', `{"x-note":${nested(32)},`), says: 'levels deep' },
  { why: 'a million events', file: JSON.stringify({ ...one, events: Array(1_000_000).fill(0) }), says: 'events is a list of 1000000' },
  {
    why: 'a million events in several sessions',
    file: several(Array(1000).fill({ ...session, events: Array(1000).fill(0) })),
    says: 'at most 25000 events together',
  },
  { why: 'a million sessions', file: several(Array(1_000_000).fill(0)), says: 'sessions is a list of 1000000' },
  { why: 'a million lines', file: '{"format":"ohmward.event"}\n'.repeat(350_000), says: 'at most 25000 lines' },
  { why: 'a line cut short', file: LINES.slice(0, -5), says: /^line \d+ is .* but must be JSON/ },
  { why: 'an event edited', file: JSON_FILE.replace('riveted', 'painted'), says: 'Nothing was taken in', hashed: SESSION.length },
  {
    why: 'an event edited in a line',
    file: LINES.replace('riveted', 'painted'),
    says: /Event 3 .*Nothing was taken in/,
    hashed: SESSION.length,
  },
  { why: 'lines in another order', file: LINES.trimEnd().split('\n').reverse().join('\n'), says: 'no event may be missing' },
  {
    why: 'a sound session and a changed one',
    file: several([session, { ...session, id: 'changed' }]),
    says: 'Session changed: Its events were changed',
    hashed: 2 * SESSION.length,
  },
  {
    why: 'names without end',
    file: JSON.stringify({ ...one, people: Array(100_000).fill(people[0]) }),
    says: 'people is a list of 100000',
  },
]
/** How long each took is told, not judged: it is this computer's. What may be judged is how much was worked on. */
const took = new Map<string, { readonly wall: number; readonly work: number }>()
afterAll(() => {
  const [slowest] = [...took].sort(([, a], [, b]) => b.work - a.work)
  if (!slowest) return
  const [why, { wall, work }] = slowest
  console.info(
    `hostile files: ${took.size} refused; the slowest took ${Math.round(work)} ms of processor, ${Math.round(wall)} ms in all: ${why}`,
  )
})
test.each(HOSTILE)('refused without looking farther than it must, the log as it was: $why', async ({ why, file, says, hashed = 0 }) => {
  await record(log)
  const before = await everything()
  const links = vi.spyOn(Chain.prototype, 'add')
  const from = performance.now()
  const used = process.cpuUsage()
  const taken = await takeIn(log, file)
  took.set(why, { wall: performance.now() - from, work: process.cpuUsage(used).user / 1000 })
  expect(links).toHaveBeenCalledTimes(hashed)
  links.mockRestore()
  if (taken.ok) throw new Error('it was taken in')
  if (typeof says === 'string') expect(taken.message).toContain(says)
  else expect(taken.message).toMatch(says)
  expect(await everything()).toBe(before)
  expect(Reflect.get({}, 'polluted')).toBeUndefined()
})
