// What a photo is, told from its bytes: ITU-T T.81 (JPEG), annex B, markers and segments.

export interface Jpeg {
  readonly width: number
  readonly height: number
  /** Markers of the segments that may tell more than the picture: APP1, 0xE1, is where cameras put place, time and their own number. */
  readonly notes: readonly number[]
}

const START = 0xffd8
const SCAN = 0xda
/** Start of frame: 0xC0 to 0xCF, but for the tables of Huffman and arithmetic coding and the extension among them. */
const isFrame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)

const COMMENT = 0xfe
const PROFILE = 'ICC_PROFILE'
/** APP0 holds the density of the pixels, APP14 how colours are coded, APP2 in most cases a profile of the colours: those are the picture's own. */
const isNote = (view: DataView, at: number, marker: number): boolean => {
  if (marker === COMMENT) return true
  if (marker < 0xe1 || marker > 0xef || marker === 0xee) return false
  const named = [...PROFILE].every((sign, i) => at + 4 + i < view.byteLength && view.getUint8(at + 4 + i) === sign.charCodeAt(0))
  return marker !== 0xe2 || !named
}

/** Nothing where the bytes are no JPEG. Looks at the heads of its segments alone. */
export const jpegOf = (bytes: ArrayBuffer): Jpeg | undefined => {
  const view = new DataView(bytes)
  if (view.byteLength < 4 || view.getUint16(0) !== START) return undefined
  const notes: number[] = []
  let last = 0
  let size: { width: number; height: number } | undefined
  for (let at = 2; at + 4 <= view.byteLength; ) {
    if (view.getUint8(at) !== 0xff) return undefined
    const marker = view.getUint8(at + 1)
    const length = view.getUint16(at + 2)
    last = marker
    if (isNote(view, at, marker)) notes.push(marker)
    if (isFrame(marker) && at + 9 <= view.byteLength) size = { height: view.getUint16(at + 5), width: view.getUint16(at + 7) }
    if (marker === SCAN) break
    at += 2 + length
  }
  return size && last === SCAN ? { ...size, notes } : undefined
}
