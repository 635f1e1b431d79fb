// Scales of a small diagram: round steps, and places in pixels.

/** A frame of `width` × `height` px with room for the figures at its left and below it. */
export const FRAME = { width: 296, height: 200, left: 44, right: 8, top: 28, bottom: 26 } as const

/** At most `most` round steps from 0 to `end`. */
export const ticks = (end: number, most: number): readonly number[] => {
  const rough = end / most
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = power * ([1, 2, 5, 10].find(f => f * power >= rough) ?? 10)
  return Array.from({ length: Math.floor(end / step + 1e-9) + 1 }, (_, i) => Number((i * step).toPrecision(12)))
}
export const place = (end: number, from: number, to: number) => (value: number) =>
  from + ((to - from) * Math.min(Math.max(value, 0), end)) / end
/** A line through points, in px. */
export const line = (points: readonly (readonly [x: number, y: number])[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('')
