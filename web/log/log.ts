// What the log promises. No database in this file, so that its types and its error cost the first load next to nothing.
import type { Machine } from '../../engine/machine.ts'
import type { Result, SessionEvent } from '../flow/request.ts'

/** When something was entered. Order is told by `seq` alone: a phone's clock may jump. */
export interface Stamp {
  /** ISO 8601 local time with its offset from UTC. */
  readonly wall: string
  /** IANA name of the time zone. */
  readonly zone: string
  /** Milliseconds since this page started; comparable only within one `boot`, and it may pause while the phone sleeps. */
  readonly mono: number
  /** New at every start of the page. */
  readonly boot: string
}

/** One event as it is kept. `seq` counts from 1 within its session, with no gap. */
export interface StoredEvent extends Stamp {
  readonly seq: number
  readonly event: SessionEvent
}

export type Started = SessionEvent & { readonly type: 'started' }

/** Says that a session is over: handed to `append` with the event that ended it. */
export interface Ending {
  readonly result: Result
  readonly endedAt: string
}

/** A line of the list of sessions; `branch` and `wrong` come from the closing form. */
export interface SessionSummary extends Partial<Ending> {
  readonly id: string
  readonly machineName: string
  readonly startedAt: string
  readonly branch?: string
  readonly wrong?: string
}

/** Each promise that writes resolves only after its transaction has committed, or rejects with a `LogError`. */
export interface Log {
  /** Opens a session with its first event; gives its id. */
  create(started: Started): Promise<string>
  /** Adds an event at the end, empties the session's draft, and gives the event's `seq`. Taking an answer back reopens an ended session. */
  append(id: string, event: SessionEvent, ending?: Ending): Promise<number>
  /** Newest first, by the order in which they were opened. */
  sessions(): Promise<SessionSummary[]>
  events(id: string): Promise<StoredEvent[]>
  /** The newest session that has no result. */
  open(): Promise<string | undefined>
  /** The half-typed answer; empty when there is none. */
  draft(id: string): Promise<string>
  saveDraft(id: string, text: string): Promise<void>
  saveMachine(machine: Machine): Promise<void>
  machines(): Promise<Machine[]>
  /** Calls back once nothing more can be saved from this page; at once if that is so already. Gives a function that stops listening. */
  onClosed(tell: () => void): () => void
  close(): void
}

/** `quota`: no space left. `closed`: the storage was shut. `message` is a sentence for the technician. */
export class LogError extends Error {
  override readonly name = 'LogError'
  readonly kind: 'quota' | 'closed' | 'unknown'
  constructor(kind: LogError['kind'], message: string, cause?: unknown) {
    super(message, { cause })
    this.kind = kind
  }
}
