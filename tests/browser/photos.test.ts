import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { expect, test } from 'vitest'
import { readSessions } from '../../web/log/import.ts'
import { jpegOf } from '../../web/log/jpeg.ts'
import { MOST_EDGE, MOST_PHOTO_BYTES, MOST_PHOTOS } from '../../web/log/photo.ts'
import { readPhotos } from '../../web/log/photoFile.ts'
import { played, stamped } from '../log/played.ts'
import { countPages, fileOf } from './files.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

/** The printed report goes to this folder if it is named. */
const SHOTS = process.env['SHOTS']

/** A camera's picture: large, hard to pack, and with the place in it where it was taken. */
const camera = async (n: number, width = 5200, height = 3900): Promise<Buffer> => {
  const raw = Buffer.alloc(width * height * 3)
  let state = n + 1
  for (let i = 0; i < raw.length; i++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    raw[i] = state >>> 24
  }
  const picture = sharp(raw, { raw: { width, height, channels: 3 } }).jpeg({ quality: 88 })
  return picture.withExif({ IFD0: { Artist: 'Ada Example' }, IFD3: { GPSLatitudeRef: 'N' } }).toBuffer()
}
/** The bytes of the photos in the store, each in base64. */
const storedIn = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<string[]>((done, failed) => {
        const open = indexedDB.open('ohmward')
        open.onerror = () => failed(open.error)
        open.onsuccess = () => {
          const all = open.result.transaction('photos').objectStore('photos').getAll()
          all.onsuccess = () => {
            open.result.close()
            const text = (bytes: Uint8Array) => Array.from(bytes, byte => String.fromCharCode(byte)).join('')
            done(all.result.map(({ bytes }: { bytes: ArrayBuffer }) => btoa(text(new Uint8Array(bytes)))))
          }
        }
      }),
  )

test('[seed 36] twenty pictures of a large camera are kept small and bare of its notes; a file that is no picture takes nothing with it', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  await thumb.tap('Past sessions')
  await thumb.tap('Search, charts, files')
  await thumb.tap('Files')
  const session = stamped(played(2))
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({
      name: 'one.json',
      mimeType: 'application/json',
      buffer: Buffer.from(await fileOf({ '00000000-0000-4000-8000-000000000001': session })),
    })
  await page.getByText('1 new').waitFor()
  await thumb.tap('Back to the list')
  await page.locator('.sessions button').first().tap()
  await thumb.tap('Fill in the record')
  const input = page.locator('.photos input[type=file]')
  expect(await input.getAttribute('capture')).toBe('environment')

  const large = await camera(1)
  expect(large.length).toBeGreaterThan(15_000_000)
  expect(large.includes('Ada Example')).toBe(true)
  const from = performance.now()
  await input.setInputFiles({ name: 'large.jpg', mimeType: 'image/jpeg', buffer: large })
  await page.locator('.photos figure').nth(0).waitFor()
  console.info(`a picture of ${Math.round(large.length / 1e6)} MB: ${Math.round(performance.now() - from)} ms until it is kept`)
  await input.setInputFiles({ name: 'none.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture at all') })
  await page.getByText('This picture cannot be kept. All else is saved.').waitFor()
  expect(await page.locator('.photos figure').count()).toBe(1)

  const others = await Promise.all(Array.from({ length: MOST_PHOTOS - 1 }, (_, i) => camera(i + 2, 400 + i, 500)))
  await input.setInputFiles(others.map((buffer, i) => ({ name: `${i}.jpg`, mimeType: 'image/jpeg', buffer })))
  await page
    .locator('.photos figure')
    .nth(MOST_PHOTOS - 1)
    .waitFor()
  const kept = (await storedIn(page)).map(text => Uint8Array.from(Buffer.from(text, 'base64')))
  expect(kept).toHaveLength(MOST_PHOTOS)
  for (const bytes of kept) {
    const jpeg = jpegOf(bytes.buffer)
    expect(bytes.length).toBeLessThanOrEqual(MOST_PHOTO_BYTES)
    expect(Math.max(jpeg?.width ?? 0, jpeg?.height ?? 0)).toBeLessThanOrEqual(MOST_EDGE)
    expect(jpeg?.notes).toEqual([])
    expect(Buffer.from(bytes).includes('Ada Example')).toBe(false)
  }
  const cdp = await page.context().newCDPSession(page)
  await cdp.send('HeapProfiler.collectGarbage')
  const { usedSize } = await cdp.send('Runtime.getHeapUsage')
  console.info(
    `twenty photos: ${Math.round(kept.reduce((sum, { length }) => sum + length, 0) / 1000)} kB kept, heap ${Math.round(usedSize / 1e6)} MB`,
  )
  expect(usedSize).toBeLessThanOrEqual(150_000_000)
  expect(await flaws(page)).toEqual([])
  expect(await violations(page)).toEqual([])

  // The record names them; the last may be taken off the phone again, by two taps.
  await thumb.tap('Save the record')
  await page.getByRole('heading', { name: 'Photos' }).waitFor()
  const download = page.waitForEvent('download')
  await thumb.tap('Whole log (JSON)')
  const read = readSessions(await readFile(await (await download).path(), 'utf8'))
  const last = read.ok ? read.value.sessions[0]?.events.at(-1)?.event : undefined
  expect(last?.type === 'closed' && last.record?.photos).toHaveLength(MOST_PHOTOS)
  await page.getByText('where it should be?').waitFor()
  await thumb.tap('Yes, it is there')
  // The report shows the first of them where it is asked to, still on two pages, and black on white as all else.
  await thumb.tap('Report to print and sign')
  await page.locator('.report').waitFor()
  expect(await page.locator('.report img').count()).toBe(0)
  await page.locator('label', { hasText: 'Photos' }).tap()
  expect(await page.locator('.report img').count()).toBe(3)
  expect(countPages(await page.pdf({ preferCSSPageSize: true }))).toBeLessThanOrEqual(2)
  const [saved] = await Promise.all([page.waitForEvent('download'), thumb.tap('Save as a page (HTML)')])
  const html = await readFile(await saved.path(), 'utf8')
  expect(html.match(/src="data:image\/jpeg;base64,/g)).toHaveLength(3)
  if (SHOTS) await writeFile(join(SHOTS, 'report-photos.pdf'), await page.pdf({ preferCSSPageSize: true }))
  await thumb.tap('Back to the session')
  await thumb.tap('Back to the list')
  await thumb.tap('Files')
  await page.getByText('Last exported').waitFor()
  await page.getByText('Photos, in files of their own').tap()
  const files: string[] = []
  page.on('download', file => void file.path().then(async path => files.push(await readFile(path, 'utf8'))))
  await thumb.tap('One file (JSON)')
  await page.getByText('where it should be?').waitFor()
  await expect.poll(() => files.filter(text => text.includes('ohmward.photos')).flatMap(text => readPhotos(text)).length).toBe(MOST_PHOTOS)
  expect(broken).toEqual([])
})
