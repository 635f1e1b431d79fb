import type { BrowserContext, Page } from 'playwright-core'
import { afterEach, expect, test } from 'vitest'
import { firstPage, launch, newProfile, stored } from './launch.ts'
import { type Server, serve } from './server.ts'

let server: Server | undefined
let browser: BrowserContext | undefined
let clean: (() => Promise<void>) | undefined

afterEach(async () => {
  await browser?.close()
  await server?.stop()
  await clean?.()
})

/** The files that the page asks for and does not get, from now on. */
const missed = (page: Page): string[] => {
  const files: string[] = []
  page.on('requestfailed', request => files.push(request.url()))
  return files
}

test.each([
  { under: '/', why: 'at a host of its own' },
  { under: '/tools/ohmward/', why: 'under a path of another host' },
])('the app opens with the host gone, $why', async ({ under }) => {
  const { profile, remove } = await newProfile()
  clean = remove
  server = await serve({ under })
  const { url } = server
  browser = await launch(profile)
  const page = await firstPage(browser)
  await page.goto(url)
  expect(await page.title()).toContain('Ohmward')
  expect(await stored(page)).toBe('activated')

  await server.stop()
  await expect(fetch(url)).rejects.toThrow()
  const missing = missed(page)
  await page.reload()
  expect(await page.title()).toContain('Ohmward')
  expect(missing).toEqual([])

  // Also from a cold start: the phone was off, and there is still no network.
  await browser.close()
  browser = await launch(profile)
  const later = await firstPage(browser)
  const missingLater = missed(later)
  await later.goto(url)
  expect(await later.title()).toContain('Ohmward')
  expect(missingLater).toEqual([])
})

test('without the service worker nothing opens once the host is gone', async () => {
  const { profile, remove } = await newProfile()
  clean = remove
  server = await serve()
  const { url } = server
  browser = await launch(profile)
  const page = await firstPage(browser)
  await browser.route('**/sw.js', route => route.abort())
  await page.goto(url)
  await page.evaluate(async () => {
    for (const registration of await navigator.serviceWorker.getRegistrations()) await registration.unregister()
  })
  await server.stop()
  await expect(page.reload()).rejects.toThrow('ERR_CONNECTION_REFUSED')
})
