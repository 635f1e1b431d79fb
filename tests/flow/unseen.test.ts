// What is looked at once lamp and voltage are right: each device that may have opened by itself on a second short circuit.
import { expect, test } from 'vitest'
import type { Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { begin } from '../../web/flow/session.ts'
import { inProcess } from '../bench/inprocess.ts'
import { invent } from '../bench/invent.ts'
import { play } from '../bench/play.ts'
import { answer, smoothly } from './answers.ts'
import { METER, three } from './machines.ts'

const isEnd = (r: Request): boolean => r.say === 'end'
const isVolt = (r: Request): boolean => r.say === 'step' && r.step.kind === 'read' && r.step.meter === 'volt'
const isGlance = (r: Request): boolean => r.say === 'step' && r.step.kind === 'look' && r.step.look === 'device'
const start = (machine: Machine, symptom: Symptom = 'all-dead'): Session => begin({ type: 'started', machine, kit: METER, symptom })
/** The first request after the voltage that proves the mend. */
const proved = (machine: Machine, symptom?: Symptom): Session => {
  const on = smoothly(start(machine, symptom), (r, s) => s.finding !== undefined && isVolt(r))
  return answer(on, { value: 24 })
}
/** Devices that are looked at after the mend. */
const lookedAt = (end: Session): string[] => {
  const mended = end.entries.findLastIndex(e => e.request.say === 'mend')
  return end.entries
    .slice(mended)
    .flatMap(({ request: r }) =>
      r.say === 'step' && r.step.kind === 'look' && r.step.look === 'device' && isGlance(r) ? [r.step.branch] : [],
    )
}
const limited = (current: number): Machine => ({ ...three, supply: { ...three.supply, limit: { mode: 'constant-current', current } } })

// Each was called restored while the second device stood open, before these looks were asked for.
test.each([2, 11])('seed %i: a second short circuit whose device has opened unseen is found too', async seed => {
  const truth = invent(seed, { second: 1, branches: 4 })
  const played = await play(truth, inProcess(truth.machine, METER), truth.machine, METER)
  expect(truth.second).toBeDefined()
  expect(played).toMatchObject({ result: 'restored', restored: true, unsafe: [] })
})

test('every other branch is looked at that no ohms have cleared, and only then is it restored', () => {
  const at = proved(three)
  expect(isGlance(at.request)).toBe(true)
  const end = smoothly(at, isEnd)
  expect(end.request).toMatchObject({ result: 'restored' })
  const mended = end.finding?.branch
  expect(lookedAt(end).length).toBeGreaterThan(0)
  expect(lookedAt(end)).not.toContain(mended)
  // What was read clean past its open device needs no look.
  const clean = end.entries.flatMap(({ request: r, answer: a }) =>
    r.say === 'step' && r.step.kind === 'read' && r.step.meter === 'ohm' && 'value' in a && a.value !== 0.8 ? [r.step.red.slice(0, 2)] : [],
  )
  for (const branch of lookedAt(end)) expect(clean).not.toContain(branch)
})

test('a device seen open there starts the hunt again', () => {
  const at = answer(proved(three), { seen: 'tripped' })
  expect(at.finding).toBeUndefined()
  expect(at.request.say).not.toBe('end')
})

test('a device that cannot be looked at is told by the voltage past it', () => {
  const glance = proved(three)
  const branch =
    glance.request.say === 'step' && glance.request.step.kind === 'look' && 'branch' in glance.request.step
      ? glance.request.step.branch
      : ''
  const at = answer(glance, { cannot: 'behind a cover' })
  expect(at.request).toMatchObject({ step: { kind: 'read', meter: 'volt', red: `${branch}.plus` } })
  const end = smoothly(at, isEnd)
  expect(end.request).toMatchObject({ result: 'restored' })
  expect(lookedAt(end).filter(b => b === branch)).toHaveLength(1)
  expect(answer(at, { value: 0 }).finding).toBeUndefined()
})

test('no look is asked for where no device can open on what the supply gives, nor where all others were seen to run', () => {
  // 2 A, and 6 A breakers and 4 A fuses: a short circuit would hold the supply down, and lamp and voltage would show it.
  expect(lookedAt(smoothly(start(limited(2)), isEnd))).toEqual([])
  expect(lookedAt(smoothly(start(limited(20)), isEnd))).not.toEqual([])
  expect(lookedAt(smoothly(start(limited(20), 'one-branch-dead'), isEnd))).toEqual([])
})
