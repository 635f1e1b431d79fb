import { spawnSync } from 'node:child_process'
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Download, Page } from 'playwright-core'
import { expect, onTestFinished, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { readSessions } from '../../web/log/import.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { grouped, sealOf, verify } from '../../web/log/seal.ts'
import { fitting, MOST_LINES, type ReportRow } from '../../web/screens/reportRows.ts'
import { couchServer } from '../log/couchServer.ts'
import { played, stamped } from '../log/played.ts'
import { countPages, fileOf } from './files.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'

const { times } = later.record

/** Pictures of every screen go to this folder if it is named. */
const SHOTS = process.env['SHOTS']

/** Sessions of two invented machines in two months; one place fails twice. */
const SESSIONS: Readonly<Record<string, readonly StoredEvent[]>> = Object.fromEntries(
  [
    { seed: 2, name: 'Filler 2', start: '2026-10-03T02:00:00.000Z' },
    { seed: 2, name: 'Filler 2', start: '2026-11-20T02:00:00.000Z' },
    { seed: 3, name: 'Press 4 / Süd', start: '2026-11-21T02:00:00.000Z' },
    { seed: 4, name: 'Press 4 / Süd', start: '2026-11-22T02:00:00.000Z' },
    { seed: 5, name: 'Press 4 / Süd', start: '2026-11-23T02:00:00.000Z' },
  ].map(({ seed, name, start }, i) => [
    `00000000-0000-4000-8000-00000000000${i}`,
    stamped(played(seed, { id: name.slice(0, 5).toLowerCase(), name }), start),
  ]),
)
const FILE = await fileOf(SESSIONS)
const upload = (text: string, name = 'sessions.json') => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) })
const heading = (page: Page, name: string) => page.getByRole('heading', { name, level: 1 }).waitFor()
const textOf = async (download: Download): Promise<string> => readFile(await download.path(), 'utf8')

const opened = async (look: { width: number; height: number; dark: boolean }) => {
  const { page, broken } = await openApp(look)
  const thumb = new Thumb(page)
  let shot = 0
  const check = async (name: string) => {
    expect(await flaws(page), name).toEqual([])
    expect(await violations(page), name).toEqual([])
    if (!SHOTS) return
    await mkdir(SHOTS, { recursive: true })
    await page.screenshot({ path: join(SHOTS, `review-${look.width}-${String(shot++).padStart(2, '0')}-${name}.png`), fullPage: true })
  }
  await thumb.tap('Past sessions')
  await thumb.tap('Search, charts, files')
  await heading(page, 'Review the log')
  const takeIn = async (text: string, says: RegExp | string) => {
    await page.locator('input[type=file]').first().setInputFiles(upload(text))
    await page.getByRole('status').filter({ hasText: says }).waitFor()
  }
  return { page, thumb, broken, check, takeIn }
}

