import { expect, test } from 'vitest'
import type { SessionEvent } from '../../web/flow/request.ts'
import { advance, answerTo, replay } from '../../web/flow/session.ts'
import { recordOf } from '../../web/log/facts.ts'
import { answersIn } from '../../web/log/standing.ts'
import { believedIn, moved, stepsOf } from '../../web/log/steps.ts'
import { played } from './played.ts'
import { stored } from './samples.ts'

const SEEDS = [2, 3, 6]
test.each([2, 6])('[seed %i] before and after an answer is what the events up to it come to, played anew', seed => {
  const session = played(seed)
  const steps = stepsOf(session, stored(session.events))
  expect(steps.map(({ entry }) => entry)).toEqual(session.entries)
  // Every fifth is played, or the test would take as long as all else here.
  for (const { before, after, stored: event } of steps.filter((_, i) => i % 5 === 2)) {
    expect(before.belief).toEqual(replay(session.events.slice(0, event.seq - 1)).belief)
    expect(after.belief).toEqual(replay(session.events.slice(0, event.seq)).belief)
  }
})

test('[seed 2] an answer that was taken back is no step, nor is a pause, a change of tools, or the closing form', () => {
  const whole = played(2)
  // The first reading is given, taken back, and given again after a pause, with other tools from then on.
  const at = whole.entries.findIndex(({ request }) => request.say === 'step' && request.step.kind === 'read') + 1
  const upTo = replay(whole.events.slice(0, at + 1))
  const tools: SessionEvent = { type: 'kit', kit: {} }
  const changed = [{ type: 'undone' }, { type: 'resumed' }, tools] as const
  const paused = changed.reduce<typeof upTo>(advance, upTo)
  const refused = advance(paused, answerTo(paused, { cannot: 'no light' }))
  const session = advance(refused, { type: 'closed', branch: '', wrong: '', note: '' })
  const events = stored(session.events)
  const steps = stepsOf(session, events)
  expect(steps.map(({ stored: { seq } }) => seq)).toEqual(answersIn(events).map(({ seq }) => seq))
  expect(steps.map(({ entry }) => entry)).toEqual(session.entries)
  expect(steps.at(-1)?.before.kit).toEqual(paused.kit)
})

test.each(SEEDS)('[seed %i] the record keeps each answer that moved the belief, with the likeliest branches, to a thousandth', seed => {
  const session = played(seed)
  const { believed = [] } = recordOf(session, [])
  const steps = stepsOf(session, stored(session.events))
  expect(believed.length).toBeGreaterThan(2)
  expect(believed.length).toBeLessThan(steps.length)
  for (const step of steps) {
    const told = believed.find(({ seq }) => seq === step.stored.seq)?.branches
    const now = moved(step)
    // Nothing is told where nothing moved.
    if (told === undefined) for (const { before, after } of now) expect(Math.abs(before - after)).toBeLessThan(0.0011)
    else expect(told.map(({ branch }) => branch)).toEqual(now.map(({ branch }) => branch))
    for (const [i, { before, after }] of (told ?? []).entries()) {
      expect(before).toBeCloseTo(now[i]?.before ?? -1, 3)
      expect(after).toBeCloseTo(now[i]?.after ?? -1, 3)
    }
  }
  // The likeliest branch at the end is the one that was found.
  const last = believed.at(-1)?.branches.reduce((most, one) => (one.after > most.after ? one : most))
  if (session.finding?.branch) expect(last?.branch).toBe(session.finding.branch)
  expect(believedIn(session, stored(session.events))).toEqual(believed)
})
