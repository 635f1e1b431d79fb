import { readFile } from 'node:fs/promises'
import type { BrowserContext, Page } from 'playwright-core'
import { expect, onTestFinished, test } from 'vitest'
import type { Kit } from '../../engine/machine.ts'
import type { Answer } from '../../engine/step.ts'
import { begin, replay } from '../../web/flow/session.ts'
import { readExport } from '../../web/log/export.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { groupOf, killGroup } from './kill.ts'
import { firstPage, launch, newProfile, stored } from './launch.ts'
import { playOn, saved, stands } from './play.ts'
import { serve } from './server.ts'
import { Thumb, typed } from './thumb.ts'

const KIT: Kit = { qualified: false }
/** How long a typed key may take to be on the disk, in ms: no sign on the screen says so. */
const KEPT = 500

test('one visit, then no host: a whole session with the browser killed in its middle, down to the file of its log', async () => {
  const { profile, remove } = await newProfile()
  const server = await serve()
  const { url } = server
  let browser: BrowserContext = await launch(profile)
  onTestFinished(async () => {
    await browser.close()
    await server.stop()
    await remove()
  })
  const asked: string[] = []
  const failed: string[] = []
  const broken: string[] = []
  const watched = (page: Page): Page => {
    page.on('request', request => asked.push(request.url()))
    page.on('requestfailed', request => failed.push(request.url()))
    page.on('pageerror', error => broken.push(String(error)))
    return page
  }

  let page = watched(await firstPage(browser))
  await page.goto(url)
  expect(await stored(page)).toBe('activated')
  await page.getByText('works without a network').waitFor()
  await page.waitForLoadState('networkidle')
  await server.stop()
  await expect(fetch(url)).rejects.toThrow()
  const askedOfServer = server.asked.length

  let thumb = new Thumb(page)
  await thumb.tap('Demo machine')
  await thumb.tap('Everything is dead')
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')

  const technician = new Technician(truthOf(wornThrough), filler, KIT)
  const start = begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' })
  const acknowledged: { n: number; answer: Answer }[] = []
  const note = (answered: { n: number; answer: Answer }) => {
    acknowledged.push(answered)
  }
  const half = await playOn(page, start, technician, {
    saved: note,
    typing: async session => {
      const readings = session.entries.filter(e => e.request.say === 'step' && e.request.step.kind === 'read')
      if (readings.length === 0) return true
      await thumb.tap('delete')
      return false
    },
  })
  const answer = half.answer
  if (!answer || !('value' in answer)) throw new Error('no reading was being typed')
  const value = await page.getByRole('status', { name: 'value' }).textContent()
  expect(value).toMatch(/\d/)
  await new Promise(kept => setTimeout(kept, KEPT))
  await killGroup(await groupOf(profile))

  browser = await launch(profile)
  page = watched(await firstPage(browser))
  thumb = new Thumb(page)
  await page.goto(url)
  await thumb.tap(/^Go on/)
  await page.getByRole('status', { name: 'value' }).waitFor()
  expect(await page.getByRole('status', { name: 'value' }).textContent()).toBe(value)
  await page.getByText(`Step ${half.session.entries.length + 1} ·`).waitFor()
  await thumb.tap('Back to the drawing')
  await stands(page, half.session)
  await thumb.tap('Enter the reading')
  await thumb.type(answer.value, answer.unsteady ? { unsteady: true } : {})
  await thumb.tap(/^It shows/)
  const { session } = await playOn(page, await saved(page, half.session, answer, { saved: note }), technician, { saved: note })
  expect(session.request).toMatchObject({ say: 'end', result: 'restored' })
  expect(technician.restored).toBe(true)

  await thumb.tap('Back to the start')
  await thumb.tap('Past sessions')
  await thumb.tap(/Filler 2.*Control voltage is back/)
  await page.locator('.timeline').waitFor()
  const [file] = await Promise.all([page.waitForEvent('download'), thumb.tap('Whole log (JSON)')])
  const read = readExport(await readFile(await file.path(), 'utf8'))
  if (!read.ok) throw new Error(read.message)
  expect(read.value.appVersion).toBe(JSON.parse(await readFile('package.json', 'utf8')).version)
  const again = replay(read.value.events)
  expect(again.request).toEqual(session.request)
  expect(again.finding).toEqual(session.finding)
  expect(again.finding).toMatchObject({ branch: 'B3' })
  expect(again.entries).toHaveLength(session.entries.length)
  expect(again.entries).toEqual(session.entries)
  expect(acknowledged).toHaveLength(session.entries.length)
  expect(read.value.events.flatMap(e => (e.type === 'answered' ? [{ n: e.n, answer: e.answer }] : []))).toEqual(acknowledged)
  // Two starts of the page: before the browser was killed, and after.
  expect(new Set(read.value.stored.map(e => e.boot)).size).toBe(2)
  const [table] = await Promise.all([page.waitForEvent('download'), thumb.tap('Table (CSV)')])
  const rows = (await readFile(await table.path(), 'utf8')).trimEnd().split('\r\n')
  expect(rows).toHaveLength(session.entries.length + 1)
  expect(rows[0]).toBe('\uFEFFseq,wall,stage,kind,what,value,unit,seconds,remark')
  expect(rows.filter(row => ['V', 'Ω'].some(unit => row.includes(`,${typed(Number(answer.value)).text},${unit},`)))).not.toEqual([])

  const home = new URL(url).origin
  expect(asked.length).toBeGreaterThan(0)
  expect(asked.filter(address => new URL(address).protocol.startsWith('http') && new URL(address).origin !== home)).toEqual([])
  expect(failed).toEqual([])
  expect(broken).toEqual([])
  expect(server.asked).toHaveLength(askedOfServer)
})
