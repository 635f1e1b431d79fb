// The shape of a session's events, read strictly. Every value is built anew from the known fields; unknown ones are refused, or passed
// over if they are another's notes (`x-…`), and never followed.
import { readKit, readMachine } from '../../engine/check.ts'
import { fieldOf, flag, list, number, object, oneOf, optional, type Reader, refuse, whole } from '../../engine/fields.ts'
import type { Learned } from '../../engine/history.ts'
import type { Checked } from '../../engine/machine.ts'
import type { Act, Answer, FaultKind, Finding, Look, Step } from '../../engine/step.ts'
import type { Asked, Believed, CautionId, FaultRecord, Found, PhotoNote, SessionEvent, Tools } from '../flow/request.ts'
import type { Started, StoredEvent } from './log.ts'
import { MOST_PHOTO_BYTES, MOST_PHOTOS } from './photo.ts'

/** In one file together: so many are read and compared with their seal in less than half a second. A hunt has some fifty. */
export const MOST_EVENTS = 25_000
const MOST_TEXT = 10_000

export const text: Reader<string> = (found, field) =>
  typeof found === 'string' && found.length <= MOST_TEXT ? found : refuse(field, found, `a text of at most ${MOST_TEXT} characters`)
export const wall: Reader<string> = (found, field) => {
  const isTime = typeof found === 'string' && /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}[+-]\d\d:\d\d$/.test(found)
  return isTime && Number.isFinite(Date.parse(found))
    ? found
    : refuse(field, found, 'a time with its offset, as 2026-11-25T14:05:00.000+01:00')
}
export const finite: Reader<number> = (found, field) =>
  typeof found === 'number' && Number.isFinite(found) ? found : refuse(field, found, 'a finite number')
export const hash: Reader<string> = (found, field) =>
  typeof found === 'string' && /^[0-9a-f]{64}$/.test(found) ? found : refuse(field, found, '64 hexadecimal digits')
const isTrue: Reader<true> = (found, field) => (found === true ? found : refuse(field, found, 'true'))

/** A file of its own inside this one, with its own reader. */
const inner =
  <T>(read: (json: unknown) => Checked<T>, name: string): Reader<T> =>
  (found, field) => {
    const file = read(found)
    return file.ok ? file.value : refuse(field, found, `a ${name} that can be read: ${file.message.replace(/\.$/, '')}`)
  }

const FAULTS = [
  'short-to-zero',
  'short-to-earth',
  'load-short',
  'short',
  'overload',
  'in-rush',
  'open-plus',
  'open-zero',
  'poor-joint',
  'swapped',
  'diode',
  'intermittent',
  'backfeed',
  'device-open',
  'supply-low',
  'supply-dead',
  'no-mains',
] as const satisfies readonly FaultKind[]

type AnswerWith<K extends string> = Extract<Answer, Readonly<Record<K, unknown>>>
const ANSWERS: Readonly<Record<string, Reader<Answer>>> = {
  done: object<AnswerWith<'done'>>({ done: isTrue }),
  cannot: object<AnswerWith<'cannot'>>({ cannot: text }),
  volts: object<AnswerWith<'volts'>>({ volts: finite, ac: optional(flag) }),
  value: object<AnswerWith<'value'>>({
    value: (found, field) => (found === 'OL' ? found : finite(found, field)),
    unsteady: optional(flag),
    ac: optional(flag),
  }),
  seen: object<AnswerWith<'seen'>>({ seen: oneOf('steady', 'blinking', 'off', 'on', 'closed', 'tripped', 'open') }),
  confirmed: object<AnswerWith<'confirmed'>>({ confirmed: flag }),
}
const BY_FIELD = Object.entries(ANSWERS)
const answer: Reader<Answer> = (found, field) => {
  const [, read] = BY_FIELD.find(([key]) => fieldOf(found, key) !== undefined) ?? []
  return read?.(found, field) ?? refuse(field, found, `an object with one of ${Object.keys(ANSWERS).join(', ')}`)
}

export const seq = whole(1, MOST_EVENTS)
const share = number(0, 1)
const interval = object<NonNullable<Found['alongRun']>>({ best: finite, low: finite, high: finite })
const found = object<Found>({
  fault: oneOf(...FAULTS),
  branch: optional(text),
  run: optional(text),
  load: optional(text),
  alongRun: optional(interval),
})
const finding = object<Finding>({
  fault: oneOf(...FAULTS),
  branch: optional(text),
  run: optional(text),
  load: optional(text),
  alongRun: optional(interval),
  fromTerminals: optional(interval),
  loopOhm: optional(interval),
  faultOhm: optional(interval),
  probability: finite,
})
/** One reader for each word of the field that tells them apart. */
const byWord =
  <T>(key: string, readers: Readonly<Record<string, Reader<T>>>): Reader<T> =>
  (found, field) => {
    const word = fieldOf(found, key)
    const read = typeof word === 'string' && Object.hasOwn(readers, word) ? readers[word] : undefined
    return read?.(found, field) ?? refuse(`${field}.${key}`, word, `one of ${Object.keys(readers).join(', ')}`)
  }
