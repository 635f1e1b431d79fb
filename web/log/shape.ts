// The shape of a session file, read strictly. Every value is built anew from the known fields; unknown ones are refused, or passed
// over if they are another's notes (`x-…`), and never followed.
import { readKit, readMachine } from '../../engine/check.ts'
import { fieldOf, flag, list, object, oneOf, optional, type Reader, refuse, whole } from '../../engine/fields.ts'
import type { Checked } from '../../engine/machine.ts'
import type { Answer } from '../../engine/step.ts'
import type { SessionEvent } from '../flow/request.ts'
import type { Started, StoredEvent } from './log.ts'

export interface SessionFile {
  readonly format: 'ohmward.session'
  readonly version: 1
  readonly id: string
  readonly exportedAt: string
  readonly appVersion?: string
  readonly events: readonly StoredEvent[]
}

const MOST_EVENTS = 50_000
const MOST_TEXT = 10_000

const text: Reader<string> = (found, field) =>
  typeof found === 'string' && found.length <= MOST_TEXT ? found : refuse(field, found, `a text of at most ${MOST_TEXT} characters`)
const wall: Reader<string> = (found, field) => {
  const isTime = typeof found === 'string' && /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}[+-]\d\d:\d\d$/.test(found)
  return isTime && Number.isFinite(Date.parse(found))
    ? found
    : refuse(field, found, 'a time with its offset, as 2026-11-25T14:05:00.000+01:00')
}
const finite: Reader<number> = (found, field) =>
  typeof found === 'number' && Number.isFinite(found) ? found : refuse(field, found, 'a finite number')
const isTrue: Reader<true> = (found, field) => (found === true ? found : refuse(field, found, 'true'))

/** A file of its own inside this one, with its own reader. */
const inner =
  <T>(read: (json: unknown) => Checked<T>, name: string): Reader<T> =>
  (found, field) => {
    const file = read(found)
    return file.ok ? file.value : refuse(field, found, `a ${name} that can be read: ${file.message.replace(/\.$/, '')}`)
  }

type AnswerWith<K extends string> = Extract<Answer, Readonly<Record<K, unknown>>>
const ANSWERS: Readonly<Record<string, Reader<Answer>>> = {
  done: object<AnswerWith<'done'>>({ done: isTrue }),
  cannot: object<AnswerWith<'cannot'>>({ cannot: text }),
  volts: object<AnswerWith<'volts'>>({ volts: finite }),
  value: object<AnswerWith<'value'>>({
    value: (found, field) => (found === 'OL' ? found : finite(found, field)),
    unsteady: optional(flag),
    ac: optional(flag),
  }),
  seen: object<AnswerWith<'seen'>>({ seen: oneOf('steady', 'blinking', 'off', 'on', 'closed', 'tripped', 'open') }),
  confirmed: object<AnswerWith<'confirmed'>>({ confirmed: flag }),
}
const answer: Reader<Answer> = (found, field) => {
  const [, read] = Object.entries(ANSWERS).find(([key]) => fieldOf(found, key) !== undefined) ?? []
  return read?.(found, field) ?? refuse(field, found, `an object with one of ${Object.keys(ANSWERS).join(', ')}`)
}

type EventOf<K extends SessionEvent['type']> = Extract<SessionEvent, { readonly type: K }>
const EVENTS: { readonly [K in SessionEvent['type']]: Reader<EventOf<K>> } = {
  started: object<Started>({
    type: oneOf('started'),
    machine: inner(readMachine, 'machine'),
    kit: inner(readKit, 'kit'),
    symptom: oneOf('all-dead', 'all-low', 'one-branch-dead', 'one-load-dead', 'trips-again', 'dead-at-start', 'comes-and-goes'),
  }),
  answered: object<EventOf<'answered'>>({ type: oneOf('answered'), n: whole(1, Number.MAX_SAFE_INTEGER), answer }),
  undone: object<EventOf<'undone'>>({ type: oneOf('undone') }),
  handedOver: object<EventOf<'handedOver'>>({ type: oneOf('handedOver') }),
  stopped: object<EventOf<'stopped'>>({ type: oneOf('stopped') }),
  closed: object<EventOf<'closed'>>({ type: oneOf('closed'), branch: text, wrong: text, note: text }),
}
const event: Reader<SessionEvent> = (found, field) => {
  const type = fieldOf(found, 'type')
  const known = Object.keys(EVENTS) as SessionEvent['type'][]
  const match = known.find(name => name === type)
  return match === undefined ? refuse(`${field}.type`, type, `one of ${known.join(', ')}`) : EVENTS[match](found, field)
}
const stored = object<StoredEvent>({ seq: whole(1, MOST_EVENTS), wall, zone: text, mono: finite, boot: text, event })

const file = object<SessionFile>({
  format: oneOf('ohmward.session'),
  version: oneOf(1),
  id: text,
  exportedAt: wall,
  appVersion: optional(text),
  events: list(stored, MOST_EVENTS, 1),
})

export const sessionFile: Reader<SessionFile> = (found, field) => {
  const version = fieldOf(found, 'version')
  // Before all else: a later version may differ in anything, and a refusal of some field would mislead.
  if (version !== undefined && version !== 1) refuse('version', version, '1, the only one that this app reads')
  const read = file(found, field)
  for (const [i, { seq, event }] of read.events.entries()) {
    if (seq !== i + 1) refuse(`events[${i}].seq`, seq, `${i + 1}: no event may be missing or out of order`)
    if ((event.type === 'started') !== (i === 0))
      refuse(`events[${i}].event.type`, event.type, i === 0 ? 'started' : 'another: a session starts once')
  }
  return read
}
