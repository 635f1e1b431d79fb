import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const CLAMP = later.report.clamp
const SOURCE = later.drawings.source

test('a source whose battery is empty and a clamp that was fetched: told in two taps, kept over a reload, and taken back', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  const { cannot } = later.session
  await thumb.tap('Demo machine')
  await thumb.tap('Everything is dead')
  await page.getByText('Isolated current source, limited to 24 V', { exact: true }).tap()
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  await page.getByRole('heading', { name: later.cautions['before-work'].title }).waitFor()
  await thumb.tickAll()
  await thumb.tap(later.cautions['before-work'].done)
  await page.getByText(later.session.saved, { exact: true }).waitFor()
  const title = await page.locator('h1').textContent()

  await thumb.tap(later.session.actions.cannot)
  await page.getByRole('button', { name: cannot.without(SOURCE) }).waitFor()
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
  await thumb.tap(cannot.without(SOURCE))
  await page.getByRole('button', { name: cannot.without(SOURCE) }).waitFor({ state: 'detached' })
  await thumb.tap(later.session.actions.cannot)
  await thumb.tap(cannot.nowAtHand(CLAMP))
  await page.getByRole('button', { name: cannot.nowAtHand(CLAMP) }).waitFor({ state: 'detached' })
  await page.reload()
  await thumb.tap(/^Go on/)
  await expect.poll(() => page.locator('h1').textContent(), { timeout: 20_000 }).toBe(title)
  await thumb.tap(later.session.actions.cannot)
  await page.getByRole('button', { name: cannot.without(CLAMP) }).waitFor()
  await page.getByRole('button', { name: cannot.nowAtHand(SOURCE) }).waitFor()
  await thumb.tap(later.session.backToStep)
  await thumb.tap(later.session.actions.undo)
  await page.getByText(later.session.saved, { exact: true }).waitFor()
  await thumb.tap(later.session.actions.cannot)
  await page.getByRole('button', { name: cannot.nowAtHand(CLAMP) }).waitFor()
  expect(broken).toEqual([])
}, 120_000)
