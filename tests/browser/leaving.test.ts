import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { readSessions } from '../../web/log/import.ts'
import { played, stamped } from '../log/played.ts'
import { fileOf } from './files.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const { left } = later.keeping
/** A phone with a share sheet, which is closed again or takes the file. */
const withSheet = (page: Page, does: 'close' | 'take') =>
  page.evaluate(does => {
    const share = async () => {
      if (does === 'close') throw new DOMException('closed', 'AbortError')
    }
    Object.defineProperty(navigator, 'canShare', { configurable: true, value: () => true })
    Object.defineProperty(navigator, 'share', { configurable: true, value: share })
  }, does)

test('exported is only what was seen to leave: by the share sheet, or because the user says so; a short file can be copied instead', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
  const thumb = new Thumb(page)
  await thumb.tap('Past sessions')
  await thumb.tap('Search, charts, files')
  await thumb.tap('Files')
  const id = '00000000-0000-4000-8000-000000000001'
  const file = { name: 'one.json', mimeType: 'application/json', buffer: Buffer.from(await fileOf({ [id]: stamped(played(3)) })) }
  await page.locator('input[type=file]').first().setInputFiles(file)
  await page.getByText('1 new').waitFor()

  await withSheet(page, 'close')
  await thumb.tap('One file (JSON)')
  await page.getByText(later.session.share.not).waitFor()
  await page.getByText(left.never).waitFor()

  // Nobody knows what became of a download but the user.
  await page.evaluate(() => Object.defineProperty(navigator, 'canShare', { configurable: true, value: undefined }))
  await thumb.tap('One file (JSON)')
  await page.getByText('where it should be?').waitFor()
  await page.getByText(left.never).waitFor()
  await thumb.tap(left.copy)
  await page.getByText('was copied to the clipboard').waitFor()
  const read = readSessions(await page.evaluate(() => navigator.clipboard.readText()))
  expect(read.ok && read.value.sessions.map(session => session.id)).toEqual([id])
  await page.getByRole('button', { name: left.no, exact: true }).tap()
  await page.getByText(left.notGone).waitFor()
  await page.getByText(left.never).waitFor()

  await withSheet(page, 'take')
  await thumb.tap('One file (JSON)')
  await page.getByText('Last exported').waitFor()
  expect(await page.getByText('where it should be?').count()).toBe(0)
  expect(broken).toEqual([])
})

test('a log that leaves from the past sessions counts as exported too, once the user says that it is there', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  await thumb.startDemo()
  await page.reload()
  await thumb.tap('Past sessions')
  await page.locator('.sessions button').tap()
  const [given] = await Promise.all([page.waitForEvent('download'), thumb.tap(later.review.json)])
  await page.getByText(left.ask(given.suggestedFilename())).waitFor()
  await thumb.tap(left.yes)
  await page.getByText('where it should be?').waitFor({ state: 'hidden' })
  await thumb.tap('Back')
  await thumb.tap('Search, charts, files')
  await thumb.tap('Files')
  await page.getByText('Last exported').waitFor()
  expect(broken).toEqual([])
})
