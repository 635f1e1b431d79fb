import { beforeAll, expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { whatOf } from '../../web/log/row.ts'
import { refusedWords } from '../../web/screens/refusedWords.ts'
import { needWords } from '../../web/words.ts'
import { STEPS } from './samples.ts'

beforeAll(needWords)

test.each(STEPS.map(step => ({ step, what: whatOf({ say: 'step', n: 1, seconds: 1, step, why: { key: 'repeat', facts: {} } }) })))(
  'the log’s "$what" is told as its step',
  ({ step, what }) => expect(refusedWords(what)).toBe(later.steps.stepTitle(step)),
)
test.each([
  { what: 'voltage-may-return', words: 'Voltage may come back: make sure first', why: 'a confirmation' },
  { what: 'short-to-zero B3 3-W2 1.1..2.4 m', words: '24 V core against 0 V core B3 3-W2 1.1..2.4 m', why: 'a finding' },
  { what: 'request 7', words: 'request 7', why: 'a step of another version' },
  { what: 'device B 3 open', words: 'device B 3 open', why: 'a name with a space in it' },
])('$what is told as $words: $why', ({ what, words }) => expect(refusedWords(what)).toBe(words))
