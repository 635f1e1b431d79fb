// Each safety rule on its own: the step it refuses, that it alone refuses it, and that what is asked instead leads to a dead circuit.
import { afterEach, expect, test, vi } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { answered } from '../../web/flow/answered.ts'
import { breach, decide, makeSafe } from '../../web/flow/decide.ts'
import { guarded, type Hunt, powerOf, startOf } from '../../web/flow/hunt.ts'
import { notExtraLow, RULES } from '../../web/flow/safety.ts'
import { device, inject, lamp, load, ohm, proveDead, run, supply, volt } from '../bench/scripted.ts'
import { INJECTOR, known } from './machines.ts'
import { atStart, type Watched, wrongWith } from './watch.ts'

afterEach(() => {
  vi.restoreAllMocks()
})

const fresh: Hunt = { ...startOf(known, INJECTOR, 'all-dead'), briefed: true }
const open = { B1: 'open', B2: 'open' } as const
const off: Partial<Hunt> = { positions: { ...fresh.positions, supply: 'off', devices: open } }
const dead: Partial<Hunt> = { ...off, provedDead: true }
const seenDead: Partial<Watched> = { supply: 'off', proved: true, opened: ['B1', 'B2'] }
const fed: Partial<Hunt> = {
  positions: { ...fresh.positions, supply: 'off', devices: open, injector: { branch: 'B1', into: 'zero' } },
}
const amp: Step = { kind: 'read', meter: 'amp', branch: 'B1' }
const covered = (...steps: readonly Step[]): ReadonlySet<string> => new Set(steps.map(keyOf))
const seenCovered = (step: Step): readonly string[] => (step.kind === 'act' ? [JSON.stringify(Object.entries(step.act).sort())] : [])

interface Case {
  readonly rule: keyof typeof RULES
  readonly what: string
  readonly step: Step
  readonly hunt: Partial<Hunt>
  readonly seen: Partial<Watched>
}
const cases: readonly Case[] = [
  { rule: 'onlyDead', what: 'ohms on a live circuit', step: ohm('B1.plus', 'B1.zero'), hunt: {}, seen: {} },
  { rule: 'onlyDead', what: 'ohms, off but not proved', step: ohm('B1.plus', 'B1.zero'), hunt: off, seen: { supply: 'off' } },
  { rule: 'onlyDead', what: 'a run opened, off but not proved', step: run('B1', 'W1', 'opened'), hunt: off, seen: { supply: 'off' } },
  {
    rule: 'onlyDead',
    what: 'injection past a closed device',
    step: inject('B1', 'on'),
    hunt: { positions: { ...fresh.positions, supply: 'off' }, provedDead: true, covered: covered(inject('B1', 'on')) },
    seen: { supply: 'off', proved: true, covered: seenCovered(inject('B1', 'on')) },
  },
  {
    rule: 'onlyDead',
    what: 'injection past a device whose closing was taken back',
    step: inject('B1', 'on'),
    hunt: { ...dead, unsure: new Set(['B1']), covered: covered(inject('B1', 'on')) },
    seen: { supply: 'off', proved: true, covered: seenCovered(inject('B1', 'on')) },
  },
  {
    rule: 'onlyDead',
    what: 'a device closed on the branch that is fed',
    step: device('B1', 'closed'),
    hunt: fed,
    seen: { supply: 'off', injector: 'B1', opened: ['B1', 'B2'] },
  },
  { rule: 'onlyDead', what: 'proving dead with the supply on', step: proveDead, hunt: {}, seen: {} },
  { rule: 'confirmedFirst', what: 'the supply on', step: supply('on'), hunt: dead, seen: seenDead },
  { rule: 'confirmedFirst', what: 'injection', step: inject('B1', 'on'), hunt: dead, seen: seenDead },
  { rule: 'confirmedFirst', what: 'a device opened under voltage', step: device('B1', 'open'), hunt: {}, seen: {} },
  { rule: 'mainsOnlyLooked', what: 'a probe on the mains', step: volt('mains.L', 'mains.N'), hunt: {}, seen: {} },
  {
    rule: 'seldomAndShort',
    what: 'a seventh energising',
    step: supply('on'),
    hunt: { ...dead, energised: 6, covered: covered(supply('on')) },
    seen: { ...seenDead, energised: 6, covered: seenCovered(supply('on')) },
  },
  {
    rule: 'seldomAndShort',
    what: 'the bond lifted',
    step: supply('on'),
    hunt: { positions: { ...fresh.positions, supply: 'off', bond: 'opened' }, provedDead: true, covered: covered(supply('on')) },
    seen: { ...seenDead, bond: 'opened', covered: seenCovered(supply('on')) },
  },
  {
    rule: 'seldomAndShort',
    what: 'a suspected short circuit for more than a minute',
    step: lamp,
    hunt: { liveSeconds: 41, pulses: true },
    seen: { live: 41, trouble: true },
  },
  {
    rule: 'withoutLoad',
    what: 'a fuse pulled under load',
    step: device('B2', 'open'),
    hunt: { covered: covered(device('B2', 'open')) },
    seen: { covered: seenCovered(device('B2', 'open')) },
  },
  { rule: 'withinKit', what: 'amperes without a clamp', step: amp, hunt: {}, seen: {} },
]
const asking = (step: Step, hunt: Partial<Hunt>): Hunt => ({
  ...fresh,
  ...hunt,
  ahead: [step],
  request: { say: 'step', n: 1, seconds: 5, step, why: { key: '', facts: {} } },
})

