// 'Saved' is said once the transaction has committed, and not a moment earlier.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { openApp } from './open.ts'
import { Thumb } from './thumb.ts'

const { cautions, session } = later
/** Milliseconds for which each transaction that writes an event is kept from committing: longer than any computer takes for the rest. */
const HELD = 2_500

interface Spied {
  committed: number
  told: { readonly saved: boolean; readonly committed: number }[]
  hold: boolean
}
/**
 * From the next start of the page on each commit of an event is counted, and held back while `hold` is set; each change of what the
 * screen says is noted with the count. The database library takes what the browser offers when it opens: so this comes before it.
 */
const spy = (page: Page) =>
  page.addInitScript(
    ([held, word]) => {
      const spied: Spied = { committed: 0, told: [], hold: false }
      Object.assign(globalThis, { spied })
      const { transaction } = IDBDatabase.prototype
      IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...given: Parameters<typeof transaction>) {
        const begun = transaction.apply(this, given)
        if (begun.mode !== 'readwrite' || !begun.objectStoreNames.contains('events')) return begun
        begun.addEventListener('complete', () => {
          spied.committed += 1
        })
        const until = performance.now() + held
        // A transaction does not commit while something is asked of it.
        const ask = () => {
          begun.objectStore('events').count().onsuccess = () => {
            if (spied.hold && performance.now() < until) ask()
          }
        }
        if (spied.hold) ask()
        return begun
      }
      let last = document.querySelector('h1')?.textContent
      new MutationObserver(() => {
        const title = document.querySelector('h1')?.textContent
        const saved = document.querySelector('.status')?.textContent === word
        if (title !== last || saved !== (spied.told.at(-1)?.saved ?? false)) spied.told.push({ saved, committed: spied.committed })
        last = title
      }).observe(document, { subtree: true, childList: true, characterData: true })
    },
    [HELD, session.saved] as const,
  )
const spied = (page: Page): Promise<Spied> => page.evaluate(() => (globalThis as unknown as { spied: Spied }).spied)
/** Counts anew, and holds each commit back. */
const begin = (page: Page) =>
  page.evaluate(() => Object.assign((globalThis as unknown as { spied: Spied }).spied, { committed: 0, told: [], hold: true }))
const letGo = (page: Page) => page.evaluate(() => Object.assign((globalThis as unknown as { spied: Spied }).spied, { hold: false }))

test('an answer is called saved, and the next step comes, only after its transaction committed', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  await spy(page)
  await page.reload()
  await thumb.startDemo()
  await thumb.tickAll()
  await begin(page)
  await thumb.tap(cautions['before-work'].done)
  await page.waitForTimeout(HELD / 2)
  // The event is on its way, and nothing says that it is there.
  expect(await spied(page)).toMatchObject({ committed: 0, told: [] })
  expect(await page.getByText(session.saved, { exact: true }).count()).toBe(0)
  expect(await page.locator('h1').textContent()).toBe(cautions['before-work'].title)
  await page.getByText(session.saved, { exact: true }).waitFor()
  await expect.poll(() => page.locator('h1').textContent()).not.toBe(cautions['before-work'].title)

  await letGo(page)
  let answers = 1
  for (const answer of ['Blinking', 'aside', 'Undo', 'aside']) {
    const before = await page.locator('h1').textContent()
    if (answer === 'aside') await thumb.tap('Can’t do it')
    await thumb.tap(answer === 'aside' ? 'Cannot reach it' : answer)
    await expect.poll(() => page.locator('h1').textContent()).not.toBe(before)
    answers += 1
  }
  const { committed, told } = await spied(page)
  expect(committed).toBe(answers)
  expect(told.length).toBeGreaterThanOrEqual(answers)
  // Every change of the screen had as many commits behind it as answers that it shows.
  expect(told.filter(({ saved }) => saved).map(t => t.committed)).toEqual(
    told.map((_, i) => Math.min(answers, i + 1)).slice(0, told.length),
  )
  expect(broken).toEqual([])
})
