// A session's seal: each event's hash takes in the one before, so that an edit, a swap or a gap changes the last of them, the head.
// Tamper-evident, nothing more: whoever can rewrite the whole log can seal it anew, and a cut tail shows only against a head noted elsewhere.
import { canonical } from './canonical.ts'
import type { StoredEvent } from './log.ts'
import { hashInPlace, hex, PADDING } from './sha256.ts'

/** `head`: the last event's hash, 64 hex digits. `count`: events up to it. */
export interface Seal {
  readonly head: string
  readonly count: number
}

const encoder = new TextEncoder()
/** Bytes of a hash. */
const HASH = 32
/** The hash before, behind it the next event's text, and room to hash both where they lie: shared by all chains, so nothing stays in it. */
let link = new Uint8Array(4096)
let view = new DataView(link.buffer)
/** The bytes of `text` in UTF-8 are written into the link from `from` on; their number. */
const put = (text: string, from: number): number => {
  const most = from + text.length * 3 + PADDING
  if (link.length < most) {
    link = new Uint8Array(most * 2)
    view = new DataView(link.buffer)
  }
  return encoder.encodeInto(text, link.subarray(from)).written
}

/** The hashes of a session's events: SHA-256 of the hash before and the event in canonical form. The first takes in the session's id. */
export class Chain {
  readonly #last = new Uint8Array(HASH)
  #count = 0
  /** Of all canonical forms together, in UTF-8. */
  bytes = 0
  constructor(id: string) {
    this.#hash(put(canonical({ format: 'ohmward.session', version: 1, id }), 0))
  }
  #hash(length: number): void {
    hashInPlace(view, length)
    for (let i = 0; i < HASH; i++) this.#last[i] = link[i] as number
  }
  /** `line`: the next event in canonical form. */
  add(line: string): void {
    const written = put(line, HASH)
    link.set(this.#last)
    this.#hash(HASH + written)
    this.#count += 1
    this.bytes += written
  }
  /** The latest event's hash, 64 hexadecimal digits. */
  get head(): string {
    return this.#count === 0 ? '' : hex(this.#last)
  }
  get seal(): Seal {
    return { head: this.head, count: this.#count }
  }
}

/** The hash of each event. */
export const chain = (id: string, events: readonly StoredEvent[]): string[] => {
  const links = new Chain(id)
  return events.map(event => {
    links.add(canonical(event))
    return links.head
  })
}

export const sealOf = async (id: string, events: readonly StoredEvent[]): Promise<Seal> => {
  const links = new Chain(id)
  for (const event of events) links.add(canonical(event))
  return links.seal
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
  const noted = (typeof printed === 'object' ? printed.head : printed)?.replace(/[^0-9a-f]/gi, '').toLowerCase()
  const links = new Chain(id)
  let odd = -1
  let notedAt = -1
  for (const [i, event] of events.entries()) {
    links.add(canonical(event))
    if (hashes && odd < 0 && hashes[i] !== links.head) odd = i
    if (noted !== undefined && noted === links.head) notedAt = i
  }
  const found = links.seal
  const wrong = (message: string): Verdict => ({ ok: false, seal: found, message })
  if (odd >= 0) return wrong(`Event ${odd + 1} or one before it was changed, moved, added or removed after it was sealed.`)
  if (seal && seal.count !== found.count) return wrong(`It was sealed with ${seal.count} events, but holds ${found.count}.`)
  if (seal && seal.head !== found.head) return wrong('Its events were changed, moved, added or removed after it was sealed.')
  if (noted === undefined) return { ok: true, seal: found, sealed: seal !== undefined || hashes !== undefined }
  if (noted === found.head) return { ok: true, seal: found, sealed: true }
  if (notedAt >= 0)
    return wrong(`The noted head is that of event ${notedAt + 1}: ${found.count - notedAt - 1} events came after it was noted.`)
  return wrong('Its head is not the noted one: events are missing at its end, or it was changed and sealed anew.')
}
