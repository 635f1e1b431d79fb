import { expect, test } from 'vitest'
import { digested, playedAgain } from '../../web/log/digest.ts'
import { factsOf, findingsOf, foundIn, marksOf } from '../../web/log/facts.ts'
import type { SessionSummary, StoredEvent } from '../../web/log/log.ts'
import { elapsed, timesOf } from '../../web/log/times.ts'
import { played, stamped } from './played.ts'
import { answered, RECORD, started, stored } from './samples.ts'

const at = (wall: string, mono: number, boot = 'b') => ({ wall, zone: 'Europe/Berlin', mono, boot })
test.each([
  {
    why: 'both clocks agree: the finer one counts',
    stamps: [at('2026-11-25T02:00:00.000+01:00', 0), at('2026-11-25T02:00:10.400+01:00', 10_000)],
    seconds: [0, 10],
    doubtful: false,
  },
  {
    why: 'summer time ends in between: the offset tells',
    stamps: [at('2026-10-25T02:59:00.000+02:00', 0), at('2026-10-25T02:01:00.000+01:00', 120_000)],
    seconds: [0, 120],
    doubtful: false,
  },
  {
    why: 'the wall clock is set a day back',
    stamps: [at('2026-11-25T02:00:00.000+01:00', 0), at('2026-11-24T02:00:30.000+01:00', 30_000)],
    seconds: [0, 30],
    doubtful: true,
  },
  {
    why: 'the phone sleeps for an hour',
    stamps: [at('2026-11-25T02:00:00.000+01:00', 0), at('2026-11-25T03:00:00.000+01:00', 5000)],
    seconds: [0, 3600],
    doubtful: true,
  },
  {
    why: 'the page starts anew: the wall clock counts',
    stamps: [at('2026-11-25T02:00:00.000+01:00', 900_000), at('2026-11-25T02:05:00.000+01:00', 100, 'c')],
    seconds: [0, 300],
    doubtful: false,
  },
  {
    why: 'the page starts anew and the clock was set back',
    stamps: [at('2026-11-25T02:00:00.000+01:00', 0), at('2026-11-25T01:00:00.000+01:00', 0, 'c')],
    seconds: [0, 0],
    doubtful: true,
  },
])('time from event to event: $why', ({ stamps, seconds, doubtful }) => {
  expect(elapsed(stamps)).toEqual({ seconds, doubtful })
})

test('each time of maintenance runs from its own event to the next', () => {
  const events = stamped(played(2), '2026-11-25T02:00:00.000Z', 60)
  const marks = { located: 6, corrected: 9, restored: 12 }
  expect(timesOf(events, marks)).toEqual({ down: 660, diagnosis: 300, correction: 180, checkOut: 180 })
  expect(timesOf(events, { ...marks, downSince: '2026-11-25T02:50:00.000+01:00' })).toMatchObject({ down: 660 + 600, downIsTold: true })
  // Said to be down only after the session began: that cannot be, and is not taken.
  expect(timesOf(events, { ...marks, downSince: '2026-11-25T04:00:00.000+01:00' })).toMatchObject({ down: 660 })
  expect(timesOf(events, { located: 6 })).toEqual({ diagnosis: 300 })
  expect(timesOf(events, { located: 6, corrected: 3, restored: 999 })).toEqual({ diagnosis: 300 })
})

/** Sessions that the simulated technician brought to an end. */
const SEEDS = [1, 2, 3, 4, 6, 7, 8]
test.each(SEEDS)('[seed %i] what a session comes to is what the technician did', seed => {
  const session = played(seed)
  const events = stamped(session)
  const facts = factsOf(events, playedAgain(events))
  const confirmed = session.entries.filter(({ answer }) => 'confirmed' in answer && answer.confirmed).length
  const cannots = session.entries.filter(({ answer }) => 'cannot' in answer).length
  expect(facts.events).toBe(session.events.length)
  expect(facts.result).toBe(session.request.say === 'end' ? session.request.result : undefined)
  expect(facts.cannots).toHaveLength(cannots)
  expect(facts.found).toEqual(session.finding && foundIn(session))
  expect(facts.times.diagnosis === undefined).toBe(confirmed === 0)
  if (facts.result === 'restored' && confirmed > 0) {
    const { down = 0, diagnosis = 0, correction = 0, checkOut = 0 } = facts.times
    expect(down).toBe((events.length - 1) * 20)
    expect(diagnosis + correction + checkOut).toBe(down)
  }
})
test('the seven sessions above hold findings, repairs and refusals, so that all of that was compared', () => {
  const all = SEEDS.map(seed => factsOf(stamped(played(seed)), played(seed)))
  expect(all.filter(facts => facts.found).length).toBeGreaterThan(3)
  expect(all.filter(facts => facts.times.checkOut !== undefined).length).toBeGreaterThan(3)
  expect(all.flatMap(facts => facts.cannots).length).toBeGreaterThan(2)
})

