// Nobody is left with what the procedure has switched on, whichever way a session comes to its end; and what the walk of whole sets of
// states has found is kept found.
import { expect, test } from 'vitest'
import type { Step } from '../../engine/step.ts'
import { answered } from '../../web/flow/answered.ts'
import { decide, leaveAs } from '../../web/flow/decide.ts'
import { guarded, type Hunt, startOf } from '../../web/flow/hunt.ts'
import { broken } from '../../web/flow/safety.ts'
import { keptOf } from '../../web/flow/session.ts'
import { INJECTOR, known } from './machines.ts'

const ON: Step = { kind: 'act', act: { act: 'supply', to: 'on' } }
const start = startOf(known, INJECTOR, 'all-dead')
const briefed: Hunt = { ...start, briefed: true }
const OFF = { say: 'step', step: { act: { act: 'supply', to: 'off' } } }
const fed: Hunt['still'] = { injector: { branch: 'B1', into: 'zero' } }
const asking = (h: Hunt, step: Step): Hunt => ({ ...h, ahead: [step], request: { say: 'step', n: 1, seconds: 5, step, why: h.why } })

test('where the procedure is about to end by itself, one word of the technician’s does not leave a short circuit energised', () => {
  const endsByItself = decide({ ...briefed, pulses: true, energised: 2, leaving: 'handed-over' })
  expect(endsByItself.request).toMatchObject(OFF)
  const said = leaveAs(endsByItself, 'stopped')
  expect(said.request).toMatchObject(OFF)
  expect(leaveAs(said, 'stopped').request).toMatchObject({ say: 'end', result: 'stopped' })
})
test('a source that may still feed is taken off, also where the log was taken back to before the briefing', () => {
  const back = decide({ ...start, positions: { ...start.positions, supply: 'off' }, energised: 1, still: fed })
  expect(back.request).toMatchObject({ say: 'confirm', caution: 'before-work' })
  const refused = decide(answered(back, { cannot: 'no lock' }))
  expect(refused.request).toMatchObject({ say: 'step', step: { act: { act: 'inject', branch: 'B1', to: 'off' } } })
  // Where nothing was energised it ends there and then.
  expect(decide(answered(decide(start), { cannot: 'no lock' })).request).toMatchObject({ say: 'end', result: 'handed-over' })
})
test('the link to earth counts as open where its opening was taken back, and joined once it was joined', () => {
  const dead: Hunt = {
    ...briefed,
    provedDead: true,
    positions: { ...start.positions, supply: 'off' },
    covered: new Set([JSON.stringify(ON)]),
  }
  const opened: Hunt = { ...dead, positions: { ...dead.positions, bond: 'opened' } }
  const back: Hunt = { ...dead, ...keptOf(opened, dead), covered: dead.covered }
  expect(broken(guarded(dead), ON)).toBeUndefined()
  expect(broken(guarded(back), ON)).toBe('seldomAndShort')
  const joined = answered(asking(back, { kind: 'act', act: { act: 'bond', to: 'joined' } }), { done: true })
  expect(broken(guarded({ ...joined, covered: dead.covered }), ON)).toBeUndefined()
})
test('a device that was taken for open and then seen to have tripped is closed in the end', () => {
  const look: Step = { kind: 'look', look: 'device', branch: 'B1' }
  const open = answered(asking(briefed, look), { seen: 'open' })
  expect(open.found.devices['B1']).toBe('open')
  const tripped = answered(asking(open, look), { seen: 'tripped' })
  expect(tripped.found.devices['B1']).toBe('closed')
  expect(tripped.positions.devices['B1']).toBe('tripped')
  const repair = { mended: true, checked: new Set<string>(), lampSeen: true, voltSeen: true, doubted: false, failures: 0 }
  const onTheWayBack: Hunt = { ...open, repair: { ...repair, finding: { fault: 'supply-dead', probability: 1 } } }
  expect(answered(asking(onTheWayBack, look), { seen: 'tripped' }).found.devices['B1']).toBe('closed')
})
