// The ring round what the keyboard is at: at least 2 px wide, and 3:1 against what was there before it, by the pixels of the screen.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { contrast, pixelsOf } from './pixels.ts'
import { Thumb } from './thumb.ts'

/** Room round a control in which its ring must lie, CSS pixels; and the ring's least width. */
const [ROOM, RING] = [8, 2]

/** What is wrong with the rings of all controls in sight, and how many there are. */
const rings = async (page: Page): Promise<{ seen: number; wrong: string[] }> => {
  const wrong: string[] = []
  const controls = await page.locator('button:visible:enabled, select:visible, input[type=checkbox]:visible, textarea:visible').all()
  let seen = 0
  for (const control of controls) {
    await control.scrollIntoViewIfNeeded()
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
    const box = await control.boundingBox()
    const { width, height } = page.viewportSize() ?? { width: 0, height: 0 }
    if (!box || box.x < ROOM || box.y < ROOM || box.x + box.width > width - ROOM || box.y + box.height > height - ROOM) continue
    const clip = { x: box.x - ROOM, y: box.y - ROOM, width: box.width + 2 * ROOM, height: box.height + 2 * ROOM }
    const before = await pixelsOf(await page.screenshot({ clip }))
    // As the tab key does: the browser shows a ring after keys alone.
    await page.keyboard.press('Shift')
    await control.focus()
    const after = await pixelsOf(await page.screenshot({ clip }))
    const changed = (x: number, y: number) => contrast(before.at(x, y), after.at(x, y)) >= 3
    const [cx, cy] = [Math.round(before.width / 2), Math.round(before.height / 2)]
    const count = (places: readonly (readonly [number, number])[]) => places.filter(([x, y]) => changed(x, y)).length
    const inwards = Array.from({ length: 2 * ROOM }, (_, i) => i)
    const sides = {
      left: count(inwards.map(i => [i, cy] as const)),
      right: count(inwards.map(i => [before.width - 1 - i, cy] as const)),
      top: count(inwards.map(i => [cx, i] as const)),
      bottom: count(inwards.map(i => [cx, before.height - 1 - i] as const)),
    }
    seen += 1
    const name = ((await control.textContent()) ?? '').slice(0, 30)
    for (const [side, pixels] of Object.entries(sides)) if (pixels < RING) wrong.push(`"${name}" has ${pixels} px at its ${side}`)
  }
  return { seen, wrong }
}

test.each([false, true])(
  'every control in sight has a ring of 2 px and 3:1 where the focus is, dark %s',
  { timeout: 240_000 },
  async dark => {
    const { page, broken } = await openApp({ width: 360, height: 740, dark })
    const thumb = new Thumb(page)
    const all: string[] = []
    const look = async (least: number) => {
      const { seen, wrong } = await rings(page)
      expect(seen).toBeGreaterThanOrEqual(least)
      all.push(...wrong)
    }
    await page.getByText('Works without a network.').waitFor()
    await look(5)
    await thumb.startDemo()
    await look(5)
    await thumb.tickAll()
    await thumb.tap(later.cautions['before-work'].done)
    await thumb.tap('Blinking')
    await thumb.tap(later.session.reading.enter)
    await page.locator('.keys').waitFor()
    await look(12)
    expect(all).toEqual([])
    expect(broken).toEqual([])
  },
)
