// The vocabulary of a step: what the technician is asked to do, to look at or to read, and what a finding says.

/**
 * A place that a probe can touch: `supply.plus` `supply.zero` `bus.plus` `bus.zero` `earth`, `B3.plus` `B3.zero`
 * (outgoing terminals, past the device), `B3/J1.plus` (a junction), `B3/W12.plus` (the near end of a run).
 */
export type Point = string

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
/** Two probes on the circuit, in volts or ohms. */
export type ProbeRead = { kind: 'read'; meter: 'volt' | 'ohm'; red: Point; black: Point }
export type Read = { kind: 'read'; meter: 'volt' | 'ohm'; red: Point; black: Point } | { kind: 'read'; meter: 'amp'; branch: string }

export type Step = { kind: 'act'; act: Act } | Look | Read | { kind: 'finding'; finding: Finding }

export type FaultKind =
  | 'short-to-zero'
  | 'short-to-earth'
  | 'load-short'
  | 'short'
  | 'overload'
  | 'in-rush'
  | 'open-plus'
  | 'open-zero'
  | 'poor-joint'
  | 'swapped'
  | 'diode'
  | 'intermittent'
  | 'backfeed'
  | 'device-open'
  | 'supply-low'
  | 'supply-dead'
  | 'no-mains'

/** Best value with the limits that hold it in 95 of 100. */
export interface Interval {
  readonly best: number
  readonly low: number
  readonly high: number
}

export interface Finding {
  readonly fault: FaultKind
  readonly branch?: string
  readonly run?: string
  readonly load?: string
  /** Metres along the wiring from the cabinet's terminals. */
  readonly fromTerminals?: Interval
  /** Metres from the run's own near end. */
  readonly alongRun?: Interval
  /** Ohm: the whole fault loop as seen from the terminals. */
  readonly loopOhm?: Interval
  /** Ohm: of it, the fault itself. */
  readonly faultOhm?: Interval
  readonly probability: number
}

export type SupplyLamp = 'steady' | 'blinking' | 'off'
export type MainsLamp = 'on' | 'off'
export type DeviceSeen = 'closed' | 'tripped' | 'open'

export type Symptom = 'all-dead' | 'all-low' | 'one-branch-dead' | 'one-load-dead' | 'trips-again' | 'dead-at-start' | 'comes-and-goes'

/** An answer to a step, as it enters the log. */
export type Answer =
  | { readonly done: true }
  | { readonly cannot: string }
  /** Proving dead found this voltage instead, in volt. */
  | { readonly volts: number; readonly ac?: boolean }
  /** A meter's display in V, A or Ω; `OL` is past the range. */
  | { readonly value: number | 'OL'; readonly unsteady?: boolean; readonly ac?: boolean }
  | { readonly seen: SupplyLamp | MainsLamp | DeviceSeen }
  | { readonly confirmed: boolean }
