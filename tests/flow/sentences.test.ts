// The sentence that a refused answer comes back with, whole: it names the field, what was found there and what is wanted.
import { expect, test } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { readAnswer } from '../../web/flow/answer.ts'
import type { Request } from '../../web/flow/request.ts'
import { amp, device, lamp, ohm, proveDead, volt, zeroLeads } from '../bench/scripted.ts'

const asked = (step: Step): Request => ({ say: 'step', n: 1, seconds: 5, step, why: { key: '', facts: {} } })
const [ohms, volts, amps, looking] = [ohm('B1.plus', 'B1.zero'), volt('B1.plus', 'B1.zero'), amp('B1'), lamp].map(asked) as [
  Request,
  Request,
  Request,
  Request,
]
const [proving, zeroing, opening] = [proveDead, zeroLeads, device('B1', 'open')].map(asked) as [Request, Request, Request]
const finding = asked({ kind: 'finding', finding: { fault: 'short', branch: 'B1', probability: 1 } })
const LAMP = 'this look is answered with one of steady, blinking, off'
const NUMBER = 'a number is wanted'
const EITHER = 'a number, or OL, is wanted'
const MARK = 'true or false is wanted'
const DONE = 'true is wanted once it is done, or cannot with the reason'

test.each([
  { request: proving, raw: { volts: -1000.5 }, says: 'volts is -1000.5, but a number from -1000 to 1000 V is wanted.' },
  { request: proving, raw: { volts: 20, ac: 1 }, says: `ac is 1, but ${MARK}.` },
  { request: zeroing, raw: { value: -1.1 }, says: 'value is -1.1, but a number from -1 to 5 Ω is wanted.' },
  { request: zeroing, raw: { value: 'x' }, says: 'value is "x", but a number from -1 to 5 Ω is wanted.' },
  { request: zeroing, raw: {}, says: `done is missing: ${DONE}.` },
  { request: zeroing, raw: { volts: 5 }, says: `done is missing: ${DONE}.` },
  { request: opening, raw: { volts: 5 }, says: `done is missing: ${DONE}.` },
  { request: opening, raw: { value: 0.2 }, says: `done is missing: ${DONE}.` },
  { request: ohms, raw: { value: 1, unsteady: 'yes' }, says: `unsteady is "yes", but ${MARK}.` },
  { request: ohms, raw: { value: 1, ac: true }, says: 'ac is true, but only a voltage can be a.c. here.' },
  { request: ohms, raw: { value: '1' }, says: `value is "1", but ${EITHER}.` },
  { request: volts, raw: { value: '1' }, says: `value is "1", but ${NUMBER}.` },
  { request: amps, raw: {}, says: `value is missing: ${NUMBER}.` },
  {
    request: amps,
    raw: { value: 'OL' },
    says: 'value is "OL", but OL is no word for a current here; the number that the display shows is wanted.',
  },
  { request: looking, raw: 'tripped', says: `value is "tripped", but ${LAMP}.` },
  { request: looking, raw: { seen: 'green', value: 'red' }, says: `value is "green", but ${LAMP}.` },
  { request: looking, raw: { note: 'dark', value: 'red' }, says: `value is "red", but ${LAMP}.` },
  { request: looking, raw: { note: 'dark' }, says: `value is "dark", but ${LAMP}.` },
  { request: looking, raw: { note: 5 }, says: `value is missing: ${LAMP}.` },
  { request: looking, raw: 'steadyish', says: `value is "steadyish", but ${LAMP}.` },
  { request: finding, raw: { confirmed: 'yes' }, says: `confirmed is "yes", but ${MARK}.` },
  { request: finding, raw: {}, says: `confirmed is missing: ${MARK}.` },
  { request: opening, raw: 'done', says: 'answer is "done", but an object is wanted.' },
  { request: opening, raw: { cannot: 5 }, says: 'cannot is 5, but the reason in at most 2000 characters is wanted.' },
])('$raw: $says', ({ request, raw, says }) => {
  const field = says.slice(0, says.indexOf(' '))
  expect(readAnswer(request, raw)).toMatchObject({ ok: false, field, message: says })
})

test.each([
  { request: zeroing, raw: { value: -1 } },
  { request: zeroing, raw: { value: 5 } },
  { request: proving, raw: { volts: -1000 } },
  { request: proving, raw: { volts: 1000 } },
  { request: opening, raw: { cannot: 'x'.repeat(2000) } },
])('the last value within the limits is taken: $raw', ({ request, raw }) => {
  expect(readAnswer(request, raw)).toEqual({ ok: true, value: raw })
})

test('a word in a list is no answer to a look', () => {
  expect(readAnswer(looking, { seen: ['steady'] })).toMatchObject({ ok: false })
})

test('a current of the clamp or of the meter in series lies within 1000 A either way', () => {
  expect(readAnswer(amps, { value: -1000 })).toEqual({ ok: true, value: { value: -1000 } })
  expect(readAnswer(amps, { value: 1001 })).toMatchObject({ ok: false, field: 'value' })
})
