// What is asked for in a given state of the hunt, with its reason, its stage and what has to be confirmed before.
import { expect, test } from 'vitest'
import type { Finding, Step } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { answered } from '../../web/flow/answered.ts'
import { breach, decide, leaveAs, makeSafe } from '../../web/flow/decide.ts'
import { type Hunt, powerOf, type Repair, startOf } from '../../web/flow/hunt.ts'
import type { Entry, Stage } from '../../web/flow/request.ts'
import { amp, device, inject, lamp, load, ohm, proveDead, run, supply, volt, zeroLeads } from '../bench/scripted.ts'
import { INJECTOR, known, METER, one } from './machines.ts'

const start: Hunt = { ...startOf(known, INJECTOR, 'all-dead'), briefed: true }
const off: Hunt = { ...start, positions: { ...start.positions, supply: 'off' } }
const dead: Hunt = { ...off, provedDead: true }
const open = { B1: 'open', B2: 'open' } as const
const fed: Hunt = { ...off, positions: { ...off.positions, devices: open, injector: { branch: 'B1', into: 'zero' } } }
const covers = (...steps: readonly Step[]) => ({ covered: new Set(steps.map(keyOf)) })
const look = (finding: Partial<Finding> = {}): Step => ({
  kind: 'finding',
  finding: { fault: 'short-to-zero', branch: 'B1', run: 'W1', probability: 0.9, ...finding },
})
/** The next request where this is the plan. */
const next = (h: Hunt, ahead: readonly Step[], key = 'goal', facts = {}): Hunt =>
  decide({ ...h, ahead, why: { key, facts }, ...(h.covered.size === 0 ? covers(...ahead) : {}) })
const entry = (step: Step): Entry => ({
  request: { say: 'step', n: 1, seconds: 5, step, why: { key: '', facts: {} } },
  answer: { done: true },
  stage: 'narrowing',
  power: 'live',
})
const repair = (more: Partial<Repair> = {}): Repair => ({
  finding: { fault: 'short-to-zero', branch: 'B1', probability: 0.9 },
  mended: false,
  checked: new Set(),
  lampSeen: false,
  voltSeen: false,
  doubted: false,
  failures: 0,
  ...more,
})

test('first what comes before work, then the voltage that stays, then the plan', () => {
  expect(decide({ ...start, briefed: false })).toMatchObject({
    stage: 'briefing',
    request: { say: 'confirm', n: 1, caution: 'before-work', acts: [] },
  })
  expect(decide({ ...off, stays: 1 })).toMatchObject({
    stage: 'provingDead',
    request: { say: 'confirm', caution: 'voltage-stays', acts: [] },
  })
  expect(next({ ...off, stays: 1, warned: true }, [proveDead]).request).toMatchObject({ say: 'step', step: proveDead })
  expect(next({ ...off, entries: [entry(lamp), entry(lamp)] }, [proveDead]).request).toMatchObject({ n: 3, seconds: 40 })
})

