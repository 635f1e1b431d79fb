import { appendFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { copyOfDist } from './copy.ts'
import { firstPage, launch, newProfile, stored } from './launch.ts'
import { serve } from './server.ts'
import { Thumb } from './thumb.ts'

const { cautions } = later

test('a newer version is offered on the start screen alone, not while a session is open, and is taken when asked for', async () => {
  const { folder, remove } = await copyOfDist()
  const { profile, remove: clean } = await newProfile()
  const server = await serve({ folder })
  const browser = await launch(profile)
  onTestFinished(async () => {
    await browser.close()
    await server.stop()
    await clean()
    await remove()
  })
  const page = await firstPage(browser)
  await page.goto(server.url)
  expect(await stored(page)).toBe('activated')
  await page.reload()
  const thumb = new Thumb(page)
  const waiting = () => page.evaluate(async () => Boolean((await navigator.serviceWorker.getRegistration())?.waiting))
  const offer = page.getByRole('button', { name: 'Take the newer version' })
  await page.getByRole('button', { name: 'Demo machine' }).waitFor()
  expect(await offer.count()).toBe(0)

  await thumb.startDemo()
  await appendFile(join(folder, 'sw.js'), '\n// the next version\n')
  await page.reload()
  await page.getByRole('button', { name: /^Go on/ }).waitFor()
  // The browser looks for a newer version some time after the page has come.
  await expect.poll(waiting, { timeout: 30_000 }).toBe(true)
  expect(await offer.count()).toBe(0)

  await thumb.tap(/^Go on/)
  await page.getByRole('heading', { name: 'Check these before work' }).waitFor()
  await thumb.tickAll()
  await thumb.tap(cautions['before-work']?.done ?? '')
  await thumb.tap('End')
  await thumb.tap('Stop the session')
  await thumb.tap('Back to the start')
  await Promise.all([page.waitForEvent('load'), offer.tap()])
  await page.getByRole('button', { name: 'Past sessions' }).waitFor()
  expect(await waiting()).toBe(false)
  await thumb.tap('Past sessions')
  await page.getByRole('button', { name: /Filler 2.*Session is stopped/ }).waitFor()
})
