// Each state is told apart without colour, and drawn strongly enough to be seen: by the pixels of a phone's screen.
import sharp from 'sharp'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Gallery, openGallery } from './galleryPage.ts'
import { contrast, type Picture, pixelsOf } from './pixels.ts'

let gallery: Gallery
beforeAll(async () => {
  gallery = await openGallery()
  await gallery.page.setViewportSize({ width: 360, height: 640 })
})
afterAll(() => gallery.close())

const theme = (name: string) =>
  gallery.page.evaluate(t => {
    document.documentElement.dataset['theme'] = t
  }, name)

/** What is drawn, one picture a state, as somebody sees it who sees no colour. */
const inGrey = async (kind: string): Promise<Map<string, Picture>> => {
  const { page } = gallery
  const count = await gallery.show(kind)
  const cdp = await page.context().newCDPSession(page)
  await cdp.send('Emulation.setEmulatedVisionDeficiency', { type: 'achromatopsia' })
  const all = new Map<string, Picture>()
  for (const part of await page.locator('main > div').all()) {
    const name = (await part.locator('[role=img]').first().getAttribute('aria-label')) ?? ''
    all.set(name, await pixelsOf(await part.screenshot()))
  }
  await cdp.send('Emulation.setEmulatedVisionDeficiency', { type: 'none' })
  expect(all.size).toBe(count)
  return all
}
/** Pixels of which one is at least three times as light as the other (WCAG 2.2, 1.4.11), at the same place of two pictures. */
const apart = (a: Float64Array, b: Float64Array): number =>
  a.reduce((sum, one, i) => {
    const other = b[i] ?? one
    return sum + ((Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05) >= 3 ? 1 : 0)
  }, 0)
const AROUND = [-2, -1, 0, 1, 2]
/** Fewer such pixels and two states look alike: a stroke of 2 by 10 px. */
const SEEN = 20

test.each([
  ['band', 'light'],
  ['band', 'dark'],
  ['cell', 'light'],
  ['cell', 'dark'],
])('each state of the %s is told apart in grey, %s', async (kind, name) => {
  await theme(name)
  const pictures = [...(await inGrey(kind))].map(([state, picture]) => [state, picture.light()] as const)
  const alike = pictures.flatMap(([a, one], i) =>
    pictures.slice(i + 1).flatMap(([b, other]) => (apart(one, other) < SEEN ? [`${a} and ${b}: ${apart(one, other)}`] : [])),
  )
  expect(alike).toEqual([])
})

test('the power states are told apart by word too', async () => {
  await gallery.show('band')
  const words = await gallery.page.locator('.band strong').allTextContents()
  expect(new Set(words).size).toBe(words.length)
  expect(words.every(word => word.length > 2)).toBe(true)
})

test('states that differ by colour alone would be seen', async () => {
  const square = (background: string) =>
    sharp({ create: { width: 40, height: 40, channels: 3, background } })
      .greyscale()
      .png()
      .toBuffer()
  const [red, green] = [await pixelsOf(await square('#c02020')), await pixelsOf(await square('#2c6a2c'))]
  expect(apart(red.light(), green.light())).toBe(0)
})

test.each(['light', 'dark'])('every line of every drawing has 3:1 against what it lies on, %s', { timeout: 240_000 }, async name => {
  const { page } = gallery
  await theme(name)
  const cdp = await page.context().newCDPSession(page)
  // As dense as a phone's screen: a line of 1.5 px covers whole pixels there.
  await cdp.send('Emulation.setDeviceMetricsOverride', { width: 360, height: 640, deviceScaleFactor: 3, mobile: true })
  const faint: string[] = []
  let lines = 0
  for (const kind of ['cabinet', 'buses', 'supply', 'branch', 'cable']) {
    await gallery.show(kind)
    const drawings = await page.locator('main > div').all()
    // Every seventh: all sorts are among them, and each takes a picture.
    for (const part of drawings.filter((_, i) => i % 7 === 0)) {
      const { width, spots } = await part.evaluate(e => {
        const frame = e.getBoundingClientRect()
        const spots = [...e.querySelectorAll<SVGGeometryElement>('path, circle, rect, ellipse')].flatMap(line => {
          const to = line.getScreenCTM()
          const { stroke, strokeDasharray } = getComputedStyle(line)
          if (!to || stroke === 'none' || strokeDasharray !== 'none' || line.matches('.halo, .lead, .tip')) return []
          // Parts of a line may lie under a terminal; where it is seen best counts.
          const places = [0.1, 0.3, 0.5, 0.7, 0.9].map(part => {
            const { x, y } = line.getPointAtLength(line.getTotalLength() * part).matrixTransform(to)
            return { x: x - frame.x, y: y - frame.y }
          })
          return [{ places, what: line.outerHTML.slice(0, 80) }]
        })
        return { width: frame.width, spots }
      })
      const picture = await pixelsOf(await part.screenshot({ scale: 'device' }))
      const dense = picture.width / width
      const paper = picture.at(1, 1)
      for (const { places, what } of spots) {
        lines += 1
        // The pixels round it: a line need not lie in the middle of one.
        const near = places.flatMap(({ x, y }) =>
          AROUND.flatMap(dx => AROUND.map(dy => picture.at(Math.round(x * dense) + dx, Math.round(y * dense) + dy))),
        )
        if (Math.max(...near.map(pixel => contrast(pixel, paper))) < 3) faint.push(`${kind}: ${what}`)
      }
    }
  }
  await cdp.send('Emulation.clearDeviceMetricsOverride')
  expect(lines).toBeGreaterThan(300)
  expect(faint).toEqual([])
})
