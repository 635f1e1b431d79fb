// A device that was said to be opened and is seen closed: all since then was read of another circuit. What must be believed then is
// what somebody would believe who heard the same answers, each with the devices as they really stood.
import { describe, expect, test } from 'vitest'
import { branchShares } from '../../engine/belief.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import { after, asFound, type Positions } from '../../engine/positions.ts'
import type { Act, Answer, Finding, Look, Read, Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { atStart, type Hunt } from '../../web/flow/hunt.ts'
import type { Asked, Session } from '../../web/flow/request.ts'
import { advance, begin } from '../../web/flow/session.ts'
import { INJECTOR, three } from './machines.ts'

type Said = readonly [Asked, Answer]
const act = (one: Act, answer: Answer = { done: true }): Said => [{ kind: 'act', act: one }, answer]
const ohm = (place: string): Read => ({ kind: 'read', meter: 'ohm', red: `${place}.plus`, black: `${place}.zero` })
const volt = (place: string): Read => ({ kind: 'read', meter: 'volt', red: `${place}.plus`, black: `${place}.zero` })
const device = (branch: string): Look => ({ kind: 'look', look: 'device', branch })
const lamp: Look = { kind: 'look', look: 'supply-lamp' }
const short: Finding = { fault: 'short-to-zero', branch: 'B1', run: 'W1', alongRun: { best: 3, low: 1, high: 5 }, probability: 0.7 }

const briefing: Said = [{ kind: 'confirm', caution: 'before-work', acts: [] }, { done: true }]
const off = act({ act: 'supply', to: 'off' })
const dead = act({ act: 'prove-dead' })
const open = (branch: string) => act({ act: 'device', branch, to: 'open' })
const close = (branch: string) => act({ act: 'device', branch, to: 'closed' })

const start = begin({ type: 'started', machine: three, kit: INJECTOR, symptom: 'all-dead' })
const answering = (said: readonly Said[]): Session =>
  said.reduce<Session>((at, [asked, answer]) => advance(at, { type: 'answered', n: at.request.n, answer, asked }), start)
const huntOf = (session: Session): Hunt => (session as unknown as { readonly snapshot: { readonly context: Hunt } }).snapshot.context

const found = asFound(['B1', 'B2', 'B3'])
const isOff = after(found, { act: 'supply', to: 'off' })
const opened = (p: Positions, ...branches: string[]): Positions =>
  branches.reduce((at, branch) => after(at, { act: 'device', branch, to: 'open' }), p)
const read = (of: Read, positions: Positions, shown: number | 'OL', more: { zeroed?: boolean; unsteady?: boolean } = {}): Evidence => ({
  of: 'read',
  read: of,
  positions,
  shown,
  zeroed: false,
  unsteady: false,
  ...more,
})
const proved = (positions: Positions, volts = 0): Evidence => ({ of: 'proved', positions, volts })
const looked = (look: Look, positions: Positions, seen: 'closed' | 'open' | 'tripped' | 'steady' | 'blinking'): Evidence =>
  ({ of: 'look', look, positions, seen }) as Evidence
const sharesOf = (evidence: readonly Evidence[]): readonly number[] => {
  const h = huntOf(start)
  return [...branchShares(evidence.reduce(observe, atStart(h.plant, h.kit, h.belief.symptom, h.known)))]
}

interface Story {
  readonly what: string
  /** Whose device never opened. */
  readonly branch: string
  /** Up to the look that sees it closed. */
  readonly said: readonly Said[]
  readonly real: readonly Evidence[]
}
const STORIES: readonly Story[] = [
  {
    what: 'an ohm reading past it was one of the bus',
    branch: 'B1',
    said: [off, dead, open('B1'), [ohm('B1'), { value: 0.6 }]],
    real: [proved(isOff), read(ohm('B1'), isOff, 0.6), looked(device('B1'), isOff, 'closed')],
  },
  {
    what: 'what was read before it was opened, and past another one that was, stays as it was',
    branch: 'B1',
    said: [
      [lamp, { seen: 'blinking' }],
      off,
      dead,
      open('B2'),
      [ohm('B2'), { value: 48 }],
      open('B1'),
      [ohm('B1'), { value: 0.6 }],
      [ohm('bus'), { value: 0.6 }],
    ],
    real: [
      looked(lamp, found, 'blinking'),
      proved(isOff),
      read(ohm('B2'), opened(isOff, 'B2'), 48),
      read(ohm('B1'), opened(isOff, 'B2'), 0.6),
      read(ohm('bus'), opened(isOff, 'B2'), 0.6),
      looked(device('B1'), opened(isOff, 'B2'), 'closed'),
    ],
  },
  {
    what: 'zeroed leads, an unsteady display, a voltage at the proof and a vain look are remembered; a.c. and what could not be done are not',
    branch: 'B1',
    said: [
      off,
      act({ act: 'prove-dead' }, { volts: -3.2 }),
      dead,
      act({ act: 'zero-leads' }, { value: 0.2 }),
      open('B1'),
      [ohm('B1'), { value: 0.4, unsteady: true }],
      [volt('bus'), { value: 7, ac: true }],
      act({ act: 'device', branch: 'B3', to: 'open' }, { cannot: 'it is stuck' }),
      [ohm('B3'), { cannot: 'out of reach' }],
      [{ kind: 'finding', finding: short }, { confirmed: false }],
    ],
    real: [
      proved(isOff, 3.2),
      proved(isOff),
      read(ohm('B1'), isOff, 0.4, { zeroed: true, unsteady: true }),
      { of: 'looked', finding: short },
      looked(device('B1'), isOff, 'closed'),
    ],
  },
  {
    what: 'closed again and opened once more, only the last opening is the mistake',
    branch: 'B1',
    said: [
      off,
      dead,
      open('B1'),
      [ohm('B1'), { value: 48 }],
      close('B1'),
      [ohm('bus'), { value: 0.6 }],
      open('B1'),
      [ohm('bus'), { value: 0.6 }],
    ],
    real: [
      proved(isOff),
      read(ohm('B1'), opened(isOff, 'B1'), 48),
      read(ohm('bus'), isOff, 0.6),
      read(ohm('bus'), isOff, 0.6),
      looked(device('B1'), isOff, 'closed'),
    ],
  },
  {
    what: 'one that was seen open in between was open until then',
    branch: 'B2',
    said: [off, dead, open('B1'), [ohm('B1'), { value: 48 }], [device('B1'), { seen: 'open' }], open('B2'), [ohm('B2'), { value: 0.6 }]],
    real: [
      proved(isOff),
      read(ohm('B1'), opened(isOff, 'B1'), 48),
      looked(device('B1'), opened(isOff, 'B1'), 'open'),
      read(ohm('B2'), opened(isOff, 'B1'), 0.6),
      looked(device('B2'), opened(isOff, 'B1'), 'closed'),
    ],
  },
  {
    what: 'another that was seen tripped meanwhile stays tripped',
    branch: 'B1',
    said: [off, dead, [device('B3'), { seen: 'tripped' }], open('B1'), [ohm('B1'), { value: 0.6 }]],
    real: [
      proved(isOff),
      looked(device('B3'), isOff, 'tripped'),
      read(ohm('B1'), { ...isOff, devices: { ...isOff.devices, B3: 'tripped' } }, 0.6),
      looked(device('B1'), { ...isOff, devices: { ...isOff.devices, B3: 'tripped' } }, 'closed'),
    ],
  },
]

for (const { what, said, real, branch } of STORIES)
  describe(what, () => {
    const session = answering([briefing, ...said, [device(branch), { seen: 'closed' }]])
    const h = huntOf(session)
    test('it is believed what those answers say of the circuit that was there', () => {
      const shares = sharesOf(real)
      session.belief.forEach(({ p }, i) => {
        expect(p).toBeCloseTo(shares[i] ?? Number.NaN, 9)
      })
    })
    test('the device stands closed, and what was read in its branch may be read again', () => {
      expect(h.positions.devices[branch]).toBe('closed')
      expect(h.taken.has(keyOf(ohm(branch)))).toBe(false)
    })
    test('readings to be kept over a mend are those of ohms elsewhere', () => {
      const kept = real.filter(e => e.of === 'read' && e.read.meter === 'ohm' && keyOf(e.read) !== keyOf(ohm(branch)))
      expect(h.readings.map(({ read: one }) => keyOf(one))).toEqual(kept.map(e => keyOf((e as { read: Step }).read)))
    })
  })

test('what was taken elsewhere stays taken', () => {
  const h = huntOf(
    answering([
      briefing,
      off,
      dead,
      open('B2'),
      [ohm('B2'), { value: 48 }],
      open('B1'),
      [ohm('B1'), { value: 0.6 }],
      [device('B1'), { seen: 'closed' }],
    ]),
  )
  expect([ohm('B1'), ohm('B2')].map(one => h.taken.has(keyOf(one)))).toEqual([false, true])
})

test('a current read with the source in the branch is dropped with it', () => {
  const amp: Read = { kind: 'read', meter: 'amp', branch: 'B1' }
  const fed = act({ act: 'inject', branch: 'B1', to: 'on', into: 'zero' })
  const unfed = act({ act: 'inject', branch: 'B1', to: 'off' })
  const h = huntOf(answering([briefing, off, dead, open('B1'), fed, [amp, { value: 1 }], unfed, dead, [device('B1'), { seen: 'closed' }]]))
  expect(h.taken.has(keyOf(amp))).toBe(false)
})

test('a short circuit that seemed to be behind a device that never opened is no more likely there than behind the others', () => {
  const lied = answering([briefing, off, dead, open('B1'), [ohm('B1'), { value: 0.6 }]])
  const [before] = lied.belief
  expect(before?.p).toBeGreaterThan(0.9)
  const told = advance(lied, { type: 'answered', n: lied.request.n, answer: { seen: 'closed' }, asked: device('B1') })
  expect(told.belief[0]?.p).toBeLessThan(0.7)
})

test('after a mend that did not help, readings past other devices stand, and no other', () => {
  const mended = answering([
    briefing,
    off,
    dead,
    open('B2'),
    [ohm('B2'), { value: 48 }],
    open('B1'),
    [ohm('B1'), { value: 0.6 }],
    [{ kind: 'finding', finding: short }, { confirmed: true }],
    [{ kind: 'mend', finding: short }, { done: true }],
    // The check after the mend, and once more where that is doubted: the hunt goes on.
    [ohm('B1'), { value: 0.6 }],
    [ohm('B1'), { value: 0.6 }],
  ])
  const h = huntOf(mended)
  expect(h.mends).toHaveLength(1)
  expect(h.repair).toBeUndefined()
  const again = huntOf(advance(mended, { type: 'answered', n: mended.request.n, answer: { seen: 'closed' }, asked: device('B1') }))
  expect(again.positions.devices['B1']).toBe('closed')
  expect(again.readings.map(({ read: one }) => keyOf(one))).toEqual([keyOf(ohm('B2'))])
})
