// QR codes out of pictures: by the phone's own reader where it has one, else by the library, which is fetched for it.

/** Long edge in pixels that a picture is cut down to: finer than any code needs, and quick on an old phone. */
const LONG_EDGE = 1600
/** How long the library tries one picture, ms: a live stream must stay live, a photo may take its time. */
const LIVE = 60
const STILL = 2000

interface Detector {
  detect(image: ImageBitmapSource): Promise<readonly { readonly rawValue: string }[]>
}
type DetectorClass = (new (options: { formats: string[] }) => Detector) & { getSupportedFormats(): Promise<readonly string[]> }

const own = async (): Promise<Detector | undefined> => {
  const found = (globalThis as { readonly BarcodeDetector?: DetectorClass }).BarcodeDetector
  try {
    return found && (await found.getSupportedFormats()).includes('qr_code') ? new found({ formats: ['qr_code'] }) : undefined
  } catch {
    return undefined
  }
}

export type Picture = (ImageBitmap | HTMLVideoElement) & ImageBitmapSource
const sizeOf = (picture: Picture): readonly [number, number] =>
  'videoWidth' in picture ? [picture.videoWidth, picture.videoHeight] : [picture.width, picture.height]

const pixelsOf = (picture: Picture): ImageData | undefined => {
  const [width, height] = sizeOf(picture)
  const scale = Math.min(1, LONG_EDGE / Math.max(width, height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.round(width * scale)
  canvas.height = Math.round(height * scale)
  const pen = canvas.getContext('2d', { willReadFrequently: true })
  if (!pen || canvas.width === 0 || canvas.height === 0) return undefined
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height)
  return pen.getImageData(0, 0, canvas.width, canvas.height)
}

export type Reading = (picture: Picture) => Promise<readonly string[]>

/** A reader that gives the texts of all codes it sees in a picture; none where it sees none. `still`: a photo, not a stream. */
export const reader = async (still: boolean): Promise<Reading> => {
  const [detector, { decodeQRBatch }] = await Promise.all([own(), import('qr/decode.js')])
  const byLibrary: Reading = async picture => {
    const pixels = pixelsOf(picture)
    if (!pixels) return []
    const [found = []] = await decodeQRBatch([pixels], { timeLimit: still ? STILL : LIVE, format: 'RGBA' })
    return found.filter(text => typeof text === 'string')
  }
  if (!detector) return byLibrary
  return async picture => {
    const found = await detector.detect(picture).catch(() => [])
    return found.length > 0 ? found.map(code => code.rawValue) : byLibrary(picture)
  }
}

/** The codes in a photo. Rejects where the file is no picture that this browser can open. */
export const readPhoto = async (file: Blob): Promise<readonly string[]> => {
  const picture = await createImageBitmap(file)
  try {
    return await (await reader(true))(picture)
  } finally {
    picture.close()
  }
}
