import type { BrowserContext, Page } from 'playwright-core'
import { onTestFinished } from 'vitest'
import { firstPage, launch, newProfile } from './launch.ts'
import { serve } from './server.ts'

/** The built app in a fresh browser, and what went wrong in the page so far. Closed when the test is over. */
export const openApp = async (look: {
  width: number
  height: number
  dark: boolean
  flags?: readonly string[]
}): Promise<{ page: Page; broken: string[] }> => {
  const { profile, remove } = await newProfile()
  const server = await serve()
  const browser: BrowserContext = await launch(profile, {
    viewport: { width: look.width, height: look.height },
    dark: look.dark,
    flags: look.flags ?? [],
  })
  onTestFinished(async () => {
    await browser.close()
    await server.stop()
    await remove()
  })
  const page = await firstPage(browser)
  const broken: string[] = []
  page.on('pageerror', error => broken.push(String(error)))
  page.on('console', message => message.type() === 'error' && broken.push(message.text()))
  await page.goto(server.url)
  return { page, broken }
}
