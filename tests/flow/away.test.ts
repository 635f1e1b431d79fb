import { expect, test } from 'vitest'
import { LONG_AWAY, takenUp } from '../../web/flow/away.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { advance, begin, replay } from '../../web/flow/session.ts'
import { answer, smoothly } from './answers.ts'
import { INJECTOR, known, METER, trees } from './machines.ts'

const NOW = Date.parse('2026-11-25T10:00:00+01:00')
const start = (): Session => begin({ type: 'started', machine: known, kit: METER, symptom: 'all-dead' })
const isOhm = (r: Request): boolean => r.say === 'step' && r.step.kind === 'read' && r.step.meter === 'ohm'
const isAct = (r: Request, act: string): boolean => r.say === 'step' && r.step.kind === 'act' && r.step.act.act === act
const dead = (): Session => smoothly(start(), isOhm)

test.each([
  { gap: LONG_AWAY + 1, long: true, why: 'longer than half an hour' },
  { gap: LONG_AWAY, long: false, why: 'just half an hour' },
  { gap: LONG_AWAY - 1, long: false, why: 'shorter' },
  { gap: 0, long: false, why: 'at once' },
  { gap: -1, long: true, why: 'the clock was set back' },
  { gap: Number.NaN, long: true, why: 'no time is known' },
])('$why: taken up anew is $long', ({ gap, long }) =>
  expect(takenUp(dead(), NOW - gap, NOW)).toEqual(long ? { type: 'resumed' } : undefined),
)

test('a circuit that is not proved dead, and a session that is over, have nothing to prove again', () => {
  expect(takenUp(start(), NOW - 2 * LONG_AWAY, NOW)).toBeUndefined()
  expect(takenUp(advance(dead(), { type: 'handedOver' }), NOW - 2 * LONG_AWAY, NOW)).toBeUndefined()
})

test('taken up again, it is off and not proved; before the ohms it is proved dead once more, and nothing read is lost', () => {
  const before = dead()
  const after = advance(before, { type: 'resumed' })
  expect([before.power, after.power]).toEqual(['provedDead', 'off'])
  expect(isAct(after.request, 'prove-dead')).toBe(true)
  expect(after.entries).toEqual(before.entries)
  expect(isOhm(smoothly(after, (r, s) => s !== after && isOhm(r)).request)).toBe(true)
  expect(replay(after.events)).toMatchObject({ power: 'off', request: after.request })
})

test('it cannot be taken back: the answer before it is, and the circuit stays not proved', () => {
  const before = dead()
  const after = advance(advance(before, { type: 'resumed' }), { type: 'undone' })
  expect(after.entries).toHaveLength(before.entries.length - 1)
  expect(after.power).not.toBe('provedDead')
})

test('nobody is sent to look at a cable that the source or the supply still feeds', () => {
  let looks = 0
  let off = 0
  for (const machine of [trees, known])
    for (const value of [0.4, 0.02, 24]) {
      let at = begin({ type: 'started', machine, kit: INJECTOR, symptom: 'all-dead' })
      for (let i = 0; i < 80 && at.request.say !== 'end'; i++) {
        const { request } = at
        const step = request.say === 'step' ? request.step : undefined
        if (step?.kind === 'finding' && step.finding.branch !== undefined) {
          expect([at.power === 'live', at.positions.injector]).toEqual([false, undefined])
          looks++
        }
        if (request.say === 'step' && request.why.key === 'off-to-look') off++
        if (step?.kind === 'finding') at = answer(at, { confirmed: false })
        else if (step?.kind === 'read' && step.meter === 'volt' && at.positions.injector) at = answer(at, { value })
        else at = smoothly(at, r => r !== request)
      }
    }
  expect(looks).toBeGreaterThan(3)
  expect(off).toBeGreaterThan(0)
})

test.each([
  { kit: { qualified: true }, asked: false },
  { kit: { qualified: false }, asked: true },
  { kit: {}, asked: true },
])('work on the mains side with $kit: a qualified person is asked for: $asked', ({ kit, asked }) => {
  let at = begin({ type: 'started', machine: known, kit, symptom: 'all-dead' })
  for (let i = 0; i < 60 && at.finding === undefined; i++) {
    const step = at.request.say === 'step' ? at.request.step : undefined
    if (step?.kind === 'look') at = answer(at, { seen: step.look === 'device' ? 'closed' : 'off' })
    else if (step?.kind === 'finding') at = answer(at, { confirmed: step.finding.fault === 'no-mains' })
    else at = answer(at, step?.kind === 'read' ? { value: 20 } : { done: true })
  }
  expect(at.finding?.fault).toBe('no-mains')
  const mainsSide = (r: Request): boolean => r.say === 'confirm' && r.caution === 'mains-side'
  const here = smoothly(at, r => mainsSide(r) || r.say === 'mend')
  expect(mainsSide(here.request)).toBe(asked)
  if (!asked) return
  expect(answer(here, { done: true }).request.say).toBe('mend')
  expect(answer(here, { cannot: 'nobody qualified here' }).request).toMatchObject({ say: 'end', result: 'handed-over' })
})

test('what was planned on a dead circuit is planned anew: it is proved dead before a device is moved', () => {
  const opens = smoothly(start(), r => r.say === 'step' && r.step.kind === 'act' && r.step.act.act === 'device')
  expect(opens.power).toBe('provedDead')
  expect(isAct(advance(opens, { type: 'resumed' }).request, 'prove-dead')).toBe(true)
})
