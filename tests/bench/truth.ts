import type { Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'

/** A short circuit: two conductors of a run, plus to earth, or inside a load. `at` in metres from the run's near end. */
export type Short =
  | {
      readonly kind: 'short-to-zero' | 'short-to-earth'
      readonly branch: string
      readonly run: string
      readonly at: number
      readonly ohm: number
      /** Share of the time for which it is there, where it comes and goes as the cable moves. */
      readonly present?: number
    }
  | { readonly kind: 'load-short'; readonly branch: string; readonly load: string; readonly ohm: number }
/** What is wrong with an invented machine. */
export type Fault =
  | Short
  | { readonly kind: 'open-plus' | 'open-zero'; readonly branch: string; readonly run: string; readonly at: number }
  | { readonly kind: 'poor-joint'; readonly branch: string; readonly run: string; readonly at: number; readonly ohm: number }
  | { readonly kind: 'device-open'; readonly branch: string; readonly seen: 'tripped' | 'open'; readonly behind?: Short }
  | { readonly kind: 'supply-dead' | 'no-mains' }
  /** One load takes too much: Ω under voltage; `atRest`: an ohmmeter sees it too (turns shorted), or not (a rotor that is stuck). */
  | { readonly kind: 'overload'; readonly branch: string; readonly load: string; readonly ohm: number; readonly atRest: boolean }
  /** All loads together are too much for the supply, which gives this many A; a mend fits one that gives enough. */
  | { readonly kind: 'overload'; readonly limit: number }
  /** Switched on at once, more than this share of the machine's load holds the supply down. */
  | { readonly kind: 'in-rush'; readonly share: number }
  /** A load wired or fitted the wrong way round; `conducts`: its diode then shorts it, under voltage only. */
  | { readonly kind: 'swapped' | 'diode'; readonly branch: string; readonly load: string; readonly conducts: boolean }
  /** Another supply feeds a junction of this branch. */
  | { readonly kind: 'backfeed'; readonly branch: string; readonly junction: string }
  /** A second supply on the bus itself. */
  | { readonly kind: 'backfeed' }
  | { readonly kind: 'none' }

/** The short circuit of a fault, if it has one. */
export const shortOf = (fault: Fault): Short | undefined => {
  if (fault.kind === 'device-open') return fault.behind
  return fault.kind === 'short-to-zero' || fault.kind === 'short-to-earth' || fault.kind === 'load-short' ? fault : undefined
}

/** How one branch's device behaves. Opens at once from `instant` times its rating; thermally in `heat / (m² - hold²)` seconds. */
export interface DeviceTruth {
  readonly ohm: number
  readonly instant: number
  readonly hold: number
  readonly heat: number
  readonly warm: number
}

/** One range of a meter: gain and offset hold for the session (offset in counts), the last count is fresh. */
export interface RangeTruth {
  readonly gain: number
  readonly offset: number
}
export interface MeterTruth {
  readonly volt: readonly RangeTruth[]
  readonly ohm: readonly RangeTruth[]
  readonly clamp: RangeTruth
  readonly series: RangeTruth
  /** Ohm in the leads, and what is left of them after zeroing. */
  readonly leads: number
  readonly zeroed: number
}

/** All that the technician cannot see. */
export interface Truth {
  readonly machine: Machine
  readonly fault: Fault
  /** A second fault, in another branch. */
  readonly second?: Fault
  /** Branch whose device has opened by itself on it. */
  readonly tripped?: string
  readonly symptom: Symptom
  /** Share of the maximum resistance that each run really has, by run id. */
  readonly scale: Readonly<Record<string, number>>
  readonly celsius: number
  readonly earthOhm: number
  readonly electronicOhm: number
  /** Share of 24²/watts that a lamp or motor at rest shows to a small current. */
  readonly coldShare: number
  readonly devices: Readonly<Record<string, DeviceTruth>>
  readonly supply: { readonly volts: number; readonly limit: number; readonly mode: 'constant-current' | 'hiccup' | 'latch-off' }
  /** What no drawing tells: 0 V of two branches joined in the field; a cable screen that earths 0 V there, by node, Ω. */
  readonly sharedZero?: readonly [string, string]
  readonly screen?: { readonly node: string; readonly ohm: number }
  /** Seconds that a buffer on the bus feeds it once the supply is off. */
  readonly buffer?: number
  /** Branch whose electronic output shuts itself off while there is a short circuit behind it, and looks closed all the time. */
  readonly shutsOff?: string
  /** What the supply's lamp shows while a constant current holds its voltage down. */
  readonly lampUnderLimit: 'steady' | 'off' | 'blinking'
  readonly injectorAmpere: number
  readonly meter: MeterTruth
  /** Seeds the technician's own chance: fresh counts, pulses. */
  readonly seed: number
}

/** The positions that acts change. Keys of `unplugged`: branch/load; of `opened`: run id. */
export interface State {
  supply: 'on' | 'off'
  /** A latch-off supply that has seen an overload since its mains came on. */
  latched: boolean
  bus: 'joined' | 'opened'
  bond: 'joined' | 'opened'
  readonly devices: Map<string, 'closed' | 'open' | 'tripped'>
  readonly unplugged: Set<string>
  readonly opened: Set<string>
  injector?: { readonly branch: string; readonly into: 'zero' | 'earth' }
  fault: Fault
  second?: Fault
  /** A short circuit that comes and goes is not there now. */
  away?: boolean
  /** What was switched on at once holds the supply down. */
  rush?: boolean
  /** What the buffer held is gone. */
  drained?: boolean
  /** The other supply that fed a branch was found, switched off and secured. */
  otherOff?: boolean
}

/** All that is wrong now. */
export const faultsOf = (state: State): readonly Fault[] => [state.fault, ...(state.second === undefined ? [] : [state.second])]
/** The short circuits that are there now. */
export const shortsOf = (state: State): readonly Short[] =>
  faultsOf(state).flatMap(fault => {
    const short = shortOf(fault)
    return short === undefined || ('present' in short && state.away === true) ? [] : [short]
  })

/** As the technician finds it: mains on, everything joined. */
export const foundState = (truth: Truth): State => {
  const { fault } = truth
  return {
    supply: 'on',
    latched: false,
    bus: 'joined',
    bond: 'joined',
    unplugged: new Set(),
    opened: new Set(),
    fault,
    ...(truth.second === undefined ? {} : { second: truth.second }),
    devices: new Map(
      truth.machine.branches.map(b => [
        b.id,
        fault.kind === 'device-open' && fault.branch === b.id ? fault.seen : truth.tripped === b.id ? 'tripped' : 'closed',
      ]),
    ),
  }
}
