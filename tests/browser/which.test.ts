// What is known before the first step: the branch or load that is out, and what earlier sessions found at the machine.
import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { first } from '../../content/en/first.ts'
import { later } from '../../content/en/later.ts'
import type { Machine } from '../../engine/machine.ts'
import type { SessionEvent } from '../../web/flow/request.ts'
import { exportMany } from '../../web/log/export.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { which, symptoms } = first
const { cautions, session: say } = later
const SHOTS = process.env['SHOTS']

const looksRight = async (page: Page, name: string): Promise<void> => {
  // A long sheet is looked at from its end: what lies half under the bar that stays in sight would count as too small a target.
  await page.evaluate(() => document.querySelector('dialog[open]')?.scrollTo(0, 1e6))
  expect(await flaws(page), name).toEqual([])
  expect(await violations(page), name).toEqual([])
  if (!SHOTS) return
  await mkdir(SHOTS, { recursive: true })
  await page.screenshot({ path: join(SHOTS, `which-${page.viewportSize()?.width}-${name}.png`), fullPage: true })
}
/** From the kit to the first step of the session, with its reasons open. */
const reasons = async (page: Page, thumb: Thumb): Promise<void> => {
  await page.getByText('No', { exact: true }).tap()
  await thumb.tap('Start the session')
  await page.getByRole('heading', { name: cautions['before-work'].title }).waitFor()
  await thumb.tickAll()
  await thumb.tap(cautions['before-work'].done)
  await thumb.tap(say.actions.why)
  await page.getByRole('dialog', { name: say.actions.why }).waitFor()
}

test.each([
  { width: 360, dark: false },
  { width: 320, dark: true },
])('one load is dead: its branch, then the load are named, and the reasons say so, at $width', async ({ width, dark }) => {
  const { page, broken } = await openApp({ width, height: 640, dark })
  const thumb = new Thumb(page)
  await thumb.tap(first.start.demo)
  await thumb.tap(symptoms['one-load-dead'])
  await page.getByRole('heading', { name: which.branch }).waitFor()
  await looksRight(page, 'branch')
  await thumb.tap(/^B3/)
  await page.getByRole('heading', { name: which.load }).waitFor()
  await looksRight(page, 'load')
  await thumb.tap(/valve Y32/)
  await reasons(page, thumb)
  await page.getByText(say.why.named('B3', 'valve Y32')).waitFor()
  await looksRight(page, 'why')
  expect(broken).toEqual([])
})

test('not sure is an answer, and so is going back', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  await thumb.tap(first.start.demo)
  await thumb.tap(symptoms['one-branch-dead'])
  await thumb.tap(first.back)
  await page.getByRole('heading', { name: first.symptom.title }).waitFor()
  await thumb.tap(symptoms['trips-again'])
  await thumb.tap(which.notSure)
  await reasons(page, thumb)
  expect(await page.getByText(/^Named at the start/).count()).toBe(0)
  expect(broken).toEqual([])
})

/** Sessions at the demo machine that were told to have found a short circuit, as one file. */
const findings = async (ids: readonly string[]): Promise<string> => {
  const record = { found: { fault: 'short-to-zero' as const, branch: 'B3', run: '3-W2' } }
  const events: SessionEvent[] = [
    { type: 'started', machine: demo as Machine, kit: {}, symptom: 'all-dead' },
    { type: 'closed', branch: 'B3', wrong: '', note: '', record },
  ]
  const stored = events.map((event, i): StoredEvent => ({ seq: i + 1, wall: STAMP, zone: 'Europe/Berlin', mono: i, boot: 'b', event }))
  for await (const { text } of exportMany({ events: async () => stored }, ids, 'all', 'json')) return text
  throw new Error('no file')
}
const STAMP = '2026-10-03T14:05:00.000+01:00'
const IDS = [1, 2, 3].map(n => `00000000-0000-4000-8000-00000000000${n}`)

test('confirmed findings at the machine, here taken in from a file, are counted and named among the reasons', async () => {
  const { page, broken } = await openApp({ width: 360, height: 640, dark: false })
  const thumb = new Thumb(page)
  await thumb.tap(first.start.past)
  await thumb.tap('Search, charts, files')
  await thumb.tap('Files')
  const buffer = Buffer.from(await findings(IDS))
  await page.locator('input[type=file]').first().setInputFiles({ name: 'sessions.json', mimeType: 'application/json', buffer })
  await page.getByText(/3 new/).first().waitFor()
  await page.reload()
  await thumb.tap(first.start.demo)
  await thumb.tap(symptoms['all-dead'])
  await reasons(page, thumb)
  // (20 of prior, 3 found): 3/23 of the 86 of 100 that short circuits have on a dead machine.
  await page.getByText(say.why.learned(3, '11')).waitFor()
  await looksRight(page, 'learned')
  expect(broken).toEqual([])
})
