// The machine as it is drawn: each request stands in the state that is named for it, and the power state beside it is the circuit's.
import { describe, expect, test } from 'vitest'
import { initialTransition, transition } from 'xstate'
import { powerOf } from '../../web/flow/hunt.ts'
import { procedure } from '../../web/flow/procedure.ts'
import { answersTo } from './answers.ts'
import { INJECTOR, known } from './machines.ts'

const input = { machine: known, kit: INJECTOR, symptom: 'all-dead', known: {} } as const
type Shot = ReturnType<typeof initialTransition<typeof procedure>>[0]
type Said = Parameters<typeof transition<typeof procedure>>[2]
const start = (): Shot => initialTransition(procedure, input)[0]
const next = (at: Shot, said: Said): Shot => transition(procedure, at, said)[0]
const stands = (at: Shot) => at.value
/** What is drawn of it: its stage, and the power of its circuit. */
const drawn = ({ context }: Shot) => ({ work: context.stage, power: powerOf(context) })

const answers = (at: Shot) => answersTo({ request: at.context.request, positions: at.context.positions })
/** A whole session, each request given the answer that `pick` chooses of those that can be given. */
const whole = (pick: (at: Shot, n: number) => number): Shot[] => {
  const shots = [start()]
  for (let n = 0; n < 120; n++) {
    const at = shots.at(-1)
    if (at === undefined || at.context.request.say === 'end') break
    const given = answers(at)
    const answer = given[pick(at, n) % given.length]
    if (answer === undefined) throw new Error('every request can be answered')
    shots.push(next(at, { type: 'answered', answer }))
  }
  return shots
}
/** Sound ohms once the mend is done, otherwise whatever comes first: done, low ohms, confirmed, steady, 24 V. */
const smooth = ({ context }: Shot): number => {
  const { request, repair } = context
  return request.say === 'step' && request.step.kind === 'read' && request.step.meter === 'ohm' && repair !== undefined ? 1 : 0
}

test('it begins with the briefing, in front of a live machine', () => {
  expect(stands(start())).toEqual({ work: 'briefing', power: 'live' })
  expect(start().status).toBe('active')
})

test('a session without a hitch stands in every state of its work and of its power in turn, and each is the one drawn', () => {
  const shots = whole(smooth)
  for (const [i, at] of shots.entries()) expect(stands(at), `request ${i}`).toEqual(drawn(at))
  const seen = (of: 'work' | 'power') => new Set(shots.map(at => drawn(at)[of]))
  expect(seen('power')).toEqual(new Set(['live', 'off', 'provedDead']))
  for (const stage of ['briefing', 'checkingSupply', 'provingDead', 'locating', 'mending', 'checking', 'restoring', 'closing'])
    expect(seen('work'), stage).toContain(stage)
  const last = shots.at(-1)
  expect(last?.context.request).toMatchObject({ say: 'end', result: 'restored' })
})

test('whatever is answered, the state is the one drawn: 12 sessions, seeds 1 to 12', () => {
  const seen = new Set<string>()
  for (let seed = 1; seed <= 12; seed++)
    for (const at of whole((_, n) => (seed * 7 + n * (seed + 3)) % 11)) {
      expect(stands(at), `seed ${seed}`).toEqual(drawn(at))
      seen.add(drawn(at).work)
    }
  expect(seen).toContain('narrowing')
})

describe('events beside answers', () => {
  const working = whole(smooth).find(at => at.context.provedDead && at.context.request.say === 'step')
  if (working === undefined) throw new Error('a session proves its circuit dead')
  test('resumed, it proves dead anew; other tools take the place of the old ones; both stay where they are drawn', () => {
    const resumed = next(working, { type: 'resumed' })
    expect(resumed.context.provedDead).toBe(false)
    expect(stands(resumed)).toEqual(drawn(resumed))
    const equipped = next(working, { type: 'kit', kit: { clamp: true } })
    expect(equipped.context.kit).toEqual({ clamp: true })
    expect(stands(equipped)).toEqual(drawn(equipped))
  })
  test('what is kept of an answer that is taken back counts', () => {
    const { unsure, still, covered, liveSeconds } = working.context
    const back = next(working, { type: 'tookBack', kept: { provedDead: false, unsure, still, covered, energised: 3, liveSeconds } })
    expect(back.context).toMatchObject({ provedDead: false, energised: 3 })
    expect(stands(back)).toEqual(drawn(back))
  })
  test.each([
    ['handedOver', 'handed-over'],
    ['stopped', 'stopped'],
  ] as const)('%s leads to an end as %s, and after it nothing but closing changes anything', (type, result) => {
    let at = next(start(), { type })
    expect(at.context.result).toBe(result)
    expect(stands(at)).toEqual({ work: 'closing', power: 'live' })
    const before = at.context
    for (const said of [
      { type: 'answered', answer: { done: true } },
      { type: 'resumed' },
      { type: 'kit', kit: { clamp: true } },
      { type: 'handedOver' },
      { type: 'stopped' },
    ] as const) {
      at = next(at, said)
      expect(at.context, said.type).toBe(before)
    }
    at = next(at, { type: 'closed' })
    expect(at.value).toMatchObject({ work: 'ended' })
    expect(next(at, { type: 'resumed' }).context).toBe(before)
  })
  test('the form closes nothing that has not ended', () => {
    expect(stands(next(working, { type: 'closed' }))).toEqual(stands(working))
  })
})

test('a request that would break a rule is never put: the nearest safe one is, and the state is drawn for that', () => {
  // Proved dead by the log alone: the supply may be on, since switching it off was taken back, so an ohm reading is forbidden.
  const reading = whole(smooth).find(
    ({ context: { request } }) => request.say === 'step' && request.step.kind === 'read' && request.step.meter === 'ohm',
  )
  if (reading === undefined) throw new Error('a session reads ohms')
  const { unsure, covered, energised, liveSeconds } = reading.context
  const kept = { provedDead: true, unsure, covered, energised, liveSeconds, still: { supply: 'on' } } as const
  const back = next(reading, { type: 'tookBack', kept })
  expect(back.context.request).toMatchObject({ say: 'step', step: { kind: 'act', act: { act: 'supply', to: 'off' } } })
  expect(stands(back)).toEqual(drawn(back))
  expect(drawn(back).power).toBe('live')
})
