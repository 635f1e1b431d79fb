// A step in words: its title, how to do it, and the places a probe can touch. English.

export type Act =
  | { act: 'supply'; to: 'on' | 'off' }
  | { act: 'prove-dead' }
  | { act: 'zero-leads' }
  | { act: 'device'; branch: string; to: 'open' | 'closed' }
  | { act: 'load'; branch: string; load: string; to: 'unplugged' | 'plugged' }
  | { act: 'run'; branch: string; run: string; to: 'opened' | 'joined' }
  | { act: 'bus'; to: 'opened' | 'joined' }
  | { act: 'bond'; to: 'opened' | 'joined' }
  | { act: 'inject'; branch: string; to: 'on' | 'off'; into?: 'zero' | 'earth' }
export type Look = { kind: 'look'; look: 'supply-lamp' | 'mains-lamp' } | { kind: 'look'; look: 'device'; branch: string }
export type Read = { kind: 'read'; meter: 'volt' | 'ohm'; red: string; black: string } | { kind: 'read'; meter: 'amp'; branch: string }
export type Step = { kind: 'act'; act: Act } | Look | Read

/** What the machine file says of the things a step names. All may be missing. */
export interface Names {
  readonly device?: 'breaker' | 'fuse' | 'electronic' | 'none'
  /** The load's own name, or its id. */
  readonly load?: string
  /** The junction at a run's near end; 'terminals' for the cabinet's. */
  readonly near?: string
  readonly runs?: readonly string[]
  /** Amperes are read with the meter in series, not with a clamp. */
  readonly series?: boolean
}

const parts = (point: string) => {
  const dot = point.lastIndexOf('.')
  const [place = '', side = ''] = dot < 0 ? [point] : [point.slice(0, dot), point.slice(dot + 1)]
  const [branch = '', node] = place.split('/')
  return { place, side, branch, node }
}
const nearWords = (near: string | undefined) =>
  near === undefined ? '' : near === 'terminals' ? ' at the cabinet' : ` at junction ${near}`

/** 'B3.plus' in words: 'branch B3, outgoing + terminal'. */
export const pointWords = (point: string, runs: readonly string[] = []): string => {
  const { place, side, branch, node } = parts(point)
  const plus = side === 'plus'
  if (place === 'earth') return 'the earth terminal'
  if (place === 'supply') return plus ? 'the supply, + terminal' : 'the supply, 0 V terminal'
  if (place === 'bus') return plus ? 'the 24 V bus' : 'the 0 V bus'
  if (node === undefined) return `branch ${branch}, outgoing ${plus ? '+' : '0 V'} terminal`
  return runs.includes(node) ? `run ${node}, near end, ${plus ? '24 V' : '0 V'} core` : `junction ${node}, ${plus ? '24 V' : '0 V'}`
}
/** The same in a few signs, for the line above the keypad: 'B3 +'. */
export const pointShort = (point: string): string => {
  const { place, side, node } = parts(point)
  return place === 'earth' ? 'earth' : `${node ?? place} ${side === 'plus' ? '+' : '0 V'}`
}

const units = { volt: 'volts', ohm: 'ohms', amp: 'amperes' }
const readTitle = (read: Read, names: Names): string => {
  if (read.meter === 'amp') return `Read amperes in branch ${read.branch}`
  const red = parts(read.red)
  const black = parts(read.black)
  const runs = names.runs ?? []
  if (red.place !== black.place) return `Read ${units[read.meter]} from ${pointWords(read.red, runs)} to ${pointWords(read.black, runs)}`
  if (red.place === 'supply') return `Read ${units[read.meter]} at the supply terminals`
  if (red.place === 'bus') return `Read ${units[read.meter]} at the bus`
  if (red.node === undefined) return `Read ${units[read.meter]} at branch ${red.branch}, outgoing terminals`
  if (runs.includes(red.node)) return `Read ${units[read.meter]} into run ${red.node} at its near end${nearWords(names.near)}`
  return `Read ${units[read.meter]} at junction ${red.node} of branch ${red.branch}`
}

const actTitle = (act: Act, names: Names): string => {
  const on = 'to' in act && ['on', 'closed', 'plugged', 'joined'].includes(act.to)
  switch (act.act) {
    case 'supply':
      return on ? 'Switch the 24 V supply on' : 'Switch the 24 V supply off and lock it'
    case 'prove-dead':
      return 'Prove the circuit dead'
    case 'zero-leads':
      return 'Hold the tips together and zero the meter'
    case 'device':
      if (names.device === 'fuse') return `${on ? 'Fit' : 'Pull'} the fuse of branch ${act.branch}`
      return `${on ? 'Close' : 'Open'} the ${names.device === 'breaker' ? 'breaker' : 'device'} of branch ${act.branch}`
    case 'load':
      return `${on ? 'Plug in' : 'Unplug'} ${names.load ?? act.load} in branch ${act.branch}`
    case 'run':
      return `${on ? 'Join' : 'Open'} run ${act.run} of branch ${act.branch}${nearWords(names.near)}`
    case 'bus':
      return on ? 'Join the supply’s output lead to the bus again' : 'Open the supply’s output lead to the bus'
    case 'bond':
      return on ? 'Join the link from 0 V to earth again' : 'Open the link from 0 V to earth'
    case 'inject':
      return on ? `Connect the current source to branch ${act.branch}` : `Disconnect the current source from branch ${act.branch}`
  }
}

