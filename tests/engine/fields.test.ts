// Each reader of a field at the edge of what it takes, and the whole sentence with which it refuses.
import { expect, test } from 'vitest'
import {
  checked,
  fieldOf,
  flag,
  id,
  list,
  number,
  object,
  oneOf,
  optional,
  positive,
  type Reader,
  refuse,
  shown,
  text,
  whole,
} from '../../engine/fields.ts'

const FORTY = 'x'.repeat(38)
const say = (reader: Reader<unknown>, found: unknown): unknown => {
  const read = checked(reader, found)
  return read.ok ? read.value : read.message
}

test.each<[what: string, reader: Reader<unknown>, taken: readonly unknown[]]>([
  ['a number within its limits', number(5, 60, 'V'), [5, 60, 5.5]],
  ['a number above 0', positive(10), [1e-9, 10]],
  ['a whole number', whole(-3, 40), [-3, 40, 0]],
  ['true or false', flag, [true, false]],
  ['one of some words', oneOf<string | number>('B', 'C', 1), ['B', 'C', 1]],
  ['a text', text, ['', 'x'.repeat(500)]],
  ['an id', id, ['x', 'x'.repeat(60), 'W 1']],
  ['a list', list(flag, 2, 1), [[true], [true, false]]],
])('%s is taken as it stands', (_, reader, taken) => {
  for (const value of taken) expect(checked(reader, value)).toEqual({ ok: true, value })
})

test.each<[reader: Reader<unknown>, found: unknown, says: string]>([
  [number(5, 60, 'V'), 4.9, 'the file is 4.9, but must be a number from 5 to 60 V.'],
  [number(5, 60), 60.1, 'the file is 60.1, but must be a number from 5 to 60.'],
  [positive(10, 'm'), 0, 'the file is 0, but must be a number above 0 and at most 10 m.'],
  [positive(10), 10.1, 'the file is 10.1, but must be a number above 0 and at most 10.'],
  [whole(-3, 40), -4, 'the file is -4, but must be a whole number from -3 to 40.'],
  [whole(-3, 40), 41, 'the file is 41, but must be a whole number from -3 to 40.'],
  [whole(-3, 40), 1.5, 'the file is 1.5, but must be a whole number from -3 to 40.'],
  [flag, 1, 'the file is 1, but must be true or false.'],
  [oneOf<string>('B', 'C'), 'K', 'the file is "K", but must be one of B, C.'],
  [text, 'x'.repeat(501), `the file is "${FORTY}…, but must be a text of at most 500 characters.`],
  [text, undefined, 'the file is missing: it must be a text of at most 500 characters.'],
  [id, '', 'the file is "", but must be a text of 1 to 60 characters.'],
  [id, 'x'.repeat(61), `the file is "${FORTY}…, but must be a text of 1 to 60 characters.`],
  [id, 'a/b', `the file is "a/b", but must be without '/' and '.', which part the names of points.`],
  [id, 'toString', 'the file is "toString", but must be another word: this one is reserved.'],
  [list(flag, 2, 1), [], 'the file is a list of 0, but must be a list of 1 to 2.'],
  [list(flag, 2, 1), [true, true, true], 'the file is a list of 3, but must be a list of 1 to 2.'],
  [object({ a: flag }), [], 'the file is a list of 0, but must be an object.'],
  [
    object<{ a: boolean; b?: boolean }>({ a: flag, b: optional(flag) }),
    { c: 7 },
    'c is 7, but must be left out: the known fields here are a, b.',
  ],
  [object({ a: object({ b: flag }) }), { a: { b: null } }, 'a.b is null, but must be true or false.'],
  [object({ a: list(flag, 5) }), { a: [true, 'yes'] }, 'a[1] is "yes", but must be true or false.'],
])('%o with %o: %s', (reader, found, says) => {
  expect(say(reader, found)).toBe(says)
})

test.each([
  [undefined, 'nothing'],
  [null, 'null'],
  [() => 0, 'a function'],
  [{ a: 1 }, 'an object'],
  [[1, 2], 'a list of 2'],
  // With its quotation marks the text is just 40 characters long, or one more.
  [FORTY, `"${FORTY}"`],
  [`${FORTY}x`, `"${FORTY}…`],
  [12345, '12345'],
  [10n, '10'],
])('%s is shown as %s', (found, as) => {
  expect(shown(found)).toBe(as)
})

test('fields are taken from objects alone, and none that is inherited', () => {
  expect(fieldOf({ length: 3 }, 'length')).toBe(3)
  for (const found of ['text', [1], null, undefined, 5]) expect(fieldOf(found, 'length')).toBeUndefined()
  expect(fieldOf(Object.create({ branch: 'B1' }), 'branch')).toBeUndefined()
})

test('a fault of the reader itself is no refusal', () => {
  const broken: Reader<never> = () => {
    throw new TypeError('a slip in the reader')
  }
  expect(() => checked(broken, {})).toThrow('a slip in the reader')
  expect(checked((found, field) => refuse(field, found, 'x'), 1)).toMatchObject({ ok: false, field: 'the file', found: '1' })
})
