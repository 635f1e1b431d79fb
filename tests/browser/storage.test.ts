// A full phone and a second window, in a real browser: what is typed stays, nothing is called saved that is not, and there is a way on.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { begin } from '../../web/flow/session.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { Thumb } from './thumb.ts'

const PHONE = { width: 360, height: 640, dark: false }
const KIT = { qualified: false }

const startSession = async (page: Page): Promise<ReturnType<typeof begin>> => {
  await new Thumb(page).startDemo()
  return begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' })
}
/** Plays until a value is typed and not sent. */
const typedFirst = async (page: Page): Promise<void> => {
  const { answer } = await playOn(page, await startSession(page), new Technician(truthOf(wornThrough), filler, KIT), {
    typing: async () => false,
  })
  expect(answer).toBeDefined()
}
const countEvents = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((done, failed) => {
        const opening = indexedDB.open('ohmward')
        opening.onerror = () => failed(opening.error)
        opening.onsuccess = () => {
          const asked = opening.result.transaction('events').objectStore('events').count()
          asked.onsuccess = () => {
            opening.result.close()
            done(asked.result)
          }
        }
      }),
  )

/** From now on the page's storage refuses each event as a full phone does, or takes it again. */
const full = (page: Page, is: boolean): Promise<void> =>
  page.evaluate(refuses => {
    const store = IDBObjectStore.prototype as IDBObjectStore & { own?: IDBObjectStore['add'] }
    store.own ??= store.add
    store.add = refuses
      ? () => {
          throw new DOMException('no space', 'QuotaExceededError')
        }
      : store.own
  }, is)

test('a full phone: the typed value stays, it says so in plain words, and with space again it is saved', async () => {
  const { page } = await openApp(PHONE)
  await typedFirst(page)
  const value = await page.getByRole('status', { name: 'value' }).textContent()
  const before = await countEvents(page)
  await full(page, true)
  const thumb = new Thumb(page)
  await thumb.tap(/^It shows/)
  await page.getByText('no space left').first().waitFor()
  expect(await page.getByRole('status', { name: 'value' }).textContent()).toBe(value)
  expect(await countEvents(page)).toBe(before)
  await full(page, false)
  await thumb.tap(/^It shows/)
  await expect.poll(() => countEvents(page), { timeout: 20_000 }).toBe(before + 1)
})

test('two windows on one session: the one that fell behind saves nothing more and says so; the log is whole', async () => {
  const { page } = await openApp(PHONE)
  await typedFirst(page)
  const other = await page.context().newPage()
  await other.goto(page.url())
  await new Thumb(other).tap(/^Go on/)
  await other.getByRole('status', { name: 'value' }).waitFor()
  const before = await countEvents(page)
  await new Thumb(page).tap(/^It shows/)
  await expect.poll(() => countEvents(page), { timeout: 20_000 }).toBe(before + 1)
  await new Thumb(other).tap(/^It shows/)
  await other.getByText('went on in another window').first().waitFor()
  const after = await countEvents(page)
  await other.reload()
  await new Thumb(other).tap(/^Go on/)
  await other.getByRole('heading', { level: 1 }).waitFor()
  await expect.poll(() => other.locator('h1').textContent(), { timeout: 20_000 }).toBe(await page.locator('h1').textContent())
  expect(await countEvents(page)).toBe(after)
})
