import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { first as english } from '../../content/en/first.ts'
import { LANGUAGES, type Language } from '../../content/languages.ts'
import type { Kit } from '../../engine/machine.ts'
import { begin } from '../../web/flow/session.ts'
import { Technician } from '../bench/technician.ts'
import { filler, truthOf, wornThrough } from './filler.ts'
import { kindOf } from './kind.ts'
import { openApp } from './open.ts'
import { playOn, stands } from './play.ts'
import { flaws, Thumb, violations } from './thumb.ts'
import { load } from './words.ts'

const NARROW = { width: 320, height: 640, dark: false }
const OTHERS = (Object.keys(LANGUAGES) as Language[]).filter(id => id !== 'en')
const langOf = (page: Page) => page.evaluate(() => document.documentElement.lang)

/** Buttons whose words take more than two lines; what stands in small type below them counts apart. */
const wrapped = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    // In the list of branches and loads stand the machine's own names.
    [...document.querySelectorAll('button:not(.which.pairs > *), label.file')].flatMap(button => {
      const lines = [...button.childNodes].flatMap(node => {
        const range = document.createRange()
        range.selectNodeContents(node)
        return node instanceof Element ? [] : [...range.getClientRects()].map(box => Math.round(box.top))
      })
      return new Set(lines).size > 2 ? [`"${button.textContent}" takes more than two lines`] : []
    }),
  )

const KIT: Kit = { qualified: true, clamp: true, injector: { ampere: 1, volts: 24 } }

test.each(OTHERS)(
  '%s: chosen in the middle of a session, on every screen from then on, without a flaw at 320 px',
  { timeout: 300_000 },
  async id => {
    const { page, broken } = await openApp(NARROW)
    const thumb = new Thumb(page)
    const { first, later } = await load(id)
    const { session: say, review, labels } = later
    const wrong: string[] = []
    const check = async (name: string) => {
      // A sheet's own way back lies over what scrolls under it; at the end of the sheet it lies over nothing.
      await page.evaluate(() => document.querySelector('dialog[open]')?.scrollTo(0, 1e6))
      const found = [...(await flaws(page)), ...(await wrapped(page)), ...(await violations(page))]
      wrong.push(...found.map(text => `${name}: ${text}`))
    }
    const heading = (name: string) => page.getByRole('heading', { name, level: 1 }).waitFor()

    await thumb.tap(english.start.demo)
    await thumb.tap(english.symptoms['all-dead'])
    await page.getByText(english.kit.clamp).tap()
    await page.getByText(english.kit.source).tap()
    await page.getByText(english.kit.yes, { exact: true }).tap()
    await thumb.tap(english.kit.start)
    const session = begin({ type: 'started', machine: filler, kit: KIT, symptom: 'all-dead' })
    await stands(page, session)
    await page.getByRole('checkbox').first().tap()
    await thumb.tap('Why this?')
    await page.getByLabel(english.language).selectOption(id)
    await page.getByRole('heading', { name: say.actions.why, level: 2 }).waitFor()
    expect(await langOf(page)).toBe(id)
    await check('why')
    await thumb.tap(say.backToStep)
    // What was ticked stays ticked: nothing but words has changed.
    expect(await page.getByRole('checkbox').first().isChecked()).toBe(true)
    await page.getByRole('checkbox').first().tap()
    await thumb.tap(say.actions.cannot)
    await check('cannot')
    await thumb.tap(say.backToStep)

    // As after any step that was answered, the focus stands at the title again.
    await page.locator('h1').focus()
    const kinds = new Set<string>()
    const once = async (kind: string) => {
      if (kinds.has(kind)) return
      kinds.add(kind)
      await check(kind)
    }
    const technician = new Technician(truthOf(wornThrough), filler, KIT)
    const shown: string[] = []
    const played = await playOn(
      page,
      session,
      technician,
      {
        shown: now => once(kindOf(now)),
        typing: async now => {
          await once(`typing ${kindOf(now)}`)
          shown.push((await page.getByRole('status', { name: say.keypad.value }).textContent()) ?? '')
          return true
        },
      },
      later,
    )
    expect(played.session.request).toMatchObject({ say: 'end', result: 'restored' })
    expect(kinds.size).toBeGreaterThan(8)
    expect(shown.filter(value => /\d,\d/.test(value)).length).toBeGreaterThan(0)
    expect(shown.filter(value => value.includes('.') && !value.includes('c.a.'))).toEqual([])
    await check('end')
    await thumb.tap(say.end.sayWrong)
    await check('closing')
    await page.getByText(labels.wrongs['worn-through']).tap()
    await thumb.tap(say.closing.save)
    await page.getByText(say.end.formSaved).waitFor()
    await thumb.tap(say.end.toStart)
    await heading('Ohmward')
    await page.getByText(first.note).waitFor()
    await check('start')
    await thumb.tap(first.start.past)
    await check('past')
    await thumb.tap(new RegExp(labels.wrongs['worn-through']))
    await page.locator('.timeline').waitFor()
    await check('timeline')
    await thumb.tap(first.back)
    await thumb.tap(review.past.review)
    await heading(review.list.title)
    await thumb.tap(review.list.filters)
    await check('list')
    await thumb.tap(review.list.files)
    await check('files')
    await thumb.tap(review.toList)
    await thumb.tap(review.list.charts(1))
    await heading(review.charts.title)
    await check('charts')
    await thumb.tap(review.toList)
    await thumb.tap(/^Filler 2/)
    await page.getByRole('heading', { name: review.session.times }).waitFor()
    await check('session')
    await thumb.tap(review.session.fill)
    await heading(review.record.title)
    await check('record')
    await thumb.tap(review.toSession)
    await thumb.tap(review.session.report)
    await page.getByRole('heading', { name: later.report.seal }).waitFor()
    // The paper too says who has checked the words.
    expect(await page.locator('.report').textContent()).toContain(first.note)
    await check('report')
    expect(wrong).toEqual([])
    expect(broken).toEqual([])
  },
)

