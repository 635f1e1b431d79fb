// The screens that lie a few taps deep, in each language, on the narrowest phone and on one on its side, light and dark.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { LANGUAGES, type Language } from '../../content/languages.ts'
import { openApp } from './open.ts'
import { flaws, Thumb, violations } from './thumb.ts'
import { load } from './words.ts'

const SIZES = [
  { width: 320, height: 640 },
  { width: 740, height: 360 },
] as const

/** Lettering that is cut off by its own box, and cannot be scrolled to. The line above a step may end in '…': what it says stands elsewhere. */
const clipped = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main *, dialog *')].flatMap(e => {
      const own = [...e.childNodes].some(n => n.nodeType === Node.TEXT_NODE && (n.textContent ?? '').trim() !== '')
      const { overflowX, overflowY } = getComputedStyle(e)
      if (!own || e.matches('header span') || (overflowX !== 'hidden' && overflowY !== 'hidden')) return []
      return e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1 ? [`"${e.textContent}" is cut off`] : []
    }),
  )

test.each(Object.keys(LANGUAGES) as Language[])('%s: the deeper screens stand without a flaw', { timeout: 400_000 }, async id => {
  const { page, broken } = await openApp({ width: 320, height: 640, dark: false })
  const thumb = new Thumb(page)
  const { first, later } = await load(id)
  const { care, keeping, machines, phone, session, tool } = later
  const wrong: string[] = []
  const check = async (name: string) => {
    const upright = page.viewportSize()
    for (const size of SIZES)
      for (const theme of ['light', 'dark']) {
        await page.setViewportSize(size)
        await page.evaluate(t => {
          document.documentElement.dataset['theme'] = t
        }, theme)
        await page.evaluate(() => new Promise(frame => requestAnimationFrame(() => requestAnimationFrame(frame))))
        // Nothing is covered by the bar at the foot once all of it is scrolled to.
        await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight))
        // Colours are the same at every size, and sizes in every theme.
        const found = theme === 'light' ? [...(await flaws(page)), ...(await clipped(page))] : await violations(page)
        wrong.push(...found.map(text => `${name}, ${size.width}, ${theme}: ${text}`))
      }
    if (upright) await page.setViewportSize(upright)
  }
  const home = async () => {
    await page.reload()
    await page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor()
  }
  await page.locator('.language select').selectOption(id)
  await page.getByText(first.start.lead).waitFor()

  await thumb.tap(first.start.machines)
  await thumb.tap(machines.scanLabel)
  await page.getByText(machines.scan.lead).waitFor()
  await check('scan')
  await thumb.tap(first.back)
  await page.getByText(machines.examples, { exact: true }).tap()
  await thumb.tap(machines.exampleNames['filler-2'])
  await check('machine')
  await thumb.tap(machines.describeIt)
  await thumb.tap(/^B3/)
  await check('branch')
  await thumb.tap(machines.takeBranchOut)
  await page.getByRole('dialog').waitFor()
  await check('sure')
  await page.getByRole('dialog').getByRole('button', { name: first.back }).tap()
  await thumb.tap(machines.change.branch)
  await check('branch form')
  await thumb.tap(first.back)
  await thumb.tap(/^3-W2/)
  await check('run form')

  await home()
  await thumb.tap(first.start.check)
  await expect.poll(() => page.locator('dt').count()).toBeGreaterThan(10)
  await page.getByText(care.check.never, { exact: true }).waitFor()
  await check('self-check')

  await home()
  await thumb.tap(first.start.tool)
  await page.getByRole('heading', { name: tool.cable.title }).waitFor()
  await check('cable')

  await home()
  await thumb.tap(first.start.demo)
  await thumb.tap(first.symptoms['all-dead'])
  await page.getByText(first.kit.no, { exact: true }).tap()
  await thumb.tap(first.kit.start)
  await thumb.tap(session.actions.end)
  await thumb.tap(session.cannot.handOver)
  await page.getByText(phone.handOn.lead).waitFor()
  await check('hand-over')
  await thumb.tap(phone.handOn.codes)
  await page.locator('svg.code').waitFor()
  await check('codes')
  await page.getByRole('dialog').getByRole('button', { name: session.backToStep }).tap()
  await thumb.tap(session.end.sayWrong)
  const picture = await page.locator('h1').screenshot()
  await page.locator('.photos input[type=file]').setInputFiles({ name: 'a.png', mimeType: 'image/png', buffer: picture })
  await thumb.tap(keeping.photos.drop)
  await page.getByRole('button', { name: keeping.photos.keep, exact: true }).waitFor()
  await check('photos')
  expect(wrong).toEqual([])
  expect(broken).toEqual([])
})
