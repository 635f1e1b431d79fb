// A planner that wants anything at all, in any state: the rules alone stand between it and the technician.
import { afterEach, expect, test, vi } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { RULES } from '../../web/flow/safety.ts'
import { begin } from '../../web/flow/session.ts'
import { chance } from '../bench/random.ts'
import { amp, bond, bus, device, inject, lamp, load, ohm, proveDead, run, supply, volt, zeroLeads } from '../bench/scripted.ts'
import { answer, answersTo } from './answers.ts'
import { INJECTOR, known } from './machines.ts'
import { atStart, watch, wrongWith } from './watch.ts'

const ANYTHING: readonly Step[] = [
  ...(['on', 'off'] as const).flatMap(to => [supply(to), inject('B1', to), inject('B2', to)]),
  ...(['open', 'closed'] as const).flatMap(to => [device('B1', to), device('B2', to)]),
  ...(['opened', 'joined'] as const).flatMap(to => [bus(to), bond(to), run('B1', 'W1', to), run('B2', 'W2', to)]),
  ...(['unplugged', 'plugged'] as const).map(to => load('B2', 'K2', to)),
  ohm('B1.plus', 'B1.zero'),
  ohm('bus.plus', 'bus.zero'),
  volt('B1.plus', 'B1.zero'),
  volt('supply.plus', 'mains.N'),
  amp('B1'),
  lamp,
  proveDead,
  zeroLeads,
]
const planner = vi.hoisted(() => ({ next: (): unknown => undefined }))
vi.mock('../../engine/choose.ts', () => ({ choose: () => planner.next() }))
afterEach(() => {
  vi.restoreAllMocks()
})

const SESSIONS = 60
const ANSWERS = 60

/** What the onlooker finds in many sessions, each left at the first fault. */
const faults = (): string[] => {
  const found: string[] = []
  for (let seed = 1; seed <= SESSIONS; seed++) {
    const luck = chance(seed)
    planner.next = () => ({ steps: [luck.pick(ANYTHING), luck.pick(ANYTHING)], expected: 1, why: { key: 'narrow', facts: {} } })
    let session = begin({ type: 'started', machine: known, kit: INJECTOR, symptom: 'all-dead' })
    let watched = atStart
    for (let i = 0; i < ANSWERS && session.request.say !== 'end'; i++) {
      const wrong = wrongWith(watched, session.request, known, INJECTOR)
      found.push(...wrong)
      if (wrong.length > 0) break
      // Mostly what brings the plan on; never a dangerous voltage, which would end the session.
      const answers = answersTo(session).filter(a => !('volts' in a) && !('value' in a && (a.value === 70 || a.value === 30)))
      const given = luck.yes(0.9) ? answers[0] : luck.pick(answers)
      if (given === undefined) break
      watched = watch(watched, session.request, given)
      session = answer(session, given)
    }
  }
  return found
}

test(`${SESSIONS} hostile plans are all kept within the rules`, () => expect(faults()).toEqual([]))

test.each([
  { rule: 'onlyDead', caught: /^1/ },
  { rule: 'mainsOnlyLooked', caught: /^3/ },
  { rule: 'seldomAndShort', caught: /^5/ },
  { rule: 'withoutLoad', caught: /^6/ },
  { rule: 'withinKit', caught: /^kit/ },
] as const)('with the rule $rule taken away, the onlooker sees it', ({ rule, caught }) => {
  vi.spyOn(RULES, rule).mockReturnValue(true)
  expect(faults().join('\n')).toMatch(new RegExp(caught.source, 'm'))
})
