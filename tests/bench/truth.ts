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
    }
  | { readonly kind: 'load-short'; readonly branch: string; readonly load: string; readonly ohm: number }
/** What is wrong with an invented machine. */
export type Fault =
  | Short
  | { readonly kind: 'open-plus' | 'open-zero'; readonly branch: string; readonly run: string; readonly at: number }
  | { readonly kind: 'poor-joint'; readonly branch: string; readonly run: string; readonly at: number; readonly ohm: number }
  | { readonly kind: 'device-open'; readonly branch: string; readonly seen: 'tripped' | 'open'; readonly behind?: Short }
  | { readonly kind: 'supply-dead' | 'no-mains' }
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
}

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
    devices: new Map(
      truth.machine.branches.map(b => [b.id, fault.kind === 'device-open' && fault.branch === b.id ? fault.seen : 'closed']),
    ),
  }
}
