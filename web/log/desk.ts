// A store beyond one phone. Behind this one interface stands a CouchDB database; another store can take its place.
import type { EventLine } from './sheet.ts'

/** An event as the desk keeps it: with its machine's id beside it, or no view could tell where a branch belongs. */
export type DeskLine = EventLine & { readonly 'x-machine': string }

export interface Desk {
  /** Hands events over. May be cut off, and may be repeated; it promises nothing. */
  push(lines: readonly DeskLine[]): Promise<void>
  /** The hash that is stored of each of these events now; none where it is missing. In their order. */
  hashes(lines: readonly Pick<EventLine, 'session' | 'seq'>[]): Promise<readonly (string | undefined)[]>
  /** All events, session by session, in order. */
  pull(): AsyncGenerator<unknown>
}

/** One document an event. The number is padded so that the store's own order is the session's. */
export const nameOf = ({ session, seq }: Pick<EventLine, 'session' | 'seq'>): string => `${session}:${String(seq).padStart(5, '0')}`