test.each([
  { width: 360, height: 640, dark: false },
  { width: 320, height: 640, dark: true },
])('sessions from a file are taken in, found again, counted and stepped through at $width px', async look => {
  const { page, thumb, broken, check, takeIn } = await opened(look)
  await thumb.tap('Files')
  await check('files')
  await takeIn(FILE.replace('"version":1', '"version":2'), 'version is 2, but must be 1')
  await takeIn(FILE.replace('Europe', 'Eurape'), 'Nothing was taken in')
  await takeIn(FILE, '5 new, 0 gone on with, 0 known before')
  await takeIn(FILE, '0 new, 0 gone on with, 5 known before')
  const [, other] = Object.entries(SESSIONS)[2] ?? []
  const id = Object.keys(SESSIONS)[2] ?? ''
  const parted = (other ?? []).slice(0, 3).map((event, i) => (i === 2 ? { ...event, mono: 1 } : event))
  await takeIn(await fileOf({ [id]: parted }), 'told otherwise than here')
  await check('taken-in')
  await thumb.tap('Back to the list')
  await page.getByText('6 of 6 sessions', { exact: true }).waitFor()
  expect(await page.getByText('Told in two ways: both are kept.').count()).toBe(2)
  await check('list')

  await page.getByLabel('Search').fill('press süd')
  await page.getByText('4 of 6 sessions', { exact: true }).waitFor()
  await page.getByLabel('Search').fill('')
  await thumb.tap('Filters')
  await check('filters')
  await page.getByLabel('Machine').selectOption({ label: 'Filler 2' })
  await page.getByText('2 of 6 sessions', { exact: true }).waitFor()
  await page.getByLabel('Month').selectOption('2026-10')
  await page.getByText('1 of 6 sessions', { exact: true }).waitFor()
  await thumb.tap('Files')
  const [one] = await Promise.all([page.waitForEvent('download'), thumb.tap('One file (JSON)')])
  expect(one.suggestedFilename()).toBe('ohmward-Filler-2.json')
  const read = readSessions(await textOf(one))
  expect(read.ok && read.value.sessions.map(({ id }) => id)).toEqual([Object.keys(SESSIONS)[0]])
  await thumb.tap('Back to the list')
  await thumb.tap('Filters, in use')
  await thumb.tap('Show all again')
  await page.getByText('6 of 6 sessions', { exact: true }).waitFor()

  await thumb.tap('Files')
  const [table] = await Promise.all([page.waitForEvent('download'), thumb.tap('One table of all (CSV)')])
  expect((await textOf(table)).trimEnd().split('\r\n')).toHaveLength(7)
  await thumb.tap('Report of these sessions')
  await heading(page, 'Sessions: 2026-10-03 – 2026-11-23')
  // One line a session, though one of them is told in two ways; each time is defined on the same page.
  expect(await page.locator('.overall li').count()).toBe(5)
  for (const { name, meaning } of Object.values(times)) {
    expect(await page.locator('.overall span', { hasText: `${name}: ` }).count()).toBeGreaterThan(0)
    await page.getByText(meaning).waitFor()
  }
  await check('overall')
  expect(countPages(await page.pdf({ format: 'A4' }))).toBeLessThanOrEqual(2)
  await thumb.tap('Files')
  await thumb.tap('Back to the list')

  await thumb.tap('Charts of these 6')
  await heading(page, 'Charts of the log')
  // Five sessions, though one of them is told in two ways.
  await page.getByText(/^5 sessions, \d with a confirmed finding\.$/).waitFor()
  expect(await page.getByRole('img', { name: /^Which branch: / }).count()).toBe(1)
  expect(await page.getByRole('cell', { name: /^Filler 2 · / }).count()).toBeGreaterThan(0)
  await check('charts')
  for (const summary of await page.locator('summary').all()) await summary.tap()
  await check('tables')
  for (const summary of await page.locator('summary').all()) await summary.tap()
  const paper = await page.pdf({ format: 'A4' })
  if (SHOTS) await writeFile(join(SHOTS, `charts-${look.width}.pdf`), paper)
  expect(countPages(paper)).toBeLessThanOrEqual(4)
  // On paper the tables stand open.
  expect(await page.locator('details:not([open])').count()).toBe(0)
  const tables = await page.locator('table').first().locator('tbody tr').allTextContents()
  expect(tables.at(-1)).toMatch(/100 %$/)
  await thumb.tap('Back to the list')

  await thumb.tap(/^Filler 2 2026-11-20/)
  await heading(page, 'Filler 2')
  await thumb.tap('Readings over time')
  await heading(page, 'The same points over time')
  // The same was read in October and in November.
  await page.locator('main table').first().waitFor()
  expect(await page.getByRole('cell', { name: /after the repair$/ }).count()).toBeGreaterThan(1)
  expect(await page.locator('main table').first().locator('tbody tr').count()).toBeGreaterThan(1)
  await check('trend')
  await thumb.tap('Back to the session')
  const steps = played(2).entries.length
  await page.getByRole('heading', { name: `Step 1 of ${steps}` }).waitFor()
  expect(await page.getByRole('button', { name: 'Step back' }).isDisabled()).toBe(true)
  await check('session')
  for (let i = 2; i <= steps; i++) {
    await thumb.tap('Next step')
    await page.getByRole('heading', { name: `Step ${i} of ${steps}` }).waitFor()
    if (i % 6 === 0) await check(`step-${i}`)
  }
  expect(await page.getByRole('button', { name: 'Next step' }).isDisabled()).toBe(true)
  await thumb.tap('Step back')
  await page.getByRole('heading', { name: `Step ${steps - 1} of ${steps}` }).waitFor()
  await thumb.tap('Let it run')
  await page.getByRole('heading', { name: `Step ${steps} of ${steps}` }).waitFor()
  await page.getByText(`All ${steps} steps`).tap()
  expect(await page.locator('.timeline li').count()).toBe(steps)
  for (const { name, meaning } of Object.values(times)) {
    await page.getByText(meaning).waitFor()
    expect(await page.locator('.means dt', { hasText: name }).textContent()).toMatch(/: \d+ (s|min|h)/)
  }
  expect(broken).toEqual([])
})