test.each<{ step: Step; h: Hunt; goal: string; key: string; facts?: object }>([
  { step: supply('off'), h: start, goal: 'goal', key: 'supply-off-first' },
  { step: supply('off'), h: start, goal: 'off-to-look', key: 'off-to-look' },
  { step: supply('on'), h: dead, goal: 'goal', key: 'switch-on' },
  { step: proveDead, h: off, goal: 'goal', key: 'prove-dead-first' },
  { step: proveDead, h: { ...off, entries: [entry(proveDead)] }, goal: 'goal', key: 'prove-dead-again' },
  { step: proveDead, h: { ...off, entries: [entry(supply('off')), entry(lamp)] }, goal: 'goal', key: 'prove-dead-first' },
  { step: device('B1', 'open'), h: dead, goal: 'goal', key: 'device-past', facts: { branch: 'B1' } },
  { step: device('B1', 'open'), h: dead, goal: 'group', key: 'group', facts: { of: 7 } },
  { step: device('B1', 'open'), h: dead, goal: 'in-rush', key: 'in-rush', facts: { of: 7 } },
  { step: device('B1', 'closed'), h: dead, goal: 'group', key: 'put-back' },
  { step: device('B1', 'closed'), h: dead, goal: 'pause', key: 'pause', facts: { of: 7 } },
  { step: inject('B1', 'on'), h: dead, goal: 'goal', key: 'goal', facts: { of: 7 } },
  { step: inject('B1', 'off'), h: fed, goal: 'goal', key: 'supply-off-first' },
  { step: inject('B1', 'off'), h: fed, goal: 'off-to-look', key: 'off-to-look', facts: { of: 7 } },
  { step: load('B2', 'K2', 'unplugged'), h: dead, goal: 'goal', key: 'goal', facts: { of: 7 } },
  { step: ohm('B1.plus', 'B1.zero'), h: dead, goal: 'goal', key: 'goal', facts: { of: 7 } },
])('$step.act.act $step.act.to for $goal is asked for because: $key', ({ step, h, goal, key, facts = {} }) => {
  const asked = next(h, [step], goal, { of: 7 })
  const kept = key === goal ? { of: 7 } : facts
  expect(asked.request).toMatchObject({ say: 'step', step, why: { key, facts: kept } })
  // What the whole plan is for is kept for the steps after it.
  expect(asked.why).toEqual({ key: goal, facts: { of: 7 } })
})

test.each<{ step: Step; h: Hunt; stage: Stage }>([
  { step: proveDead, h: off, stage: 'provingDead' },
  { step: supply('off'), h: start, stage: 'provingDead' },
  { step: lamp, h: start, stage: 'checkingSupply' },
  { step: { kind: 'look', look: 'mains-lamp' }, h: start, stage: 'checkingSupply' },
  { step: { kind: 'look', look: 'device', branch: 'B1' }, h: start, stage: 'narrowing' },
  { step: device('B1', 'open'), h: dead, stage: 'narrowing' },
  { step: ohm('B1.plus', 'B1.zero'), h: dead, stage: 'narrowing' },
  { step: volt('bus.plus', 'bus.zero'), h: start, stage: 'narrowing' },
  { step: ohm('B1/J1.plus', 'B1/J1.zero'), h: dead, stage: 'locating' },
  { step: volt('B1.plus', 'B1.zero'), h: fed, stage: 'locating' },
  { step: amp('B1'), h: start, stage: 'locating' },
  { step: look(), h: dead, stage: 'locating' },
  { step: inject('B1', 'on'), h: dead, stage: 'locating' },
  { step: run('B1', 'W1', 'opened'), h: dead, stage: 'locating' },
  { step: load('B2', 'K2', 'unplugged'), h: dead, stage: 'locating' },
  { step: zeroLeads, h: dead, stage: 'locating' },
])('$step.kind $step.act.act $step.look $step.red stands under $stage', ({ step, h, stage }) => {
  expect(next(h, [step]).stage).toBe(stage)
})

test('on the way back: mending till it is mended, checking in the dead, restoring from the closing of devices on', () => {
  // Not mended, the supply still on: off first.
  expect(decide({ ...start, repair: repair() })).toMatchObject({ stage: 'mending', request: { step: supply('off') } })
  expect(decide({ ...dead, repair: repair() })).toMatchObject({ stage: 'mending', request: { say: 'mend', finding: { branch: 'B1' } } })
  const mended = { ...dead, positions: { ...dead.positions, devices: open }, repair: repair({ mended: true }) }
  expect(decide(mended)).toMatchObject({ stage: 'checking', request: { step: { kind: 'read', meter: 'ohm', red: 'B1.plus' } } })
  const checked = { ...mended, repair: repair({ mended: true, checked: new Set(['B1']) }) }
  expect(decide(checked)).toMatchObject({ stage: 'restoring', request: { step: device('B1', 'closed') } })
  const on = { ...start, repair: repair({ mended: true, checked: new Set(['B1']) }) }
  expect(decide(on)).toMatchObject({ stage: 'restoring', request: { step: lamp } })
})

