import fc from 'fast-check'
import type { Answer, FaultKind } from '../../engine/step.ts'
import type { FaultRecord, SessionEvent } from '../../web/flow/request.ts'
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
const seq = fc.integer({ min: 1, max: 50_000 })
const found = fc.record({ fault, branch: text, run: text, load: text, alongRun: interval }, { requiredKeys: ['fault'] })
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
  fc.tuple(fc.integer({ min: 1, max: 1000 }), answer).map(([n, given]) => answered(n, given)),
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
