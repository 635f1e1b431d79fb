import { expect, test } from 'vitest'
import { wrongs } from '../../content/en-labels.ts'
import {
  causes,
  duration,
  foundPlace,
  likelyMechanism,
  likelyMode,
  mechanisms,
  modes,
  type Terms,
  termWord,
  times,
} from '../../content/en-record.ts'
import type { FaultKind, Symptom } from '../../engine/step.ts'
import type { Times } from '../../web/log/times.ts'

// Keyed by the product's own types: a kind that is added there does not compile here until it is listed.
const SYMPTOMS: Record<Symptom, true> = {
  'all-dead': true,
  'all-low': true,
  'one-branch-dead': true,
  'one-load-dead': true,
  'trips-again': true,
  'dead-at-start': true,
  'comes-and-goes': true,
}
/** Whether its mechanism can be told from the fault alone. */
const FAULTS: Record<FaultKind, boolean> = {
  'short-to-zero': true,
  'short-to-earth': true,
  'load-short': true,
  short: true,
  overload: true,
  'in-rush': true,
  'open-plus': true,
  'open-zero': true,
  'poor-joint': true,
  swapped: false,
  diode: true,
  intermittent: true,
  backfeed: false,
  'device-open': false,
  'supply-low': true,
  'supply-dead': true,
  'no-mains': true,
}
const TIMES: Record<Exclude<keyof Times, 'doubtful' | 'downIsTold'>, true> = {
  down: true,
  diagnosis: true,
  correction: true,
  checkOut: true,
}
const LISTS: readonly Terms[] = [modes, mechanisms, causes]

test.each(LISTS)('$name: a short list of different words, with its meaning and its source', ({ meaning, source, terms }) => {
  expect(terms.length).toBeLessThanOrEqual(12)
  expect(new Set(terms.map(({ id }) => id)).size).toBe(terms.length)
  expect(new Set(terms.map(({ word }) => word)).size).toBe(terms.length)
  expect(meaning).toMatch(/\.$/)
  expect(source).toMatch(/ISO 14224|EN 13306/)
})
test('what is not from a published source says that it is from memory or ours', () => {
  expect(mechanisms.source).toContain('from memory')
  expect(modes.source).toContain('ours')
})
test('what is offered first is on the lists, for every symptom and every fault that tells its mechanism', () => {
  expect(Object.keys(likelyMode).sort()).toEqual(Object.keys(SYMPTOMS).sort())
  for (const id of Object.values(likelyMode)) expect(modes.terms.map(term => term.id)).toContain(id)
  for (const [fault, told] of Object.entries(FAULTS)) expect([fault, likelyMechanism[fault] !== undefined]).toEqual([fault, told])
  for (const id of Object.values(likelyMechanism)) expect(mechanisms.terms.map(term => term.id)).toContain(id)
})
test('an id of a later version is shown as it is', () => {
  expect(termWord('wear')).toBe('2.4 Wear')
  expect(termWord('not-yet-known')).toBe('not-yet-known')
  expect(wrongs.length).toBeGreaterThan(3)
})
test('each time of maintenance has a name, and a meaning with its clause', () => {
  expect(times.map(({ key }) => key).sort()).toEqual(Object.keys(TIMES).sort())
  for (const { meaning } of times) expect(meaning).toMatch(/^From .*192-0[27]-\d\d/)
})
test.each([
  { seconds: 42, words: '42 s' },
  { seconds: 89.6, words: '90 s' },
  { seconds: 90, words: '2 min' },
  { seconds: 3600, words: '60 min' },
  { seconds: 7500, words: '2 h 5 min' },
])('$seconds s are said as $words', ({ seconds, words }) => expect(duration(seconds)).toBe(words))
test.each([
  { found: { branch: 'B1', run: 'W1' }, place: 'run W1' },
  { found: { branch: 'B1', load: 'Y1' }, place: 'load Y1' },
  { found: { branch: 'B1' }, place: 'branch B1' },
  { found: {}, place: 'supply' },
])('a place is told as $place', ({ found, place }) => expect(foundPlace(found)).toBe(place))
