// The review opened in a browser, for its tests.
import { spawnSync } from 'node:child_process'
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Download, Page } from 'playwright-core'
import { expect, onTestFinished } from 'vitest'
import { countPages } from './files.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

/** Pictures of every screen go to this folder if it is named. */
export const SHOTS = process.env['SHOTS']

const upload = (text: string, name = 'sessions.json') => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) })
export const heading = (page: Page, name: string) => page.getByRole('heading', { name, level: 1 }).waitFor()
export const textOf = async (download: Download): Promise<string> => readFile(await download.path(), 'utf8')

export const opened = async (look: { width: number; height: number; dark: boolean }) => {
  const { page, broken } = await openApp(look)
  const thumb = new Thumb(page)
  let shot = 0
  const check = async (name: string) => {
    expect(await flaws(page), name).toEqual([])
    expect(await violations(page), name).toEqual([])
    if (!SHOTS) return
    await mkdir(SHOTS, { recursive: true })
    await page.screenshot({ path: join(SHOTS, `review-${look.width}-${String(shot++).padStart(2, '0')}-${name}.png`), fullPage: true })
  }
  await thumb.tap('Past sessions')
  await thumb.tap('Search, charts, files')
  await heading(page, 'Review the log')
  const takeIn = async (text: string, says: RegExp | string) => {
    await page.locator('input[type=file]').first().setInputFiles(upload(text))
    await page.getByRole('status').filter({ hasText: says }).waitFor()
  }
  return { page, thumb, broken, check, takeIn }
}

/** Prints a page of its own and counts the sheets; draws them as pictures where a folder for them is named. */
export const pagesOf = async (page: Page, html: string, name: string): Promise<number> => {
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-report-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  await writeFile(join(folder, 'report.html'), html)
  const sheet = await page.context().newPage()
  await sheet.goto(`file://${join(folder, 'report.html')}`)
  // Nothing runs off the paper's side, at the width that A4 leaves between its margins.
  await sheet.setViewportSize({ width: Math.floor((182 / 25.4) * 96), height: 900 })
  await sheet.emulateMedia({ media: 'print' })
  expect(await sheet.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBeLessThanOrEqual(0)
  const pdf = await sheet.pdf({ preferCSSPageSize: true })
  await sheet.close()
  if (SHOTS) {
    await mkdir(SHOTS, { recursive: true })
    await writeFile(join(SHOTS, `${name}.pdf`), pdf)
    spawnSync('pdftoppm', ['-r', '80', '-png', join(SHOTS, `${name}.pdf`), join(SHOTS, name)])
  }
  return countPages(pdf)
}