test('what needs a confirmation is confirmed first, the acts of its kind in the plan together', () => {
  const series = [device('B1', 'open'), device('B2', 'open'), supply('off')]
  const h = decide({ ...start, ahead: series, why: { key: 'group', facts: {} } })
  expect(h).toMatchObject({ stage: 'narrowing', request: { say: 'confirm', caution: 'opening-live-device', acts: series.slice(0, 2) } })
  expect(decide({ ...h, ...covers(device('B1', 'open')) }).request).toMatchObject({ say: 'step', step: device('B1', 'open') })
  // Each is judged where it will stand: closed before the supply comes on, a device brings no voltage; closed after, it does.
  const back = [device('B1', 'closed'), supply('on'), device('B2', 'closed'), inject('B1', 'off')]
  const asked = decide({ ...dead, positions: { ...dead.positions, devices: open }, ahead: back, why: { key: 'x', facts: {} } })
  expect(asked.request).toMatchObject({ say: 'step', step: device('B1', 'closed') })
  const switchingOn = (devices: Hunt['positions']['devices'], pulses: boolean) =>
    decide({ ...dead, pulses, positions: { ...dead.positions, devices }, ahead: back.slice(1) }).request
  const acts = back.slice(1, 3)
  expect(switchingOn({ B1: 'open', B2: 'open' }, false)).toMatchObject({ say: 'confirm', caution: 'voltage-may-return', acts })
  expect(switchingOn({ B1: 'open', B2: 'open' }, true)).toMatchObject({ say: 'confirm', caution: 'switch-on-again', acts })
  // All wiring that moves lies in B2: closed, a short circuit is suspected behind it.
  expect(switchingOn({ B1: 'open', B2: 'closed' }, false)).toMatchObject({ caution: 'switch-on-again' })
})

test('nobody goes to look along a cable that is fed: what feeds it goes off first; where that is refused, the place waits', () => {
  const going = next(start, [look(), lamp])
  expect(going.request).toMatchObject({ step: supply('off'), why: { key: 'off-to-look' } })
  expect(going.ahead).toEqual([supply('off'), look(), lamp])
  // The place is gone to for its own reason afterwards.
  expect(going.why).toMatchObject({ key: 'goal' })
  const stop: Step = { kind: 'act', act: { act: 'inject', branch: 'B1', to: 'off' } }
  expect(next(fed, [look()]).request).toMatchObject({ step: stop, why: { key: 'off-to-look' } })
  const stays: Hunt = { ...start, refusals: new Map([[keyOf(supply('off')), 1]]), setAside: new Set([keyOf(supply('off'))]) }
  const waits = next(stays, [look()])
  expect([...waits.setAside]).toContain(keyOf(look()))
  expect(waits.request).not.toMatchObject({ step: look() })
  // Offered once more in the end, it is asked for once more; refused once more, nobody goes.
  const once = new Map([keyOf(supply('off')), keyOf(look())].map(key => [key, 1] as const))
  expect(next({ ...stays, refusals: once }, [look()]).request).toMatchObject({ step: supply('off') })
  const twice = new Map([...once, [keyOf(supply('off')), 2] as const])
  expect(next({ ...stays, refusals: twice }, [look()]).request).not.toMatchObject({ step: look() })
  // Past an open device nothing is fed.
  const past = { ...stays, positions: { ...stays.positions, devices: { ...stays.positions.devices, B1: 'open' as const } } }
  expect(next(past, [look()]).request).toMatchObject({ step: look() })
  expect(next({ ...past, unsure: new Set(['B1']) }, [look()]).request).not.toMatchObject({ step: look() })
  for (const free of [look({ fault: 'device-open' }), { kind: 'finding', finding: { fault: 'supply-low', probability: 1 } } as const])
    expect(next(start, [free]).request).toMatchObject({ step: free })
  expect(next(dead, [look()]).request).toMatchObject({ step: look() })
})