const closedWith = (record: object | undefined): StoredEvent[] => [
  ...stored([started(), answered(1), answered(2), answered(3), answered(4)]),
  ...stored([{ type: 'closed', branch: 'B1', wrong: 'x', note: '', ...(record && { record }) }]).map(one => ({ ...one, seq: 6 })),
]
test('the record goes before what would be played again, and stands even where nothing can be played', () => {
  const facts = factsOf(closedWith({ ...RECORD, located: 2, corrected: 3, restored: 5 }), undefined)
  expect(facts).toMatchObject({ found: RECORD.found, mode: 'no-output', mechanism: 'short-circuit', cause: 'wear-in-use', who: 'M17' })
  expect(facts).toMatchObject({ result: 'restored', times: { diagnosis: 0.007, correction: 0.007, checkOut: 0.014, downIsTold: true } })
  expect(factsOf(closedWith(undefined), undefined)).toMatchObject({ events: 6, times: {}, cannots: [] })
})
test.each(SEEDS)('[seed %i] a session with its record comes to the same whether it is played again or not', seed => {
  const session = played(seed)
  const events = stamped(session)
  const found = foundIn(session)
  const record = { ...(found && { found }), ...marksOf(session, events) }
  const closed = {
    ...(events.at(-1) as StoredEvent),
    seq: events.length + 1,
    event: { type: 'closed' as const, branch: '', wrong: '', note: '', record },
  }
  const all = [...events, closed]
  expect(digested(all)).toEqual(factsOf(all, playedAgain(all)))
})
test('a record that was taken back does not count', () => {
  const events = [...closedWith(RECORD), ...stored([{ type: 'undone' }]).map(one => ({ ...one, seq: 7 }))]
  expect(factsOf(events, undefined).found).toBeUndefined()
})
test('a session of another procedure is not played again, and does not throw', () => {
  expect(playedAgain(stored([started(), answered(99)]))).toBeUndefined()
})
test('marks fall on the answers that stand, not on those taken back', () => {
  const session = played(2)
  const { located, corrected, restored } = marksOf(session, stamped(session))
  expect(session.events[(located ?? 0) - 1]).toMatchObject({ type: 'answered', answer: { confirmed: true } })
  const mend = session.entries.findLast(({ request }) => request.say === 'mend')?.request.n
  expect(session.events[(corrected ?? 0) - 1]).toMatchObject({ type: 'answered', n: mend })
  expect(restored).toBe(session.events.length)
  const back = [...session.events.slice(0, located), { type: 'undone' as const }, ...session.events.slice((located ?? 0) - 1)]
  const again = playedAgain(stored(back))
  if (!again) throw new Error('cannot be played')
  expect(marksOf(again, stored(back)).located).toBe((located ?? 0) + 2)
})

const line = (id: string, more: Partial<SessionSummary>): SessionSummary => ({
  id,
  machineId: 'packer-4',
  machineName: 'Packer 4',
  startedAt: '2026-11-25T02:00:00.000+01:00',
  ...more,
})
test('each session with a confirmed finding counts once, own or imported, even if it is told in two ways', () => {
  const facts = { events: 3, times: {}, cannots: [], found: RECORD.found ?? { fault: 'short' as const } }
  const noMains = { ...facts, found: { fault: 'no-mains' as const } }
  const { found: _found, ...nothing } = facts
  const sessions = [
    line('a', { facts }),
    line('a~2', { facts }),
    line('b', { imported: true, facts: noMains }),
    line('c', { facts: nothing }),
    line('d', {}),
  ]
  expect(findingsOf(sessions)).toEqual([
    { machine: 'packer-4', fault: 'short-to-zero', branch: 'B1', run: 'W1' },
    { machine: 'packer-4', fault: 'no-mains' },
  ])
})
