// Back under voltage for a reading, and where an act leaves every switch and plug.
import { expect, test } from 'vitest'
import { after, asFound, type Positions } from '../../engine/positions.ts'
import type { Step } from '../../engine/step.ts'
import { toLive } from '../../engine/way.ts'
import { bond, bus, device, inject, load, proveDead, run, supply, zeroLeads } from '../bench/scripted.ts'

const found = asFound(['B1', 'B2'])
const off: Positions = { ...found, supply: 'off' }
const liveFrom = (positions: Positions, power: 'live' | 'off' | 'provedDead' = 'provedDead') =>
  toLive({ positions, power, zeroed: false }, found)

test('with the supply on and nothing fed there is nothing to do', () => {
  expect(liveFrom(found, 'live')).toEqual([])
})

test('what was opened or unplugged goes back first, in a dead circuit, the supply comes last', () => {
  const moved: Positions = { ...off, unplugged: ['B1/K1'], devices: { B1: 'open', B2: 'closed' } }
  expect(liveFrom(moved)).toEqual([load('B1', 'K1', 'plugged'), device('B1', 'closed'), supply('on')])
  expect(liveFrom(moved, 'off')).toEqual([proveDead, load('B1', 'K1', 'plugged'), device('B1', 'closed'), supply('on')])
  expect(liveFrom({ ...off, devices: { B1: 'open', B2: 'open' } }, 'off')).toEqual([
    device('B1', 'closed'),
    device('B2', 'closed'),
    supply('on'),
  ])
})

test('a device that has opened by itself is not closed on what opened it, another one is', () => {
  expect(liveFrom({ ...off, devices: { B1: 'tripped', B2: 'open' } })).toEqual([device('B2', 'closed'), supply('on')])
})

test('what feeds a branch goes off first, and dead is proved before the supply comes on', () => {
  const injector = { branch: 'B1', into: 'zero' } as const
  const stop: Step = { kind: 'act', act: { act: 'inject', branch: 'B1', to: 'off' } }
  expect(liveFrom({ ...off, devices: { B1: 'open', B2: 'closed' }, injector }, 'live')).toEqual([
    stop,
    proveDead,
    device('B1', 'closed'),
    supply('on'),
  ])
  // On as well, in a state that no rule lets arise: all the same.
  expect(liveFrom({ ...found, injector }, 'live')).toEqual([supply('off'), stop, proveDead, supply('on')])
})

test.each<[Step, Partial<Positions>]>([
  [supply('off'), { supply: 'off' }],
  [device('B1', 'open'), { devices: { B1: 'open', B2: 'closed' } }],
  [load('B1', 'K1', 'unplugged'), { unplugged: ['B1/K1'] }],
  [run('B2', 'W2', 'opened'), { openedRuns: ['B2/W2'] }],
  [bus('opened'), { bus: 'opened' }],
  [bond('opened'), { bond: 'opened' }],
  [inject('B1', 'on'), { injector: { branch: 'B1', into: 'zero' } }],
  [{ kind: 'act', act: { act: 'inject', branch: 'B1', to: 'on', into: 'earth' } }, { injector: { branch: 'B1', into: 'earth' } }],
  [{ kind: 'act', act: { act: 'inject', branch: 'B2', to: 'on' } }, { injector: { branch: 'B2', into: 'zero' } }],
  [proveDead, {}],
  [zeroLeads, {}],
])('%j moves what it says and nothing else', (step, moved) => {
  if (step.kind !== 'act') throw new Error('not an act')
  expect(found).toEqual({
    supply: 'on',
    bus: 'joined',
    bond: 'joined',
    devices: { B1: 'closed', B2: 'closed' },
    unplugged: [],
    openedRuns: [],
  })
  expect(after(found, step.act)).toEqual({ ...found, ...moved })
})

test('undone, it stands as before; done twice, it is done once; what was done beside it stays', () => {
  const both = [load('B1', 'K1', 'unplugged'), load('B1', 'K1', 'unplugged'), load('B1', 'K2', 'unplugged'), run('B2', 'W2', 'opened')]
  const walk = (steps: readonly Step[], from = found) => steps.reduce((p, s) => (s.kind === 'act' ? after(p, s.act) : p), from)
  const moved = walk([...both, run('B2', 'W3', 'opened')])
  expect(moved).toEqual({ ...found, unplugged: ['B1/K1', 'B1/K2'], openedRuns: ['B2/W2', 'B2/W3'] })
  expect(walk([load('B1', 'K1', 'plugged'), run('B2', 'W2', 'joined')], moved)).toEqual({
    ...found,
    unplugged: ['B1/K2'],
    openedRuns: ['B2/W3'],
  })
  expect('injector' in walk([inject('B1', 'on'), inject('B1', 'off')])).toBe(false)
})
