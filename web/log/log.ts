// What the log promises. No database in this file, so that its types and its error cost the first load next to nothing.
import type { Machine } from '../../engine/machine.ts'
import type { Found, Result, SessionEvent } from '../flow/request.ts'
import type { Photo } from './photo.ts'
import type { HeldPhoto } from './photoFile.ts'
import type { Seal } from './seal.ts'
import type { People, SealedSession } from './sheet.ts'
import type { Times } from './times.ts'
import type { Written } from './written.ts'

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

/** What is counted and drawn of a session: taken from its events once, so that thousands can be charted without playing them again. */
export interface Facts extends Partial<Ending> {
  /** How many events it was taken from. */
  readonly events: number
  /** What the technician confirmed, or the record says. */
  readonly found?: Found
  readonly mode?: string
  readonly mechanism?: string
  readonly cause?: string
  readonly who?: string
  readonly times: Times
  /** Steps that could not be done, and why. */
  readonly cannots: readonly { readonly what: string; readonly why: string }[]
}

/** A line of the list of sessions; `branch` and `wrong` come from the closing form. */
export interface SessionSummary extends Partial<Ending> {
  readonly id: string
  readonly machineId: string
  readonly machineName: string
  readonly startedAt: string
  readonly branch?: string
  readonly wrong?: string
  /** It came in from a file. */
  readonly imported?: true
  /** Missing until the session was looked at; out of date if it counts other events. */
  readonly facts?: Facts
  readonly seal?: Seal
  /** The desk was seen to hold all of it; falls with the next event. */
  readonly sent?: Seal
  /** Local time when the user saw all of it leave as a file; falls with the next event. */
  readonly exported?: string
}

/** Two files may tell the same session differently. Both are kept: the second as `id~2`, and so on. */
export const originOf = (id: string): string => id.replace(/~\d+$/, '')

/** What became of the sessions that were handed in. */
export interface Merged {
  readonly added: number
  /** Known before, but shorter. */
  readonly grown: number
  readonly known: number
  /** Those that the log already had otherwise: the ids under which they are kept besides. */
  readonly conflicts: readonly string[]
}

/** What became of photos that were handed in. */
export interface TakenPhotos {
  readonly added: number
  readonly known: number
  /** Named by no record in the log, and so not kept. */
  readonly strangers: number
}

/** A machine on this phone. `retired`: out of the list, never out of the log, whose sessions name it. */
export type KeptMachine = Machine & { readonly retired?: true }

/** Each promise that writes resolves only after its transaction has committed, or rejects with a `LogError`. */
export interface Log {
  /** Opens a session with its first event; gives its id. */
  create(started: Started): Promise<string>
  /**
   * Adds an event at the end, empties the session's draft, and gives the event's `seq`. Taking an answer back reopens an ended session.
   * With `after`, the number of events that the page knows of, it is refused where another page has added more meanwhile.
   */
  append(id: string, event: SessionEvent, ending?: Ending, after?: number): Promise<number>
  /** Newest first, by the order in which they were opened. */
  sessions(): Promise<SessionSummary[]>
  events(id: string): Promise<StoredEvent[]>
  /** The same of several sessions at once, in their order. */
  eventsOfMany(ids: readonly string[]): Promise<StoredEvent[][]>
  /** The newest session that has no result. */
  open(): Promise<string | undefined>
  /** The half-typed answer; empty when there is none. */
  draft(id: string): Promise<string>
  saveDraft(id: string, text: string): Promise<void>
  saveMachine(machine: KeptMachine): Promise<void>
  machines(): Promise<KeptMachine[]>
  /** Takes in sessions from elsewhere, all or none. What is known already is not doubled; nothing that is known is lost. */
  merge(sessions: readonly SealedSession[]): Promise<Merged>
  /** The seal that was last saved for a session; it holds for the events that it counts. */
  seal(id: string): Promise<Seal | undefined>
  /** Keeps what was taken from a session's events: its facts, its seal, and itself as text; unless an event came meanwhile. */
  saveFacts(id: string, facts: Facts, written: Written): Promise<void>
  /** The texts of several sessions, in their order; nothing where none was saved since the latest event. */
  textsOf(ids: readonly string[]): Promise<(Written | undefined)[]>
  /** The desk was seen to hold the session so far. */
  saveSent(id: string, sent: Seal): Promise<void>
  /** The user saw these sessions leave as they stand here; one that has another seal by now is left unmarked. */
  saveExported(sessions: readonly SessionSummary[], at: string): Promise<void>
  /** Names that belong to technicians' codes. They stay out of the events. */
  people(): Promise<People>
  savePerson(person: People[number]): Promise<void>
  /** Keeps a photo beside a session. It counts once a record names it. */
  savePhoto(id: string, photo: Photo): Promise<void>
  photos(id: string): Promise<Photo[]>
  /** Takes a photo off the phone, to make room. The record goes on naming its hash. */
  dropPhoto(id: string, hash: string): Promise<void>
  takePhotos(photos: readonly HeldPhoto[]): Promise<TakenPhotos>
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
