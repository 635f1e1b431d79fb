// A session as the list of its events: what fits, what is refused, and what stays when an answer is taken back.
import { describe, expect, test } from 'vitest'
import type { Hunt } from '../../web/flow/hunt.ts'
import { startOf } from '../../web/flow/hunt.ts'
import type { Session, SessionEvent } from '../../web/flow/request.ts'
import { advance, begin, keptOf, replay } from '../../web/flow/session.ts'
import { answer, smoothly } from './answers.ts'
import { INJECTOR, known, METER, unknown } from './machines.ts'

const started = { type: 'started', machine: known, kit: METER, symptom: 'all-dead' } as const
const first = begin(started)
const briefed = answer(first, { done: true })

describe('what does not fit is refused', () => {
  test('a session starts once, with its start', () => {
    expect(() => advance(first, started)).toThrow('a session starts once')
    expect(() => replay([{ type: 'undone' }, started])).toThrow('a session begins with its start')
    expect(() => replay([])).toThrow('a session begins with its start')
  })
  test('an answer is for the request on the screen, and none is taken after the end', () => {
    expect(() => advance(briefed, { type: 'answered', n: 1, answer: { done: true } })).toThrow(
      'answer to request 1, but request 2 is on the screen',
    )
    const ended = advance(briefed, { type: 'stopped' })
    expect(ended.request.say).toBe('end')
    expect(() => advance(ended, { type: 'answered', n: ended.request.n, answer: { done: true } })).toThrow('the session has ended')
  })
})

test('at the start it knows what it was started with, and has asked for nothing yet but the briefing', () => {
  expect(first).toMatchObject({
    events: [started],
    machine: known,
    kit: METER,
    symptom: 'all-dead',
    known: {},
    stage: 'briefing',
    power: 'live',
    seconds: 0,
    entries: [],
    energised: 0,
    fitsNothing: false,
    request: { say: 'confirm', n: 1, caution: 'before-work' },
  })
  expect(first.finding).toBeUndefined()
  expect(first.belief.map(b => b.branch)).toEqual(['B1', 'B2'])
})

test('each event is kept, and the same events make the same session', () => {
  const asked = { kind: 'confirm', caution: 'before-work', acts: [] } as const
  const events: SessionEvent[] = [started, { type: 'answered', n: 1, answer: { done: true }, asked }]
  expect(briefed.events).toEqual(events)
  expect(replay(events)).toMatchObject({ request: briefed.request, stage: briefed.stage, entries: briefed.entries })
})

test.each([
  ['handedOver', 'handed-over'],
  ['stopped', 'stopped'],
] as const)('%s ends it as %s; what comes after changes nothing, till the form closes it', (type, result) => {
  const ended = advance(briefed, { type })
  expect([ended.request, ended.stage]).toMatchObject([{ say: 'end', result }, 'closing'])
  for (const late of ['handedOver', 'stopped', 'resumed'] as const)
    expect(advance(ended, { type: late })).toMatchObject({ request: { result }, stage: 'closing' })
  const form = { type: 'closed', branch: '', wrong: '', note: '' } as const
  expect(advance(ended, form).stage).toBe('ended')
  // A form that is filled in before the end closes nothing.
  expect(advance(briefed, form)).toMatchObject({ stage: briefed.stage, request: briefed.request })
  // The end can be taken back.
  expect(advance(ended, { type: 'undone' })).toMatchObject({ request: briefed.request, stage: briefed.stage })
})

test('taken back, the answer is gone and its question is there again; at the start there is nothing to take back', () => {
  const back = advance(briefed, { type: 'undone' })
  expect([back.request, back.stage, back.entries]).toEqual([first.request, 'briefing', []])
  expect(back.events).toHaveLength(3)
  const still = advance(first, { type: 'undone' })
  expect([still.request, still.entries, still.events]).toEqual([first.request, [], [started, { type: 'undone' }]])
})

test('places are suspected likeliest first, by run and load where the wiring is known and by branch where it is not', () => {
  for (const { suspects, belief } of [first, begin({ ...started, machine: unknown })]) {
    expect(suspects.map(s => s.p)).toEqual(suspects.map(s => s.p).sort((a, b) => b - a))
    for (const { branch, p } of belief) {
      const inIt = suspects.filter(s => s.branch === branch).reduce((sum, s) => sum + s.p, 0)
      // What is too unlikely to be named is missing.
      expect([inIt <= p + 1e-9, inIt > 0.9 * p]).toEqual([true, true])
    }
  }
  expect(first.suspects.some(s => s.run === 'W2')).toBe(true)
  expect(begin({ ...started, machine: unknown }).suspects.every(s => s.run === undefined && s.load === undefined)).toBe(true)
})

test('the finding stands once it is confirmed, and the power is what was done last', () => {
  const found = smoothly(first, r => r.say === 'mend')
  expect(found.finding?.branch).toBeDefined()
  expect(found.power).toBe('provedDead')
  const isAct = (s: Session, act: string) => s.request.say === 'step' && s.request.step.kind === 'act' && s.request.step.act.act === act
  const proving = smoothly(first, (_, s) => isAct(s, 'prove-dead'))
  expect([proving.power, answer(proving, { done: true }).power]).toEqual(['off', 'provedDead'])
})

