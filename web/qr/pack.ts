// A text as few bytes, for codes. The first byte says how it is packed, so that a phone that cannot squeeze can still tell.

const PLAIN = 0
const SQUEEZED = 1
const FORM = 'deflate-raw'
/** A small input can swell without end: past this the reading stops. Far above any machine or session. */
const MOST_BYTES = 10_000_000

const through = (bytes: Uint8Array<ArrayBuffer>, change: GenericTransformStream): ReadableStream<Uint8Array> =>
  new Blob([bytes]).stream().pipeThrough(change)

const drained = async (stream: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array<ArrayBuffer> | undefined> => {
  const chunks: Uint8Array[] = []
  let length = 0
  const reader = stream.getReader()
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    length += next.value.length
    if (length > most) {
      await reader.cancel()
      return undefined
    }
    chunks.push(next.value)
  }
  const bytes = new Uint8Array(length)
  let at = 0
  for (const chunk of chunks) {
    bytes.set(chunk, at)
    at += chunk.length
  }
  return bytes
}
const marked = (mark: number, bytes: Uint8Array): Uint8Array => Uint8Array.from([mark, ...bytes])

/** UTF-8, squeezed by DEFLATE (RFC 1951) where the browser can and it helps. */
export const pack = async (text: string): Promise<Uint8Array> => {
  const plain = new TextEncoder().encode(text)
  if (typeof CompressionStream === 'undefined') return marked(PLAIN, plain)
  const squeezed = await drained(through(plain, new CompressionStream(FORM)), MOST_BYTES)
  return squeezed && squeezed.length < plain.length ? marked(SQUEEZED, squeezed) : marked(PLAIN, plain)
}

/** The text again; nothing where the bytes are not what `pack` gives, swell past 10 MB, or this browser cannot unpack them. */
export const unpack = async (bytes: Uint8Array, most = MOST_BYTES): Promise<string | undefined> => {
  const body = bytes.slice(1)
  try {
    const plain =
      bytes[0] === PLAIN ? body : bytes[0] === SQUEEZED ? await drained(through(body, new DecompressionStream(FORM)), most) : undefined
    return plain ? new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(plain) : undefined
  } catch {
    // Cut or altered: the browser's own error says no more than that.
    return undefined
  }
}
