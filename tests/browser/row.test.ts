// After the mend voltage comes back, and every device may have opened on it: one look along the row, one tap.
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import type { Session } from '../../web/flow/request.ts'
import { begin } from '../../web/flow/session.ts'
import { lookAlong, rowOf } from '../../web/screens/row.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { folded } from './fold.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { labels, session: say } = later
const KIT = { qualified: true, injector: { ampere: 1, volts: 24 } }
const IDS = filler.branches.map(({ id }) => id)

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
        if (session.stage === 'restoring' && lookAlong(rowOf(session))(session)) throw new Reached(session)
      },
    },
  ).catch((stop: unknown) => stop)
  if (!(reached instanceof Reached)) throw reached
  const { session } = reached
  expect(rowOf(session)).toEqual(IDS)
  await page.getByText(say.row.take('B1–B12')).waitFor()
  expect([...(await flaws(page)), ...(await folded(page)), ...(await violations(page))]).toEqual([])
  await thumb.tap(say.row.all)
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
  // All but the one whose voltage was just read.
  expect(answers).toBe(IDS.length - 1)
  await thumb.tap('Undo')
  await page.getByRole('heading', { name: 'Look at the fuse of branch B12' }).waitFor()
  await thumb.tap('Tripped')
  await expect.poll(() => page.locator('h1').textContent()).not.toContain('Look at the fuse')
  expect(broken).toEqual([])
})

test('the one that has tripped is picked from the row, and those before it are answered closed on the way', async () => {
  const { page, broken } = await openApp({ width: 320, height: 568, dark: true })
  const thumb = new Thumb(page)
  await thumb.tap('Demo machine')
  await thumb.tap('One branch is dead')
  await thumb.tap('Not sure')
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  await page.getByRole('heading', { name: later.cautions['before-work'].title }).waitFor()
  await thumb.tickAll()
  await thumb.tap(later.cautions['before-work'].done)
  const title = page.locator('h1')
  await expect.poll(() => title.textContent()).toContain('Look at the')
  if ((await title.textContent())?.includes('lamp')) {
    await thumb.tap(labels.seen['supply-lamp'].steady)
    await expect.poll(() => title.textContent()).not.toContain('lamp')
  }
  const asked = (await title.textContent())?.split(' ').at(-1) ?? ''
  const other = IDS.find(id => id !== asked) ?? ''
  await thumb.tap(say.row.another)
  await page.getByRole('dialog', { name: say.row.which }).waitFor()
  expect([...(await flaws(page)), ...(await folded(page)), ...(await violations(page))]).toEqual([])
  expect(await page.getByRole('button', { name: new RegExp(`^${asked}\\b`) }).count()).toBe(0)
  await thumb.tap(new RegExp(`^${other}\\b`))
  await expect.poll(() => page.getByRole('dialog').count()).toBe(0)
  // The procedure may ask for something else in between: then what was seen stands ready to be said again.
  const strip = () => page.getByRole('img', { name: /Terminal strip/ }).getAttribute('aria-label')
  for (let i = 0; i < 4 && !(await strip())?.includes('Device not closed'); i += 1) {
    const now = (await title.textContent()) ?? ''
    if (now.includes('lamp')) await thumb.tap(labels.seen['supply-lamp'].steady)
    else if (now.startsWith('Look at the')) await thumb.tap(say.row.tripped(other))
    await expect.poll(() => title.textContent()).not.toBe(now)
  }
  expect(await strip()).toContain(`Device not closed: ${other}.`)
  expect(await title.textContent()).not.toMatch(/Look at the (breaker|fuse)/)
  expect(broken).toEqual([])
})
