// An accidental tap costs little: each of the last twenty entries comes back by two taps at most, and what cannot come back takes two taps far apart.
import type { Locator, Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { begin } from '../../web/flow/session.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { Thumb } from './thumb.ts'

const { keeping, machines, session: say } = later
const PHONE = { width: 360, height: 640, dark: false }
const KIT = { qualified: false }
const ENTRIES = 20
/** CSS pixels between two taps that no single slip makes. */
const APART = 88

test(`each of the last ${ENTRIES} entries is taken back by at most two taps`, { timeout: 240_000 }, async () => {
  const { page, broken } = await openApp(PHONE)
  const thumb = new Thumb(page)
  await thumb.tap('Demo machine')
  await thumb.tap('Everything is dead')
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  const start = begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' })
  const { session } = await playOn(page, start, new Technician(truthOf(wornThrough), filler, KIT))
  expect(session.entries.length).toBeGreaterThanOrEqual(ENTRIES)
  const undo = page.getByRole('button', { name: say.actions.undo, exact: true })
  const back = page.getByRole('button', { name: say.keypad.back, exact: true })
  for (let left = session.entries.length - 1; left >= session.entries.length - ENTRIES; left -= 1) {
    let taps = 0
    // A reading that was taken back stands in the keypad, and the way to the next one leads over its drawing.
    if ((await undo.count()) === 0) {
      await back.tap()
      taps += 1
    }
    await undo.tap()
    taps += 1
    await page.getByText(`${say.step(left + 1)} ·`).waitFor()
    expect(taps).toBeLessThanOrEqual(2)
  }
  expect(broken).toEqual([])
})

const middle = async (target: Locator): Promise<{ x: number; y: number }> => {
  const box = await target.boundingBox()
  if (!box) throw new Error('it is not on the screen')
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}
/** Two taps as a bouncing finger makes them: the second where the first was. Then how far the tap that does it lies from there. */
const bounce = async (page: Page, first: Locator, second: Locator): Promise<number> => {
  await first.scrollIntoViewIfNeeded()
  const at = await middle(first)
  await page.touchscreen.tap(at.x, at.y)
  await second.waitFor()
  const there = await middle(second)
  await page.touchscreen.tap(at.x, at.y)
  return Math.hypot(there.x - at.x, there.y - at.y)
}

test('a branch leaves its machine, and a photo the phone, by two taps far apart and never by one that bounces', async () => {
  const { page, broken } = await openApp(PHONE)
  const thumb = new Thumb(page)
  await thumb.tap('Machines')
  await thumb.tap(machines.make)
  await thumb.tap(/^It has 8/)
  await thumb.tap('Describe or change it')
  await thumb.tap(/^B3/)
  const out = page.getByRole('button', { name: machines.takeBranchOut, exact: true })
  expect(
    await bounce(page, out.first(), page.getByRole('dialog').getByRole('button', { name: machines.takeBranchOut })),
  ).toBeGreaterThanOrEqual(APART)
  await page.getByRole('heading', { name: 'Describe branch B3' }).waitFor()
  await page.getByRole('dialog').waitFor({ state: 'detached' })
  await out.first().tap()
  await page.getByRole('dialog').getByRole('button', { name: machines.takeBranchOut }).tap()
  await page.getByRole('button', { name: /^B4/ }).waitFor()
  expect(await page.getByRole('button', { name: /^B3/ }).count()).toBe(0)

  await page.reload()
  await thumb.tap('Demo machine')
  await thumb.tap('Everything is dead')
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  await thumb.tap(say.actions.end)
  await thumb.tap(say.cannot.stop)
  await thumb.tap(say.end.sayWrong)
  const picture = await page.locator('h1').screenshot()
  await page.locator('.photos input[type=file]').setInputFiles({ name: 'a.png', mimeType: 'image/png', buffer: picture })
  await page.locator('.photo').waitFor()
  const drop = page.getByRole('button', { name: keeping.photos.drop, exact: true })
  const sure = page.getByRole('button', { name: keeping.photos.sure, exact: true })
  expect(await bounce(page, drop, sure)).toBeGreaterThanOrEqual(APART)
  await page.locator('.photo').waitFor()
  if ((await sure.count()) === 0) await drop.tap()
  await sure.tap()
  await page.locator('.photo').waitFor({ state: 'detached' })
  expect(broken).toEqual([])
})
