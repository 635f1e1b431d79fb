// A session's seal: each event's hash takes in the one before, so that an edit, a swap or a gap changes the last of them, the head.
// Tamper-evident, nothing more: whoever can rewrite the whole log can seal it anew, and a cut tail shows only against a head noted elsewhere.
import { canonical } from './canonical.ts'
import type { StoredEvent } from './log.ts'

/** `head`: the last event's hash, 64 hex digits. `count`: events up to it. */
export interface Seal {
  readonly head: string
  readonly count: number
}

const bytes = new TextEncoder()
const sha256 = async (data: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(await crypto.subtle.digest('SHA-256', data))
const hex = (hash: Uint8Array): string => Array.from(hash, byte => byte.toString(16).padStart(2, '0')).join('')

/** The hash of each event in turn: SHA-256 of the hash before it and the event in canonical form. The first takes in the session's id. */
export const chain = async (id: string, events: readonly StoredEvent[]): Promise<string[]> => {
  const hashes: string[] = []
  let last = await sha256(bytes.encode(canonical({ format: 'ohmward.session', version: 1, id })))
  for (const event of events) {
    const written = bytes.encode(canonical(event))
    const link = new Uint8Array(last.length + written.length)
    link.set(last)
    link.set(written, last.length)
    last = await sha256(link)
    hashes.push(hex(last))
  }
  return hashes
}

export const sealOf = async (id: string, events: readonly StoredEvent[]): Promise<Seal> => {
  const hashes = await chain(id, events)
  return { head: hashes.at(-1) ?? '', count: hashes.length }
}

/** How a head is read out and compared by eye: groups of eight. */
export const grouped = (head: string): string => head.replace(/.{8}(?=.)/g, '$& ')

/** What a session claims of itself: the seal that came with it, or every event's hash. */
export interface Claim {
  readonly id: string
  readonly events: readonly StoredEvent[]
  readonly seal?: Seal
  readonly hashes?: readonly string[]
}
export type Verdict =
  | { readonly ok: true; readonly seal: Seal; readonly sealed: boolean }
  | { readonly ok: false; readonly seal: Seal; readonly message: string }

/** Compares a session with its own seal, and with the seal from a printed report if there is one: only that shows a cut tail. */
export const verify = async ({ id, events, seal, hashes }: Claim, printed?: string | Seal): Promise<Verdict> => {
  const own = await chain(id, events)
  const found: Seal = { head: own.at(-1) ?? '', count: own.length }
  const wrong = (message: string): Verdict => ({ ok: false, seal: found, message })
  const odd = hashes?.findIndex((hash, i) => hash !== own[i]) ?? -1
  if (odd >= 0) return wrong(`Event ${odd + 1} or one before it was changed, moved, added or removed after it was sealed.`)
  if (seal && seal.count !== found.count) return wrong(`It was sealed with ${seal.count} events, but holds ${found.count}.`)
  if (seal && seal.head !== found.head) return wrong('Its events were changed, moved, added or removed after it was sealed.')
  if (printed === undefined) return { ok: true, seal: found, sealed: seal !== undefined || hashes !== undefined }
  const noted = (typeof printed === 'string' ? printed : printed.head).replace(/[^0-9a-f]/gi, '').toLowerCase()
  if (noted === found.head) return { ok: true, seal: found, sealed: true }
  const at = own.indexOf(noted)
  if (at >= 0) return wrong(`The noted head is that of event ${at + 1}: ${found.count - at - 1} events came after it was noted.`)
  return wrong('Its head is not the noted one: events are missing at its end, or it was changed and sealed anew.')
}
