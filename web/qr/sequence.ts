// What is too much for one QR code goes into several, numbered n of N. They are read in any order, as often as one likes.
import { fromBase45, toBase45 } from './base45.ts'
import { crc32 } from './crc.ts'

/** What the codes carry. The number stands in the code: never give one a second meaning. */
const KINDS = { machine: 1, session: 2 } as const
export type Kind = keyof typeof KINDS

const HEAD = 'OHMWARD:'
const VERSION = 1
/** Version, kind, number, count (2 bytes each), check of all together, check of this code (4 bytes each). */
const HEADER = 14
/**
 * Bytes a code. At the medium level a session's codes have 89 × 89 modules, which a phone reads off another phone's screen; a label's at
 * most 121 × 121, which it reads off A6 (versions 18 and 26 of ISO/IEC 18004; the sizes are common practice, no source).
 */
const CHUNKS = { machine: 1000, session: 518 } as const satisfies Record<Kind, number>
/** 1.8 MB of a session: nobody holds a phone before more codes, and what arrives stays small. */
const MOST_CODES = 3500

/** Why a text is no code of this sequence. `newer`: a version that this app does not know. `other`: it belongs to another sequence. */
export type Refused = 'foreign' | 'damaged' | 'newer' | 'other'
interface Part {
  readonly kind: Kind
  readonly number: number
  readonly count: number
  readonly check: number
  readonly bytes: Uint8Array
}

const kindOf = (byte: number): Kind | undefined => (byte === KINDS.machine ? 'machine' : byte === KINDS.session ? 'session' : undefined)

/** The texts of the codes, in order; at least one. Throws `RangeError` on more than fits in 3500 codes. */
export const framesOf = (bytes: Uint8Array, kind: Kind): readonly string[] => {
  const count = Math.max(1, Math.ceil(bytes.length / CHUNKS[kind]))
  if (count > MOST_CODES) throw new RangeError(`${bytes.length} bytes are too many for ${MOST_CODES} codes`)
  const check = crc32(bytes)
  // Even parts: the codes of a sequence are alike, and none is denser than it must be.
  const size = Math.ceil(bytes.length / count)
  return Array.from({ length: count }, (_, i) => {
    const chunk = bytes.subarray(i * size, (i + 1) * size)
    const frame = new Uint8Array(HEADER + chunk.length)
    const view = new DataView(frame.buffer)
    view.setUint8(0, VERSION)
    view.setUint8(1, KINDS[kind])
    view.setUint16(2, i + 1)
    view.setUint16(4, count)
    view.setUint32(6, check)
    frame.set(chunk, HEADER)
    // The code's own place in the header counts as zero.
    view.setUint32(10, crc32(frame))
    return HEAD + toBase45(frame)
  })
}

const partOf = (text: string): Part | Refused => {
  if (!text.startsWith(HEAD)) return 'foreign'
  const frame = fromBase45(text.slice(HEAD.length))
  if (frame === undefined || frame.length < HEADER || frame.length > HEADER + CHUNKS.machine) return 'damaged'
  const view = new DataView(frame.buffer)
  const own = view.getUint32(10)
  view.setUint32(10, 0)
  if (crc32(frame) !== own) return 'damaged'
  const kind = kindOf(view.getUint8(1))
  if (view.getUint8(0) !== VERSION || kind === undefined) return 'newer'
  const [number, count, check] = [view.getUint16(2), view.getUint16(4), view.getUint32(6)]
  if (number < 1 || number > count || count > MOST_CODES) return 'damaged'
  return { kind, number, count, check, bytes: frame.subarray(HEADER) }
}

export interface Collected {
  /** Nothing until the first right code. */
  readonly kind?: Kind
  readonly count: number
  /** The numbers that are still to be read, from 1. */
  readonly missing: readonly number[]
  /** What was carried, once nothing is missing and the check of all together is right. */
  readonly bytes?: Uint8Array
  /** Texts that were set aside: where in the list they stood, from 0, and why. */
  readonly refused: readonly { readonly at: number; readonly why: Refused }[]
}

const joined = (parts: readonly Part[]): Uint8Array => {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.bytes.length, 0))
  let at = 0
  for (const part of parts) {
    bytes.set(part.bytes, at)
    at += part.bytes.length
  }
  return bytes
}

/**
 * Puts together what was read so far: hand in every text, in the order read, repeats and foreign ones too. The first right code
 * says which sequence it is. Never throws.
 */
export const collect = (texts: readonly string[]): Collected => {
  const refused: { at: number; why: Refused }[] = []
  const parts = new Map<number, Part>()
  let lead: Part | undefined
  for (const [at, text] of texts.entries()) {
    const part = partOf(text)
    if (typeof part === 'string') {
      refused.push({ at, why: part })
      continue
    }
    lead ??= part
    if (part.check !== lead.check || part.count !== lead.count || part.kind !== lead.kind) refused.push({ at, why: 'other' })
    else parts.set(part.number, part)
  }
  if (lead === undefined) return { count: 0, missing: [], refused }
  const { kind, count, check } = lead
  const numbers = Array.from({ length: count }, (_, i) => i + 1)
  const missing = numbers.filter(n => !parts.has(n))
  const found = { kind, count, missing, refused }
  if (missing.length > 0) return found
  const bytes = joined(numbers.flatMap(n => parts.get(n) ?? []))
  // Codes of two sequences that look alike by chance: all are read anew.
  return crc32(bytes) === check
    ? { ...found, bytes }
    : { ...found, missing: numbers, refused: [...refused, { at: texts.length - 1, why: 'other' }] }
}
