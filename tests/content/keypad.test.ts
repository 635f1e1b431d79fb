import { expect, test } from 'vitest'
import { press, rawValue, type Typed, untyped } from '../../web/screens/keypad.tsx'
import { whole } from '../../web/screens/whole.ts'

const typing = (keys: string, from: Typed = untyped) => keys.split(' ').reduce(press, from)

test.each([
  { keys: '0 . 7', prefix: '', value: 0.7, why: 'a value in its own unit' },
  { keys: '. 7', prefix: '', value: 0.7, why: 'a point first' },
  { keys: '0 , 7', prefix: '', value: 0.7, why: 'a comma is a point' },
  { keys: '4 , . 7', prefix: 'k', value: 4700, why: 'a comma and a point are one' },
  { keys: '− 1 2', prefix: 'm', value: -0.012, why: 'minus, and milli' },
  { keys: '1 2 −', prefix: '', value: -12, why: 'minus last' },
  { keys: '− 1 −', prefix: '', value: 1, why: 'minus twice' },
  { keys: '4 . . 7', prefix: 'k', value: 4700, why: 'two points are one, and kilo' },
  { keys: '1 2 ⌫ 3', prefix: '', value: 13, why: 'a wrong digit taken back' },
  { keys: '1 OL', prefix: 'm', value: 'OL', why: 'past the range, whatever was typed' },
  { keys: 'OL 5', prefix: '', value: 5, why: 'a digit after OL starts anew' },
  { keys: '1 2 3 4 5 6 7 8 9', prefix: '', value: 1234567, why: 'no more than seven signs' },
  { keys: '1 . 3', prefix: 'm', value: 0.0013, why: 'no rounding dirt from the prefix' },
])('$keys with prefix "$prefix" is $value: $why', ({ keys, prefix, value }) => {
  expect(rawValue({ ...typing(keys), prefix })).toEqual({ value })
})
test('nothing typed is no number', () => expect(rawValue(untyped)).toEqual({ value: undefined }))
test('jumping and alternating are marks that a second tap takes away', () => {
  expect(rawValue(typing('2 jumps a.c.'))).toEqual({ value: 2, unsteady: true, ac: true })
  expect(rawValue(typing('2 jumps jumps'))).toEqual({ value: 2 })
})
test('a number and its unit stay on one line, words do not', () => {
  expect(whole('from 1.1 m to 24 V in 3 moves')).toBe('from 1.1\u00a0m to 24\u00a0V in 3 moves')
})