test.each(OTHERS)('%s: the screens before a session and beside it stand without a flaw at 320 px', { timeout: 300_000 }, async id => {
  const { page, broken } = await openApp(NARROW)
  const { first, later } = await load(id)
  const { start, symptoms } = first
  await page.locator('.language select').selectOption(id)
  await page.getByText(first.note).waitFor()
  const ways: readonly (readonly string[])[] = [
    [],
    [start.settings],
    [start.check],
    [start.unknown],
    [start.takeOver],
    [start.machines],
    [start.machines, later.machines.make],
    [start.machines, later.machines.examples, later.machines.exampleNames['filler-2']],
    [start.tool],
    [start.demo],
    [start.demo, first.symptom.designer],
    [start.demo, symptoms['one-load-dead']],
    [start.demo, symptoms['all-dead']],
  ]
  const wrong: string[] = []
  for (const way of ways) {
    await page.reload()
    await page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor()
    for (const name of way) await page.getByText(name, { exact: true }).first().tap()
    if (way.length > 0) await expect.poll(() => page.locator('h1').textContent()).not.toBe('Ohmward')
    const found = [...(await flaws(page)), ...(await wrapped(page)), ...(await violations(page))]
    wrong.push(...found.map(text => `${way.join(' › ')}: ${text}`))
  }
  expect(wrong).toEqual([])
  expect(broken).toEqual([])
})

test('the phone’s own language is taken at first, and the log holds ids that any language reads', async () => {
  const { page, broken } = await openApp(NARROW)
  const { first, later } = await load('de')
  const polish = await load('pl')
  const thumb = new Thumb(page)
  await page.addInitScript(() => Object.defineProperty(navigator, 'languages', { get: () => ['de-AT', 'en'] }))
  await page.reload()
  await page.getByText(first.start.lead).waitFor()
  expect(await langOf(page)).toBe('de')
  await thumb.tap(first.start.demo)
  await thumb.tap(first.symptoms['all-dead'])
  await check320(page, 'kit')
  await page.getByText(first.kit.no, { exact: true }).tap()
  await thumb.tap(first.kit.start)
  await page.getByRole('heading', { name: later.cautions['before-work'].title }).waitFor()
  await thumb.tickAll()
  await thumb.tap(later.cautions['before-work'].done)
  await thumb.tap(later.session.actions.cannot)
  await thumb.tap(later.labels.cannots['no-tool'])
  await expect.poll(() => page.getByRole('dialog').count()).toBe(0)
  await thumb.tap(later.session.actions.end)
  await thumb.tap(later.session.cannot.handOver)
  await thumb.tap(later.session.end.toStart)
  await page.getByLabel(first.language).selectOption('pl')
  await thumb.tap(polish.first.start.past)
  await thumb.tap(/Filler 2/)
  await page.getByText(polish.later.labels.answers.cannot(polish.later.labels.cannots['no-tool'])).waitFor()
  expect(broken).toEqual([])
})

const check320 = async (page: Page, name: string) => {
  expect(await flaws(page), name).toEqual([])
  expect(await wrapped(page), name).toEqual([])
}

test('after one visit every language is on the phone, and the one that was chosen stays', async () => {
  const { page, broken } = await openApp(NARROW)
  await page.getByText(english.start.offline).waitFor()
  await page.context().setOffline(true)
  for (const id of OTHERS) {
    const { first } = await load(id)
    await page.locator('.language select').selectOption(id)
    await page.getByText(first.start.lead).waitFor()
    await check320(page, `${id} start`)
    await page.reload()
    await page.getByText(first.start.lead).waitFor()
    expect(await langOf(page)).toBe(id)
  }
  expect(broken).toEqual([])
})
