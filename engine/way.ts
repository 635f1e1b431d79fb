// Which acts lead from the state the machine is in to the state that a step needs, in an order that is safe.
import type { Positions } from './positions.ts'
import type { Act, Step } from './step.ts'

export type Power = 'live' | 'off' | 'provedDead'
export interface State {
  readonly positions: Positions
  readonly power: Power
  readonly zeroed: boolean
}

const act = (a: Act): Step => ({ kind: 'act', act: a })

/** Supply off, injector off, proved dead: what comes before ohms, before plugs and terminals are touched, and before a mend. */
export const toDead = ({ positions: p, power }: State): Step[] => {
  if (power === 'provedDead') return []
  const way: Step[] = []
  if (p.supply === 'on') way.push(act({ act: 'supply', to: 'off' }))
  if (p.injector !== undefined) way.push(act({ act: 'inject', branch: p.injector.branch, to: 'off' }))
  return [...way, act({ act: 'prove-dead' })]
}

/** Dead, with these devices open: for a reading past them. */
export const toCutOff = (s: State, branches: readonly string[]): Step[] => [
  ...toDead(s),
  ...branches.filter(b => s.positions.devices[b] === 'closed').map(branch => act({ act: 'device', branch, to: 'open' })),
]

/** The injector feeding a branch past its open device. */
export const toInjected = (s: State, branch: string, into: 'zero' | 'earth'): Step[] =>
  s.positions.injector?.branch === branch && s.positions.injector.into === into
    ? []
    : [...toCutOff(s, [branch]), act({ act: 'inject', branch, to: 'on', into })]

/** Everything back as it was found, dead all the way: runs and plugs first, devices last; then the supply may be switched on. */
export const toRestored = (s: State, asFound: Positions): Step[] => {
  const p = s.positions
  const split = (key: string): [string, string] => {
    const at = key.indexOf('/')
    return [key.slice(0, at), key.slice(at + 1)]
  }
  const way: Step[] = []
  for (const key of p.openedRuns) {
    const [branch, run] = split(key)
    way.push(act({ act: 'run', branch, run, to: 'joined' }))
  }
  for (const key of p.unplugged) {
    const [branch, load] = split(key)
    way.push(act({ act: 'load', branch, load, to: 'plugged' }))
  }
  if (p.bus === 'opened') way.push(act({ act: 'bus', to: 'joined' }))
  if (p.bond === 'opened') way.push(act({ act: 'bond', to: 'joined' }))
  const before = way.length > 0 || p.injector !== undefined || p.supply === 'on' ? toDead(s) : []
  const devices = Object.keys(p.devices).filter(b => p.devices[b] !== 'closed' && asFound.devices[b] === 'closed')
  return [...before, ...way, ...devices.map(branch => act({ act: 'device', branch, to: 'closed' }))]
}

const closesTripped = ({ positions }: State, step: Step): boolean =>
  step.kind === 'act' && step.act.act === 'device' && step.act.to === 'closed' && positions.devices[step.act.branch] === 'tripped'

/** Everything as it was found, and the supply on: for readings under voltage. A device that has opened by itself stays open. */
export const toLive = (s: State, asFound: Positions): Step[] =>
  s.positions.supply === 'on' && s.positions.injector === undefined
    ? []
    : [...toRestored(s, asFound).filter(x => !closesTripped(s, x)), act({ act: 'supply', to: 'on' })]

/** A step by which it can be told again, whatever it was asked for. */
export const keyOf = (step: Step): string =>
  JSON.stringify(step.kind === 'finding' ? { ...step, finding: { ...step.finding, probability: 0, loopOhm: 0, faultOhm: 0 } } : step)

/** A step under voltage, with the devices that are closed then: what it tells, it tells of those alone. */
export const liveKeyOf = (step: Step, { devices }: Positions): string =>
  JSON.stringify({ ...step, closed: Object.keys(devices).filter(b => devices[b] === 'closed') })