test.each(cases)('$rule refuses $what', ({ rule, step, hunt, seen }) => {
  const h = asking(step, hunt)
  expect(breach(h)).toBe(rule)
  // The onlooker, who does not know the rule, calls it unsafe as well; and without this one rule nothing would stop it.
  expect(wrongWith({ ...atStart, ...seen }, h.request, known, INJECTOR)).not.toEqual([])
  vi.spyOn(RULES, rule).mockReturnValue(true)
  expect(breach(h)).toBeUndefined()
})

const settled = (h: Hunt): Hunt => (breach(h) === undefined ? h : settled(makeSafe(h)))
test.each(cases)('instead of $what the circuit is made dead, or another way is taken', ({ step, hunt }) => {
  let h = settled(asking(step, hunt))
  expect(h.request).not.toMatchObject({ say: 'step', step })
  for (let i = 0; i < 3 && h.request.say === 'step' && powerOf(h) !== 'provedDead'; i++) {
    h = settled(decide(answered(h, { done: true })))
  }
  expect(powerOf(h)).toBe('provedDead')
})

test('a mend is asked for only in a circuit proved dead', () => {
  const h: Hunt = { ...fresh, request: { say: 'mend', n: 1, finding: { fault: 'short', branch: 'B1', probability: 1 } } }
  expect(breach(h)).toBe('onlyDead')
  expect(breach({ ...h, ...dead })).toBeUndefined()
})
test('no more is fed into a branch than its device is rated for', () => {
  const hunt = (ampere: number): Hunt => ({
    ...fresh,
    ...dead,
    kit: { injector: { ampere, volts: 24 } },
    covered: covered(inject('B1', 'on')),
  })
  const rating = known.branches[0]?.protection?.rating ?? Number.NaN
  expect(RULES.seldomAndShort(guarded(hunt(rating)), inject('B1', 'on'))).toBe(true)
  expect(RULES.seldomAndShort(guarded(hunt(rating + 0.1)), inject('B1', 'on'))).toBe(false)
})

test('a plug is not mated with the injector on', () => {
  const h = asking(load('B2', 'K2', 'plugged'), fed)
  expect(RULES.withoutLoad(guarded(h), load('B2', 'K2', 'plugged'))).toBe(false)
})

test.each([
  { step: volt('B1.plus', 'B1.zero'), answer: { value: 60.1 }, stops: true },
  { step: volt('B1.plus', 'B1.zero'), answer: { value: -60.1 }, stops: true },
  { step: volt('B1.plus', 'B1.zero'), answer: { value: 60 }, stops: false },
  { step: volt('B1.plus', 'B1.zero'), answer: { value: 25.1, ac: true }, stops: true },
  { step: volt('B1.plus', 'B1.zero'), answer: { value: 25, ac: true }, stops: false },
  { step: proveDead, answer: { volts: 230 }, stops: true },
  { step: proveDead, answer: { volts: 48 }, stops: false },
  { step: ohm('B1.plus', 'B1.zero'), answer: { value: 230 }, stops: false },
  { step: volt('B1.plus', 'B1.zero'), answer: { value: 'OL' as const }, stops: true },
  { step: ohm('B1.plus', 'B1.zero'), answer: { value: 'OL' as const }, stops: false },
])('$answer to $step.kind ends the session: $stops', ({ step, answer, stops }) => {
  expect(notExtraLow(step, answer)).toBe(stops)
  const h = answered(asking(step, step.kind === 'read' && step.meter === 'volt' ? {} : dead), answer)
  expect(h.result === 'stopped').toBe(stops)
})
