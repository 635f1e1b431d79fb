// The first screen: what a person at a dead machine taps first, and that the phone's own way back leads here and loses nothing.
import { expect, test } from 'vitest'
import { first } from '../../content/en/first.ts'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const LOOK = { width: 360, height: 640, dark: false }

test('on a first visit the weight is on the hunt, with a machine of one’s own on the machines, with a session open on going on', async () => {
  const { page, broken } = await openApp(LOOK)
  const thumb = new Thumb(page)
  const weight = () => page.locator('.primary').allTextContents()
  await expect.poll(weight).toEqual([`${first.start.begin}${first.start.unknown}`])
  await thumb.tap(new RegExp(`^${first.start.begin}`))
  await page.getByRole('heading', { name: first.count.title }).waitFor()
  await thumb.tap(first.back)

  await thumb.tap(first.start.machines)
  await thumb.tap(later.machines.make)
  await page.getByLabel('Name').fill('Press 4')
  await thumb.tap(first.count.has(8))
  await page.getByRole('heading', { name: 'Press 4' }).waitFor()
  await page.reload()
  await expect.poll(weight).toEqual([first.start.machines])

  await thumb.tap(first.start.demo)
  await thumb.tap(first.symptoms['all-dead'])
  await page.getByText(first.kit.no, { exact: true }).tap()
  await thumb.tap(first.kit.start)
  await page.locator('.band').waitFor()
  await page.reload()
  await expect.poll(weight).toEqual([expect.stringMatching(/^Go on: Filler 2/)])
  expect(broken).toEqual([])
})

test('the phone’s own way back closes no app: it leads to the first screen, and the half-typed value is there on going on', async () => {
  const { page, broken } = await openApp(LOOK)
  const thumb = new Thumb(page)
  const start = () => page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor()
  await thumb.tap(first.start.demo)
  await page.getByRole('heading', { name: first.symptom.title }).waitFor()
  await page.goBack()
  await start()
  await thumb.tap(first.start.demo)
  await thumb.tap(first.symptoms['all-dead'])
  await page.getByText(first.kit.no, { exact: true }).tap()
  await thumb.tap(first.kit.start)
  await page.getByRole('heading', { name: later.cautions['before-work'].title }).waitFor()
  await thumb.tickAll()
  await thumb.tap(later.cautions['before-work'].done)
  await thumb.tap(later.labels.seen['supply-lamp'].blinking)
  await thumb.tap(later.session.reading.enter)
  await thumb.tap('7')
  await page.goBack()
  await start()
  await thumb.tap(/^Go on/)
  await expect.poll(() => page.getByRole('status', { name: later.session.keypad.value }).textContent()).toContain('7')
  // A button leads the same way, and leaves no step behind that would have to be gone back again.
  await page.goBack()
  await thumb.tap(first.start.settings)
  await thumb.tap(first.back)
  await start()
  expect(await page.evaluate(() => history.state)).toBe(null)
  expect(broken).toEqual([])
})
