// What a photo is, told from its bytes: ITU-T T.81 (JPEG), annex B, markers and segments.

export interface Jpeg {
  readonly width: number
  readonly height: number
  /** Markers of the segments that may tell more than the picture: APP1, 0xE1, is where cameras put place, time and their own number. */
  readonly notes: readonly number[]
  /** Bytes behind its end, which no viewer shows. */
  readonly rest: number
}

const START = 0xffd8
const END = 0xd9
const SCAN = 0xda
const PROFILE = 0xe2
/** Tables, and the lines and restarts that belong to a scan. */
const TABLES: readonly number[] = [0xc4, 0xcc, 0xdb, 0xdc, 0xdd]
/** Start of frame: 0xC0 to 0xCF, but for the tables of Huffman and arithmetic coding and the extension among them. */
const isFrame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)
/** Within a scan 0xFF is told from a marker by the zero behind it; the restarts are the scan's own. */
const isWithinScan = (next: number): boolean => next === 0 || (next >= 0xd0 && next <= 0xd7)

interface Segment {
  readonly marker: number
  readonly from: number
  readonly to: number
}

/** All up to its end, what is coded in a scan with its head; nothing where a length runs over or there is no end. */
const segmentsOf = (view: DataView): readonly Segment[] | undefined => {
  const size = view.byteLength
  if (size < 4 || view.getUint16(0) !== START) return undefined
  const segments: Segment[] = []
  for (let at = 2; at + 2 <= size; ) {
    if (view.getUint8(at) !== 0xff) return undefined
    const marker = view.getUint8(at + 1)
    if (marker === END) return [...segments, { marker, from: at, to: at + 2 }]
    const length = at + 4 <= size ? view.getUint16(at + 2) : 0
    let to = at + 2 + length
    if (length < 2 || to > size) return undefined
    if (marker === SCAN) while (to + 2 <= size && (view.getUint8(to) !== 0xff || isWithinScan(view.getUint8(to + 1)))) to++
    segments.push({ marker, from: at, to })
    at = to
  }
  return undefined
}

/**
 * The segments that a picture needs, and those that only say how its colours and pixels are meant, at the length that leaves no room
 * for more: APP0 'JFIF' without its small second picture (16 bytes), APP14 'Adobe' (14), APP2 with a profile of the colours.
 */
const OWN: readonly { readonly marker: number; readonly name: string; readonly length?: number }[] = [
  { marker: 0xe0, name: 'JFIF\0', length: 16 },
  { marker: 0xee, name: 'Adobe', length: 14 },
  { marker: PROFILE, name: 'ICC_PROFILE\0' },
]
const isNote = (view: DataView, { marker, from, to }: Segment): boolean => {
  if (isFrame(marker) || TABLES.includes(marker) || marker === SCAN || marker === END) return false
  const own = OWN.find(one => one.marker === marker)
  if (!own || (own.length !== undefined && own.length !== to - from - 2)) return true
  return [...own.name].some((sign, i) => from + 4 + i >= to || view.getUint8(from + 4 + i) !== sign.charCodeAt(0))
}

/** Nothing where the bytes are no JPEG from its start to its end. */
export const jpegOf = (bytes: ArrayBuffer): Jpeg | undefined => {
  const view = new DataView(bytes)
  const segments = segmentsOf(view)
  const frames = segments?.filter(({ marker, from, to }) => isFrame(marker) && to - from >= 9) ?? []
  const [frame] = frames
  if (!segments || !frame || frames.length > 1 || !segments.some(({ marker }) => marker === SCAN)) return undefined
  return {
    height: view.getUint16(frame.from + 5),
    width: view.getUint16(frame.from + 7),
    notes: segments.filter(segment => isNote(view, segment)).map(({ marker }) => marker),
    rest: bytes.byteLength - (segments.at(-1)?.to ?? 0),
  }
}

/** The same picture without notes and without what lies behind its end; as it was where it is no JPEG. */
export const bare = (bytes: ArrayBuffer): ArrayBuffer => {
  const view = new DataView(bytes)
  const kept = segmentsOf(view)?.filter(segment => !isNote(view, segment))
  if (!kept) return bytes
  const all = new Uint8Array(2 + kept.reduce((sum, { from, to }) => sum + to - from, 0))
  all.set([START >> 8, START & 0xff])
  let at = 2
  for (const { from, to } of kept) {
    all.set(new Uint8Array(bytes, from, to - from), at)
    at += to - from
  }
  return all.buffer
}
