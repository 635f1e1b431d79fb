import { expect, test } from 'vitest'
import { first } from '../../content/en/first.ts'
import { later } from '../../content/en/later.ts'
import { idOf, likelyMechanism, likelyMode, said, TIME_KEYS, word } from '../../content/shared/ids.ts'
import type { Terms } from '../../content/shared/types.ts'
import type { FaultKind, Symptom } from '../../engine/step.ts'
import type { Times } from '../../web/log/times.ts'

const { wrongs } = later.labels
const { duration } = first.figures
const { causes, foundPlace, mechanisms, modes, times } = later.record

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
  const all = Object.values(terms)
  expect(all.length).toBeLessThanOrEqual(12)
  expect(new Set(all).size).toBe(all.length)
  expect(meaning).toMatch(/\.$/)
  expect(source).toMatch(/ISO 14224|EN 13306/)
})
test('what is not from a published source says that it is from memory or ours', () => {
  expect(mechanisms.source).toContain('from memory')
  expect(modes.source).toContain('ours')
})
test('what is offered first is on the lists, for every symptom and every fault that tells its mechanism', () => {
  expect(Object.keys(likelyMode).sort()).toEqual(Object.keys(SYMPTOMS).sort())
  for (const id of Object.values(likelyMode)) expect(Object.keys(modes.terms)).toContain(id)
  for (const [fault, told] of Object.entries(FAULTS)) expect([fault, likelyMechanism[fault] !== undefined]).toEqual([fault, told])
  for (const id of Object.values(likelyMechanism)) expect(Object.keys(mechanisms.terms)).toContain(id)
})
test('an id of a later version is shown as it is', () => {
  expect(word(mechanisms.terms, 'wear')).toBe('2.4 Wear')
  expect(word(mechanisms.terms, 'not-yet-known')).toBe('not-yet-known')
})
test('each time of maintenance has a name, and a meaning with its clause', () => {
  expect([...TIME_KEYS].sort()).toEqual(Object.keys(TIMES).sort())
  for (const { meaning } of Object.values(times)) expect(meaning).toMatch(/^From .*192-0[27]-\d\d/)
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
test.each([
  { logged: 'worn-through', why: 'a log holds the id' },
  { logged: 'Cable worn through', why: 'a log of the first version holds the words' },
])('$logged is shown in the language of the day: $why', ({ logged }) => {
  expect(idOf(logged)).toBe('worn-through')
  expect(said(wrongs, logged)).toBe('Cable worn through')
})
test('what somebody typed stays as it was typed', () => expect(said(later.labels.cannots, 'covered by a plate')).toBe('covered by a plate'))
