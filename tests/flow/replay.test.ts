// A session is its events: replayed, sent as JSON, taken back.
import { expect, test } from 'vitest'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Request, Session, SessionEvent } from '../../web/flow/request.ts'
import { advance, begin, replay } from '../../web/flow/session.ts'
import { type Chance, chance } from '../bench/random.ts'
import { answer, answersTo, smoothly } from './answers.ts'
import { INJECTOR, known, METER, three, unknown } from './machines.ts'

const SETUPS: readonly { machine: Machine; kit: Kit }[] = [
  { machine: known, kit: INJECTOR },
  { machine: three, kit: METER },
  { machine: unknown, kit: { clamp: true } },
]
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]
const MOST = 60

/** All that a screen shows, and nothing of how it came about. */
const shown = ({ request, positions, power, stage, belief, seconds, entries, energised, finding, fitsNothing }: Session) =>
  structuredClone({ request, positions, power, stage, belief, seconds, entries, energised, finding, fitsNothing })

/** The first answer is the one that brings a session on; any other comes now and then. */
const next = (session: Session, luck: Chance): Session => {
  const answers = answersTo(session)
  const given = luck.yes(0.75) ? answers[0] : luck.pick(answers)
  return given === undefined ? session : answer(session, given)
}
/** A random session, every state it went through. */
const played = (seed: number, each: (session: Session, luck: Chance) => Session): Session[] => {
  const luck = chance(seed)
  const { machine, kit } = luck.pick(SETUPS)
  const states = [begin({ type: 'started', machine, kit, symptom: luck.pick(['all-dead', 'trips-again', 'one-branch-dead']) })]
  for (let at = states[0]; at !== undefined && at.request.say !== 'end' && states.length < MOST; ) {
    at = each(at, luck)
    states.push(at)
  }
  return states
}
const overJson = (events: readonly SessionEvent[]): SessionEvent[] => JSON.parse(JSON.stringify(events)) as SessionEvent[]
const last = (states: readonly Session[]): Session => states.at(-1) as Session

test.each(SEEDS)('replayed, as it is and over JSON, session %i is the one that was lived', seed => {
  const states = played(seed, (s, luck) => (luck.yes(0.1) && s.entries.length > 0 ? advance(s, { type: 'undone' }) : next(s, luck)))
  const { events } = last(states)
  expect(shown(replay(events))).toEqual(shown(last(states)))
  expect(shown(replay(overJson(events)))).toEqual(shown(last(states)))
  expect(replay(events).suspects).toEqual(last(states).suspects)
  const ended = advance(last(states), { type: 'handedOver' })
  expect(shown(replay(overJson(ended.events)))).toEqual(shown(ended))
})

const playTo = (until: (request: Request) => boolean): Session =>
  smoothly(begin({ type: 'started', machine: known, kit: INJECTOR, symptom: 'all-dead' }), until)
const isAct =
  (act: string, to: string) =>
  (request: Request): boolean =>
    request.say === 'step' &&
    request.step.kind === 'act' &&
    request.step.act.act === act &&
    'to' in request.step.act &&
    request.step.act.to === to

/** Answers after which the machine stands otherwise than before: those cannot be taken back from the machine. */
const stays = (request: Request): boolean =>
  request.say === 'step' && request.step.kind === 'act' && request.step.act.act !== 'zero-leads' && request.step.act.act !== 'load'

test.each(SEEDS)('taking back any answer of session %i is never having given it', seed => {
  const states = played(seed, next)
  states.slice(1).forEach((now, i) => {
    const before = states[i] as Session
    const back = advance(now, { type: 'undone' })
    const { request, energised: _, power: __, stage: ___, ...rest } = shown(before)
    expect(shown(back)).toMatchObject(rest)
    // Nor can the time be taken back for which a suspected short circuit was live: then it is switched off instead.
    const outOfTime = before.positions.supply === 'on' && isAct('supply', 'off')(back.request)
    if (!stays(request) && !outOfTime) expect(shown(back)).toEqual(shown(before))
    // Once more: two answers back. Also over JSON.
    const twice = advance(back, { type: 'undone' })
    expect(twice.entries).toEqual((states[i - 1] ?? before).entries)
    expect(shown(replay(overJson(twice.events)))).toEqual(shown(twice))
  })
})

test('there is nothing to take back at the start, and all can be taken back to it', () => {
  const states = played(3, next)
  const first = states[0] as Session
  expect(shown(advance(first, { type: 'undone' }))).toEqual(shown(first))
  let back = last(states)
  for (const _ of states) back = advance(back, { type: 'undone' })
  expect(back.entries).toEqual([])
  expect(back.request).toEqual(first.request)
})

test('what was proved dead is so no more once the supply was switched on, even if that answer is taken back', () => {
  const before = playTo(isAct('supply', 'on'))
  expect(before.power).toBe('provedDead')
  const back = advance(answer(before, { done: true }), { type: 'undone' })
  // It may have been switched on all the same.
  expect(back.power).toBe('live')
  expect(back.energised).toBe(1)
  // So it goes off before anything else, and the way back begins dead.
  expect(back.request).toMatchObject({ say: 'step', step: { kind: 'act', act: { act: 'supply', to: 'off' } } })
  const further = advance(advance(back, { type: 'undone' }), { type: 'undone' })
  expect(further.power).not.toBe('provedDead')
})
test('a hand-over by mistake is taken back', () => {
  const before = playTo(request => request.say === 'mend')
  const over = advance(before, { type: 'handedOver' })
  expect(over.request).toMatchObject({ say: 'end', result: 'handed-over' })
  expect(shown(advance(over, { type: 'undone' }))).toEqual(shown(before))
})
test('what has ended stays ended: no hand-over turns a restored machine into anything else', () => {
  const ended = playTo(request => request.say === 'end')
  expect(ended.request).toMatchObject({ say: 'end', result: 'restored' })
  expect(advance(ended, { type: 'handedOver' }).request).toEqual(ended.request)
  expect(advance(ended, { type: 'stopped' }).request).toEqual(ended.request)
  expect(() => answer(ended, { done: true })).toThrow('ended')
  const closed = advance(ended, { type: 'closed', branch: 'B1', wrong: 'Cable worn through', note: '' })
  expect(closed.stage).toBe('ended')
  expect(closed.request).toEqual(ended.request)
})
test('an answer to another request than the one on the screen is refused', () => {
  const session = playTo(request => request.say === 'step')
  expect(() => advance(session, { type: 'answered', n: session.request.n + 1, answer: { done: true } })).toThrow('request')
})
