// What sentences speak of. Told anew here, since words know neither engine nor flow; the tests keep them alike.

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

export interface Interval {
  readonly best: number
  readonly low: number
  readonly high: number
}
export interface Finding {
  readonly fault: string
  readonly branch?: string
  readonly run?: string
  readonly load?: string
  readonly fromTerminals?: Interval
  readonly alongRun?: Interval
  /** Of 1. */
  readonly probability?: number
}
/** What the machine file adds: the load's name, the junction at the run's near end (or at the load), whether the run moves. */
export interface Place {
  readonly load?: string
  readonly near?: string
  readonly moving?: boolean
}
export interface Mend {
  readonly title: string
  readonly points: readonly string[]
  readonly done: string
}
/** A branch as the terminal strip shows it. */
export interface Cell {
  readonly id: string
  readonly p: number
  readonly unlikely: boolean
  readonly device: string
}
export type Facts = Readonly<Record<string, string | number>>

/** A list to choose from, by the ids of its terms. */
export interface Terms {
  readonly name: string
  /** What the word means, told where it is asked for. */
  readonly meaning: string
  readonly source: string
  readonly terms: Readonly<Record<string, string>>
}
