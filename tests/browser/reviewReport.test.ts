import { expect, test } from 'vitest'
import type { Language } from '../../content/languages.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { noteOf, photoOf } from '../../web/log/photo.ts'
import { exportPhotos } from '../../web/log/photoFile.ts'
import { fitting, MOST_LINES, type ReportRow } from '../../web/screens/reportRows.ts'
import { jpeg } from '../log/pictures.ts'
import { played, stamped } from '../log/played.ts'
import { fileOf } from './files.ts'
import { opened, pagesOf, textOf } from './reviewed.ts'
import { load } from './words.ts'

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

/** Names as long as a plant gives them, notes as a night shift writes them, three photos, and many steps. */
const SESSION = 'long-one'
const longSession = async () => {
  const photos = await Promise.all([1, 2, 3].map(async n => photoOf(await jpeg(n, { width: 1600, height: 900 + 100 * n }))))
  const name = 'Etikettierer und Verschließer der Abfülllinie 3, Halle 12 Nord (Umbau 2019)'
  const session = stamped(played(8, { name }, 24, 0.5))
  const record = {
    mode: 'no-output',
    mechanism: 'short-circuit',
    cause: 'wear-in-use',
    mended: 'Schleppkette geöffnet, beschädigtes Stück herausgeschnitten, in einer Dose neu verbunden, Kette wieder eingehängt',
    material: 'Leitung 2 × 1,5 mm², 2,4 m; Verbindungsdose IP65; 4 Klemmen; Schrumpfschlauch',
    who: 'Schicht 3, M17',
    photos: photos.map(noteOf),
  }
  const note = 'Die Leitung scheuert an der Kante des Kettenhalters. Kante gebrochen, Kettenglied ersetzt. '.repeat(5)
  const closed = { type: 'closed' as const, branch: 'B1', wrong: 'worn-through', note, record }
  const events = [...session, { ...(session.at(-1) as StoredEvent), seq: session.length + 1, event: closed }]
  const files: string[] = []
  for await (const { text } of exportPhotos({ photos: async () => photos }, [SESSION], 'all')) files.push(text)
  return { name, file: await fileOf({ [SESSION]: events }), photoFile: files[0] ?? '' }
}

test.each(['de', 'pl'] as const satisfies Language[])(
  '[seed 8] %s: 126 steps, long names and three photos print on two pages',
  async id => {
    const { page, thumb, takeIn, broken } = await opened({ width: 360, height: 640, dark: false })
    const { name, file, photoFile } = await longSession()
    await thumb.tap('Files')
    await takeIn(file, '1 new')
    await takeIn(photoFile, '3 new')
    await page.reload()
    const { first, later } = await load(id)
    await page.locator('.language select').selectOption(id)
    await thumb.tap(first.start.past)
    await thumb.tap(later.review.past.review)
    await thumb.tap(new RegExp(`^${name.slice(0, 20)}`))
    await thumb.tap(later.review.session.report)
    await page.locator('.report').waitFor()
    await page.getByText(later.keeping.photos.title, { exact: true }).tap()
    await page.locator('.photo-row img').nth(2).waitFor()
    const [saved] = await Promise.all([page.waitForEvent('download'), thumb.tap(later.report.save)])
    const html = await textOf(saved)
    expect(html.match(/<img/g)).toHaveLength(3)
    // Each time is defined where it is told.
    for (const { meaning } of Object.values(later.record.times)) await page.locator('.report', { hasText: meaning }).waitFor()
    expect(await pagesOf(page, html, `report-${id}`)).toBeLessThanOrEqual(2)
    expect(broken).toEqual([])
  },
)
