import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import type { Kit } from '../../engine/machine.ts'
import { begin } from '../../web/flow/session.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { Thumb } from './thumb.ts'

const KIT: Kit = { qualified: false }

/** What is met by role and name, and pressed as a reader of the screen presses it: without a place on the screen. */
class Reader extends Thumb {
  private readonly at: Page
  constructor(page: Page) {
    super(page)
    this.at = page
  }
  override async tap(name: string | RegExp): Promise<void> {
    const button = this.at.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).first()
    await button.focus()
    await button.dispatchEvent('click')
  }
  override async tickAll(): Promise<void> {
    for (const box of await this.at.getByRole('checkbox').all()) await box.dispatchEvent('click')
  }
}

test('a whole session is met by role and name: title first, power state, what the drawing shows, every button named', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const reader = new Reader(page)
  await reader.tap('Demo machine')
  await reader.tap('Everything is dead')
  await page.getByRole('radio', { name: 'No' }).dispatchEvent('click')
  await reader.tap('Start the session')
  const technician = new Technician(truthOf(wornThrough), filler, KIT)
  const start = begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' })
  const powers = Object.values(later.labels.powers).map(({ word }) => word)
  const met = new Set<string>()
  const { session } = await playOn(page, start, technician, {
    hand: reader,
    shown: async ({ request }, title) => {
      const tree = await page.locator('main').ariaSnapshot()
      // As the tree has it: nothing that acts or shows may be without a name.
      expect(
        tree.split('\n').filter(line => /^\s*- (button|img|checkbox|radio|textbox)( \[|:|$)/.test(line)),
        tree,
      ).toEqual([])
      expect(
        powers.some(word => tree.includes(word)),
        tree,
      ).toBe(true)
      expect(tree, tree).toContain('timer "time since start"')
      expect(await page.getByRole('heading', { level: 1 }).count(), title).toBe(1)
      if (request.say !== 'step' || request.step.kind === 'finding') return
      met.add(request.step.kind)
      const drawing = page.locator('.picture').getByRole('img')
      expect(await drawing.count(), title).toBe(1)
      const said = (await drawing.getAttribute('aria-label')) ?? ''
      // The text beside the drawing's own says where each probe goes, as the drawing does.
      if (request.step.kind === 'read' && request.step.meter !== 'amp')
        for (const point of [request.step.red, request.step.black])
          for (const part of point.split(/[./]/).filter(p => /\d/.test(p))) expect(said, `${title}: ${part}`).toContain(part)
    },
    typing: async () => {
      const value = page.getByRole('status', { name: 'value' })
      expect(await value.textContent()).toMatch(/\d|OL/)
      return true
    },
  })
  expect(session.request).toMatchObject({ say: 'end', result: 'restored' })
  expect([...met].sort()).toEqual(['act', 'look', 'read'])
  expect(broken).toEqual([])
})
