// After the mend voltage comes back, and every device may have opened on it: one look along the row, one tap.
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import type { Session } from '../../web/flow/request.ts'
import { begin } from '../../web/flow/session.ts'
import { rowOf, spans } from '../../web/screens/row.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { folded } from './fold.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { labels, session: say } = later
const KIT = { qualified: true, injector: { ampere: 1, volts: 24 } }
const IDS = filler.branches.map(({ id }) => id)

test('neighbours are told by the first and the last of them, two by both', () => {
  expect(spans(['B1', 'B2', 'B4', 'B5', 'B6', 'B12'], IDS)).toBe('B1, B2, B4–B6, B12')
  expect(spans(IDS, IDS)).toBe('B1–B12')
  expect(spans(['B3'], IDS)).toBe('B3')
})

class Reached extends Error {
  readonly session: Session
  constructor(session: Session) {
    super('the row of devices')
    this.session = session
  }
}

test('all devices of the row are said closed by one tap, each is in the log, and one tap takes the last of them back', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  await thumb.tap('Demo machine')
  await thumb.tap('Everything is dead')
  await page.getByText('Isolated current source').tap()
  await page.getByText('Yes', { exact: true }).tap()
  await thumb.tap('Start the session')
  const reached = await playOn(
    page,
    begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' }),
    new Technician(truthOf(wornThrough), filler, KIT),
    {
      shown: async session => {
        if (rowOf(session).branches.length > 1) throw new Reached(session)
      },
    },
  ).catch((stop: unknown) => stop)
  if (!(reached instanceof Reached)) throw reached
  const { session } = reached
  const row = rowOf(session)
  // All but the one whose voltage was just read.
  expect(row.branches).toEqual(IDS.filter(id => id !== 'B3'))
  await page.getByText(say.reading.sameLook('B1, B2, B4–B12')).waitFor()
  expect([...(await flaws(page)), ...(await folded(page)), ...(await violations(page))]).toEqual([])
  await thumb.tap(say.reading.allClosed(row.branches.length))
  await page.getByRole('heading', { name: labels.results.restored.title }).waitFor()
  const answers = await page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open('ohmward')
        opening.onerror = () => reject(opening.error)
        opening.onsuccess = () => {
          const all = opening.result.transaction('events').objectStore('events').getAll()
          all.onsuccess = () => {
            opening.result.close()
            resolve(all.result.filter(row => JSON.stringify(row).includes('"seen":"closed"')).length)
          }
        }
      }),
  )
  expect(answers).toBe(row.branches.length)
  await thumb.tap('Undo')
  await page.getByRole('heading', { name: 'Look at the fuse of branch B12' }).waitFor()
  await thumb.tap('Tripped')
  await expect.poll(() => page.locator('h1').textContent()).not.toContain('Look at the fuse')
  expect(broken).toEqual([])
})