test.each(['no-mains', 'supply-dead'] as const)('%s is mended by whoever is electrically qualified, and somebody is fetched', fault => {
  const h: Hunt = { ...dead, repair: repair({ finding: { fault, probability: 1 } }) }
  expect(decide(h)).toMatchObject({ stage: 'mending', request: { say: 'confirm', caution: 'mains-side', acts: [] } })
  expect(decide({ ...h, kit: { qualified: false } }).request).toMatchObject({ caution: 'mains-side' })
  expect(decide({ ...h, kit: { qualified: true } }).request).toMatchObject({ say: 'mend' })
  expect(decide({ ...h, repair: repair({ finding: { fault, probability: 1 }, qualified: true }) }).request).toMatchObject({ say: 'mend' })
})

test('the end says how it ended, what it took and which caution it was', () => {
  const h: Hunt = { ...start, seconds: 71, entries: [entry(lamp)] }
  const ended = decide({ ...h, result: 'stopped', lastCaution: 'not-extra-low-voltage' })
  expect([ended.request, ended.stage]).toEqual([
    { say: 'end', n: 2, result: 'stopped', seconds: 71, caution: 'not-extra-low-voltage' },
    'closing',
  ])
  expect(decide({ ...h, result: 'restored' }).request).toEqual({ say: 'end', n: 2, result: 'restored', seconds: 71 })
})

test('whoever leaves leaves it safe: a fed branch and a short circuit on a live supply go off, each asked for twice at most', () => {
  const leaving = (h: Hunt) => decide({ ...h, leaving: 'stopped' }).request
  const stop: Step = { kind: 'act', act: { act: 'inject', branch: 'B1', to: 'off' } }
  expect(leaving({ ...start, pulses: true })).toMatchObject({ step: supply('off') })
  expect(leaving(fed)).toMatchObject({ step: stop })
  expect(leaving({ ...fed, pulses: true })).toMatchObject({ step: stop })
  // Nothing suspected: the machine runs, and stays on.
  const calm: Hunt = { ...start, repair: repair({ mended: true }) }
  expect(leaving(calm)).toMatchObject({ say: 'end', result: 'stopped' })
  expect(leaving(dead)).toMatchObject({ say: 'end', result: 'stopped' })
  const refused = (times: number) => ({ refusals: new Map([[keyOf(supply('off')), times]]) })
  expect(leaving({ ...start, pulses: true, ...refused(1) })).toMatchObject({ step: supply('off') })
  expect(leaving({ ...start, pulses: true, ...refused(2) })).toMatchObject({ say: 'end' })
  const both: Hunt = { ...start, pulses: true, positions: { ...start.positions, injector: { branch: 'B1', into: 'zero' } } }
  expect(leaving({ ...both, ...refused(2) })).toMatchObject({ step: stop })
})

test('a session that has energised nothing ends at once; else what it energised goes off first, and said once more it ends', () => {
  expect(leaveAs(start, 'stopped').request).toMatchObject({ say: 'end', result: 'stopped' })
  const once = leaveAs({ ...start, pulses: true, energised: 1, ahead: [lamp] }, 'stopped')
  expect([once.request, once.ahead]).toMatchObject([{ step: supply('off') }, []])
  expect(leaveAs(once, 'stopped').request).toMatchObject({ say: 'end', result: 'stopped' })
  expect(leaveAs(fed, 'handed-over').request).toMatchObject({ step: { act: { act: 'inject', to: 'off' } } })
  const unsure: Hunt = { ...dead, still: { injector: { branch: 'B2', into: 'zero' } } }
  expect(leaveAs(unsure, 'handed-over').request).toMatchObject({ step: { act: { act: 'inject', branch: 'B2', to: 'off' } } })
})

