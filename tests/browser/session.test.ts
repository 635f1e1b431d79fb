import { mkdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import type { Kit } from '../../engine/machine.ts'
import type { FaultRecord } from '../../web/flow/request.ts'
import { begin } from '../../web/flow/session.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { care } = later
/** Pictures of every screen go to this folder if it is named. */
const SHOTS = process.env['SHOTS']

test.each([
  { width: 360, height: 640, dark: false, kit: { qualified: false } as Kit },
  { width: 320, height: 640, dark: true, kit: { qualified: true, clamp: true, injector: { ampere: 1, volts: 24 } } as Kit },
])('a whole session is played by tapping alone at $width × $height, dark $dark', async look => {
  const { page, broken } = await openApp(look)
  const thumb = new Thumb(page)
  let shot = 0
  const check = async (name: string) => {
    expect(await flaws(page), name).toEqual([])
    expect(await violations(page), name).toEqual([])
    if (!SHOTS) return
    await mkdir(SHOTS, { recursive: true })
    const words = name.replace(/[^A-Za-z0-9]+/g, '-').slice(0, 40)
    await page.screenshot({ path: join(SHOTS, `${look.dark ? 'd' : 'l'}${look.width}-${String(shot++).padStart(2, '0')}-${words}.png`) })
  }
  const heading = (name: string) => page.getByRole('heading', { name, level: 1 }).waitFor()
  await heading('Ohmward')
  await check('start')
  await thumb.tap('Demo machine')
  await heading('Say what the machine does')
  await check('symptom')
  await thumb.tap('Everything is dead')
  await heading('Tick what is at hand')
  if (look.kit.clamp) await page.getByText('Clamp meter').tap()
  if (look.kit.injector) await page.getByText('Isolated current source').tap()
  await page.getByText(look.kit.qualified ? 'Yes' : 'No', { exact: true }).tap()
  await check('kit')
  await thumb.tap('Start the session')

  const technician = new Technician(truthOf(wornThrough), filler, look.kit)
  let reloaded = false
  const { session } = await playOn(page, begin({ type: 'started', machine: filler, kit: look.kit, symptom: 'all-dead' }), technician, {
    shown: (_, title) => check(title),
    typing: async (_, title) => {
      await check(`enter ${title}`)
      if (reloaded) return true
      // The phone was put away in the middle of typing.
      reloaded = true
      const value = await page.getByRole('status', { name: 'value' }).textContent()
      await page.reload()
      await thumb.tap(/^Go on/)
      expect(await page.getByRole('status', { name: 'value' }).textContent()).toBe(value)
      return true
    },
  })
  expect(session.request).toMatchObject({ say: 'end', result: 'restored' })
  expect(technician.restored).toBe(true)
  expect(reloaded).toBe(true)
  await heading('Control voltage is back')
  await check('end')
  await page.getByText(care.after.points[0] ?? '', { exact: true }).tap()
  await page.getByText(care.after.points[5] ?? '', { exact: true }).tap()
  await thumb.tap('Say what was wrong')
  await heading('Say what was wrong')
  await check('closing')
  await page.getByText('Cable worn through').tap()
  await thumb.tap('Save and close')
  await page.getByText('The closing form is saved.').waitFor()
  await thumb.tap('Back to the start')
  await thumb.tap('Past sessions')
  await thumb.tap(/Filler 2.*Control voltage is back.*Cable worn through/)
  await heading('Filler 2')
  await page.locator('.timeline').waitFor()
  await check('timeline')
  expect(await page.locator('.timeline li').count()).toBe(session.entries.length)
  const [file] = await Promise.all([page.waitForEvent('download'), thumb.tap('Whole log (JSON)')])
  // What was ticked off before the machine went back to work is kept with the session.
  const log = JSON.parse(await readFile(await file.path(), 'utf8')) as { events: { event: { type: string; record?: FaultRecord } }[] }
  expect(log.events.at(-1)?.event.record?.checked).toEqual(['numbers', 'tools-and-locks'])
  expect(file.suggestedFilename()).toMatch(/^ohmward-Filler-2-.*\.json$/)
  expect(broken).toEqual([])
})