test('other tools are taken into account from then on, and taken back like an answer', () => {
  const clamp = advance(briefed, { type: 'kit', kit: { clamp: true } })
  expect([clamp.kit, clamp.events.at(-1)]).toEqual([{ clamp: true }, { type: 'kit', kit: { clamp: true } }])
  expect(advance(clamp, { type: 'undone' }).kit).toEqual(METER)
})

test('taken up again, what was proved dead is off and not proved; that cannot be taken back', () => {
  const dead = smoothly(first, (_, s) => s.power === 'provedDead')
  expect(dead.power).toBe('provedDead')
  const resumed = advance(dead, { type: 'resumed' })
  expect([resumed.power, resumed.entries]).toEqual(['off', dead.entries])
  expect(advance(resumed, { type: 'undone' }).entries).toHaveLength(dead.entries.length - 1)
})

test('a switching on that is taken back may have been done: the power stays live, and it stays counted', () => {
  const isOn = (s: Session) =>
    s.request.say === 'step' && s.request.step.kind === 'act' && s.request.step.act.act === 'supply' && s.request.step.act.to === 'on'
  const before = smoothly(first, (_, s) => isOn(s))
  const back = advance(answer(before, { done: true }), { type: 'undone' })
  expect([before.power === 'live', back.power, back.energised - before.energised]).toEqual([false, 'live', 1])
  expect(back.positions).toEqual(before.positions)
})

test('a stray alternating voltage fits nothing in the search', () => {
  const isVolt = (s: Session) => s.request.say === 'step' && s.request.step.kind === 'read' && s.request.step.meter === 'volt'
  // A voltage that stays is searched for by voltages.
  const isProof = (s: Session) => s.request.say === 'step' && s.request.step.kind === 'act' && s.request.step.act.act === 'prove-dead'
  const stays = answer(
    smoothly(first, (_, s) => isProof(s)),
    { volts: 5 },
  )
  const at = smoothly(stays, (_, s) => isVolt(s) && s.finding === undefined)
  expect(isVolt(at)).toBe(true)
  expect([at.fitsNothing, answer(at, { value: 3, ac: true }).fitsNothing]).toEqual([false, true])
  // On the way back a wrong voltage is read again, and says nothing of faults that would fit.
  const late = smoothly(at, (_, s) => isVolt(s) && s.finding !== undefined)
  expect(answer(late, { value: 3, ac: true })).toMatchObject({ fitsNothing: false, finding: expect.anything() })
})

describe('what stays when an answer is taken back', () => {
  const live: Hunt = startOf(known, INJECTOR, 'all-dead')
  const off: Hunt = { ...live, positions: { ...live.positions, supply: 'off' } }
  const dead: Hunt = { ...off, provedDead: true }
  const fed = { branch: 'B1', into: 'zero' } as const
  test('dead only if it was so before and still is', () => {
    expect([keptOf(dead, dead), keptOf(off, dead), keptOf(dead, off), keptOf(off, off)].map(k => k.provedDead)).toEqual([
      true,
      false,
      false,
      false,
    ])
  })
  test('what was switched on may be on, unless it was on before as well', () => {
    expect(keptOf(live, off).still).toEqual({ supply: 'on' })
    expect(keptOf(live, live).still).toEqual({})
    expect(keptOf(off, live).still).toEqual({})
    const feeding = { ...off, positions: { ...off.positions, injector: fed } }
    expect(keptOf(feeding, off).still).toEqual({ injector: fed })
    expect(keptOf(feeding, feeding).still).toEqual({})
    // What may be on already may be on still.
    expect(keptOf({ ...off, still: { supply: 'on', injector: fed } }, off).still).toEqual({ supply: 'on', injector: fed })
  })
  test('a device that was closed since may be closed, whoever opened it before', () => {
    const open: Hunt = { ...dead, positions: { ...dead.positions, devices: { B1: 'open', B2: 'open' } } }
    const one: Hunt = { ...dead, positions: { ...dead.positions, devices: { B1: 'closed', B2: 'open' } } }
    expect([...keptOf(one, open).unsure]).toEqual(['B1'])
    expect([...keptOf(open, one).unsure]).toEqual([])
    expect([...keptOf(one, one).unsure]).toEqual([])
    expect([...keptOf({ ...one, unsure: new Set(['B2']) }, { ...open, unsure: new Set(['B3']) }).unsure].sort()).toEqual(['B1', 'B2', 'B3'])
  })
  test('a confirmation that was used is used; what was energised was energised', () => {
    const kept = keptOf({ ...live, covered: new Set(['b', 'c']), energised: 3 }, { ...live, covered: new Set(['a', 'b']), energised: 1 })
    expect([[...kept.covered], kept.energised]).toEqual([['b'], 3])
  })
  test('seconds under voltage: the more of both while it is or may be live, none in a dead circuit', () => {
    const seconds = (h: Hunt, then: Hunt, now: number, before: number) =>
      keptOf({ ...h, liveSeconds: now }, { ...then, liveSeconds: before }).liveSeconds
    expect([seconds(live, live, 30, 10), seconds(live, live, 10, 30), seconds(off, live, 0, 30)]).toEqual([30, 30, 30])
    expect([seconds(live, off, 30, 10), seconds(off, off, 30, 10), seconds(dead, dead, 30, 10)]).toEqual([30, 0, 0])
  })
})