test('the record is one more event, its names stay here, and the report vouches for what it shows', async () => {
  const { page, thumb, broken, check, takeIn } = await opened({ width: 360, height: 640, dark: false })
  await thumb.tap('Files')
  await takeIn(FILE, '5 new')
  await thumb.tap('Back to the list')
  await thumb.tap(/^Filler 2 2026-11-20/)
  await thumb.tap('Fill in the record')
  await heading(page, 'Fill in the record')
  await check('record')
  expect(await page.getByLabel(/^Failure mode/).inputValue()).toBe('no-output')
  await page.getByLabel(/^What was wrong/).selectOption('Cable worn through')
  await page.getByLabel(/^Failure cause/).selectOption('wear-in-use')
  await page.getByLabel('Mended by').fill('piece cut out, joined in a box <b>&"')
  await page.getByLabel('Technician’s code').fill('M17')
  await page.getByLabel(/^Name for this code/).fill('Ada Example')
  await page.getByLabel(/^Down since/).fill('2026-11-20T01:00')
  await thumb.tap('Save the record')
  await page.getByText('M17, Ada Example').waitFor()
  await page.getByText(/^Down time: .*from when it was told/).waitFor()
  await check('recorded')
  const [json] = await Promise.all([page.waitForEvent('download'), thumb.tap('Whole log (JSON)')])
  const text = await textOf(json)
  expect(text).not.toContain('Ada')
  const read = readSessions(text)
  const claim = read.ok ? read.value.sessions[0] : undefined
  expect(claim && (await verify(claim)).ok).toBe(true)
  expect(claim?.events.at(-1)?.event).toMatchObject({ type: 'closed', record: { who: 'M17', cause: 'wear-in-use', found: {} } })

  await thumb.tap('Report to print and sign')
  await page.locator('.report').waitFor()
  await check('report')
  const seal = claim && (await sealOf(claim.id, claim.events))
  expect(await page.locator('.report code').textContent()).toBe(grouped(seal?.head ?? ''))
  expect(await page.locator('.report').textContent()).not.toContain('Ada')
  await page.getByText('With the technician’s name').tap()
  await page.locator('.report', { hasText: 'Ada Example' }).waitFor()
  const [saved] = await Promise.all([page.waitForEvent('download'), thumb.tap('Save as a page (HTML)')])
  expect(saved.suggestedFilename()).toBe('ohmward-Filler-2-2026-11-20T03-00.html')
  const html = await textOf(saved)
  expect(html).not.toContain('<b>&"')
  expect(await pagesOf(page, html, 'report')).toBeLessThanOrEqual(2)
  // Printed from the app itself.
  const own = await page.pdf({ preferCSSPageSize: true })
  expect(countPages(own)).toBeLessThanOrEqual(2)
  expect(broken).toEqual([])
})

