// What the screens say of the storage is what the browser says of it.
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const { past } = later.review
const { check } = later.care

test.each([
  { does: 'keeps it', answer: true, said: check.yes },
  { does: 'does not keep it', answer: false, said: check.no },
  { does: 'has no answer', answer: undefined, said: check.no },
])('where the browser $does, no screen promises more', async ({ answer, said }) => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  await page.addInitScript(given => {
    const value = given === undefined ? undefined : async () => given
    for (const name of ['persisted', 'persist']) Object.defineProperty(StorageManager.prototype, name, { configurable: true, value })
  }, answer)
  await page.reload()
  const thumb = new Thumb(page)
  await thumb.tap('Check this phone')
  const row = page.locator('dl div', { has: page.getByText(check.kept, { exact: true }) })
  await expect.poll(() => row.locator('dd').textContent()).toBe(said)
  await page.getByText(check.never, { exact: true }).waitFor()
  await thumb.tap(check.back)
  await thumb.tap('Past sessions')
  await page.getByText(answer ? past.kept : past.notKept, { exact: true }).waitFor()
  expect(await page.getByText(answer ? past.notKept : past.kept, { exact: true }).count()).toBe(0)
  expect(broken).toEqual([])
})
