import fc from 'fast-check'
import { beforeAll, expect, test } from 'vitest'
import { answersIn } from '../../web/log/standing.ts'
import { fitting, lines, MOST_LINES, type ReportRow, reportRows } from '../../web/screens/reportRows.ts'
import { needWords } from '../../web/words.ts'
import { played, stamped } from './played.ts'

beforeAll(needWords)

const row = fc.record({
  n: fc.nat(),
  time: fc.constant('03:00'),
  what: fc.string({ maxLength: 130 }),
  value: fc.string({ maxLength: 60 }),
  after: fc.boolean(),
})
test('[seed 38] a report holds no more lines than fit, all readings where they fit, else the first and the last', () => {
  let full = 0
  fc.assert(
    fc.property(fc.array(row, { maxLength: 200, size: 'max' }), rows => {
      const { head, tail } = fitting(rows, MOST_LINES)
      const kept = [...head, ...tail]
      expect(kept.reduce((sum, one) => sum + lines(one), 0)).toBeLessThanOrEqual(MOST_LINES)
      const numbers = rows.map(({ n }) => n)
      expect(head.map(({ n }) => n)).toEqual(numbers.slice(0, head.length))
      expect(tail.map(({ n }) => n)).toEqual(numbers.slice(numbers.length - tail.length))
      if (kept.length < rows.length) full += 1
      if (kept.length < rows.length) expect(tail.length).toBeGreaterThan(0)
    }),
    { seed: 38 },
  )
  expect(full).toBeGreaterThan(10)
})

test('each reading, look and proof of a session is a row, with its time, and those after the repair say so', () => {
  const session = played(2)
  const events = stamped(session)
  const rows: readonly ReportRow[] = reportRows(session.entries, answersIn(events))
  const wanted = session.entries.flatMap(({ request }, i) => {
    if (request.say !== 'step') return []
    const { step } = request
    const shown =
      step.kind === 'read' || step.kind === 'look' || (step.kind === 'act' && ['prove-dead', 'zero-leads'].includes(step.act.act))
    return shown ? [i + 1] : []
  })
  expect(rows.map(({ n }) => n)).toEqual(wanted)
  const mended = session.entries.findLastIndex(({ request }) => request.say === 'mend') + 1
  expect(rows.filter(({ after }) => after).map(({ n }) => n)).toEqual(wanted.filter(n => n > mended))
  for (const { n, time } of rows)
    expect(time).toBe(
      events.find(({ event }) => event.type === 'answered' && event.n === session.entries[n - 1]?.request.n)?.wall.slice(11, 16),
    )
})
