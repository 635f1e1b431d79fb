import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Step } from '../../engine/step.ts'
import type { Request } from '../../web/flow/request.ts'
import { readAnswer } from '../../web/flow/session.ts'
import { amp, device, ohm, proveDead, volt, zeroLeads } from '../bench/scripted.ts'

const why = { key: '', facts: {} }
const asked = (step: Step): Request => ({ say: 'step', n: 1, seconds: 5, step, why })
const lampLook = asked({ kind: 'look', look: 'supply-lamp' })
const mainsLook = asked({ kind: 'look', look: 'mains-lamp' })
const deviceLook = asked({ kind: 'look', look: 'device', branch: 'B1' })
const finding = asked({ kind: 'finding', finding: { fault: 'short', branch: 'B1', probability: 1 } })
const ohms = asked(ohm('B1.plus', 'B1.zero'))
const volts = asked(volt('B1.plus', 'B1.zero'))
const amps = asked(amp('B1'))
const opening = asked(device('B1', 'open'))
const proving = asked(proveDead)
const zeroing = asked(zeroLeads)
const confirm: Request = { say: 'confirm', n: 1, caution: 'before-work', acts: [] }
const mend: Request = { say: 'mend', n: 1, finding: { fault: 'short', branch: 'B1', probability: 1 } }
const end: Request = { say: 'end', n: 1, result: 'restored', seconds: 0 }
const REQUESTS = [lampLook, mainsLook, deviceLook, finding, ohms, volts, amps, opening, proving, zeroing, confirm, mend, end]

test.each([
  { request: lampLook, raw: { seen: 'blinking' }, value: { seen: 'blinking' } },
  { request: lampLook, raw: { value: 'off' }, value: { seen: 'off' } },
  { request: lampLook, raw: 'steady', value: { seen: 'steady' } },
  { request: lampLook, raw: { note: 'behind the door', lamp: 'steady' }, value: { seen: 'steady' } },
  { request: mainsLook, raw: { answer: 'on' }, value: { seen: 'on' } },
  { request: deviceLook, raw: 'tripped', value: { seen: 'tripped' } },
  { request: finding, raw: { confirmed: false }, value: { confirmed: false } },
  { request: ohms, raw: { value: 0.7 }, value: { value: 0.7 } },
  { request: ohms, raw: { value: 'OL' }, value: { value: 'OL' } },
  { request: volts, raw: { value: 'OL' }, value: { value: 'OL' } },
  { request: ohms, raw: { value: -1 }, value: { value: -1 } },
  { request: ohms, raw: { value: 0.5, unsteady: true }, value: { value: 0.5, unsteady: true } },
  { request: volts, raw: { value: -24 }, value: { value: -24 } },
  { request: volts, raw: { value: 230, ac: true }, value: { value: 230, ac: true } },
  { request: volts, raw: { value: 24, unsteady: false, ac: false }, value: { value: 24 } },
  { request: amps, raw: { value: -1.02 }, value: { value: -1.02 } },
  { request: opening, raw: { done: true }, value: { done: true } },
  { request: proving, raw: { done: true }, value: { done: true } },
  { request: proving, raw: { volts: 23.8 }, value: { volts: 23.8 } },
  { request: proving, raw: { volts: 230, ac: true }, value: { volts: 230, ac: true } },
  { request: zeroing, raw: { value: 0.2 }, value: { value: 0.2 } },
  { request: confirm, raw: { done: true }, value: { done: true } },
  { request: mend, raw: { done: true }, value: { done: true } },
])('$raw is taken as $value', ({ request, raw, value }) => {
  expect(readAnswer(request, raw)).toEqual({ ok: true, value })
})

test.each(REQUESTS.filter(r => r.say !== 'end'))('every request may be answered with cannot: $say', request => {
  expect(readAnswer(request, { cannot: 'out of reach' })).toEqual({ ok: true, value: { cannot: 'out of reach' } })
})

test('the same with the kit named', () => {
  expect(readAnswer(amps, { value: 1.013 }, { injector: { ampere: 1, volts: 24 } })).toEqual({ ok: true, value: { value: 1.013 } })
})

