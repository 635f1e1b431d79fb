import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { folded } from './fold.ts'
import { legibility } from './legible.ts'
import { openApp } from './open.ts'
import { outOfReach } from './reach.ts'
import { flaws, violations } from './thumb.ts'
import { ALWAYS, tour } from './tour.ts'

/** Upright at three widths, and one phone on its side. CSS pixels. */
const SIZES = [
  { width: 320, height: 568 },
  { width: 360, height: 640 },
  { width: 412, height: 915 },
  { width: 740, height: 360 },
] as const
const THEMES = ['light', 'dark'] as const
/** A picture of every screen at every size and in both themes goes to this folder if it is named. */
const SHOTS = process.env['SHOTS']

const shoot = async (page: Page, name: string) => {
  if (!SHOTS) return
  await mkdir(SHOTS, { recursive: true })
  await page.screenshot({ path: join(SHOTS, `${name}.png`) })
}

test('every screen stands without a flaw at 320, 360, 412 and 740 × 360, in both themes', { timeout: 600_000 }, async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const found: string[] = []
  const met = await tour(page, async name => {
    const upright = page.viewportSize()
    found.push(...(await outOfReach(page)).map(flaw => `${name}: ${flaw}`))
    for (const size of SIZES) {
      await page.setViewportSize(size)
      for (const colorScheme of THEMES.toReversed()) {
        await page.evaluate(theme => {
          document.documentElement.dataset['theme'] = theme
        }, colorScheme)
        const where = `${name}-${size.width}-${colorScheme}`
        if (colorScheme === 'light') {
          // A drawing takes its new room after the next frame.
          await page.evaluate(() => new Promise(frame => requestAnimationFrame(() => requestAnimationFrame(frame))))
          found.push(...[...(await flaws(page)), ...(await folded(page))].map(flaw => `${where}: ${flaw}`))
        }
        if (name.startsWith('enter')) {
          // The value and the button that sends it are in sight beside the keys.
          const [value, send] = [await page.locator('output').boundingBox(), await page.locator('.actions .primary').boundingBox()]
          for (const box of [value, send])
            if (!box || box.y < 0 || box.y + box.height > size.height) found.push(`${where}: ${JSON.stringify(box)} is out of sight`)
        }
        if (size.width === 360 || size.width === 740) found.push(...(await violations(page)).map(v => `${where}: ${v}`))
        found.push(...(await legibility(page)).map(flaw => `${where}: ${flaw}`))
        await shoot(page, where)
      }
    }
    if (upright) await page.setViewportSize(upright)
  })
  expect(found).toEqual([])
  expect(ALWAYS.filter(name => !met.includes(name))).toEqual([])
  expect(broken).toEqual([])
})
