// Other tools in the middle of a session: a source's battery is empty, a clamp is fetched.
import { expect, test } from 'vitest'
import type { Request, Session } from '../../web/flow/request.ts'
import { advance, begin, replay } from '../../web/flow/session.ts'
import { event } from '../../web/log/shape.ts'
import { answer, smoothly } from './answers.ts'
import { INJECTOR, known, trees } from './machines.ts'

const SOURCE = { injector: { ampere: 1, volts: 24 } } as const
const start = (machine = known): Session => begin({ type: 'started', machine, kit: INJECTOR, symptom: 'all-dead' })
const isInject = (request: Request, to: 'on' | 'off'): boolean =>
  request.say === 'step' && request.step.kind === 'act' && request.step.act.act === 'inject' && request.step.act.to === to
const asksInjection = (request: Request): boolean =>
  isInject(request, 'on') || (request.say === 'confirm' && request.caution === 'injection')
const has = (session: Session, kit: object): Session => advance(session, { type: 'kit', kit })

test('this hunt asks for the source where there is one', () => {
  expect(asksInjection(smoothly(start(trees), asksInjection).request)).toBe(true)
})
test('a source that is gone is not asked for again, to the end of the session', () => {
  const asked: Request[] = []
  const confirmed = smoothly(start(trees), asksInjection)
  smoothly(has(confirmed, {}), request => {
    asked.push(request)
    return false
  })
  expect(asked.length).toBeGreaterThan(3)
  expect(asked.filter(asksInjection)).toEqual([])
})
test('a source that is gone while it feeds a branch goes off before anything else, and the circuit is proved dead anew', () => {
  const asksOn = smoothly(start(trees), request => isInject(request, 'on'))
  const fed = answer(asksOn, { done: true })
  expect(fed.power).toBe('live')
  const gone = has(fed, {})
  expect(isInject(gone.request, 'off')).toBe(true)
  const off = answer(gone, { done: true })
  expect(off.power).toBe('off')
  // The same source goes on feeding; one of another current is taken off first.
  expect(isInject(has(fed, SOURCE).request, 'off')).toBe(false)
  expect(isInject(has(fed, { injector: { ampere: 3, volts: 24 } }).request, 'off')).toBe(true)
})
test('a confirmation that was given for the tools of before is asked for once more', () => {
  const covered = smoothly(start(trees), request => isInject(request, 'on'))
  expect(asksInjection(covered.request)).toBe(true)
  const { request } = has(covered, { ...SOURCE, clamp: true })
  expect(isInject(request, 'on')).toBe(false)
})
test('tools are taken back like an answer, told in the events, and kept when the session is taken up again', () => {
  const before = smoothly(start(), request => request.say === 'step' && request.step.kind === 'read')
  const other = has(before, { clamp: true, qualified: true })
  expect(other.kit).toEqual({ clamp: true, qualified: true })
  expect(other.entries).toEqual(before.entries)
  expect(replay(JSON.parse(JSON.stringify(other.events))).request).toEqual(other.request)
  const back = advance(other, { type: 'undone' })
  expect(back.kit).toEqual(INJECTOR)
  expect(back.request).toEqual(before.request)
  expect(back.entries).toEqual(before.entries)
})
test('the meter stays, as all readings share its errors', () => {
  const meter = { ohm: { percent: 0.5, counts: 2, resolution: 0.01 } }
  const own = begin({ type: 'started', machine: known, kit: { ...SOURCE, meter }, symptom: 'all-dead' })
  expect(has(own, { clamp: true }).kit).toEqual({ clamp: true, meter })
})
test('once the session has ended other tools change nothing', () => {
  const ended = advance(start(), { type: 'stopped' })
  expect(has(ended, {}).request).toEqual(ended.request)
  expect(has(ended, {}).kit).toEqual(INJECTOR)
})
test('the log takes such an event in, and refuses another meter by the name of the field', () => {
  expect(event({ type: 'kit', kit: { ...SOURCE, clamp: false } }, 'e')).toEqual({ type: 'kit', kit: { ...SOURCE, clamp: false } })
  expect(() => event({ type: 'kit', kit: { meter: {} } }, 'e')).toThrow(/e\.kit\.meter/)
  expect(() => event({ type: 'kit', kit: { injector: 1 } }, 'e')).toThrow(/e\.kit/)
})