/** The instruction, verb first, at most 20 words. */
export const stepTitle = (step: Step, names: Names = {}): string => {
  if (step.kind === 'act') return actTitle(step.act, names)
  if (step.kind === 'read') return readTitle(step, names)
  if (step.look === 'device')
    return `Look at the ${names.device === 'fuse' || names.device === 'breaker' ? names.device : 'device'} of branch ${step.branch}`
  return step.look === 'supply-lamp' ? 'Look at the supply’s lamp' : 'Look whether the supply has mains'
}

const actHow = (act: Act, names: Names): string => {
  const on = 'to' in act && ['on', 'closed', 'plugged', 'joined'].includes(act.to)
  switch (act.act) {
    case 'supply':
      return on
        ? 'Take the lock off. Use the machine’s own switch or breaker. Only for whoever is authorised there.'
        : 'Use the machine’s own switch or breaker. Only for whoever is authorised there. Lock it, keep the key.'
    case 'prove-dead':
      return 'Meter on V: test it on a battery. Read 1, 2 and 3, d.c. and a.c. Test it again.'
    case 'zero-leads':
      return 'Dial on Ω. Tips hard together. Press the meter’s zero key. Wait until it stands.'
    case 'device':
      if (names.device === 'fuse')
        return on ? 'Fit it once, same size and kind. If it blows again, leave it out.' : 'Pull it without load. Keep it at hand.'
      return on
        ? 'Close it once. If it opens again, leave it open.'
        : `${names.device === 'breaker' ? 'Switch it off.' : 'Switch the breaker off, or pull the fuse.'} Leave the others as they are.`
    case 'load':
      return on ? 'Plug it in where it was.' : 'Pull the plug straight. Keep it out of wet and dirt.'
    case 'run':
      return on
        ? 'Join both conductors as they were. Pull at each to test it.'
        : 'Take off both conductors, + and 0 V. Mark them. Keep the ends apart.'
    case 'bus':
      return on ? 'Tighten it and pull at it.' : 'Take the + lead off at the supply. Cover its end.'
    case 'bond':
      return on ? 'Tighten it and pull at it.' : 'Take the link off at 0 V. Nothing is energised while it is off.'
    case 'inject':
      if (!on) return 'Switch the source off first, then take its leads off.'
      return `Device open. Plus on ${act.branch} +, return on ${act.into === 'earth' ? 'earth' : `${act.branch} 0 V`}. Take it off after the readings.`
  }
}

/** The step in detail: where the probes, the dial and the leads go. */
export const stepHow = (step: Step, names: Names = {}): string => {
  if (step.kind === 'act') return actHow(step.act, names)
  if (step.kind === 'look') return step.look === 'device' ? 'Look only. Do not switch it.' : 'Look only. Covers stay shut.'
  if (step.meter === 'amp')
    return names.series
      ? 'Meter in series with the source, leads in A and COM. Afterwards the red lead goes back to VΩ.'
      : 'Zero the clamp. Clamp round the + conductor alone, arrow away from the supply.'
  const runs = names.runs ?? []
  return `Red on ${pointWords(step.red, runs)}. Black on ${pointWords(step.black, runs)}. ${readWait(step)}`
}
const readWait = (read: Read): string => (read.meter === 'ohm' ? 'Wait until the display stands.' : 'Dial on V, direct current.')

/** What stands under the drawing of a step: where the drawing and the title say where the probes go, only the rest. */
export const stepUnder = (step: Step, names: Names = {}): string =>
  step.kind === 'read' && step.meter !== 'amp' ? readWait(step) : stepHow(step, names)

/** What is true once the act is done: the button's words, short enough for one line. */
export const actDone = (act: Act, names: Names = {}): string => {
  switch (act.act) {
    case 'supply':
      return act.to === 'on' ? 'Supply is on' : 'Supply is off and locked'
    case 'prove-dead':
      return 'Dead on all three'
    case 'zero-leads':
      return 'Zeroed, it shows 0'
    case 'device':
      if (names.device === 'fuse') return `Fuse ${act.branch} is ${act.to === 'open' ? 'out' : 'in'}`
      return `${names.device === 'breaker' ? 'Breaker' : 'Device'} ${act.branch} is ${act.to}`
    case 'load':
      return `It is ${act.to === 'plugged' ? 'plugged in' : 'unplugged'}`
    case 'run':
      return `Run ${act.run} is ${act.to === 'joined' ? 'joined' : 'open'}`
    case 'bus':
      return `Output lead is ${act.to === 'joined' ? 'joined' : 'open'}`
    case 'bond':
      return `Earth link is ${act.to === 'joined' ? 'joined' : 'open'}`
    case 'inject':
      return act.to === 'on' ? `Source feeds ${act.branch}` : 'Source is off and away'
  }
}