type ActOf<K extends Act['act']> = Extract<Act, { act: K }>
const act = byWord<Act>('act', {
  supply: object<ActOf<'supply'>>({ act: oneOf('supply'), to: oneOf('on', 'off') }),
  'prove-dead': object<ActOf<'prove-dead'>>({ act: oneOf('prove-dead') }),
  'zero-leads': object<ActOf<'zero-leads'>>({ act: oneOf('zero-leads') }),
  device: object<ActOf<'device'>>({ act: oneOf('device'), branch: text, to: oneOf('open', 'closed') }),
  load: object<ActOf<'load'>>({ act: oneOf('load'), branch: text, load: text, to: oneOf('unplugged', 'plugged') }),
  run: object<ActOf<'run'>>({ act: oneOf('run'), branch: text, run: text, to: oneOf('opened', 'joined') }),
  bus: object<ActOf<'bus'>>({ act: oneOf('bus'), to: oneOf('opened', 'joined') }),
  bond: object<ActOf<'bond'>>({ act: oneOf('bond'), to: oneOf('opened', 'joined') }),
  inject: object<ActOf<'inject'>>({ act: oneOf('inject'), branch: text, to: oneOf('on', 'off'), into: optional(oneOf('zero', 'earth')) }),
})
const lamp = object<Extract<Look, { look: 'supply-lamp' | 'mains-lamp' }>>({
  kind: oneOf('look'),
  look: oneOf('supply-lamp', 'mains-lamp'),
})
const probes = object<Extract<Step, { meter: 'volt' | 'ohm' }>>({
  kind: oneOf('read'),
  meter: oneOf('volt', 'ohm'),
  red: text,
  black: text,
})
const STEPS: Readonly<Record<string, Reader<Step>>> = {
  act: object<Extract<Step, { kind: 'act' }>>({ kind: oneOf('act'), act }),
  look: byWord<Look>('look', {
    'supply-lamp': lamp,
    'mains-lamp': lamp,
    device: object<Extract<Look, { look: 'device' }>>({ kind: oneOf('look'), look: oneOf('device'), branch: text }),
  }),
  read: byWord<Step>('meter', {
    volt: probes,
    ohm: probes,
    amp: object<Extract<Step, { meter: 'amp' }>>({ kind: oneOf('read'), meter: oneOf('amp'), branch: text }),
  }),
  finding: object<Extract<Step, { kind: 'finding' }>>({ kind: oneOf('finding'), finding }),
}
const CAUTIONS = [
  'before-work',
  'voltage-may-return',
  'injection',
  'switch-on-again',
  'opening-live-device',
  'not-extra-low-voltage',
  'voltage-stays',
  'mains-side',
] as const satisfies readonly CautionId[]
/** Acts that one confirmation may stand for: more than any machine has devices. */
const MOST_ACTS = 200
const asked = byWord<Asked>('kind', {
  ...STEPS,
  confirm: object<Extract<Asked, { kind: 'confirm' }>>({
    kind: oneOf('confirm'),
    caution: oneOf(...CAUTIONS),
    acts: list(byWord('kind', STEPS), MOST_ACTS),
  }),
  mend: object<Extract<Asked, { kind: 'mend' }>>({ kind: oneOf('mend'), finding }),
})
/** Points of the list before a machine goes back to work: more than any version of it has. */
const MOST_CHECKED = 50
/** Branches of the belief that one answer is kept with. */
const MOST_BELIEVED = 10
const believed = object<Believed>({
  seq,
  branches: list(object<Believed['branches'][number]>({ branch: text, before: share, after: share }), MOST_BELIEVED),
})
const record = object<FaultRecord>({
  mode: optional(text),
  mechanism: optional(text),
  cause: optional(text),
  mended: optional(text),
  material: optional(text),
  who: optional(text),
  downSince: optional(wall),
  found: optional(found),
  located: optional(seq),
  corrected: optional(seq),
  restored: optional(seq),
  photos: optional(list(object<PhotoNote>({ hash, type: oneOf('image/jpeg'), size: whole(1, MOST_PHOTO_BYTES) }), MOST_PHOTOS)),
  checked: optional(list(text, MOST_CHECKED)),
  believed: optional(list(believed, MOST_EVENTS)),
})
/** Entries of a machine's log that a session may start with: more places than any machine has. */
export const MOST_LEARNED = 1000
const learned = object<Learned>({
  fault: oneOf(...FAULTS),
  branch: optional(text),
  run: optional(text),
  load: optional(text),
  times: whole(1, 1_000_000),
})

/** A kit but for its meter. */
const tools: Reader<Tools> = (found, field) => {
  const meter = fieldOf(found, 'meter')
  return meter === undefined ? inner(readKit, 'kit')(found, field) : refuse(`${field}.meter`, meter, 'no meter: a session is read with one')
}

type EventOf<K extends SessionEvent['type']> = Extract<SessionEvent, { readonly type: K }>
const EVENTS: { readonly [K in SessionEvent['type']]: Reader<EventOf<K>> } = {
  started: object<Started>({
    type: oneOf('started'),
    machine: inner(readMachine, 'machine'),
    kit: inner(readKit, 'kit'),
    symptom: oneOf('all-dead', 'all-low', 'one-branch-dead', 'one-load-dead', 'trips-again', 'dead-at-start', 'comes-and-goes'),
    learned: optional(list(learned, MOST_LEARNED)),
    branch: optional(text),
    load: optional(text),
  }),
  answered: object<EventOf<'answered'>>({ type: oneOf('answered'), n: whole(1, Number.MAX_SAFE_INTEGER), answer, asked: optional(asked) }),
  undone: object<EventOf<'undone'>>({ type: oneOf('undone') }),
  resumed: object<EventOf<'resumed'>>({ type: oneOf('resumed') }),
  kit: object<EventOf<'kit'>>({ type: oneOf('kit'), kit: tools }),
  handedOver: object<EventOf<'handedOver'>>({ type: oneOf('handedOver') }),
  stopped: object<EventOf<'stopped'>>({ type: oneOf('stopped') }),
  closed: object<EventOf<'closed'>>({ type: oneOf('closed'), branch: text, wrong: text, note: text, record: optional(record) }),
}
export const event = byWord<SessionEvent>('type', EVENTS)
export const stored = object<StoredEvent>({ seq, wall, zone: text, mono: finite, boot: text, event })
