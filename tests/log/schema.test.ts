import { Ajv2020 } from 'ajv/dist/2020.js'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { canonical } from '../../web/log/canonical.ts'
import schema from '../../web/log/export.schema.json'
import { type ExportFile, exportJson, exportLines, exportMany } from '../../web/log/export.ts'
import { readSessions } from '../../web/log/import.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { sealOf } from '../../web/log/seal.ts'
import { played, stamped } from './played.ts'
import { session } from './random.ts'
import { SESSION, started, stored } from './samples.ts'

const ajv = new Ajv2020({ strict: true, strictRequired: false, allowMatchingProperties: true })
const valid = ajv.compile(schema)
/** What the schema finds wrong with a file's text. */
const faults = (json: unknown): unknown => (valid(json) ? [] : valid.errors?.slice(0, 3))
const source = (sessions: Readonly<Record<string, readonly StoredEvent[]>>) => ({ events: async (id: string) => [...(sessions[id] ?? [])] })

test('the schema names its dialect, its id and its version, and no object in it may hold what it does not name', () => {
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
  expect(schema.$id).toBe('urn:ohmward:export:1')
  const open: string[] = []
  const walk = (found: unknown, path: string): void => {
    if (typeof found !== 'object' || found === null) return
    if ('type' in found && found.type === 'object' && (!('unevaluatedProperties' in found) || found.unevaluatedProperties !== false))
      open.push(path)
    for (const [key, inside] of Object.entries(found)) walk(inside, `${path}/${key}`)
  }
  walk(schema, '')
  expect(open).toEqual([])
})

const roundTrip = async (events: readonly StoredEvent[]): Promise<void> => {
  const log = source({ id: events })
  const file = await exportJson(log, 'id')
  expect(faults(JSON.parse(file.text))).toEqual([])
  const again = readSessions(file.text)
  if (!again.ok) throw new Error(again.message)
  expect(canonical(again.value.sessions)).toBe(canonical([{ id: 'id', events, seal: await sealOf('id', events) }]))
  const lines = await exportLines(log, 'id')
  for (const line of lines.text.trimEnd().split('\n')) expect(faults(JSON.parse(line))).toEqual([])
  const lineByLine = readSessions(lines.text)
  expect(canonical(lineByLine.ok && lineByLine.value.sessions[0]?.events)).toBe(canonical(events))
}

test('[seed 32] a thousand random sessions are valid by the schema and come in as the same canonical bytes', async () => {
  await fc.assert(fc.asyncProperty(session, roundTrip), { seed: 32, numRuns: 1000 })
})

test.each(Array.from({ length: 40 }, (_, i) => i + 1))('[seed %i] so is a whole session of a simulated technician', async seed => {
  await roundTrip(stamped(played(seed)))
})

test('many sessions go out as one file and come in again, in either form', async () => {
  const sessions = Object.fromEntries([1, 2, 3].map(seed => [`s${seed}`, stamped(played(seed))]))
  for (const kind of ['json', 'ndjson'] as const) {
    const files: ExportFile[] = []
    for await (const file of exportMany(source(sessions), Object.keys(sessions), 'Packer 4 / Süd', kind)) files.push(file)
    expect(files.map(({ name }) => name)).toEqual([`ohmward-Packer-4-Sud.${kind}`])
    const read = readSessions(files[0]?.text ?? '')
    if (!read.ok) throw new Error(read.message)
    expect(Object.fromEntries(read.value.sessions.map(({ id, events }) => [id, events]))).toEqual(sessions)
    if (kind === 'json') expect(faults(JSON.parse(files[0]?.text ?? ''))).toEqual([])
  }
})

test('more than can be read in again goes out as several files, none of them too large', async () => {
  const long = stored([...SESSION, ...Array.from({ length: 2000 }, () => ({ type: 'stopped' as const }))])
  const ids = Array.from({ length: 30 }, (_, i) => `s${i}`)
  const log = source(Object.fromEntries(ids.map(id => [id, long])))
  const back: string[] = []
  let files = 0
  for await (const { name, text } of exportMany(log, ids, 'all', 'json')) {
    files += 1
    expect(name).toBe(`ohmward-all-part-${files}.json`)
    const read = readSessions(text)
    if (!read.ok) throw new Error(read.message)
    back.push(...read.value.sessions.map(({ id }) => id))
  }
  expect(files).toBeGreaterThan(1)
  expect(back).toEqual([...ids].sort())
})

test('no file holds more events than can be read in again, however short they are', async () => {
  const short = stored([started('Press'), ...Array.from({ length: 2000 }, () => ({ type: 'stopped' as const }))])
  const ids = Array.from({ length: 26 }, (_, i) => `s${i}`)
  const counts: number[] = []
  for await (const { text } of exportMany(source(Object.fromEntries(ids.map(id => [id, short]))), ids, 'all', 'json')) {
    const read = readSessions(text)
    if (!read.ok) throw new Error(read.message)
    counts.push(read.value.sessions.length)
  }
  expect(counts).toEqual([12, 12, 2])
})

test('names of people leave only where they are handed in, and stand outside the seal', async () => {
  const log = source({ id: stored(SESSION) })
  const people = [{ code: 'M17', name: 'Ada' }]
  const [bare, named] = [await exportJson(log, 'id'), await exportJson(log, 'id', { people })]
  expect(bare.text).not.toContain('Ada')
  expect(faults(JSON.parse(named.text))).toEqual([])
  const [one, two] = [readSessions(bare.text), readSessions(named.text)]
  expect(one.ok && two.ok && canonical(one.value.sessions) === canonical(two.value.sessions)).toBe(true)
  expect(two.ok && two.value.people).toEqual(people)
})

/** Every path to a value in the JSON. */
const paths = (json: unknown, path: readonly string[] = []): (readonly string[])[] =>
  typeof json !== 'object' || json === null
    ? [path]
    : [path, ...Object.entries(json).flatMap(([key, inside]) => paths(inside, [...path, key]))]
const STRANGE = [null, -1, 1.5, '', 'x', [], {}, true, { extra: 1 }, 'x'.repeat(10_001), 1e9]
test('[seed 33] what the app reads the schema allows, whatever was done to the file', async () => {
  const sound = await exportJson(source({ id: stored(SESSION) }), 'id')
  const all = paths(JSON.parse(sound.text)).slice(1)
  let read = 0
  fc.assert(
    fc.property(fc.constantFrom(...all), fc.constantFrom('leave out', 'add', ...STRANGE), (path, spoil) => {
      const json = JSON.parse(sound.text)
      const key = path.at(-1) ?? ''
      const holder = path.slice(0, -1).reduce<unknown>((held, step) => Reflect.get(Object(held), step), json)
      if (spoil === 'leave out') Reflect.deleteProperty(Object(holder), key)
      else if (spoil === 'add') Reflect.set(Object(holder), 'extra', 1)
      else Reflect.set(Object(holder), key, spoil)
      const ok = readSessions(JSON.stringify(json)).ok
      if (ok) read += 1
      if (ok) expect(faults(json)).toEqual([])
    }),
    { seed: 33, numRuns: 3000 },
  )
  expect(read).toBeGreaterThan(100) // or nothing was compared
})
