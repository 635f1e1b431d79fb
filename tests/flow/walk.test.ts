// The six rules over whole sets of states. Here as far as seconds allow; `npm run walk` goes to the end of them.
import { expect, test } from 'vitest'
import { walkAnyPlan } from './anyPlan.ts'
import { FAMILIES, SETUPS } from './family.ts'
import { follow } from './follow.ts'
import { wander } from './wander.ts'

const STATES = 150
const print = (line: string): void => {
  process.stdout.write(`${line}\n`)
}

test.each(FAMILIES)('no plan whatever breaks a rule: $name', family => {
  const { states, transitions, refused, wrong } = walkAnyPlan(family, STATES)
  print(`any plan, ${family.name}: ${states} states, ${transitions} transitions, ${refused} requests refused`)
  expect(wrong).toEqual([])
  expect(states).toBeGreaterThanOrEqual(STATES)
  expect(refused).toBeGreaterThan(0)
})

// Seconds on a quiet computer; the tests of all parts at once may share it.
const PATIENT = 180_000

test(
  'the planner breaks no rule, ends in every way, and its sessions are the same when taken up again',
  () => {
    const walked = SETUPS.map(setup => {
      const one = follow(setup)
      print(`own plan, ${setup.name}: ${one.states} states, ${one.transitions} transitions, ${one.resumed} taken up again`)
      return one
    })
    expect(walked.flatMap(one => one.wrong)).toEqual([])
    const all = (of: 'stages' | 'results' | 'acts'): string[] => [...new Set(walked.flatMap(one => [...one[of]]))].sort()
    expect(all('results')).toContain('handed-over')
    expect(all('results')).toContain('stopped')
    expect(all('acts')).toEqual(expect.arrayContaining(['device', 'prove-dead', 'supply']))
    expect(walked.every(one => one.resumed > 0)).toBe(true)
  },
  PATIENT,
)

const SEED = 5
test(
  `200 steps of chance on large machines break no rule, seed ${SEED}`,
  () => {
    const { wrong, undone, sessions, ends } = wander(200, SEED, { low: 5, high: 12 })
    print(`steps of chance: ${sessions} sessions, ${undone} taken back, ended ${JSON.stringify(ends)}`)
    expect(wrong).toEqual([])
    expect(undone).toBeGreaterThan(5)
    expect(Object.keys(ends).length).toBeGreaterThan(1)
  },
  PATIENT,
)
