import type { Code } from '../../web/qr/draw.ts'

/** A code as the pixels that a camera would give: dark stripes of its outline on white, `scale` pixels a module. */
export const pictureOf = ({ size, path }: Code, scale: number) => {
  const edge = size * scale
  const data = new Uint8ClampedArray(edge * edge * 4).fill(255)
  for (const [, x, y, width] of path.matchAll(/M(\d+) (\d+)h(\d+)/g))
    for (let row = Number(y) * scale; row < (Number(y) + 1) * scale; row++)
      for (let at = Number(x) * scale; at < (Number(x) + Number(width)) * scale; at++) data.set([0, 0, 0], (row * edge + at) * 4)
  return { width: edge, height: edge, data }
}
