import fc from 'fast-check'
import type { Act, Answer, FaultKind, Finding, Step } from '../../engine/step.ts'
import type { Asked, FaultRecord, SessionEvent } from '../../web/flow/request.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { ANSWERS, answered, started, stored } from './samples.ts'

// Random sessions of any events, in any order: the log keeps what it is given, sensible or not.
const text = fc.string({ unit: 'binary', maxLength: 40 })
const value = fc.double({ noNaN: true, noDefaultInfinity: true }).map(x => x + 0)
const wall = fc.constantFrom('2026-11-25T02:05:00.000+01:00', '2024-02-29T23:59:59.999-03:30')
const answer: fc.Arbitrary<Answer> = fc.oneof(
  fc.constantFrom(...ANSWERS),
  text.map(cannot => ({ cannot })),
  fc.record({ volts: value, ac: fc.boolean() }, { requiredKeys: ['volts'] }),
  fc.record({ value: fc.oneof(value, fc.constant('OL' as const)), unsteady: fc.boolean(), ac: fc.boolean() }, { requiredKeys: ['value'] }),
)
const fault = fc.constantFrom<FaultKind>('short-to-zero', 'poor-joint', 'no-mains')
const interval = fc.record({ best: value, low: value, high: value })
const seq = fc.integer({ min: 1, max: 25_000 })
const share = fc.double({ min: 0, max: 1, noNaN: true }).map(x => x + 0)
const found = fc.record({ fault, branch: text, run: text, load: text, alongRun: interval }, { requiredKeys: ['fault'] })
const finding: fc.Arbitrary<Finding> = fc.record(
  {
    fault,
    branch: text,
    run: text,
    load: text,
    alongRun: interval,
    fromTerminals: interval,
    loopOhm: interval,
    faultOhm: interval,
    probability: value,
  },
  { requiredKeys: ['fault', 'probability'] },
)
const act: fc.Arbitrary<Act> = fc.oneof(
  fc.constantFrom<Act>(
    { act: 'supply', to: 'off' },
    { act: 'prove-dead' },
    { act: 'zero-leads' },
    { act: 'bus', to: 'opened' },
    { act: 'bond', to: 'joined' },
  ),
  text.map((branch): Act => ({ act: 'device', branch, to: 'open' })),
  fc.tuple(text, text).map(([branch, load]): Act => ({ act: 'load', branch, load, to: 'unplugged' })),
  fc.tuple(text, text).map(([branch, run]): Act => ({ act: 'run', branch, run, to: 'joined' })),
  text.map((branch): Act => ({ act: 'inject', branch, to: 'on', into: 'earth' })),
  text.map((branch): Act => ({ act: 'inject', branch, to: 'off' })),
)
const step: fc.Arbitrary<Step> = fc.oneof(
  act.map((one): Step => ({ kind: 'act', act: one })),
  fc.constantFrom<Step>({ kind: 'look', look: 'supply-lamp' }, { kind: 'look', look: 'mains-lamp' }),
  text.map((branch): Step => ({ kind: 'look', look: 'device', branch })),
  fc
    .tuple(fc.constantFrom('volt' as const, 'ohm' as const), text, text)
    .map(([meter, red, black]): Step => ({ kind: 'read', meter, red, black })),
  text.map((branch): Step => ({ kind: 'read', meter: 'amp', branch })),
  finding.map((one): Step => ({ kind: 'finding', finding: one })),
)
const asked: fc.Arbitrary<Asked | undefined> = fc.oneof(
  fc.constant(undefined),
  step,
  fc.array(step, { maxLength: 3 }).map((acts): Asked => ({ kind: 'confirm', caution: 'voltage-may-return', acts })),
  finding.map((one): Asked => ({ kind: 'mend', finding: one })),
)
const photo = fc.record({
  hash: fc.stringMatching(/^[0-9a-f]{64}$/),
  type: fc.constant('image/jpeg' as const),
  size: fc.integer({ min: 1, max: 400_000 }),
})
const record: fc.Arbitrary<FaultRecord> = fc.record(
  {
    mode: text,
    mechanism: text,
    cause: text,
    mended: text,
    material: text,
    who: text,
    downSince: wall,
    found,
    located: seq,
    corrected: seq,
    restored: seq,
    photos: fc.array(photo, { maxLength: 3 }),
    checked: fc.array(text, { maxLength: 3 }),
    believed: fc.array(fc.record({ seq, branches: fc.array(fc.record({ branch: text, before: share, after: share }), { maxLength: 4 }) }), {
      maxLength: 3,
    }),
  },
  { requiredKeys: [] },
)
const closed = fc.record(
  { type: fc.constant('closed' as const), branch: text, wrong: text, note: text, record },
  { requiredKeys: ['type', 'branch', 'wrong', 'note'] },
)
const tools = fc.record(
  { clamp: fc.boolean(), qualified: fc.boolean(), injector: fc.constantFrom({ ampere: 1, volts: 24 }, { ampere: 0.5, volts: 12 }) },
  { requiredKeys: [] },
)
export const event: fc.Arbitrary<SessionEvent> = fc.oneof(
  fc.tuple(fc.integer({ min: 1, max: 1000 }), answer, asked).map(([n, given, to]) => answered(n, given, to)),
  fc.constantFrom<SessionEvent>({ type: 'undone' }, { type: 'resumed' }, { type: 'handedOver' }, { type: 'stopped' }),
  tools.map((kit): SessionEvent => ({ type: 'kit', kit })),
  closed,
)
const learned = fc.record(
  { fault, branch: text, run: text, load: text, times: fc.integer({ min: 1, max: 1_000_000 }) },
  { requiredKeys: ['fault', 'times'] },
)
const known = fc.record({ learned: fc.array(learned, { maxLength: 3 }), branch: text, load: text }, { requiredKeys: [] })
export const session: fc.Arbitrary<StoredEvent[]> = fc
  .tuple(fc.array(event, { maxLength: 30 }), wall, value, known)
  .map(([events, at, mono, more]) =>
    stored([{ ...started(), ...more }, ...events]).map(one => ({ ...one, wall: at, mono: one.mono + Math.abs(mono) / 1e10 })),
  )
  .map(events => events.map(one => ({ ...one, mono: Number.isFinite(one.mono) ? one.mono : 0 })))
