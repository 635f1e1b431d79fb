import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, onTestFinished, test } from 'vitest'
import { copyOfDist } from './copy.ts'
import { firstPage, launch, newProfile, stored } from './launch.ts'
import { DIST, serve } from './server.ts'

const inBrowser = async <T>(folder: string, look: (page: Page) => Promise<T>): Promise<T> => {
  const server = await serve({ folder })
  const { profile, remove } = await newProfile()
  const browser = await launch(profile)
  try {
    const page = await firstPage(browser)
    await page.goto(server.url)
    await stored(page)
    return await look(page)
  } finally {
    await browser.close()
    await server.stop()
    await remove()
  }
}

const hindrances = (folder: string): Promise<string[]> =>
  inBrowser(folder, async page => {
    const session = await page.context().newCDPSession(page)
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
    return installabilityErrors.map(error => error.errorId)
  })

test('nothing hinders installing the app', async () => {
  expect(await hindrances(DIST)).toEqual([])
})

test('a manifest without a fitting icon would hinder it', async () => {
  const { folder, remove } = await copyOfDist()
  onTestFinished(remove)
  const file = join(folder, 'manifest.webmanifest')
  const manifest: { icons: unknown[] } = JSON.parse(await readFile(file, 'utf8'))
  await writeFile(file, JSON.stringify({ ...manifest, icons: [] }))
  expect(await hindrances(folder)).toContain('no-acceptable-icon')
})

test('the page takes no script, style or address but its own', async () => {
  const refused = await inBrowser(DIST, page =>
    page.evaluate(async () => {
      const found: string[] = []
      document.addEventListener('securitypolicyviolation', event => found.push(event.effectiveDirective))
      try {
        document.head.append(Object.assign(document.createElement('script'), { textContent: 'globalThis.ran = true' }))
      } catch {
        // A script's text is refused before it is one.
      }
      document.head.append(Object.assign(document.createElement('style'), { textContent: 'body { display: none }' }))
      await fetch('http://127.0.0.1:1/').catch(() => undefined)
      await new Promise(done => setTimeout(done, 200))
      return found.sort()
    }),
  )
  expect(refused).toEqual(['connect-src', 'require-trusted-types-for', 'style-src-elem'])
})
