// What comes in as an answer is read strictly: the answer, or a sentence that names the field and the value found there.
import { shown } from '../../engine/fields.ts'
import type { Checked, Kit } from '../../engine/machine.ts'
import { meterOf, plausible } from '../../engine/meter.ts'
import type { Act, Answer, Look, Read } from '../../engine/step.ts'
import type { Request } from './request.ts'

type Fields = Readonly<Record<string, unknown>>

const wrong = (field: string, v: unknown, wanted: string): Checked<never> => ({
  ok: false,
  field,
  found: shown(v),
  message: v === undefined ? `${field} is missing: ${wanted}.` : `${field} is ${shown(v)}, but ${wanted}.`,
})
const ok = (value: Answer): Checked<Answer> => ({ ok: true, value })

const LONGEST_REASON = 2000
/** Prove-dead and zeroed leads: what a display may show there, V and Ω (leads past 5 Ω are broken ones; common practice, no source). */
const VOLTS = { low: -1000, high: 1000, unit: 'V' } as const
const LEADS = { low: -1, high: 5, unit: 'Ω' } as const

const number = (field: string, v: unknown, { low, high, unit }: typeof VOLTS | typeof LEADS): Checked<number> =>
  typeof v === 'number' && v >= low && v <= high
    ? { ok: true, value: v }
    : wrong(field, v, `a number from ${low} to ${high} ${unit} is wanted`)

/** The marks of a reading that are set; or the one that is neither true nor false. */
const marksOf = (o: Fields, names: readonly ('ac' | 'unsteady')[]): Checked<{ ac?: true; unsteady?: true }> => {
  const bad = names.find(name => o[name] !== undefined && typeof o[name] !== 'boolean')
  if (bad !== undefined) return wrong(bad, o[bad], 'true or false is wanted')
  return { ok: true, value: Object.fromEntries(names.filter(name => o[name] === true).map(name => [name, true])) }
}

const SEEN = {
  'supply-lamp': ['steady', 'blinking', 'off'],
  'mains-lamp': ['on', 'off'],
  device: ['closed', 'tripped', 'open'],
} as const
type Seen = (typeof SEEN)[Look['look']][number]

/** A look is answered with its word, plain or in a field of any name. */
const looked = ({ look }: Look, raw: unknown): Checked<Answer> => {
  const words: readonly Seen[] = SEEN[look]
  const told = typeof raw === 'string' ? [raw] : Object.values(raw as Fields).filter(v => typeof v === 'string')
  const said = new Set(words.filter(word => told.includes(word)))
  const [seen] = said
  if (seen !== undefined && said.size === 1) return ok({ seen })
  const found = typeof raw === 'string' ? raw : ((raw as Fields)['seen'] ?? (raw as Fields)['value'] ?? told[0])
  return wrong('value', found, `this look is answered with one of ${words.join(', ')}`)
}

const reading = (read: Read, o: Fields, kit: Kit): Checked<Answer> => {
  const { value } = o
  const marks = marksOf(o, ['unsteady', 'ac'])
  if (!marks.ok) return marks
  if (marks.value.ac && read.meter !== 'volt') return wrong('ac', true, 'only a voltage can be a.c. here')
  if (value === 'OL')
    // On the volt range it is a voltage past all that is expected here.
    return read.meter !== 'amp'
      ? ok({ value, ...marks.value })
      : wrong('value', value, 'OL is no word for a current here; the number that the display shows is wanted')
  if (typeof value !== 'number') return wrong('value', value, read.meter === 'ohm' ? 'a number, or OL, is wanted' : 'a number is wanted')
  const checked = plausible(meterOf(kit), read.meter, value)
  return checked.ok ? ok({ value, ...marks.value }) : checked
}

const done = (o: Fields): Checked<Answer> =>
  o['done'] === true ? ok({ done: true }) : wrong('done', o['done'], 'true is wanted once it is done, or cannot with the reason')

const acted = ({ act }: Act, o: Fields): Checked<Answer> => {
  if (act === 'prove-dead' && o['volts'] !== undefined) {
    const volts = number('volts', o['volts'], VOLTS)
    const marks = marksOf(o, ['ac'])
    return !volts.ok ? volts : !marks.ok ? marks : ok({ volts: volts.value, ...marks.value })
  }
  if (act === 'zero-leads' && o['value'] !== undefined) {
    const value = number('value', o['value'], LEADS)
    return value.ok ? ok({ value: value.value }) : value
  }
  return done(o)
}

/**
 * Reads an answer to a request as it comes from a screen or from a line of JSON. Changes nothing, never throws.
 */
export const readAnswer = (request: Request, raw: unknown, kit: Kit = {}): Checked<Answer> => {
  if (request.say === 'end') return wrong('answer', raw, 'the session has ended')
  const step = request.say === 'step' ? request.step : undefined
  if (step?.kind === 'look' && typeof raw === 'string') return looked(step, raw)
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return wrong('answer', raw, 'an object is wanted')
  const o = raw as Fields
  if (o['cannot'] !== undefined) {
    const reason = o['cannot']
    return typeof reason === 'string' && reason.length <= LONGEST_REASON
      ? ok({ cannot: reason })
      : wrong('cannot', reason, `the reason in at most ${LONGEST_REASON} characters is wanted`)
  }
  switch (step?.kind) {
    case undefined:
      return done(o)
    case 'look':
      return looked(step, o)
    case 'finding':
      return typeof o['confirmed'] === 'boolean'
        ? ok({ confirmed: o['confirmed'] })
        : wrong('confirmed', o['confirmed'], 'true or false is wanted')
    case 'read':
      return reading(step, o, kit)
    case 'act':
      return acted(step.act, o)
  }
}
