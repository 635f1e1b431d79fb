// The six rules over whole sets of states. Here as far as seconds allow; `npm run walk` goes to the end of them.
import { expect, test } from 'vitest'
import { walkAnyPlan } from './anyPlan.ts'
import { FAMILIES, SETUPS, SMALL } from './family.ts'
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

test.each(SMALL.filter(({ name }) => ['the bus', 'a plug'].includes(name)))(
  'walked to its last state, no plan breaks a rule: $name',
  family => {
    const { states, transitions, whole, wrong } = walkAnyPlan(family)
    print(`any plan, ${family.name}: all of its ${states} states, ${transitions} transitions`)
    expect(wrong).toEqual([])
    expect(whole).toBe(true)
    expect(states).toBeGreaterThan(500)
  },
)

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
  `1000 steps of chance on large machines break no rule, seed ${SEED}`,
  () => {
    const { wrong, undone, sessions, planned, states, refused, ends } = wander(1000, SEED, { low: 5, high: 12, every: 6 })
    print(`steps of chance: ${sessions} sessions, ${states} states, ${undone} taken back, ended ${JSON.stringify(ends)}`)
    expect(wrong).toEqual([])
    expect(undone).toBeGreaterThan(5)
    expect(refused).toBeGreaterThan(50)
    expect(planned.sessions).toBeGreaterThan(1)
    expect(Object.keys(ends).length).toBeGreaterThan(1)
  },
  PATIENT,
)
