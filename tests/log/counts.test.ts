import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Found } from '../../web/flow/request.ts'
import { distinct, failedAgain, monthOf, notDone, pareto, timeToFind } from '../../web/log/counts.ts'
import type { SessionSummary } from '../../web/log/log.ts'

let n = 0
const session = (found: Found | undefined, more: Partial<SessionSummary> & { seconds?: number } = {}): SessionSummary => {
  const { seconds, ...rest } = more
  return {
    id: `s${++n}`,
    machineId: 'packer-4',
    machineName: 'Packer 4',
    startedAt: '2026-11-25T02:00:00.000+01:00',
    facts: { events: 9, ...(found && { found }), times: seconds === undefined ? {} : { diagnosis: seconds }, cannots: [] },
    ...rest,
  }
}
const onRun = (best: number, run = 'W1'): Found => ({
  fault: 'short-to-zero',
  branch: 'B1',
  run,
  alongRun: { best, low: best - 1, high: best + 1 },
})

test('the most frequent come first, equal ones by name, and the shares add up to all', () => {
  expect(pareto(['b', 'a', 'c', 'b'])).toEqual([
    { key: 'b', count: 2, upTo: 0.5 },
    { key: 'a', count: 1, upTo: 0.75 },
    { key: 'c', count: 1, upTo: 1 },
  ])
  expect(pareto([])).toEqual([])
})
test('[seed 5] no count is lost and none is out of order, whatever is counted', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom('a', 'b', 'c', 'd', '__proto__')), keys => {
      const shares = pareto(keys)
      expect(shares.flatMap(({ key, count }) => Array<string>(count).fill(key)).sort()).toEqual([...keys].sort())
      for (const [i, share] of shares.entries()) if (i > 0) expect(share.count).toBeLessThanOrEqual(shares[i - 1]?.count ?? 0)
      if (keys.length > 0) expect(shares.at(-1)?.upTo).toBe(1)
    }),
    { seed: 5 },
  )
})
test('the typical time to find is the median, by machine and by month', () => {
  const sessions = [
    session(undefined, { seconds: 60 }),
    session(undefined, { seconds: 600, machineName: 'Press' }),
    session(undefined, { seconds: 120 }),
    session(undefined, { seconds: 6000, startedAt: '2026-12-01T00:10:00.000+01:00' }),
    session(undefined),
  ]
  expect(timeToFind(sessions, s => s.machineName)).toEqual([
    { key: 'Packer 4', count: 3, median: 120 },
    { key: 'Press', count: 1, median: 600 },
  ])
  expect(timeToFind(sessions, monthOf)).toEqual([
    { key: '2026-11', count: 3, median: 120 },
    { key: '2026-12', count: 1, median: 6000 },
  ])
  expect(timeToFind(sessions.slice(0, 2), monthOf)[0]?.median).toBe(330)
})
test('a place failed again if the run is the same and the faults lie within two metres', () => {
  const load: Found = { fault: 'load-short', branch: 'B2', load: 'Y1' }
  const sessions = [
    session(onRun(3)),
    session(onRun(9)),
    session(onRun(4.9)),
    session(onRun(3, 'W2')),
    session(onRun(3), { machineId: 'press' }),
    session(load),
    session(load, { startedAt: '2026-11-01T02:00:00.000+01:00' }),
    session(load, { startedAt: '2026-11-02T02:00:00.000+01:00' }),
    session({ fault: 'no-mains' }),
    session({ fault: 'no-mains' }),
  ]
  const again = failedAgain(sessions)
  expect(again.map(({ branch, run, load: at, from, to, sessions: s }) => ({ branch, run, load: at, from, to, times: s.length }))).toEqual([
    { branch: 'B2', run: undefined, load: 'Y1', from: undefined, to: undefined, times: 3 },
    { branch: 'B1', run: 'W1', load: undefined, from: 3, to: 4.9, times: 2 },
  ])
  expect(again[0]?.sessions.map(s => s.startedAt.slice(8, 10))).toEqual(['01', '02', '25'])
  expect(failedAgain([session(onRun(3)), session(onRun(5.1))])).toEqual([])
})
test('steps that could not be done are counted with their reasons', () => {
  const refused = { events: 9, times: {}, cannots: [{ what: 'bond opened', why: 'not allowed' }] }
  expect(notDone([session(undefined, { facts: refused }), session(undefined, { facts: refused }), session(undefined)])).toEqual([
    { key: 'bond opened: not allowed', count: 2, upTo: 1 },
  ])
})
test('a session that is told in two ways is counted once', () => {
  expect(distinct([session(undefined, { id: 'a' }), session(undefined, { id: 'a~2' }), session(undefined, { id: 'b' })])).toHaveLength(2)
})
