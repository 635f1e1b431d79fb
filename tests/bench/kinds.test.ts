import { expect, test } from 'vitest'
import { live, ohmsBetween } from './circuit.ts'
import { invent } from './invent.ts'
import { judge } from './judge.ts'
import { KINDS, type Kind } from './kinds.ts'
import { foundState, type Truth } from './truth.ts'

const machines = (kind: Kind): Truth[] => [1, 2, 3, 4].map(seed => invent(seed, { fault: kind, branches: 5 }))

test.each(KINDS)('%s: the machine behaves as its symptom says (seeds 1 to 4)', kind => {
  for (const truth of machines(kind)) {
    const state = foundState(truth)
    const now = live(truth, state)
    if (truth.symptom === 'all-dead' || truth.symptom === 'all-low') expect(now.supply.limited).toBe(true)
    if (truth.symptom === 'trips-again') expect(state.devices.get(truth.tripped ?? '')).toBe('tripped')
    if (truth.symptom === 'one-load-dead' || truth.symptom === 'comes-and-goes') expect(state.devices.size).toBe(5)
    expect(truth.fault.kind).not.toBe('none')
  }
})

test('a diode that conducts shows under voltage only, a load with shorted turns to an ohmmeter too (seeds 1 to 4)', () => {
  const shift = (truth: Truth): number => {
    const branch = 'branch' in truth.fault ? truth.fault.branch : ''
    const dead = { ...foundState(truth), supply: 'off' as const, devices: new Map([[branch, 'open' as const]]) }
    const ohm = (fault: Truth['fault']): number => ohmsBetween(truth, { ...dead, fault }, `${branch}.plus`, `${branch}.zero`)
    return ohm(truth.fault) / ohm({ kind: 'none' })
  }
  for (const truth of machines('diode')) expect(shift(truth)).toBeCloseTo(1, 6)
  for (const truth of machines('overload at rest')) expect(shift(truth)).toBeLessThan(0.9)
})

test('a short circuit that is away draws nothing, and another supply keeps the bus up while the own one is off (seeds 1 to 4)', () => {
  for (const truth of machines('intermittent')) {
    expect(live(truth, foundState(truth)).shorts).toHaveLength(1)
    expect(live(truth, { ...foundState(truth), away: true }).shorts).toHaveLength(0)
  }
  for (const truth of machines('backfeed')) {
    const off = { ...foundState(truth), supply: 'off' as const }
    const volts = (s: typeof off): number => live(truth, s).solved.at('bus.plus') - live(truth, s).solved.at('bus.zero')
    expect(volts(off)).toBeGreaterThan(1)
    expect(Math.abs(volts({ ...off, otherOff: true }))).toBeLessThan(0.01)
  }
})

const volts = (truth: Truth, state: ReturnType<typeof foundState>, place: string): number => {
  const { at } = live(truth, state).solved
  return at(`${place}.plus`) - at(`${place}.zero`)
}

test('a second supply and a buffer keep the bus up with every device open, the buffer until it is empty (seeds 1 to 4)', () => {
  for (const [kind, gone] of [
    ['second supply', { otherOff: true }],
    ['buffer', { drained: true }],
  ] as const)
    for (const truth of machines(kind)) {
      const devices = new Map(truth.machine.branches.map(b => [b.id, 'open'] as const))
      const off = { ...foundState(truth), supply: 'off' as const, devices }
      expect(volts(truth, off, 'bus')).toBeGreaterThan(20)
      expect(Math.abs(volts(truth, { ...off, ...gone }, 'bus'))).toBeLessThan(0.01)
    }
})

test('an output that shuts itself off leaves its branch dead behind a device that looks closed, and is back without the short circuit (seeds 1 to 4)', () => {
  for (const truth of machines('output shuts off')) {
    const state = foundState(truth)
    const id = truth.shutsOff ?? ''
    expect([state.devices.get(id), live(truth, state).supply.limited]).toEqual(['closed', false])
    expect(Math.abs(volts(truth, state, id))).toBeLessThan(0.01)
    expect(volts(truth, { ...state, fault: { kind: 'none' } }, id)).toBeGreaterThan(20)
  }
})

test('a short circuit to earth draws from a floating supply through a screen only; 0 V shared in the field lets fewer ohms be read (seeds 1 to 4)', () => {
  const ohms = (truth: Truth): number => {
    const id = 'branch' in truth.fault ? truth.fault.branch : ''
    const devices = new Map(truth.machine.branches.map(b => [b.id, 'open'] as const))
    return ohmsBetween(truth, { ...foundState(truth), supply: 'off', devices }, `${id}.plus`, `${id}.zero`)
  }
  for (const truth of machines('screen')) {
    const { screen, ...without } = truth
    expect([truth.machine.supply.zeroVoltBonded, screen?.node.endsWith('.zero')]).toEqual([false, true])
    expect(ohms(truth)).toBeLessThan(12)
    expect(ohms(without)).toBeGreaterThan(1.5 * ohms(truth))
  }
  const fewer = machines('shared 0 V').map(truth => {
    const { sharedZero, ...without } = truth
    expect(sharedZero).toHaveLength(2)
    return ohms(without) - ohms(truth)
  })
  for (const ohm of fewer) expect(ohm).toBeGreaterThanOrEqual(-1e-9)
  expect(Math.max(...fewer)).toBeGreaterThan(0.01)
})

test('who looks at a load for one of its faults sees the others; who adds up the loads sees what is too much at once', () => {
  const [diode] = machines('diode')
  if (diode === undefined || !('load' in diode.fault)) throw new Error('a diode sits in a load')
  const { branch, load } = diode.fault
  const right = (fault: 'swapped' | 'overload', at: object): boolean =>
    judge(diode.machine, diode.fault, { fault, probability: 1, ...at }, true).right
  expect(right('swapped', { branch, load })).toBe(true)
  expect(right('swapped', { branch, load: 'another' })).toBe(false)
  expect(judge(diode.machine, { kind: 'in-rush', share: 0.7 }, { fault: 'overload', probability: 1 }, true).found).toBe(true)
  expect(judge(diode.machine, { kind: 'in-rush', share: 0.7 }, { fault: 'overload', branch, probability: 1 }, true).found).toBe(false)
})
