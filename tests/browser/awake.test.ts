// The screen stays lit in a session, and an answer may be heard and felt: where the phone has it, and never needed.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const LOOK = { width: 360, height: 640, dark: false }
const { cautions, labels, phone } = later

/** What a phone was asked for, in order. */
const told = (page: Page): Promise<readonly string[]> => page.evaluate(() => (globalThis as unknown as { told: string[] }).told)

/** A phone that has all three, or none of them, and tells what it is asked for. */
const equip = async (page: Page, has: boolean): Promise<void> => {
  await page.addInitScript(given => {
    const list: string[] = []
    Object.assign(globalThis, { told: list })
    if (!given) {
      for (const [owner, name] of [
        [Navigator.prototype, 'wakeLock'],
        [Navigator.prototype, 'vibrate'],
        [globalThis, 'AudioContext'],
      ] as const)
        Reflect.deleteProperty(owner, name)
      return
    }
    const lock = { release: async () => list.push('dark') }
    Object.defineProperty(navigator, 'wakeLock', { value: { request: async (kind: string) => list.push(`lit: ${kind}`) && lock } })
    Object.defineProperty(navigator, 'vibrate', { value: (shake: number[]) => list.push(`shaken ${shake.length}`) > 0 })
    const start = OscillatorNode.prototype.start
    OscillatorNode.prototype.start = function (when) {
      list.push(`heard at ${this.frequency.value}`)
      start.call(this, when)
    }
  }, has)
  await page.reload()
}
const session = async (page: Page, thumb: Thumb): Promise<void> => {
  await thumb.tap('Demo machine')
  await thumb.tap('Everything is dead')
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  await page.getByRole('heading', { name: cautions['before-work'].title }).waitFor()
}
const checked = async (page: Page, thumb: Thumb): Promise<void> => {
  await thumb.tickAll()
  await thumb.tap(cautions['before-work'].done)
  await page.getByRole('button', { name: labels.seen['supply-lamp'].blinking }).waitFor()
}

test('the screen is kept lit through a session and no longer, and again when the phone is taken up again', async () => {
  const { page, broken } = await openApp(LOOK)
  await equip(page, true)
  const thumb = new Thumb(page)
  expect(await told(page)).toEqual([])
  await session(page, thumb)
  expect(await told(page)).toEqual(['lit: screen'])
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')))
  expect(await told(page)).toEqual(['lit: screen', 'lit: screen'])
  await thumb.tap('End')
  await thumb.tap('Stop the session')
  await thumb.tap('Back to the start')
  await page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor()
  expect((await told(page)).at(-1)).toBe('dark')
  expect(broken).toEqual([])
})

test('a stored answer shakes as it is set, is heard only where that was chosen, and a refused one otherwise', async () => {
  const { page, broken } = await openApp(LOOK)
  await equip(page, true)
  const thumb = new Thumb(page)
  const felt = async () => (await told(page)).filter(what => !what.startsWith('lit'))
  await session(page, thumb)
  await checked(page, thumb)
  expect(await felt()).toEqual(['shaken 1'])
  await page.reload()
  await thumb.tap('Settings')
  const { values, vibration, sound } = phone.settings
  await page.getByRole('group', { name: sound }).getByText(values.on, { exact: true }).tap()
  await page.getByRole('group', { name: vibration }).getByText(values.off, { exact: true }).tap()
  await thumb.tap('Back')
  await thumb.tap(/^Go on/)
  await thumb.tap(labels.seen['supply-lamp'].blinking)
  await expect.poll(felt).toEqual(['heard at 880'])
  await thumb.tap('Enter the reading')
  await thumb.type(2300)
  await thumb.tap(/^It shows/)
  await expect.poll(felt).toEqual(['heard at 880', 'heard at 220'])
  expect(broken).toEqual([])
})

test('a phone that has none of it plays the same session', async () => {
  const { page, broken } = await openApp(LOOK)
  await equip(page, false)
  expect(await page.evaluate(() => ['wakeLock' in navigator, 'vibrate' in navigator, 'AudioContext' in globalThis])).toEqual([
    false,
    false,
    false,
  ])
  const thumb = new Thumb(page)
  await thumb.tap('Settings')
  await page.getByRole('group', { name: phone.settings.sound }).getByText(phone.settings.values.on, { exact: true }).tap()
  await thumb.tap('Back')
  await session(page, thumb)
  await checked(page, thumb)
  await page.getByText(later.session.saved, { exact: true }).waitFor()
  expect(broken).toEqual([])
})
