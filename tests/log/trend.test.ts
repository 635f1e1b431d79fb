import { expect, test } from 'vitest'
import { playedAgain } from '../../web/log/digest.ts'
import { type Reading, readingsOf, trendsOf } from '../../web/log/trend.ts'
import { played, stamped } from './played.ts'

const SEED = 3
test(`[seed ${SEED}] each reading that settled is told with its points, its time, and whether it came after the repair`, () => {
  const events = stamped(played(SEED))
  const session = playedAgain(events)
  if (!session) throw new Error('cannot be played')
  const readings = readingsOf('s', session, events)
  const mended = session.entries.findIndex(({ request }) => request.say === 'mend')
  const wanted = session.entries.flatMap(({ request, answer }, i) =>
    request.say === 'step' && request.step.kind === 'read' && 'value' in answer && !answer.unsteady && !answer.ac
      ? [{ value: answer.value, after: i > mended }]
      : [],
  )
  expect(readings.map(({ value, after }) => ({ value, after }))).toEqual(wanted)
  expect(wanted.filter(({ after }) => after).length).toBeGreaterThan(0)
  expect(wanted.filter(({ after }) => !after).length).toBeGreaterThan(0)
  for (const { wall } of readings) expect(events.map(event => event.wall)).toContain(wall)
})

const reading = (session: string, wall: string, value: number, more: Partial<Reading> = {}): Reading => ({
  meter: 'ohm',
  points: ['B1.plus', 'B1.zero'],
  value,
  session,
  wall: `${wall}T02:00:00.000+01:00`,
  after: false,
  ...more,
})
test('a slow decline shows: the same points in several sessions, in the order of their time', () => {
  const readings = [
    reading('c', '2026-11-03', 1.9),
    reading('a', '2026-01-03', 0.4),
    reading('b', '2026-06-03', 0.9),
    reading('b', '2026-06-03', 24, { meter: 'volt' }),
    reading('c', '2026-11-03', 5, { points: ['B2.plus', 'B2.zero'] }),
  ]
  const trends = trendsOf(readings)
  expect(trends.map(({ meter, points, readings: all }) => [meter, points[0], all.map(({ value }) => value)])).toEqual([
    ['ohm', 'B1.plus', [0.4, 0.9, 1.9]],
  ])
})
test('before and after a repair in one session is a trend too; the same reading twice over is none', () => {
  const before = reading('a', '2026-01-03', 0.4)
  expect(trendsOf([before, { ...before, value: 0.5 }])).toEqual([])
  expect(trendsOf([before, { ...before, value: 5000, after: true }])).toHaveLength(1)
})
