// Small pictures for the tests, and their bytes changed.
import sharp from 'sharp'

export const buffer = (bytes: Buffer): ArrayBuffer => Uint8Array.from(bytes).buffer
/** A picture of one colour; its number chooses its size. */
export const jpeg = async (n: number, more: { width?: number; height?: number; exif?: boolean } = {}): Promise<ArrayBuffer> => {
  const { width = 40 + n, height = 30, exif = false } = more
  const picture = sharp({ create: { width, height, channels: 3, background: 'green' } }).jpeg()
  return buffer(await (exif ? picture.withExif({ IFD0: { Artist: 'Ada' } }) : picture).toBuffer())
}
/** The bytes with `put` at `at` in place of `cut` of them. */
export const spliced = (bytes: ArrayBuffer, at: number, put: ArrayLike<number>, cut = 0): ArrayBuffer => {
  const all = new Uint8Array(bytes.byteLength + put.length - cut)
  all.set(new Uint8Array(bytes, 0, at))
  all.set(put, at)
  all.set(new Uint8Array(bytes, at + cut), at + put.length)
  return all.buffer
}
/** Segments in which something can be hidden: a comment, and the small second picture of JFIF. */
export const [COMMENT, SECOND_PICTURE] = [
  [0xff, 0xfe, 0, 5, 65, 66, 67],
  [0xff, 0xe0, 0, 8, ...Buffer.from('JFXX\0\x10')],
] as const
