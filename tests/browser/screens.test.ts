import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { cautions } = later

/** A session at the demo machine, up to the act that follows a blinking lamp. */
const lampBlinks = async (page: Page): Promise<Thumb> => {
  const thumb = new Thumb(page)
  await thumb.startDemo()
  await thumb.tickAll()
  await thumb.tap(cautions['before-work']?.done ?? '')
  await thumb.tap('Blinking')
  return thumb
}

/** Sets readings under voltage aside until the supply is to be switched off. */
const toSwitchOff = async (page: Page, thumb: Thumb): Promise<void> => {
  const title = page.locator('h1')
  await expect.poll(() => title.textContent()).not.toContain('lamp')
  for (let i = 0; i < 6 && (await title.textContent())?.startsWith('Read'); i += 1) {
    const now = (await title.textContent()) ?? ''
    await thumb.tap('Can’t do it')
    await thumb.tap('Cannot reach it')
    await expect.poll(() => title.textContent()).not.toBe(now)
  }
}

test('forty branches fit on the narrowest phone, and turned on its side', async () => {
  const { page, broken } = await openApp({ width: 320, height: 640, dark: false })
  const thumb = new Thumb(page)
  await thumb.tap(/^Find the fault now/)
  for (let i = 0; i < 7; i += 1) await thumb.tap('add 5')
  await thumb.tap('It has 40 branches')
  await thumb.tap('All weak, lamps dim')
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  await page.getByRole('img', { name: /Terminal strip, 40 branches/ }).waitFor()
  expect(await flaws(page)).toEqual([])
  await thumb.tickAll()
  await thumb.tap(cautions['before-work']?.done ?? '')
  await page.getByRole('heading', { name: 'Look at the supply’s lamp' }).waitFor()
  expect(await flaws(page)).toEqual([])
  await page.setViewportSize({ width: 640, height: 360 })
  expect(await flaws(page)).toEqual([])
  expect(broken).toEqual([])
})

test('a value that cannot be is refused in words and kept, and mains where 24 V was expected ends the session', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = await lampBlinks(page)
  await toSwitchOff(page, thumb)
  await thumb.tap('Supply is off and locked')
  await thumb.tap('It shows volts')
  await thumb.tap(/^It shows/)
  await page.getByRole('alert').filter({ hasText: 'Type what the display shows.' }).waitFor()
  await thumb.type(2300)
  await thumb.tap(/^It shows/)
  await page.getByRole('alert').filter({ hasText: '2300' }).waitFor()
  expect(await page.getByRole('status', { name: 'value' }).textContent()).toContain('2300')
  await thumb.tap('delete')
  expect(await flaws(page)).toEqual([])
  await thumb.tap('It shows 230 V')
  await page.getByRole('heading', { name: cautions['not-extra-low-voltage']?.title ?? '' }).waitFor()
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
  expect(await page.getByRole('button', { name: 'Enter the reading' }).count()).toBe(0)
  await thumb.tap('Back to the start')
  await page.getByRole('heading', { name: 'Ohmward' }).waitFor()
  expect(await page.getByRole('button', { name: /^Go on/ }).count()).toBe(0)
  expect(broken).toEqual([])
})

test('the screen of a step that was taken back is the step before, and why, cannot and undo are one tap away', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: true })
  const thumb = await lampBlinks(page)
  await expect.poll(() => page.locator('h1').textContent()).not.toContain('lamp')
  await thumb.tap('Why this?')
  await page.getByRole('dialog', { name: 'Why this?' }).waitFor()
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
  await thumb.tap('Back to the step')
  await thumb.tap('Can’t do it')
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])
  await thumb.tap('Back to the step')
  await thumb.tap('Undo')
  await page.getByRole('heading', { name: 'Look at the supply’s lamp' }).waitFor()
  await thumb.tap('Can’t do it')
  await page.getByLabel('Another reason').fill('covered by a plate')
  await thumb.tap('Set it aside')
  await expect.poll(() => page.locator('h1').textContent()).not.toContain('lamp')
  await thumb.tap('End')
  await thumb.tap('Hand the job over')
  await page.getByRole('heading', { name: 'Hand the job over', level: 1 }).waitFor()
  expect(await flaws(page)).toEqual([])
  await thumb.tap('Back to the start')
  await page.getByRole('heading', { name: 'Ohmward' }).waitFor()
  expect(await page.getByRole('button', { name: /^Go on/ }).count()).toBe(0)
  expect(broken).toEqual([])
})

test('a machine file is read, and one that is none is refused in a sentence', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const file = (text: string) => ({ name: 'machine.json', mimeType: 'application/json', buffer: Buffer.from(text) })
  const input = page.locator('input[type=file]')
  await input.setInputFiles(file('not json'))
  await page.getByRole('alert').filter({ hasText: 'machine.json is not a JSON file.' }).waitFor()
  await input.setInputFiles(file(JSON.stringify({ ...demo, branches: [] })))
  await page.getByRole('alert').filter({ hasText: 'branches' }).waitFor()
  await input.setInputFiles(file(JSON.stringify({ ...demo, name: 'Palletiser 7' })))
  await page.getByRole('heading', { name: 'Say what the machine does' }).waitFor()
  await page.getByText('Palletiser 7 · 12 branches').waitFor()
  expect(broken).toEqual([])
})
