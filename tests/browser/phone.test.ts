import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { first } from '../../content/en/first.ts'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { cautions, phone } = later
const LOOK = { width: 360, height: 640, dark: false }

/** A session at the demo machine, up to what follows a blinking lamp. */
const blinking = async (page: Page): Promise<Thumb> => {
  const thumb = new Thumb(page)
  await thumb.startDemo()
  await thumb.tickAll()
  await thumb.tap(cautions['before-work'].done)
  await thumb.tap('Blinking')
  await expect.poll(() => page.locator('h1').textContent()).not.toContain('lamp')
  return thumb
}
const band = (page: Page) => page.locator('.band').textContent()

test('a session handed over goes on at another phone, where nothing counts as proved dead any more', async () => {
  const giver = await openApp(LOOK)
  const thumb = await blinking(giver.page)
  // On to the proof that the circuit is dead, whatever readings under voltage come before.
  for (let i = 0; i < 6 && !(await band(giver.page))?.includes('PROVED DEAD'); i += 1) {
    const heading = (await giver.page.locator('h1').textContent()) ?? ''
    if (heading.startsWith('Read')) {
      await thumb.tap('Can’t do it')
      await thumb.tap('Cannot reach it')
    } else await giver.page.locator('.primary').tap()
    await expect.poll(async () => (await giver.page.locator('h1').textContent()) !== heading).toBe(true)
  }
  expect(await band(giver.page)).toContain('PROVED DEAD')
  await thumb.tap('End')
  await thumb.tap('Hand the job over')
  await giver.page.getByText(phone.handOn.lead).waitFor()
  await thumb.tap(phone.handOn.codes)
  await giver.page.getByRole('img', { name: /^Code 1 of \d+/ }).waitFor()
  expect(await flaws(giver.page)).toEqual([])
  expect(await violations(giver.page)).toEqual([])
  await thumb.tap('Back to the step')
  const [file] = await Promise.all([giver.page.waitForEvent('download'), thumb.tap(phone.handOn.file)])
  const buffer = await readFile(await file.path())

  const taker = await openApp(LOOK)
  await taker.page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: file.suggestedFilename(), mimeType: 'application/json', buffer })
  await taker.page.locator('.band').waitFor()
  expect(await band(taker.page)).not.toContain('PROVED DEAD')
  // Devices may be opened meanwhile; no ohms are asked for before the proof.
  const other = new Thumb(taker.page)
  const titles: string[] = []
  for (let i = 0; i < 4 && !titles.includes('Prove the circuit dead'); i += 1) {
    const title = (await taker.page.locator('h1').textContent()) ?? ''
    titles.push(title)
    expect(title).not.toMatch(/^Read ohms/)
    if (title === 'Prove the circuit dead') break
    await taker.page.locator('.primary').tap()
    await expect.poll(() => taker.page.locator('h1').textContent()).not.toBe(title)
  }
  expect(titles).toContain('Prove the circuit dead')
  // It is this phone's own session from now on: put away and opened again, it is offered.
  await taker.page.reload()
  await other.tap(/^Go on/)
  await taker.page.locator('.band').waitFor()
  expect(await band(taker.page)).not.toContain('PROVED DEAD')
  expect([...giver.broken, ...taker.broken]).toEqual([])
})

test('hand, theme, sound and vibration are set once and stay; without a choice it is light, for the right thumb, and still', async () => {
  const { page, broken } = await openApp(LOOK)
  const thumb = new Thumb(page)
  const root = () => page.evaluate(() => ({ ...document.documentElement.dataset }))
  expect(await root()).toMatchObject({ theme: 'light', hand: 'right' })
  await page.emulateMedia({ colorScheme: 'dark' })
  expect(await root()).toMatchObject({ theme: 'light' })
  await thumb.tap('Settings')
  await page.getByText(phone.settings.values.left, { exact: true }).tap()
  await page.getByText(phone.settings.values.phone, { exact: true }).tap()
  expect(await root()).toMatchObject({ theme: 'dark', hand: 'left' })
  await page.reload()
  expect(await root()).toMatchObject({ theme: 'dark', hand: 'left' })
  await page.emulateMedia({ colorScheme: 'light' })
  await expect.poll(root).toMatchObject({ theme: 'light' })
  // The column of marks lies under the left thumb, the figures keep their order.
  await blinking(page)
  await thumb.tap('Enter the reading')
  const x = async (name: string) => (await page.getByRole('button', { name, exact: true }).boundingBox())?.x ?? Number.NaN
  const places = [await x('delete'), await x('7'), await x('8'), await x('9')]
  expect(places).toEqual([...places].sort((a, b) => a - b))
  expect(await flaws(page)).toEqual([])
  expect(broken).toEqual([])
})

