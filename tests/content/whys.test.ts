import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { whySentence } from '../../content/shared/facts.ts'

const { whys } = later

const KEYS = [
  'mains-first',
  'lamp-tells',
  'held-volts',
  'drop',
  'supply-off-first',
  'prove-dead-first',
  'prove-dead-again',
  'device-past',
  'group',
  'likeliest',
  'narrow',
  'kind',
  'current',
  'inject',
  'zero-leads',
  'go-look',
  'put-back',
  'check-mend',
  'prove-restored',
  'device-look',
  'device-open',
  'after-energising',
  'load-aside',
  'switch-on',
  'repeat',
  'in-rush',
  'pause',
  'off-to-look',
  'look-along',
]
const facts = {
  branch: 'B3',
  branches: 'B3, B4',
  count: 2,
  p: 62,
  metres: 20.5,
  moving: 1,
  before: 11,
  after: 3,
  seconds: 66,
  load: 'Y32',
  ampere: 31,
  limit: 12,
}

test.each(KEYS)('the reason %s is a sentence or two of facts, none of them missing', key => {
  const sentence = whySentence(whys, { key, facts })
  expect(sentence).toMatch(/^[A-Z].*\.$/)
  expect(sentence).not.toMatch(/undefined|NaN|\?/)
  expect(sentence.split(/(?<=\.) /).filter(s => s.split(' ').length > 20)).toEqual([])
})
test('a reason without words is empty, so that a screen shows none', () =>
  expect(whySentence(whys, { key: 'no such key', facts })).toBe(''))
test('a fact that is missing shows as a question mark', () => expect(whySentence(whys, { key: 'device-past', facts: {} })).toContain('?'))
test('what moves is said, what does not is not', () => {
  expect(whySentence(whys, { key: 'likeliest', facts })).toContain('moving')
  expect(whySentence(whys, { key: 'likeliest', facts: { ...facts, moving: 0 } })).not.toContain('moving')
})

/** Keys as the engine and the flow write them: an object's `key`, or the first word given to a function that makes a reason. */
const written = (): string[] => {
  const folders = ['engine', 'web/flow'].map(folder => fileURLToPath(new URL(`../../${folder}/`, import.meta.url)))
  const texts = folders.flatMap(folder =>
    readdirSync(folder)
      .filter(f => f.endsWith('.ts'))
      .map(f => readFileSync(join(folder, f), 'utf8')),
  )
  return texts.flatMap(text => [...text.matchAll(/(?:\bkey: |becauseOf\(\s*)'([a-z-]+)'/g)].map(m => m[1] ?? ''))
}
test('every reason that the engine or the flow gives has words', () => {
  expect(written().length).toBeGreaterThan(5)
  expect(written().filter(key => !(key in whys))).toEqual([])
})