/** Prints a page of its own and counts the sheets; draws them as pictures where a folder for them is named. */
const pagesOf = async (page: Page, html: string, name: string): Promise<number> => {
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-report-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  await writeFile(join(folder, 'report.html'), html)
  const sheet = await page.context().newPage()
  await sheet.goto(`file://${join(folder, 'report.html')}`)
  // Nothing runs off the paper's side, at the width that A4 leaves between its margins.
  await sheet.setViewportSize({ width: Math.floor((182 / 25.4) * 96), height: 900 })
  await sheet.emulateMedia({ media: 'print' })
  expect(await sheet.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBeLessThanOrEqual(0)
  const pdf = await sheet.pdf({ preferCSSPageSize: true })
  await sheet.close()
  if (SHOTS) {
    await writeFile(join(SHOTS, `${name}.pdf`), pdf)
    spawnSync('pdftoppm', ['-r', '80', '-png', join(SHOTS, `${name}.pdf`), join(SHOTS, name)])
  }
  return countPages(pdf)
}

test('sessions go to a desk on the same host and come from it, and to no other host; before that, nothing leaves', async () => {
  const server = await couchServer()
  onTestFinished(server.stop)
  const database = await server.database('site')
  const { page, thumb, broken, check, takeIn } = await opened({ width: 360, height: 640, dark: false })
  const asked: string[] = []
  await page.route('**/desk/**', async route => {
    asked.push(route.request().url())
    const path = new URL(route.request().url())
    const answer = await fetch(`${database}${path.pathname.replace('/desk/site', '')}${path.search}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: route.request().postData(),
    })
    await route.fulfill({ status: answer.status, contentType: 'application/json', body: await answer.text() })
  })
  await thumb.tap('Files')
  await takeIn(FILE, '5 new')
  // Once all are read, their results are known.
  await thumb.tap('Back to the list')
  await page.getByText('5 of 5 sessions', { exact: true }).waitFor()
  await thumb.tap('Files')
  expect(await page.getByRole('button', { name: 'Send finished sessions' }).isDisabled()).toBe(true)
  await page.getByLabel('Path of the database').fill('https://elsewhere.example/site')
  await page.getByText('Only a path on this host').waitFor()
  expect(await page.getByRole('button', { name: 'Send finished sessions' }).isDisabled()).toBe(true)
  await check('desk-elsewhere')
  await page.getByLabel('Path of the database').fill('desk/site')
  expect(asked).toEqual([])
  await thumb.tap('Send finished sessions')
  await page.getByText('Sent and read back: 5 sessions. Held otherwise there: 0. Not all there yet: 0.').waitFor()
  await thumb.tap('Send finished sessions')
  await page.getByText('Sent and read back: 0 sessions.').waitFor()
  const ids = (await (await fetch(`${database}/_all_docs`)).json()) as { rows: { id: string }[] }
  expect(ids.rows.filter(({ id }) => !id.startsWith('_')).length).toBe(Object.values(SESSIONS).flat().length)
  await thumb.tap('Fetch all sessions')
  await page.getByText('From the desk: 0 new, 0 gone on with, 5 known before.').waitFor()
  expect(broken).toEqual([])
})

const row = (n: number): ReportRow => ({ n, time: '03:00', what: 'Ω-wide '.repeat(1 + (n % 30)), value: '1000 Ω', after: true })
const escaped = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')
test.each([
  { seed: 14, branches: 5, rows: [1, 1, 1].flatMap(() => Array.from({ length: 100 }, (_, i) => row(i))) },
  { seed: 4, branches: 20, rows: Array.from({ length: 300 }, (_, i) => ({ ...row(i), what: 'V B3 + to B3 0 V' })) },
  { seed: 3, branches: 24, rows: [] },
])(
  '[seed $seed] the longest names and notes, and as many readings as a report may hold, print on two pages',
  async ({ seed, branches, rows }) => {
    const { page, thumb, takeIn } = await opened({ width: 360, height: 640, dark: true })
    const long = 'Ω-long '.repeat(70)
    const session = stamped(played(seed, { name: long.slice(0, 500) }, branches, 0.3))
    const last = session.at(-1)
    const record = { mode: long, mechanism: long, cause: long, mended: long, material: long, who: long }
    const closed = { type: 'closed' as const, branch: 'B1', wrong: long, note: 'Note. '.repeat(300), record }
    const events = [...session, { ...(last as StoredEvent), seq: session.length + 1, event: closed }]
    await thumb.tap('Files')
    await takeIn(await fileOf({ 'long-one': events }), '1 new')
    await thumb.tap('Back to the list')
    await thumb.tap(/^Ω-long/)
    await thumb.tap('Report to print and sign')
    await page.locator('.report').waitFor()
    const [saved] = await Promise.all([page.waitForEvent('download'), thumb.tap('Save as a page (HTML)')])
    const html = await textOf(saved)
    // A session of so many steps is not played here: its readings are put into the page as the report would choose them.
    const { head, tail } = fitting(rows, MOST_LINES)
    const items = [...head, ...tail].map(
      ({ n, time, what, value }) => `<li><span>${n}. ${time}</span> ${escaped(what)}: <b>${value}</b> (after the repair)</li>`,
    )
    const filled = rows.length === 0 ? html : html.replace(/<ol class="readings">.*?<\/ol>/s, `<ol class="readings">${items.join('')}</ol>`)
    expect(filled.includes('(after the repair)</li>')).toBe(true)
    expect(await pagesOf(page, filled, `report-long-${seed}`)).toBe(2)
  },
)
