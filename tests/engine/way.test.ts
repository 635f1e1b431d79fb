import { describe, expect, test } from 'vitest'
import { after, asFound, type Positions } from '../../engine/positions.ts'
import type { Act, Step } from '../../engine/step.ts'
import { keyOf, type Power, type State, toCutOff, toDead, toInjected, toRestored } from '../../engine/way.ts'
import { chance } from '../bench/random.ts'

const IDS = ['B1', 'B2', 'B3']
const FOUND = asFound(IDS)
const state = (more: Partial<Positions> = {}, power: Power = 'live'): State => ({ positions: { ...FOUND, ...more }, power, zeroed: false })
const off = (more: Partial<Positions> = {}, power: Power = 'provedDead'): State => state({ supply: 'off', ...more }, power)
const acts = (steps: readonly Step[]): Act[] =>
  steps.map(step => {
    if (step.kind !== 'act') throw new Error(`not an act: ${JSON.stringify(step)}`)
    return step.act
  })
const names = (steps: readonly Step[]): string[] =>
  acts(steps).map(a => [a.act, 'branch' in a ? a.branch : '', 'to' in a ? a.to : ''].filter(x => x !== '').join(' '))
const device = (branch: string, to: 'open' | 'closed'): Positions['devices'] => ({ ...FOUND.devices, [branch]: to })
const fed = { supply: 'off', devices: device('B2', 'open'), injector: { branch: 'B2', into: 'zero' } } as const

describe('to a dead machine', () => {
  test('from live: off, then proved', () => expect(names(toDead(state()))).toEqual(['supply off', 'prove-dead']))
  test('off but not proved', () => expect(names(toDead(off({}, 'off')))).toEqual(['prove-dead']))
  test('proved: nothing left to do', () => expect(toDead(off())).toEqual([]))
  test('the injector first', () => expect(names(toDead(state(fed)))).toEqual(['inject B2 off', 'prove-dead']))
  test('supply, injector, proof, where both feed', () => {
    expect(names(toDead(state({ ...fed, supply: 'on' })))).toEqual(['supply off', 'inject B2 off', 'prove-dead'])
  })
})

describe('to a branch cut off', () => {
  test('dead before any device is touched', () => {
    expect(names(toCutOff(state(), ['B1', 'B3']))).toEqual(['supply off', 'prove-dead', 'device B1 open', 'device B3 open'])
  })
  test('an open or tripped device is not opened again', () => {
    const devices = { B1: 'open', B2: 'tripped', B3: 'closed' } as const
    expect(names(toCutOff(off({ devices }), IDS))).toEqual(['device B3 open'])
  })
})

describe('to a branch that is fed', () => {
  test('past its open device only', () => {
    const steps = toInjected(state(), 'B2', 'zero')
    expect(names(steps)).toEqual(['supply off', 'prove-dead', 'device B2 open', 'inject B2 on'])
    expect(acts(steps).at(-1)).toEqual({ act: 'inject', branch: 'B2', to: 'on', into: 'zero' })
  })
  test('where it feeds already there is nothing to do', () => expect(toInjected(state(fed), 'B2', 'zero')).toEqual([]))
  test('another return, or another branch: off and proved in between', () => {
    expect(names(toInjected(state(fed), 'B2', 'earth'))).toEqual(['inject B2 off', 'prove-dead', 'inject B2 on'])
    expect(names(toInjected(state(fed), 'B3', 'zero'))).toEqual(['inject B2 off', 'prove-dead', 'device B3 open', 'inject B3 on'])
  })
})

describe('to the machine as it was found', () => {
  test('runs and plugs, then bus and bond, then devices; the supply stays off', () => {
    const moved = { unplugged: ['B1/K1'], openedRuns: ['B2/W2'], bus: 'opened', bond: 'opened', devices: device('B1', 'open') } as const
    const way = toRestored(off(moved), FOUND)
    expect(names(way)).toEqual(['run B2 joined', 'load B1 plugged', 'bus joined', 'bond joined', 'device B1 closed'])
    expect(acts(way)[0]).toEqual({ act: 'run', branch: 'B2', run: 'W2', to: 'joined' })
    expect(acts(way)[1]).toEqual({ act: 'load', branch: 'B1', load: 'K1', to: 'plugged' })
  })
  test('an id with a slash in it keeps what follows the branch', () => {
    expect(acts(toRestored(off({ unplugged: ['B1/K1/2'] }), FOUND))[0]).toMatchObject({ branch: 'B1', load: 'K1/2' })
  })
  test('dead before anything is touched', () => {
    expect(names(toRestored(state({ unplugged: ['B1/K1'] }), FOUND)).slice(0, 2)).toEqual(['supply off', 'prove-dead'])
    expect(names(toRestored(state(fed), FOUND))).toEqual(['inject B2 off', 'prove-dead', 'device B2 closed'])
  })
  test('a device that was open when found stays open', () => {
    const found = { ...FOUND, devices: device('B1', 'open') }
    expect(names(toRestored(off({ devices: { B1: 'open', B2: 'open', B3: 'tripped' } }), found))).toEqual([
      'device B2 closed',
      'device B3 closed',
    ])
  })
  test('as found and dead: nothing to do', () => expect(toRestored(off(), FOUND)).toEqual([]))
})

