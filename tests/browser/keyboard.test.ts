import type { Locator, Page } from 'playwright-core'
import { expect, test } from 'vitest'
import type { Kit } from '../../engine/machine.ts'
import { begin } from '../../web/flow/session.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { Thumb } from './thumb.ts'

const KIT: Kit = { qualified: false }
/** More presses of the tab key than a screen has targets. */
const MOST_TABS = 60

/** Walks to a target with the tab key alone and says so if it cannot be reached or the focus cannot be seen there. */
const tabTo = async (page: Page, target: Locator): Promise<void> => {
  await target.waitFor()
  for (let i = 0; i < MOST_TABS; i += 1) {
    const here = await target.evaluate(e => {
      if (document.activeElement !== e && !e.contains(document.activeElement)) return undefined
      const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement ?? e)
      const box = (document.activeElement ?? e).getBoundingClientRect()
      const seen = document.elementFromPoint(box.left + box.width / 2, Math.min(innerHeight - 1, box.top + box.height / 2))
      return {
        ring: outlineStyle === 'none' ? 0 : Number.parseFloat(outlineWidth),
        covered: !seen || !(e.contains(seen) || seen.contains(e)),
      }
    })
    if (here) {
      expect(here.ring, `focus ring on ${target}`).toBeGreaterThanOrEqual(2)
      expect(here.covered, `focus under something at ${target}`).toBe(false)
      return
    }
    await page.keyboard.press('Tab')
  }
  throw new Error(`the tab key does not reach ${target}`)
}

/** The keyboard in the place of the thumb: the same names, no pointer. */
class Keyboard extends Thumb {
  private readonly at: Page
  constructor(page: Page) {
    super(page)
    this.at = page
  }
  override async tap(name: string | RegExp): Promise<void> {
    await tabTo(this.at, this.at.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).first())
    await this.at.keyboard.press('Enter')
  }
  override async tickAll(): Promise<void> {
    for (const box of await this.at.getByRole('checkbox').all()) {
      await tabTo(this.at, box)
      await this.at.keyboard.press('Space')
    }
  }
}

test('a whole session is played with the keyboard alone, its focus always in sight', { timeout: 240_000 }, async () => {
  const { page, broken } = await openApp({ width: 360, height: 740, dark: false })
  const keyboard = new Keyboard(page)
  await keyboard.tap('Demo machine')
  await keyboard.tap('Everything is dead')
  // A group of choices is one stop; the arrow keys choose in it.
  await tabTo(
    page,
    page
      .getByRole('radio', { name: 'No' })
      .or(page.getByRole('radio', { name: 'Yes' }))
      .first(),
  )
  await page.keyboard.press('ArrowDown')
  if (!(await page.getByRole('radio', { name: 'No' }).isChecked())) await page.keyboard.press('ArrowDown')
  expect(await page.getByRole('radio', { name: 'No' }).isChecked()).toBe(true)
  await keyboard.tap('Start the session')
  const technician = new Technician(truthOf(wornThrough), filler, KIT)
  const start = begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' })
  let sheets = 0
  const { session } = await playOn(page, start, technician, {
    hand: keyboard,
    shown: async ({ request }) => {
      if (sheets > 0 || request.say !== 'step') return
      sheets += 1
      // A sheet holds the focus, Escape closes it, and the focus is back where it was.
      await keyboard.tap('Why this?')
      await page.locator('dialog[open]').waitFor()
      for (let i = 0; i < 12; i += 1) await page.keyboard.press('Tab')
      expect(
        await page.evaluate(() => document.activeElement === document.body || document.activeElement?.closest('dialog') !== null),
      ).toBe(true)
      await page.keyboard.press('Escape')
      await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Why this?')
    },
  })
  expect(session.request).toMatchObject({ say: 'end', result: 'restored' })
  expect(sheets).toBe(1)
  expect(broken).toEqual([])
})
