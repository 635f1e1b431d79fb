// What was asked stands in the log beside its answer: a version that would ask otherwise reads the log as it was.
import { expect, test } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import type { Asked, Session, SessionEvent } from '../../web/flow/request.ts'
import { advance, begin, replay } from '../../web/flow/session.ts'
import { answer, smoothly } from './answers.ts'
import { INJECTOR, known, METER } from './machines.ts'

const started = { type: 'started', machine: known, kit: METER, symptom: 'all-dead' } as const
const briefed = answer(begin(started), { done: true })
const whole = smoothly(begin({ ...started, kit: INJECTOR }), () => false)
const dead = smoothly(briefed, (_, { power }) => power === 'provedDead')

const stepOf = ({ request }: Session['entries'][number]): Step | undefined => (request.say === 'step' ? request.step : undefined)
const told = (session: Session, asked: Asked, given: Extract<SessionEvent, { type: 'answered' }>['answer']) =>
  advance(session, { type: 'answered', n: session.request.n, answer: given, asked })

test('a whole session holds what each of its answers belongs to', () => {
  expect(whole.request).toMatchObject({ say: 'end', result: 'restored' })
  const asked = whole.events.flatMap(e => (e.type === 'answered' ? [e.asked] : []))
  expect(asked).toHaveLength(whole.entries.length)
  whole.entries.forEach(({ request }, i) => {
    if (request.say === 'step') expect(asked[i]).toEqual(request.step)
    else if (request.say === 'confirm') expect(asked[i]).toEqual({ kind: 'confirm', caution: request.caution, acts: request.acts })
    else expect(asked[i]).toMatchObject({ kind: 'mend' })
  })
})

test.each(['with what was asked', 'as the first versions wrote it'])('the same version plays it again to the same end: %s', how => {
  const events = whole.events.map(e => {
    if (e.type !== 'answered' || how === 'with what was asked') return e
    const { asked: _, ...rest } = e
    return rest
  })
  const again = replay(events)
  expect(again.request).toEqual(whole.request)
  expect(again.entries).toEqual(whole.entries)
})

test('fields in another order, as a file may have them, are the same question', () => {
  const turned = (x: unknown): unknown =>
    typeof x === 'object' && x !== null && !Array.isArray(x)
      ? Object.fromEntries(
          Object.entries(x)
            .reverse()
            .map(([key, value]) => [key, turned(value)]),
        )
      : x
  const events = whole.events.map(e => (e.type === 'answered' ? { ...e, asked: turned(e.asked) as Asked } : e))
  expect(JSON.stringify(events)).not.toBe(JSON.stringify(whole.events))
  expect(replay(events).entries).toEqual(whole.entries)
})

test('where another version asked for something else, the answer goes to the branch that was asked about', () => {
  const { request } = dead
  const other: Step = { kind: 'act', act: { act: 'device', branch: 'B1', to: 'open' } }
  expect(request.say === 'step' && keyOf(request.step) !== keyOf(other)).toBe(true)
  const opened = told(dead, other, { done: true })
  expect(opened.positions.devices['B1']).toBe('open')
  expect(opened.entries.at(-1)?.request).toMatchObject({ n: request.n, step: other, seconds: 6, why: { key: 'recorded' } })
  // Half an ohm at B1, whatever this version would have liked to know: then B1 it is.
  const low = told(opened, { kind: 'read', meter: 'ohm', red: 'B1.plus', black: 'B1.zero' }, { value: 0.5 })
  expect(low.belief.find(b => b.branch === 'B1')?.p).toBeGreaterThan(0.9)
  expect(low.entries.map(stepOf).at(-1)).toMatchObject({ red: 'B1.plus' })
})

test('an answer without its question is one to what this version asks', () => {
  const { request } = dead
  const bare = advance(dead, { type: 'answered', n: request.n, answer: { done: true } })
  expect(bare.entries.at(-1)?.request).toEqual(request)
})

test('a question about what is there is not refused, whichever point it is', () => {
  for (const red of ['supply.plus', 'bus.plus', 'B1.plus', 'B1/J1.plus', 'B1/W1.plus', 'earth'])
    expect(() => told(dead, { kind: 'read', meter: 'volt', red, black: 'bus.zero' }, { value: 0 })).not.toThrow()
})
test.each([
  { kind: 'read', meter: 'ohm', red: 'B9.plus', black: 'B9.zero' },
  { kind: 'read', meter: 'volt', red: 'B1/J9.plus', black: 'B1/J9.zero' },
  { kind: 'read', meter: 'volt', red: 'bus.plus', black: 'bus/J1.zero' },
  { kind: 'read', meter: 'amp', branch: 'B9' },
  { kind: 'look', look: 'device', branch: 'B9' },
  { kind: 'act', act: { act: 'device', branch: 'B9', to: 'open' } },
  { kind: 'act', act: { act: 'run', branch: 'B1', run: 'W9', to: 'opened' } },
  { kind: 'act', act: { act: 'load', branch: 'B1', load: 'K9', to: 'unplugged' } },
  { kind: 'finding', finding: { fault: 'short', branch: 'B9', probability: 1 } },
  { kind: 'mend', finding: { fault: 'short', branch: 'B1', run: 'W9', probability: 1 } },
  { kind: 'confirm', caution: 'voltage-may-return', acts: [{ kind: 'act', act: { act: 'device', branch: 'B9', to: 'closed' } }] },
] as const)('a question about what the machine has not is refused: $kind', asked => {
  expect(() => told(dead, asked as Asked, { done: true })).toThrow(/^no (branch|run|load|such point)/)
})

test('a confirmation and a mend of another version count as what they were', () => {
  const acts: Step[] = [{ kind: 'act', act: { act: 'supply', to: 'on' } }]
  const confirmed = told(briefed, { kind: 'confirm', caution: 'voltage-may-return', acts }, { done: true })
  expect(confirmed.entries.at(-1)?.request).toMatchObject({ say: 'confirm', caution: 'voltage-may-return', acts })
  const finding = { fault: 'short-to-zero', branch: 'B1', probability: 0.8 } as const
  const found = told(dead, { kind: 'finding', finding }, { confirmed: true })
  expect(found.finding).toMatchObject({ branch: 'B1' })
  const mended = told(found, { kind: 'mend', finding }, { done: true })
  expect(mended.entries.at(-1)?.request).toMatchObject({ say: 'mend', finding })
})

test('what follows a question of another version keeps the rules: after it was told that the supply is on, it is off and proved dead before ohms', () => {
  const on = told(dead, { kind: 'act', act: { act: 'supply', to: 'on' } }, { done: true })
  expect(on.power).toBe('live')
  const { request } = smoothly(on, ({ say }, { power }) => say === 'step' && power === 'live')
  expect(request.say === 'step' && request.step.kind === 'read' && request.step.meter === 'ohm').toBe(false)
})
