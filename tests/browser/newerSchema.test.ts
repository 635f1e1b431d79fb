// A newer version of the app with a newer schema of its log, while a tab of the older one still stands open in mid-session.
import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, onTestFinished, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { SCHEMA } from '../../web/log/database.ts'
import { copyOfDist } from './copy.ts'
import { firstPage, launch, newProfile } from './launch.ts'
import { serve } from './server.ts'
import { Thumb } from './thumb.ts'

const { cautions } = later
/** So long may the newer tab take to open the log, ms, with what a busy computer adds told apart: the report says what it took. */
const OPENS = 2000

/** Makes of a built app one whose log is a schema on: the numbers alone, in the one file that holds the tables. */
const newerSchema = async (folder: string): Promise<void> => {
  const assets = join(folder, 'assets')
  for (const name of (await readdir(assets)).filter(file => file.startsWith('store-'))) {
    const file = join(assets, name)
    const text = await readFile(file, 'utf8')
    const changed = text.replace(`.version(${SCHEMA}).stores({texts:`, `.version(${SCHEMA + 1}).stores({texts:`)
    expect(changed).not.toBe(text)
    const guarded = changed.replace(new RegExp(`\\.version<${(SCHEMA + 1) * 10}\\b`), `.version<${(SCHEMA + 2) * 10}`)
    expect(guarded).not.toBe(changed)
    await writeFile(file, guarded)
  }
}
/** What the browser's own storage holds: the schema, and the rows of every table. */
const held = (page: Page): Promise<{ version: number; events: number; rows: number }> =>
  page.evaluate(
    () =>
      new Promise((done, failed) => {
        const opening = indexedDB.open('ohmward')
        opening.onerror = () => failed(opening.error)
        opening.onsuccess = () => {
          const db = opening.result
          const names = [...db.objectStoreNames]
          const at = db.transaction(names)
          const counts = names.map(name => at.objectStore(name).count())
          at.oncomplete = () => {
            db.close()
            const rows = counts.reduce((sum, { result }) => sum + result, 0)
            done({ version: db.version, events: counts[names.indexOf('events')]?.result ?? -1, rows })
          }
        }
      }),
  )

test('the newer tab opens the log at once and goes on; the older one writes no row any more and says so; older files say what to do', async () => {
  const old = await copyOfDist()
  const now = await copyOfDist()
  await newerSchema(now.folder)
  const { profile, remove: clean } = await newProfile()
  const before = await serve({ folder: old.folder })
  const { port } = new URL(before.url)
  const browser = await launch(profile)
  let server = before
  onTestFinished(async () => {
    await browser.close()
    await server.stop()
    await clean()
    await Promise.all([old.remove(), now.remove()])
  })
  // Each tab takes its files from the host, as one that was opened before or after the update did.
  await browser.route('**/sw.js', route => route.abort())
  const page = await firstPage(browser)
  await page.goto(before.url)
  const thumb = new Thumb(page)
  await thumb.startDemo()
  await thumb.tickAll()
  const first = await held(page)
  expect(first).toMatchObject({ version: SCHEMA * 10, events: 1 })

  await before.stop()
  server = await serve({ folder: now.folder, port: Number(port) })
  const newer = await browser.newPage()
  await newer.goto(server.url)
  const began = Date.now()
  await newer.getByRole('button', { name: /^Go on/ }).waitFor()
  const took = Date.now() - began
  process.stdout.write(`the newer tab offers the open session ${took} ms after it has loaded (bar: ${OPENS})\n`)
  const upgraded = await held(newer)
  expect(upgraded).toEqual({ ...first, version: (SCHEMA + 1) * 10 })

  // The older tab: what it is given now is not saved, and it does not say that it is.
  await page.getByText(later.session.closed).first().waitFor()
  await thumb.tap(cautions['before-work'].done)
  await page.getByText('Reload the app').first().waitFor()
  expect(await page.getByText(later.session.saved, { exact: true }).count()).toBe(0)
  await expect.poll(() => page.locator('h1').textContent()).toBe(cautions['before-work'].title)
  expect(await held(newer)).toEqual(upgraded)

  // The newer one goes on where the older stood, and its answers are saved.
  const hand = new Thumb(newer)
  await hand.tap(/^Go on/)
  await newer.getByRole('heading', { name: cautions['before-work'].title }).waitFor()
  await hand.tickAll()
  await hand.tap(cautions['before-work'].done)
  await newer.getByText(later.session.saved, { exact: true }).waitFor()
  expect((await held(newer)).events).toBe(2)

  // Files of the older version on a newer log, as a phone without a network may still hold them: told, and nothing is written.
  await server.stop()
  server = await serve({ folder: old.folder, port: Number(port) })
  const rows = await held(newer)
  await page.goto(server.url)
  await page.getByText('made by a newer version').first().waitFor()
  expect(await held(newer)).toEqual(rows)
}, 240_000)
