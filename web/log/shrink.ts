// A camera's picture made fit to keep: smaller, and drawn anew, so that neither place nor time nor the camera's number stay in it.
// Some browsers put notes of their own into what they draw (from memory: Exif with the sizes); those go as well.
import { bare } from './jpeg.ts'
import { MOST_EDGE, MOST_PHOTO_BYTES, type Photo, photoOf } from './photo.ts'

/** More than any phone's camera gives: a larger file is not even opened. */
export const MOST_TAKEN = 60_000_000

export interface Size {
  readonly width: number
  readonly height: number
}
/** The same shape with its longer side at most `edge` pixels; never larger than it was, never without a pixel. */
export const fitted = ({ width, height }: Size, edge: number): Size => {
  const scale = Math.min(1, edge / Math.max(width, height))
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) }
}

/** From the finest on; past these the picture itself is made smaller. */
const QUALITIES = [0.85, 0.7, 0.55, 0.4]
const SMALLER = 0.75
const LEAST_EDGE = 200

const drawn = (picture: ImageBitmap, size: Size, quality: number): Promise<Blob | null> => {
  const canvas = document.createElement('canvas')
  canvas.width = size.width
  canvas.height = size.height
  const pen = canvas.getContext('2d')
  if (!pen) throw new Error('no canvas')
  // What is seen through in a PNG would turn black.
  pen.fillStyle = '#fff'
  pen.fillRect(0, 0, size.width, size.height)
  pen.imageSmoothingQuality = 'high'
  pen.drawImage(picture, 0, 0, size.width, size.height)
  return new Promise(done => canvas.toBlob(done, 'image/jpeg', quality))
}

/** Rejects where the browser cannot read the picture, or cannot make it small enough. */
export const shrink = async (file: Blob): Promise<Photo> => {
  if (file.size > MOST_TAKEN) throw new RangeError('too large')
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' })
  try {
    for (let edge = MOST_EDGE; edge >= LEAST_EDGE; edge *= SMALLER) {
      for (const quality of QUALITIES) {
        const blob = await drawn(picture, fitted(picture, edge), quality)
        if (blob?.type === 'image/jpeg' && blob.size <= MOST_PHOTO_BYTES) return photoOf(bare(await blob.arrayBuffer()))
      }
    }
    throw new RangeError('too large')
  } finally {
    picture.close()
  }
}
