import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import type { Session } from '../../web/flow/request.ts'
import { readSessions } from '../../web/log/import.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { grouped, sealOf, verify } from '../../web/log/seal.ts'
import { couchServer } from '../log/couchServer.ts'
import { played, stamped } from '../log/played.ts'
import { countPages, fileOf } from './files.ts'
import { heading, opened, pagesOf, SHOTS, textOf } from './reviewed.ts'

const { times } = later.record

/** After its third event the tools are told anew; and once more, which is taken back. */
const equipped = (session: Session): Session => {
  const { events, kit } = session
  const { meter: _meter, ...tools } = kit
  const told = { type: 'kit' as const, kit: tools }
  return { ...session, events: [...events.slice(0, 3), told, { ...told, kit: { clamp: true } }, { type: 'undone' }, ...events.slice(3)] }
}

/** Sessions of two invented machines in two months; one place fails twice. */
const SESSIONS: Readonly<Record<string, readonly StoredEvent[]>> = Object.fromEntries(
  [
    { seed: 2, name: 'Filler 2', start: '2026-10-03T02:00:00.000Z' },
    { seed: 2, name: 'Filler 2', start: '2026-11-20T02:00:00.000Z' },
    { seed: 3, name: 'Press 4 / Süd', start: '2026-11-21T02:00:00.000Z' },
    { seed: 4, name: 'Press 4 / Süd', start: '2026-11-22T02:00:00.000Z' },
    { seed: 5, name: 'Press 4 / Süd', start: '2026-11-23T02:00:00.000Z' },
  ].map(({ seed, name, start }, i) => {
    const session = played(seed, { id: name.slice(0, 5).toLowerCase(), name })
    return [`00000000-0000-4000-8000-00000000000${i}`, stamped(i === 1 ? equipped(session) : session, start)]
  }),
)
const FILE = await fileOf(SESSIONS)
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
  // The time that each line tells is defined on the same screen.
  await page.getByText(`${times.diagnosis.name}: ${times.diagnosis.meaning}`).waitFor()
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
  await page.locator('main summary').first().waitFor()
  for (const summary of await page.locator('main summary').all()) await summary.tap()
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
  expect(claim?.events.at(-1)?.event).toMatchObject({
    type: 'closed',
    record: { who: 'M17', cause: 'wear-in-use', found: {}, believed: expect.any(Array) },
  })

  await thumb.tap('Report to print and sign')
  await page.locator('.report').waitFor()
  await check('report')
  const seal = claim && (await sealOf(claim.id, claim.events))
  expect(await page.locator('.report code').textContent()).toBe(grouped(seal?.head ?? ''))
  expect(await page.locator('.report').textContent()).not.toContain('Ada')
  // The kit as it was at the start, and its change with the time; what was taken back is not told.
  expect(await page.locator('.report dt', { hasText: later.report.kit }).allTextContents()).toEqual([
    later.report.kit,
    later.report.kitFrom('03:01'),
  ])
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
