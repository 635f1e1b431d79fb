import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readExport } from '../../web/log/export.ts'
import { SESSION, started, stored } from './samples.ts'

/** A sound file's text after `spoil` had its way with it. */
const spoilt = (spoil: (file: Record<string, unknown>) => unknown): string => {
  const file = { format: 'ohmward.session', version: 1, id: 'id', exportedAt: '2026-11-25T14:05:00.000+01:00', events: stored(SESSION) }
  const copy = JSON.parse(JSON.stringify(file))
  return JSON.stringify(spoil(copy) ?? copy)
}
/** Puts `found` at `path` of the file. */
const at = (path: string, found: unknown): string =>
  spoilt(file => {
    const keys = path.split(/[.[\]]+/).filter(key => key !== '')
    const last = keys.pop() ?? ''
    const holder = keys.reduce<unknown>((held, key) => Reflect.get(Object(held), key), file)
    Reflect.set(Object(holder), last, found)
  })
const nested = (levels: number): string => '['.repeat(levels) + ']'.repeat(levels)
const note = (json: string): string => spoilt(() => undefined).replace('{', () => `{"x-note":${json},`)

test('the sound file behind the hostile ones is read', () => {
  expect(readExport(spoilt(() => undefined)).ok).toBe(true)
})

test.each([
  { field: 'the file', file: '', why: 'an empty file' },
  { field: 'the file', file: '{"format":', why: 'a file cut short' },
  { field: 'the file', file: '[]', why: 'a list' },
  { field: 'the file', file: 'null', why: 'nothing' },
  { field: 'the file', file: `"${'x'.repeat(11_000_000)}"`, says: 'is 11000002, but must be at most 10000000 bytes long', why: '11 MB' },
  {
    field: 'the file',
    file: `"${'Ω'.repeat(5_000_001)}"`,
    says: 'is 10000004, but must be at most 10000000 bytes long',
    why: '10 MB in bytes though not in characters',
  },
  { field: 'format', file: at('format', 'ohmward.machine'), why: 'another format' },
  { field: 'version', file: at('version', 2), says: 'version is 2, but must be 1', why: 'a later version' },
  { field: 'version', file: spoilt(file => ({ ...file, version: undefined })), why: 'no version' },
  { field: 'id', file: at('id', 7), why: 'an id that is no text' },
  { field: 'exportedAt', file: at('exportedAt', 'yesterday'), why: 'a time that is none' },
  { field: 'extra', file: at('extra', 1), why: 'a field too many' },
  { field: '__proto__', file: spoilt(() => undefined).replace('{', '{"__proto__":{"polluted":1},'), why: 'a prototype' },
  {
    field: 'events[1].event.answer.__proto__',
    file: spoilt(() => undefined).replace('{"done":true}', '{"done":true,"__proto__":{"polluted":1}}'),
    why: 'a prototype deep down',
  },
  { field: 'events[1].event.answer.constructor', file: at('events[1].event.answer.constructor', {}), why: 'a constructor' },
  { field: 'events', file: at('events', []), why: 'no events' },
  { field: 'events', file: at('events', {}), why: 'events that are no list' },
  { field: 'events', file: at('events', Array(1_000_000).fill(0)), why: 'a million events' },
  {
    field: 'the file',
    file: note(nested(32)),
    says: 'but must be at most 32 levels deep',
    why: 'too deep, even in a note that is passed over',
  },
  { field: 'the file', file: '['.repeat(5_000_000), says: 'levels deep', why: 'five million brackets' },
  { field: 'the file', file: `["${'['.repeat(40)}\\"`, says: 'JSON', why: 'brackets in a string that does not end' },
  {
    field: 'events[8].event.note',
    file: at('events[8].event', { type: 'closed', branch: '', wrong: '', note: 'x'.repeat(10_001) }),
    why: 'a long text',
  },
  { field: 'events[4].event.answer.value', file: spoilt(() => undefined).replace('-1.05', '-1e999'), why: 'an infinite number' },
  { field: 'events[4].event.answer.value', file: at('events[4].event.answer.value', '1'), why: 'a number as a text' },
  {
    field: 'events[4].event.answer.value',
    file: at('events[4].event.answer.value', null),
    why: 'what a number that is none becomes in JSON',
  },
  { field: 'events[4].event.answer.unsteady', file: at('events[4].event.answer.unsteady', 1), why: 'a flag that is a number' },
  { field: 'events[4].event.answer.value', file: at('events[4].event.answer.done', true), why: 'two answers in one' },
  { field: 'events[1].event.answer.done', file: at('events[1].event.answer.done', false), why: 'done that is not' },
  { field: 'events[1].event.answer', file: at('events[1].event.answer', {}), why: 'no answer' },
  { field: 'events[6].event.answer.seen', file: at('events[6].event.answer.seen', 'green'), why: 'a look that is not known' },
  { field: 'events[2].event.type', file: at('events[2].event.type', 'deleted'), why: 'an event that is not known' },
  { field: 'events[2].event.type', file: at('events[2].event.type', 'toString'), why: 'an event named as what every object has' },
  { field: 'events[2].event.n', file: at('events[2].event.n', 0.5), why: 'half a request' },
  { field: 'events[2].seq', file: at('events[2].seq', 4), why: 'an event left out' },
  { field: 'events[2].wall', file: at('events[2].wall', '2026-11-25T14:05:00Z'), why: 'a time without its offset' },
  { field: 'events[2].wall', file: at('events[2].wall', '2026-13-25T14:05:00.000+01:00'), why: 'month 13' },
  { field: 'events[2].mono', file: at('events[2].mono', '0'), why: 'a clock that is a text' },
  { field: 'events[0].event.type', file: at('events[0].event', { type: 'undone' }), why: 'a session that does not start' },
  { field: 'events[3].event.type', file: at('events[3].event', started()), why: 'a session that starts twice' },
  { field: 'events[0].event.symptom', file: at('events[0].event.symptom', 'smoke'), why: 'a symptom that is not known' },
  {
    field: 'events[0].event.machine',
    file: at('events[0].event.machine.supply.ratedVoltage', 230),
    says: 'supply.ratedVoltage is 230',
    why: 'a machine that is not for this app',
  },
  { field: 'events[0].event.kit', file: at('events[0].event.kit.clamp', 'yes'), says: 'clamp is "yes"', why: 'a kit that is wrong' },
] satisfies { field: string; file: string; says?: string; why: string }[])(
  'refused in a sentence that names $field: $why',
  ({ field, file, says }: { field: string; file: string; says?: string }) => {
    const read = readExport(file)
    if (read.ok) throw new Error('it was read')
    expect(read.field).toBe(field)
    expect(read.message.startsWith(`${read.field} is `)).toBe(true)
    expect(read.message).toContain(says ?? '')
    expect(read.message).toMatch(/^[^\n]{10,300}\.$/)
    expect(Reflect.get({}, 'polluted')).toBeUndefined()
  },
)

test("another's note is passed over, up to the limits", () => {
  const sound = readExport(spoilt(() => undefined))
  expect(readExport(note(nested(31)))).toEqual(sound)
  expect(readExport(note(JSON.stringify(`"\\${'['.repeat(40)}`)))).toEqual(sound) // brackets in a string are no levels
})

test('[seed 31] whatever the text, reading it never throws', () => {
  const sound = spoilt(() => undefined)
  const broken = fc
    .tuple(fc.nat(sound.length), fc.nat(20), fc.string())
    .map(([from, cut, put]) => sound.slice(0, from) + put + sound.slice(from + cut))
  const anything = fc.oneof(broken, fc.json(), fc.string())
  fc.assert(
    fc.property(anything, text => {
      const read = readExport(text)
      expect(read.ok || read.message.length).toBeTruthy()
    }),
    { seed: 31, numRuns: 3000 },
  )
  expect(readExport(nested(2_000_000)).ok).toBe(false)
})
