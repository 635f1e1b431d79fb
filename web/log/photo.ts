// Photos of the fault. They lie beside the sealed events, as bytes and not as files, which some browsers lose; the record names each
// by its hash, so that the seal holds for them too.
import { type Reader, refuse } from '../../engine/fields.ts'
import type { PhotoNote } from '../flow/request.ts'
import { jpegOf } from './jpeg.ts'
import { hex, sha256 } from './sha256.ts'

/** Pixels of the longer side, bytes, and photos of one session: a phone then holds thousands (common practice, no source). */
export const MOST_EDGE = 1600
export const MOST_PHOTO_BYTES = 400_000
export const MOST_PHOTOS = 20

export interface Photo {
  /** SHA-256 of the bytes, 64 hexadecimal digits. */
  readonly hash: string
  readonly type: 'image/jpeg'
  readonly bytes: ArrayBuffer
}

export const photoOf = (bytes: ArrayBuffer): Photo => ({ hash: hex(sha256(new Uint8Array(bytes))), type: 'image/jpeg', bytes })
export const noteOf = ({ hash, type, bytes }: Photo): PhotoNote => ({ hash, type, size: bytes.byteLength })

/** Bytes of a photo as this app makes them: a JPEG within the limits that tells nothing but its picture. */
export const plainJpeg: Reader<ArrayBuffer> = (found, field) => {
  if (!(found instanceof ArrayBuffer) || found.byteLength > MOST_PHOTO_BYTES)
    return refuse(field, found, `at most ${MOST_PHOTO_BYTES} bytes`)
  const jpeg = jpegOf(found)
  if (!jpeg || Math.max(jpeg.width, jpeg.height) > MOST_EDGE)
    return refuse(field, 'no such picture', `a JPEG of at most ${MOST_EDGE} pixels a side`)
  if (jpeg.notes.length > 0) return refuse(field, 'a picture with notes of a camera', 'without Exif and comments')
  const { byteLength: length } = found
  return jpeg.rest > 0 ? refuse(field, length, `${length - jpeg.rest} bytes long, where its picture ends`) : found
}
