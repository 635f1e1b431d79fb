import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { first } from '../../content/en/first.ts'
import type { Kit } from '../../engine/machine.ts'
import { begin } from '../../web/flow/session.ts'
import { asksWhich } from '../../web/flow/told.ts'
import { type InventOptions, invent } from '../bench/invent.ts'
import { countOnly } from '../bench/play.ts'
import { Technician } from '../bench/technician.ts'
import { kindOf } from './kind.ts'
import { openApp } from './open.ts'
import { playOn } from './play.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { symptoms } = first

const METER: Kit = { qualified: false }
const SOURCE: Kit = { qualified: true, injector: { ampere: 1, volts: 24 } }
/** Pictures of each sort of screen go to this folder if it is named. */
const SHOTS = process.env['SHOTS']

interface Play {
  readonly seed: number
  readonly options: InventOptions
  readonly kit: Kit
  readonly known: boolean
  readonly width: number
  readonly dark: boolean
  /** The phone is also turned on its side. */
  readonly sideways?: boolean
  /** How many sorts of screens it shows at least. */
  readonly least: number
}
const PLAYS: readonly Play[] = [
  { seed: 13, options: { fault: 'short' }, kit: SOURCE, known: true, width: 360, dark: false, sideways: true, least: 15 },
  { seed: 8, options: { fault: 'other' }, kit: METER, known: true, width: 412, dark: true, least: 8 },
  { seed: 6, options: { fault: 'short', branches: 24 }, kit: METER, known: false, width: 320, dark: false, least: 10 },
]

test.each(PLAYS)('each sort of screen of invented machine $seed stands without a flaw at $width, dark $dark', async play => {
  const { seed, options, kit, known, width, dark, sideways, least } = play
  const { page, broken } = await openApp({ width, height: width > 400 ? 915 : 640, dark })
  const thumb = new Thumb(page)
  const truth = invent(seed, options)
  const machine = known ? truth.machine : countOnly(truth.machine)
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'machine.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(machine)) })
  await thumb.tap(symptoms[truth.symptom] ?? '')
  if (asksWhich(truth.symptom)) await thumb.tap(first.which.notSure)
  if (kit.injector) await page.getByText('Isolated current source').tap()
  await page.getByText(kit.qualified ? 'Yes' : 'No', { exact: true }).tap()
  await thumb.tap('Start the session')

  const kinds = new Set<string>()
  const technician = new Technician(truth, machine, kit)
  const { session } = await playOn(page, begin({ type: 'started', machine, kit, symptom: truth.symptom }), technician, {
    shown: async now => {
      const kind = kindOf(now)
      if (kinds.has(kind)) return
      kinds.add(kind)
      expect(await flaws(page), kind).toEqual([])
      expect(await violations(page), kind).toEqual([])
      // A drawing that is cut off by the screen's own bar tells nothing.
      const cut = await page.evaluate(() => {
        const drawing = document.querySelector('.picture .drawing')?.getBoundingClientRect()
        const bar = document.querySelector('.actions')?.getBoundingClientRect()
        return drawing && bar ? Math.max(0, Math.round(drawing.bottom - bar.top)) : 0
      })
      expect(cut, kind).toBe(0)
      if (sideways) {
        const upright = page.viewportSize()
        await page.setViewportSize({ width: 740, height: 360 })
        await expect.poll(() => flaws(page), { message: kind }).toEqual([])
        if (upright) await page.setViewportSize(upright)
      }
      if (!SHOTS) return
      await mkdir(SHOTS, { recursive: true })
      await page.screenshot({ path: join(SHOTS, `kind-${width}-${String(kinds.size).padStart(2, '0')}-${kind.replace(/\W+/g, '-')}.png`) })
    },
  })
  expect(session.request.say).toBe('end')
  expect(kinds.size).toBeGreaterThanOrEqual(least)
  expect(broken).toEqual([])
})