test('what breaks a rule gives way to the nearest safe thing', () => {
  const asking = (h: Hunt, step: Step): Hunt => ({
    ...h,
    ahead: [step],
    request: { say: 'step', n: 1, seconds: 5, step, why: { key: 'x', facts: {} } },
  })
  // Ohms on a live circuit: dead first; the search asks for the reading anew, if it is worth it.
  const reading = makeSafe(asking(start, ohm('B1.plus', 'B1.zero')))
  expect(reading).toMatchObject({ request: { step: supply('off') }, ahead: [supply('off')] })
  expect([...reading.setAside]).toEqual([keyOf(ohm('B1.plus', 'B1.zero'))])
  expect([...makeSafe(asking({ ...start, repair: repair({ mended: true }) }, ohm('B1.plus', 'B1.zero'))).setAside]).toEqual([])
  expect([...makeSafe(asking(start, load('B2', 'K2', 'unplugged'))).setAside]).toEqual([])
  // Refused already: nothing safe is left but to leave.
  const refusals = new Map([[keyOf(supply('off')), 1]])
  expect(makeSafe(asking({ ...start, refusals }, load('B2', 'K2', 'unplugged')))).toMatchObject({ leaving: 'handed-over' })
  // In a dead circuit it stays forbidden, and something else is asked for.
  const forbidden = makeSafe(asking({ ...dead, energised: 6 }, supply('on')))
  expect(forbidden.setAside.has(keyOf(supply('on')))).toBe(true)
  expect(forbidden.request).not.toMatchObject({ step: supply('on') })
  expect(breach(forbidden)).toBeUndefined()
  // Feeding past a device whose closing was taken back: it is opened first.
  const unsure: Hunt = { ...dead, positions: { ...dead.positions, devices: open }, unsure: new Set(['B1']) }
  const opening = makeSafe(asking(unsure, inject('B1', 'on')))
  expect(opening.request).toMatchObject({ step: device('B1', 'open') })
  expect(opening.ahead).toEqual([device('B1', 'open'), inject('B1', 'on')])
  expect(powerOf(opening)).toBe('provedDead')
  const stuck = { ...unsure, refusals: new Map([[keyOf(device('B1', 'open')), 1]]) }
  expect(makeSafe(asking(stuck, inject('B1', 'on'))).request).not.toMatchObject({ step: device('B1', 'open') })
})

test('whatever is refused is offered once more before the job is handed over, and then no more', () => {
  let h = decide({ ...startOf(one('breaker'), METER, 'all-dead'), briefed: true })
  const times = new Map<string, number>()
  const order: string[] = []
  for (let i = 0; i < 60 && h.request.say !== 'end'; i++) {
    const { request } = h
    const acts = request.say === 'step' ? [request.step] : request.say === 'confirm' ? request.acts : []
    for (const key of acts.map(keyOf)) {
      times.set(key, (times.get(key) ?? 0) + 1)
      order.push(key)
    }
    h = decide(answered(h, { cannot: 'out of reach' }))
  }
  expect(h.request).toMatchObject({ say: 'end', result: 'handed-over' })
  expect([...new Set(times.values())]).toEqual([2])
  // What was never refused comes before what was.
  const first = order.slice(0, times.size - 1)
  expect(new Set(first).size).toBeGreaterThan(times.size / 2)
  expect(h.ahead).toEqual([])
})

test('where all is refused on the way back as well, it is handed over', () => {
  const gone = { refusals: new Map([[keyOf(supply('off')), 9]]) }
  expect(decide({ ...start, ...gone, repair: repair() }).request).toMatchObject({ say: 'end', result: 'handed-over' })
  expect(decide({ ...start, ...gone, pulses: true, repair: repair() }).request).toMatchObject({ say: 'end', result: 'handed-over' })
})
