// Draws the app's PNG icons from web/public/icon.svg. Run by hand (`npm run icons`) when the drawing changes.
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'

const place = (/** @type {string} */ name) => fileURLToPath(new URL(`../web/public/${name}`, import.meta.url))
const drawing = await readFile(place('icon.svg'))
// A launcher may cut a maskable icon down to a circle of 80 % of its width (W3C Web App Manifest, "safe zone"),
// so its drawing stands smaller on the same paper.
const paper = '#fbfaf6'
const icons = [
  { name: 'icon-192.png', size: 192, drawn: 192 },
  { name: 'icon-512.png', size: 512, drawn: 512 },
  { name: 'icon-maskable-512.png', size: 512, drawn: 448 },
  { name: 'apple-touch-icon.png', size: 180, drawn: 180 },
]
for (const { name, size, drawn } of icons) {
  const margin = (size - drawn) / 2
  await sharp(drawing, { density: 288 })
    .resize(drawn, drawn)
    .extend({ top: margin, bottom: margin, left: margin, right: margin, background: paper })
    .flatten({ background: paper })
    .png({ palette: true })
    .toFile(place(name))
}