test.each([
  { request: ohms, raw: { value: 'abc' }, field: 'value', says: 'abc' },
  { request: ohms, raw: { value: 1e9 }, field: 'value', says: '1000000000' },
  { request: ohms, raw: { value: -5 }, field: 'value', says: '-5' },
  { request: ohms, raw: { value: Number.NaN }, field: 'value', says: 'NaN' },
  { request: ohms, raw: { value: null }, field: 'value', says: 'null' },
  { request: ohms, raw: {}, field: 'value', says: 'missing' },
  { request: ohms, raw: { value: 1, unsteady: 'yes' }, field: 'unsteady', says: 'yes' },
  { request: ohms, raw: { value: 1, ac: true }, field: 'ac', says: 'true' },
  { request: amps, raw: { value: 'OL' }, field: 'value', says: 'OL' },
  { request: volts, raw: { value: 1e9 }, field: 'value', says: '1000000000' },
  { request: volts, raw: { value: Number.POSITIVE_INFINITY }, field: 'value', says: 'Infinity' },
  { request: amps, raw: { value: '1' }, field: 'value', says: '1' },
  { request: lampLook, raw: { seen: 'green' }, field: 'value', says: 'green' },
  { request: lampLook, raw: 'tripped', field: 'value', says: 'tripped' },
  { request: lampLook, raw: {}, field: 'value', says: 'missing' },
  { request: lampLook, raw: { seen: 'steady', value: 'off' }, field: 'value', says: 'steady' },
  { request: finding, raw: { confirmed: 'true' }, field: 'confirmed', says: 'true' },
  { request: finding, raw: { done: true }, field: 'confirmed', says: 'missing' },
  { request: opening, raw: { done: false }, field: 'done', says: 'false' },
  { request: opening, raw: {}, field: 'done', says: 'missing' },
  { request: proving, raw: { volts: 'none' }, field: 'volts', says: 'none' },
  { request: proving, raw: { volts: 5000 }, field: 'volts', says: '5000' },
  { request: proving, raw: { volts: 20, ac: 'ac' }, field: 'ac', says: 'ac' },
  { request: zeroing, raw: { value: 7 }, field: 'value', says: '7' },
  { request: opening, raw: { cannot: 5 }, field: 'cannot', says: '5' },
  { request: opening, raw: { cannot: 'x'.repeat(3000) }, field: 'cannot', says: 'xxx' },
  { request: opening, raw: [], field: 'answer', says: 'list' },
  { request: opening, raw: 'done', field: 'answer', says: 'done' },
  { request: opening, raw: null, field: 'answer', says: 'null' },
  { request: end, raw: { done: true }, field: 'answer', says: 'ended' },
])('$raw is refused, and the sentence names $field and $says', ({ request, raw, field, says }) => {
  const read = readAnswer(request, raw)
  if (read.ok) throw new Error('it was taken')
  expect(read.field).toBe(field)
  expect(read.message).toContain(field)
  expect(read.message).toContain(says)
})

test('whatever comes in, an answer or a sentence of some 200 characters comes out', () => {
  const names = ['done', 'cannot', 'value', 'seen', 'confirmed', 'volts', 'unsteady', 'ac']
  const any = fc.anything({ withBigInt: true, withNullPrototype: true, withDate: true })
  const near = fc.dictionary(fc.constantFrom(...names), fc.oneof(any, fc.double(), fc.string({ maxLength: 5000 })))
  fc.assert(
    fc.property(fc.constantFrom(...REQUESTS), fc.oneof(any, near), (request, raw) => {
      const read = readAnswer(request, raw)
      if (read.ok) expect(Object.keys(read.value).length).toBeGreaterThan(0)
      else {
        expect(read.message).toMatch(new RegExp(`^${read.field} is .*\\.$|^${read.field} is missing: .*\\.$`, 's'))
        expect(read.message.length).toBeLessThan(220)
      }
    }),
    { seed: 5, numRuns: 3000 },
  )
})