test('from 500 random states every way is safe and ends where it should', () => {
  const own = chance(2)
  for (let i = 0; i < 500; i++) {
    const injecting = own.yes(0.3)
    const positions: Positions = {
      supply: injecting || own.yes(0.6) ? 'off' : 'on',
      bus: own.yes(0.2) ? 'opened' : 'joined',
      bond: own.yes(0.2) ? 'opened' : 'joined',
      devices: Object.fromEntries(
        IDS.map(id => [id, injecting && id === 'B2' ? 'open' : own.pick(['closed', 'open', 'tripped'] as const)]),
      ),
      unplugged: own.yes(0.4) ? ['B1/K1', 'B3/K3'] : [],
      openedRuns: own.yes(0.4) ? ['B2/W2'] : [],
      ...(injecting ? { injector: { branch: 'B2', into: 'zero' } } : {}),
    }
    const power = positions.supply === 'on' || injecting ? 'live' : own.pick(['off', 'provedDead'] as const)
    const start: State = { positions, power, zeroed: false }
    const ways = [toDead(start), toCutOff(start, ['B1', 'B2']), toInjected(start, 'B3', 'earth'), toRestored(start, FOUND)] as const
    const ends = ways.map(way => {
      let p = positions
      let proved = power === 'provedDead'
      for (const a of acts(way)) {
        if (a.act === 'prove-dead') {
          expect(p.supply === 'off' && p.injector === undefined, 'proved with everything off').toBe(true)
          proved = true
        }
        if (a.act === 'run' || a.act === 'load' || a.act === 'bus' || a.act === 'bond')
          expect(proved, `${i}: ${JSON.stringify(a)}`).toBe(true)
        if (a.act === 'supply') expect(a.to).toBe('off')
        if (a.act === 'inject' && a.to === 'on') {
          expect(p.devices[a.branch]).not.toBe('closed')
          proved = false
        }
        if (a.act === 'device' && a.to === 'closed') expect(p.supply === 'off' && p.injector?.branch !== a.branch).toBe(true)
        p = after(p, a)
      }
      return { p, proved }
    })
    const [atDead, cutOff, injected, restored] = ends
    expect(atDead?.proved && cutOff?.proved).toBe(true)
    expect(cutOff?.p.devices['B1']).not.toBe('closed')
    expect(injected?.p.injector).toEqual({ branch: 'B3', into: 'earth' })
    expect(restored?.p).toMatchObject({ bus: 'joined', bond: 'joined', unplugged: [], openedRuns: [], devices: FOUND.devices })
    expect(restored?.p.injector).toBeUndefined()
  }
})

test('a step is known again whatever its chance and its ohms, and not mixed up with another place', () => {
  const at = { best: 4, low: 2, high: 5 }
  const finding: Step = {
    kind: 'finding',
    finding: { fault: 'short', branch: 'B1', run: 'W1', alongRun: at, probability: 0.4, loopOhm: at },
  }
  const later: Step = { kind: 'finding', finding: { ...finding.finding, probability: 0.9, faultOhm: at, loopOhm: { ...at, best: 3 } } }
  const elsewhere: Step = { kind: 'finding', finding: { ...finding.finding, run: 'W2' } }
  expect(keyOf(later)).toBe(keyOf({ ...finding, finding: { ...finding.finding, faultOhm: at } }))
  expect(keyOf(elsewhere)).not.toBe(keyOf(finding))
  expect(keyOf({ kind: 'look', look: 'supply-lamp' })).not.toBe(keyOf({ kind: 'look', look: 'mains-lamp' }))
})
