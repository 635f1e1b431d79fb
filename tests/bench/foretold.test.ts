import { expect, test } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { foretellings, foretoldLine } from './foretold.ts'
import type { Played } from './play.ts'
import { ohm } from './scripted.ts'

const say = (step: Step, facts: object) => ({ say: 'step' as const, n: 1, seconds: 15, step, why: { key: 'narrow', facts } })
const played = (transcript: readonly { out: object; answer?: unknown }[]): Played => ({ transcript }) as unknown as Played
const read = (branch: string): Step => ohm(`${branch}.plus`, `${branch}.zero`)
const finding = (branch: string): Step => ({
  kind: 'finding',
  finding: { fault: 'short', branch, run: 'W1', alongRun: { best: 2, low: 1, high: 4 }, probability: 0.9 },
})

test('what a reading was said to leave stands beside what the next plan or the finding in the same branch then says', () => {
  const all = foretellings(
    played([
      { out: say(read('B1'), { branch: 'B1', before: 30, after: 12 }), answer: { value: 0.7 } },
      { out: say(read('B1'), { branch: 'B1', before: 14, after: 5 }), answer: { value: 0.6 } },
      { out: say(finding('B1'), { p: 90, seconds: 75 }), answer: { confirmed: true } },
    ]),
  )
  expect(all).toEqual([
    { before: 30, said: 12, left: 14 },
    { before: 14, said: 5, left: 3 },
  ])
  expect(foretoldLine('x', all)).toBe('x: 2 readings, on average from 22.0 m, said to leave 8.5 m, left 8.5 m')
})
test('a reading that could not be taken, and another branch, count for nothing', () => {
  const all = foretellings(
    played([
      { out: say(read('B1'), { branch: 'B1', before: 30, after: 12 }), answer: { cannot: 'covered' } },
      { out: say(read('B1'), { branch: 'B1', before: 30, after: 20 }), answer: { value: 0.7 } },
      { out: say(finding('B2'), { p: 90, seconds: 75 }), answer: { confirmed: false } },
      { out: say(read('B2'), { branch: 'B2', before: 9, after: 3 }), answer: { value: 0.7 } },
    ]),
  )
  expect(all).toEqual([])
})
