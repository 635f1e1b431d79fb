import sharp from 'sharp'

type Pixel = readonly [number, number, number]
export interface Picture {
  readonly width: number
  readonly height: number
  /** The colour at a place; at the edge where the place lies outside. */
  readonly at: (x: number, y: number) => Pixel
  /** How light each pixel is, 0 to 1, row by row. */
  readonly light: () => Float64Array
}

export const pixelsOf = async (png: Buffer): Promise<Picture> => {
  const { data, info } = await sharp(png).removeAlpha().toColourspace('srgb').raw().toBuffer({ resolveWithObject: true })
  const { width, height, channels } = info
  return {
    width,
    height,
    light: () => Float64Array.from({ length: width * height }, (_, i) => light([0, 1, 2].map(c => data[i * channels + c] ?? 0))),
    at: (x, y) => {
      const i = (Math.max(0, Math.min(height - 1, y)) * width + Math.max(0, Math.min(width - 1, x))) * channels
      return [data[i] ?? 0, data[i + 1] ?? 0, data[i + 2] ?? 0]
    },
  }
}

const light = (pixel: readonly number[]): number => {
  const [r = 0, g = 0, b = 0] = pixel.map(v => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4))
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
/** Contrast after WCAG 2.2: 1 to 21. */
export const contrast = (a: Pixel, b: Pixel): number => {
  const [lo = 0, hi = 0] = [light(a), light(b)].sort((x, y) => x - y)
  return (hi + 0.05) / (lo + 0.05)
}