test('ready without a network is said only when the files are there', async () => {
  const { page } = await openApp(LOOK)
  const said = page.getByText('works without a network')
  await said.waitFor()
  await page.evaluate(async () => {
    for (const key of await caches.keys()) await caches.delete(key)
  })
  await page.reload()
  await page.locator('.actions').waitFor()
  await page.evaluate(() => navigator.serviceWorker.ready)
  expect(await said.count()).toBe(0)
})

// No browser here but Chromium: each of the others is what this one looks like without the offer and with what that one has.
test('how to keep the app is said where the browser makes no offer, in the words of its own menu', async () => {
  const { page, broken } = await openApp({ ...LOOK, width: 320 })
  await page.addInitScript(() => {
    const of = JSON.parse(window.name || '{}')
    addEventListener('beforeinstallprompt', event => event.stopImmediatePropagation(), { capture: true })
    if (!of.offers) Reflect.deleteProperty(window, 'onbeforeinstallprompt')
    if ('standalone' in of) Object.defineProperty(navigator, 'standalone', { value: of.standalone })
    if (of.safari) Object.defineProperty(window, 'safari', { value: {} })
    Object.defineProperty(navigator, 'maxTouchPoints', { value: of.fingers ? 5 : 0 })
    const ask = window.matchMedia.bind(window)
    window.matchMedia = query => (query === '(pointer: coarse)' ? ({ matches: of.fingers } as MediaQueryList) : ask(query))
  })
  for (const [where, has, words] of [
    ['on iOS', { standalone: false, fingers: true }, 'byShare'],
    ['on the home screen of iOS', { standalone: true, fingers: true }, undefined],
    ['in a desktop browser that knows the Dock', { safari: true, standalone: false, fingers: false }, 'byDock'],
    ['in another phone’s browser', { fingers: true }, 'byMenu'],
    ['in another desktop browser', { fingers: false }, undefined],
    ['in one that makes offers and has made none', { fingers: true, offers: true }, undefined],
  ] as const) {
    await page.evaluate(of => {
      window.name = JSON.stringify(of)
    }, has)
    await page.reload()
    await page.locator('.actions').waitFor()
    for (const way of ['byShare', 'byMenu', 'byDock'] as const)
      expect(await page.getByText(first.start[way]).count(), `${where}: ${way}`).toBe(way === words ? 1 : 0)
    expect(await page.getByRole('button', { name: first.start.install }).count(), where).toBe(0)
    expect(await flaws(page), where).toEqual([])
    expect(await violations(page), where).toEqual([])
  }
  expect(broken).toEqual([])
})

test('a value 1000 times what fits is asked about, and a reading taken back stands in the keypad again', async () => {
  const { page } = await openApp(LOOK)
  const thumb = await blinking(page)
  await thumb.tap('Enter the reading')
  // Millivolts along a device, told as volts.
  await thumb.type(2.5)
  await thumb.tap('It shows 2.5 V')
  await page.locator('dialog[open]').waitFor()
  expect(await flaws(page)).toEqual([])
  await thumb.tap(phone.scale.pick('2.5 mV'))
  await page.locator('.keys').waitFor({ state: 'detached' })
  await thumb.tap('Undo')
  await expect.poll(() => page.getByRole('status', { name: 'value' }).textContent()).toContain('0.0025')
})
