// The measuring tool, outside a session: played with one thumb from the first screen to a place and on, looked at on each screen.
import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { jobOf, UNTYPED } from '../../web/screens/toolReckon.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { tool } = later
const SHOTS = process.env['SHOTS']

/** The screen has no flaw; a picture of it where one is wanted. */
const looksRight = async (page: Page, name: string): Promise<void> => {
  expect(await flaws(page), name).toEqual([])
  expect(await violations(page), name).toEqual([])
  if (!SHOTS) return
  await mkdir(SHOTS, { recursive: true })
  await page.screenshot({ path: join(SHOTS, `tool-${page.viewportSize()?.width}-${name}.png`), fullPage: true })
}

/** One field of the method, on the keypad. */
const enter = async (thumb: Thumb, field: string, value: number): Promise<void> => {
  await thumb.tap(new RegExp(`^${field}`))
  await thumb.type(value)
  await thumb.tap(/^It shows/)
}

const LENGTH = 30
/** Ω per metre out and back, as the tool takes it for 1.5 mm². */
const loop = (): number => {
  const read = jobOf({ ...UNTYPED, length: String(LENGTH), percent: '0', size: '1.5' })
  return read.ok ? read.job.cable.loop : 0
}

test.each([
  { width: 360, dark: false },
  { width: 320, dark: true },
])('a place on one cable from typed readings, at $width, dark $dark', async ({ width, dark }) => {
  const { page, broken } = await openApp({ width, height: 640, dark })
  const thumb = new Thumb(page)
  await thumb.tap('Place on one cable')
  await page.getByRole('heading', { name: tool.cable.title }).waitFor()
  await thumb.tap(tool.cable.go)
  await page.getByRole('alert').filter({ hasText: 'Length, m: nothing stands there.' }).waitFor()
  await page.getByLabel(tool.cable.length).fill('30,0')
  await page.getByLabel(tool.cable.drawn).selectOption('0')
  await page.getByLabel(tool.cable.size).selectOption('1.5')
  await page.getByLabel(tool.cable.source).selectOption('injector')
  await looksRight(page, '1-cable')
  await thumb.tap(tool.cable.go)

  // Before anything is read each method says what it will leave, and one that is worth nothing says so.
  await page.getByRole('heading', { name: tool.methods.title }).waitFor()
  await page
    .getByText(/from 30 m to about 1\.\d m/)
    .first()
    .waitFor()
  await page.getByText(tool.refused['tells-nothing']).first().waitFor()
  await looksRight(page, '2-methods')
  await thumb.tap(new RegExp(`^${tool.names['injected-far']}`))

  await page.getByRole('heading', { name: tool.before.title }).waitFor()
  await looksRight(page, '3-before')
  await thumb.tickAll()
  await thumb.tap(tool.before.done)
  await enter(thumb, tool.readings.fields['volt near'], loop() * 12 + 0.1)
  await thumb.tap(tool.readings.go)
  await page
    .getByRole('alert')
    .filter({ hasText: tool.readings.left(2) })
    .waitFor()
  await looksRight(page, '4-readings')
  await enter(thumb, tool.readings.fields.ampere, 1)
  await thumb.tap(new RegExp(`^${tool.readings.fields['volt far']}`))
  // A voltage that is no extra-low one is never a reading to go on with.
  await thumb.type(230)
  await thumb.tap(/^It shows/)
  await page.getByRole('alert').filter({ hasText: tool.readings.stop }).waitFor()
  for (let i = 0; i < 3; i++) await thumb.tap('delete')
  await thumb.type(0.1)
  await looksRight(page, '5-keypad')
  await thumb.tap(/^It shows/)
  await thumb.tap(tool.readings.go)

  await page.getByRole('heading', { name: /^The place: 1[12]\.\d m from the near end$/ }).waitFor()
  await page
    .getByRole('img', { name: /^Cable of 30\.0 m\. The fault lies from 1[01]\.\d m to 1[23]\.\d m, most likely at 1[12]\.\d m/ })
    .waitFor()
  await looksRight(page, '6-result')

  // What is known now is what a further method has to beat: ohms no longer do.
  await thumb.tap(tool.result.narrow)
  await page.getByRole('heading', { name: tool.methods.title }).waitFor()
  await page.getByText(tool.refused['tells-nothing']).first().waitFor()
  await looksRight(page, '7-narrower')
  expect(await page.getByRole('button', { name: new RegExp(`^${tool.names['two-ends']}`) }).count()).toBe(0)
  expect(broken).toEqual([])
})

test('ohms from one end give a bound and no place, and readings that fit no place give neither', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  await thumb.tap('Place on one cable')
  await page.getByLabel(tool.cable.length).fill('40')
  await page.getByLabel(tool.cable.size).selectOption('0.5')
  await thumb.tap(tool.cable.go)
  await thumb.tap(new RegExp(`^${tool.names['one-end']}`))
  await thumb.tickAll()
  await thumb.tap(tool.before.done)
  await enter(thumb, tool.readings.fields['ohm near'], 0.6)
  await thumb.tap(tool.readings.go)
  await page.getByRole('heading', { name: /^At most 1\d\.\d m from the near end$/ }).waitFor()
  await page.getByText(tool.result.onlyBound).waitFor()
  await looksRight(page, '8-bound')
  await thumb.tap(tool.result.narrow)
  await thumb.tap(new RegExp(`^${tool.names['two-ends']}`))
  await thumb.tickAll()
  await thumb.tap(tool.before.done)
  await enter(thumb, tool.readings.fields['ohm near'], 9)
  await enter(thumb, tool.readings.fields['ohm far'], 0.2)
  await thumb.tap(tool.readings.go)
  await page.getByRole('heading', { name: tool.result.none }).waitFor()
  await page.getByText(tool.refused['does-not-fit']).waitFor()
  await looksRight(page, '9-none')
  await thumb.tap(tool.result.again)
  await page.getByRole('heading', { name: tool.before.title }).waitFor()
  expect(broken).toEqual([])
})
