import type { Kit, Machine } from '../../engine/machine.ts'
import type { Positions } from '../../engine/positions.ts'
import type { FromLog, Known } from '../../engine/prior.ts'
import type { Answer, Finding, Step, Symptom } from '../../engine/step.ts'
import type { Suspect } from '../../engine/suspects.ts'

export type { Positions }

/** Where the procedure stands: what a person would draw. */
export type Stage =
  | 'briefing'
  | 'checkingSupply'
  | 'narrowing'
  | 'provingDead'
  | 'locating'
  | 'mending'
  | 'checking'
  | 'restoring'
  | 'closing'
  | 'ended'
/** What may be assumed of the 24 V circuit. `off` is not yet proved. */
export type Power = 'live' | 'off' | 'provedDead'
export type Result = 'restored' | 'handed-over' | 'stopped'

/** A caution's id; its words stand in content. */
export type CautionId =
  | 'before-work'
  | 'voltage-may-return'
  | 'injection'
  | 'switch-on-again'
  | 'opening-live-device'
  | 'not-extra-low-voltage'
  | 'voltage-stays'
  | 'mains-side'

/** A reason made of facts: a phrase's key and the figures it needs. Content makes the sentence. */
export interface Why {
  readonly key: string
  readonly facts: Readonly<Record<string, string | number>>
}

export interface BranchBelief {
  readonly branch: string
  readonly p: number
}

/** What the procedure asks for now. `n` counts requests from 1; `seconds` is what the step costs by `engine/cost.ts`. */
export type Request =
  | { readonly say: 'step'; readonly n: number; readonly seconds: number; readonly step: Step; readonly why: Why }
  | { readonly say: 'confirm'; readonly n: number; readonly caution: CautionId; readonly acts: readonly Step[] }
  | { readonly say: 'mend'; readonly n: number; readonly finding: Finding }
  | { readonly say: 'end'; readonly n: number; readonly result: Result; readonly seconds: number; readonly caution?: CautionId }

/**
 * What was asked, as it stands in the log beside its answer. A later version may ask otherwise in the same place: the answer still
 * belongs to the question that the technician saw.
 */
export type Asked =
  | Step
  | { readonly kind: 'confirm'; readonly caution: CautionId; readonly acts: readonly Step[] }
  | { readonly kind: 'mend'; readonly finding: Finding }

/** What was found, as it stood when the technician confirmed it: a later version may ask, and name, otherwise. */
export type Found = Pick<Finding, 'fault' | 'branch' | 'run' | 'load' | 'alongRun'>

/** A photo that was taken: `hash` is the SHA-256 of its bytes, `size` their number. The photo itself lies beside the log. */
export interface PhotoNote {
  readonly hash: string
  readonly type: 'image/jpeg'
  readonly size: number
}

/** What was believed of a branch before and after the answer that is event `seq`: of 1, as reckoned then. */
export interface Believed {
  readonly seq: number
  readonly branches: readonly { readonly branch: string; readonly before: number; readonly after: number }[]
}

/** What maintenance keeps of a fault. Mode, mechanism and cause are ids; their words stand in content. */
export interface FaultRecord {
  readonly mode?: string
  readonly mechanism?: string
  readonly cause?: string
  /** What was done to mend it, and with which part or material. */
  readonly mended?: string
  readonly material?: string
  /** A technician's code. Names never enter the log. */
  readonly who?: string
  /** Local time with its offset since when the machine was down, if somebody knows. */
  readonly downSince?: string
  readonly found?: Found
  /** The numbers of the events that found the place, said it was mended, and ended the session with the 24 V proved. */
  readonly located?: number
  readonly corrected?: number
  readonly restored?: number
  readonly photos?: readonly PhotoNote[]
  /** What was ticked off before the machine went back to work, as ids. */
  readonly checked?: readonly string[]
  /** Answers that moved the belief, each with the likeliest branches. A later version may reckon otherwise. */
  readonly believed?: readonly Believed[]
}

/** What is at hand beside the meter. */
export type Tools = Pick<Kit, 'clamp' | 'injector' | 'qualified'>

/** A session is the list of these. Nothing else is stored; all that a screen shows is computed from them. */
export type SessionEvent =
  /** With what the machine's log and the technician know beforehand: it stands here, so that the session needs nothing else. */
  | ({ readonly type: 'started'; readonly machine: Machine; readonly kit: Kit; readonly symptom: Symptom } & Known)
  /** The answer to request `n`, and what that was; logs of the first versions do not tell. */
  | { readonly type: 'answered'; readonly n: number; readonly answer: Answer; readonly asked?: Asked }
  /** Takes back the latest event that still stands, never the start. */
  | { readonly type: 'undone' }
  /** Taken up again after a long while: what was proved dead then may be live now. */
  | { readonly type: 'resumed' }
  /** From here on these tools are at hand: a source's battery is empty, a clamp was fetched. The meter stays, as readings share its errors. */
  | { readonly type: 'kit'; readonly kit: Tools }
  | { readonly type: 'handedOver' }
  | { readonly type: 'stopped' }
  /** The closing form: which branch, what was wrong, a note; and the record for maintenance, as far as it is known. The latest stands. */
  | {
      readonly type: 'closed'
      readonly branch: string
      readonly wrong: string
      readonly note: string
      readonly record?: FaultRecord
    }

/** One line of the timeline: what was asked and what came back. */
export interface Entry {
  readonly request: Request
  readonly answer: Answer
  readonly stage: Stage
  readonly power: Power
}

/** All that a screen shows: a pure function of the events. */
export interface Session {
  readonly events: readonly SessionEvent[]
  readonly machine: Machine
  readonly kit: Kit
  readonly symptom: Symptom
  readonly known: Known
  readonly fromLog: FromLog
  readonly stage: Stage
  readonly power: Power
  readonly request: Request
  /** Per branch, how likely the fault is there; what is missing to 1 lies on the supply's side. */
  readonly belief: readonly BranchBelief[]
  readonly suspects: readonly Suspect[]
  readonly positions: Positions
  /** What the answered steps cost so far, in seconds by `engine/cost.ts`. */
  readonly seconds: number
  readonly entries: readonly Entry[]
  /** The finding that the technician confirmed. */
  readonly finding?: Finding
  /** The latest reading fits no single fault. */
  readonly fitsNothing: boolean
  /** How often anything was energised: supply on, injection, a device closed under voltage (at most six times). */
  readonly energised: number
}
