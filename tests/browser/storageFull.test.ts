// A phone whose storage is really full: the browser's own quota, used up with bytes that do not pack.
import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { readSessions } from '../../web/log/import.ts'
import { stored } from './launch.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

/** All that the origin may hold, bytes: the app for use without a network, and some room. */
const QUOTA = 6_000_000

/**
 * Says how much the origin may hold. Before the log is opened: the browser goes on for a while by what it took to be free then.
 */
const limit = async (page: Page): Promise<void> => {
  const cdp = await page.context().newCDPSession(page)
  await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(page.url()).origin, quotaSize: QUOTA })
}
/** Fills it by ever smaller pieces until the browser takes no more; gives the bytes taken. */
const fillUp = async (page: Page): Promise<number> => {
  return page.evaluate(async most => {
    const db = await new Promise<IDBDatabase>((done, failed) => {
      const opening = indexedDB.open('filling')
      opening.onupgradeneeded = () => opening.result.createObjectStore('bytes', { autoIncrement: true })
      opening.onsuccess = () => done(opening.result)
      opening.onerror = () => failed(opening.error)
    })
    const add = (size: number): Promise<boolean> =>
      new Promise(done => {
        const bytes = new Uint8Array(size)
        for (let i = 0; i < size; i += 65_536) crypto.getRandomValues(bytes.subarray(i, i + 65_536))
        const at = db.transaction('bytes', 'readwrite')
        at.objectStore('bytes').add(bytes)
        at.oncomplete = () => done(true)
        at.onabort = () => done(false)
      })
    let taken = 0
    // Never more than twice of it: a quota that does not hold must not fill the computer's disk.
    for (const size of [500_000, 50_000, 5000, 500, 50]) while (taken < most && (await add(size))) taken += size
    db.close()
    return taken
  }, 2 * QUOTA)
}
const makeRoom = (page: Page): Promise<void> =>
  page.evaluate(
    () =>
      new Promise<void>((done, failed) => {
        const gone = indexedDB.deleteDatabase('filling')
        gone.onsuccess = () => done()
        gone.onerror = () => failed(gone.error)
      }),
  )

test('the quota used up: the typed value stays, plain words say so, all that was saved still leaves as a file, and with room it goes on', async () => {
  const { page } = await openApp({ width: 360, height: 640, dark: false })
  await limit(page)
  await stored(page)
  const thumb = new Thumb(page)
  await thumb.tap(/^Find the fault now/)
  await thumb.tap('It has 8 branches')
  await thumb.tap('Everything is dead')
  await page.getByText('Yes', { exact: true }).tap()
  await thumb.tap('Start the session')
  await page.getByRole('heading', { name: later.cautions['before-work'].title }).waitFor()
  await thumb.tickAll()
  await thumb.tap(later.cautions['before-work'].done)
  await thumb.tap('Blinking')
  await thumb.tap('Supply is off and locked')
  await thumb.tap('It shows volts')
  await thumb.type(12.5)
  const value = page.getByRole('status', { name: 'value' })
  const typed = await value.textContent()
  const taken = await fillUp(page)
  process.stdout.write(`${taken} bytes taken until the browser refused 50 more\n`)
  expect(taken).toBeGreaterThan(QUOTA / 4)
  expect(taken).toBeLessThan(QUOTA)

  await thumb.tap(/^It shows/)
  await page.getByText('no space left').first().waitFor()
  expect(await value.textContent()).toBe(typed)
  await page.reload()
  await thumb.tap('Past sessions')
  await thumb.tap('Search, charts, files')
  await thumb.tap('Files')
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'One file (JSON)' }).tap()])
  const read = readSessions(await readFile(await file.path(), 'utf8'))
  expect(read.ok && read.value.sessions.map(({ events }) => events.map(({ event }) => event.type))).toEqual([
    ['started', 'answered', 'answered', 'answered'],
  ])

  await makeRoom(page)
  await page.reload()
  await thumb.tap(/^Go on/)
  await value.or(page.getByRole('button', { name: 'It shows volts', exact: true })).waitFor()
  if ((await value.count()) === 0) {
    await thumb.tap('It shows volts')
    await thumb.type(12.5)
  }
  await thumb.tap(/^It shows/)
  await page.getByText(later.session.saved, { exact: true }).waitFor()
}, 240_000)
