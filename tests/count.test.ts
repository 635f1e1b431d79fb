import { expect, test } from 'vitest'
import { count } from './count.mjs'

const file = (status: string, ...tests: string[]) => ({
  name: 'a.test.ts',
  status,
  assertionResults: tests.map(each => ({ status: each })),
})

test.each([
  { why: 'what passed and failed', results: [file('failed', 'passed', 'passed', 'failed')], exit: 1, passed: 2, failed: 1 },
  { why: 'a skipped test as failed', results: [file('passed', 'passed', 'skipped')], exit: 0, passed: 1, failed: 1 },
  { why: 'a test still to be written as failed', results: [file('passed', 'passed', 'todo')], exit: 0, passed: 1, failed: 1 },
  { why: 'a file that cannot be loaded as one failed', results: [file('failed')], exit: 1, passed: 0, failed: 1 },
  { why: 'a file whose clearing up failed, after its tests passed', results: [file('failed', 'passed')], exit: 1, passed: 1, failed: 1 },
  { why: 'a file without a test as failed', results: [file('passed')], exit: 0, passed: 0, failed: 1 },
  { why: 'a file that never ran as failed', results: [], exit: 0, passed: 0, failed: 1 },
  { why: 'an error outside any test', results: [file('passed', 'passed')], exit: 1, passed: 1, failed: 1 },
  { why: 'a clean run', results: [file('passed', 'passed', 'passed')], exit: 0, passed: 2, failed: 0 },
])('the sum counts $why', ({ results, exit, passed, failed }) => {
  expect(count({ testResults: results }, ['a.test.ts'], exit)).toMatchObject({ passed, failed })
})

test('a runner that left no report counts as failed', () => {
  expect(count(undefined, [], 0)).toMatchObject({ passed: 0, failed: 1 })
})

test('a test that passed at the second try only counts as passed, and is named', () => {
  const retried = { status: 'passed', title: 'the page opens', failureMessages: ['TimeoutError: 30000 ms\n    at somewhere'] }
  const report = { testResults: [{ name: 'a.test.ts', status: 'passed', assertionResults: [retried, { status: 'passed' }] }] }
  expect(count(report, ['a.test.ts'], 0)).toEqual({
    passed: 2,
    failed: 0,
    notes: ['a.test.ts: passed at the second try only: the page opens: TimeoutError: 30000 ms'],
  })
})
