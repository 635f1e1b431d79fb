// What comes in as an answer is read strictly: the answer, or a sentence that names the field and the value found there.
import type { Checked, Kit } from '../../engine/machine.ts'
import { type MeterQuantity, meterOf, plausible } from '../../engine/meter.ts'
import type { Answer, Step } from '../../engine/step.ts'
import type { Positions, Request } from './request.ts'

const shown = (v: unknown): string => {
  const text = typeof v === 'string' ? v : (JSON.stringify(v) ?? String(v))
  return text.length > 40 ? `${text.slice(0, 40)}…` : text
}
const wrong = (field: string, v: unknown, wanted: string): Checked<Answer> => ({
  ok: false,
  field,
  found: shown(v),
  message: `${field} is ${shown(v)}, but ${wanted}.`,
})
const ok = (value: Answer): Checked<Answer> => ({ ok: true, value })

const SEEN: Readonly<Record<string, readonly string[]>> = {
  'supply-lamp': ['steady', 'blinking', 'off'],
  'mains-lamp': ['on', 'off'],
  device: ['closed', 'tripped', 'open'],
}

const quantityOf = (step: Step & { kind: 'read' }, positions: Positions): MeterQuantity =>
  step.meter !== 'amp' ? step.meter : positions.injector === undefined ? 'amp' : 'series'

const looked = (look: string, raw: unknown): Checked<Answer> => {
  const words = SEEN[look] ?? []
  const said = typeof raw === 'string' ? raw : Object.values(raw as object).find(v => typeof v === 'string')
  return typeof said === 'string' && words.includes(said)
    ? ok({ seen: said as 'steady' })
    : wrong('value', said ?? raw, `this look is answered with one of ${words.join(', ')}`)
}

const number = (field: string, v: unknown, low: number, high: number, unit: string): Checked<number> =>
  typeof v === 'number' && Number.isFinite(v) && v >= low && v <= high
    ? { ok: true, value: v }
    : { ok: false, field, found: shown(v), message: `${field} is ${shown(v)}, but a number from ${low} to ${high} ${unit} is wanted.` }

const reading = (step: Step & { kind: 'read' }, raw: Record<string, unknown>, kit: Kit, positions: Positions): Checked<Answer> => {
  const { value, unsteady, ac } = raw
  const quantity = quantityOf(step, positions)
  for (const [field, v] of [
    ['unsteady', unsteady],
    ['ac', ac],
  ] as const)
    if (v !== undefined && typeof v !== 'boolean') return wrong(field, v, 'true or false is wanted')
  const marks = { ...(unsteady === true ? { unsteady } : {}), ...(ac === true ? { ac } : {}) }
  if (value === 'OL')
    return quantity === 'ohm'
      ? ok({ value, ...marks })
      : wrong('value', value, 'OL is a word for ohms; give the number that the display shows')
  if (typeof value !== 'number') return wrong('value', value, 'a number, or OL, is wanted')
  const checked = plausible(meterOf(kit), quantity, value)
  return checked.ok ? ok({ value, ...marks }) : checked
}

/** Reads an answer to a request as it comes from the screen or from a line of JSON. Changes nothing, never throws. */
export const readAnswer = (request: Request, raw: unknown, kit: Kit = {}, positions?: Positions): Checked<Answer> => {
  if (request.say === 'end') return wrong('answer', raw, 'the session has ended')
  const isObject = typeof raw === 'object' && raw !== null && !Array.isArray(raw)
  if (!isObject && !(typeof raw === 'string' && request.say === 'step' && request.step.kind === 'look'))
    return wrong('answer', raw, 'an answer is an object')
  const o = (isObject ? raw : {}) as Record<string, unknown>
  if (o['cannot'] !== undefined) {
    return typeof o['cannot'] === 'string' && o['cannot'].length <= 2000
      ? ok({ cannot: o['cannot'] })
      : wrong('cannot', o['cannot'], 'the reason in words is wanted')
  }
  const done = (): Checked<Answer> =>
    o['done'] === true ? ok({ done: true }) : wrong('done', o['done'], 'true is wanted once it is done, or cannot with the reason')
  if (request.say !== 'step') return done()
  const { step } = request
  switch (step.kind) {
    case 'look':
      return looked(step.look, raw)
    case 'finding':
      return typeof o['confirmed'] === 'boolean'
        ? ok({ confirmed: o['confirmed'] })
        : wrong('confirmed', o['confirmed'], 'true or false is wanted')
    case 'read':
      return reading(
        step,
        o,
        kit,
        positions ?? { supply: 'off', bus: 'joined', bond: 'joined', devices: {}, unplugged: [], openedRuns: [] },
      )
    case 'act':
      if (step.act.act === 'prove-dead' && o['volts'] !== undefined) {
        const volts = number('volts', o['volts'], -1000, 1000, 'V')
        return volts.ok ? ok({ volts: volts.value, ...(o['ac'] === true ? { ac: true } : {}) }) : volts
      }
      if (step.act.act === 'zero-leads' && o['value'] !== undefined) {
        const value = number('value', o['value'], -1, 5, 'Ω')
        return value.ok ? ok({ value: value.value }) : value
      }
      return done()
  }
}
