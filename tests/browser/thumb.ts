import axe from 'axe-core'
import type { Page } from 'playwright-core'
import { later } from '../../content/en/later.ts'
import type { Words } from '../../content/words.ts'
import { overlaps } from './overlap.ts'

interface Axe {
  readonly run: (options: object) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>
}

/** Rules of WCAG 2 levels A and AA, and 7:1 contrast, that the screen breaks. The checker comes in past the page's own policy. */
export const violations = async (page: Page): Promise<string[]> => {
  await page.evaluate(axe.source)
  return page.evaluate(async () => {
    const checker = (globalThis as unknown as { axe: Axe }).axe
    const rules = { 'color-contrast-enhanced': { enabled: true } }
    const { violations } = await checker.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'wcag2aaa'], rules })
    return violations.flatMap(v => v.nodes.map(n => `${v.id}: ${n.html.slice(0, 120)}`))
  })
}

/** What is wrong with the screen as it stands: targets, sizes, overflow, lettering of drawings. CSS pixels. */
export const flaws = async (page: Page): Promise<string[]> => [...(await misplaced(page)), ...(await overlaps(page))]

const misplaced = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = []
    const root = document.documentElement
    if (root.scrollWidth > root.clientWidth) found.push(`scrolls sideways: ${root.scrollWidth} > ${root.clientWidth}`)
    const scope = document.querySelector('dialog[open]') ?? document.body
    const targets = [...scope.querySelectorAll<HTMLElement>('button, label:has(input), select, textarea')].filter(
      e => e.getClientRects().length > 0,
    )
    const boxes = targets.map(target => ({
      target,
      box: target.getBoundingClientRect(),
      name: (target.textContent ?? '').trim().slice(0, 30),
    }))
    for (const { target, box, name } of boxes) {
      const least = target.matches('.primary, .answer, .key:not(.back)') ? 72 : 48
      if (box.height < least - 0.5 || box.width < 47.5) found.push(`"${name}" is ${Math.round(box.width)} × ${Math.round(box.height)}`)
      if (target.scrollWidth > target.clientWidth + 1) found.push(`"${name}" overflows`)
    }
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1)) {
        const apart = Math.max(b.box.left - a.box.right, a.box.left - b.box.right, b.box.top - a.box.bottom, a.box.top - b.box.bottom)
        // A bar that stays in sight lies over what scrolls under it; that is no neighbour.
        const bar = (e: HTMLElement) => e.matches('dialog > .plain, .below') || (!e.closest('dialog') && e.closest('.actions') !== null)
        const covered = bar(a.target) !== bar(b.target)
        if (apart < 7.5 && !covered) found.push(`"${a.name}" and "${b.name}" are ${Math.round(apart)} apart`)
      }
    for (const e of document.querySelectorAll('body *')) {
      const text = [...e.childNodes].some(n => n.nodeType === Node.TEXT_NODE && (n.textContent ?? '').trim() !== '')
      if (text && Number.parseFloat(getComputedStyle(e).fontSize) < 16) found.push(`"${e.textContent}" is smaller than 16`)
    }
    return found
  })

/** A value as the keypad takes it: seven signs at most, with the unit's prefix. */
export const typed = (value: number): { text: string; prefix: '' | 'k' | 'M' } => {
  const size = Math.abs(value)
  const [prefix, factor] = size >= 1e6 ? (['M', 1e-6] as const) : size >= 10_000 ? (['k', 1e-3] as const) : (['', 1] as const)
  return { text: String(Number((value * factor).toFixed(4))).slice(0, 7), prefix }
}

/** One thumb: single taps on what a person would see, by its name. */
export class Thumb {
  private readonly page: Page
  constructor(page: Page) {
    this.page = page
  }
  async tap(name: string | RegExp): Promise<void> {
    await this.page
      .getByRole('button', typeof name === 'string' ? { name, exact: true } : { name })
      .first()
      .tap()
  }
  /** Types a value and leaves it unsent. */
  async type(
    value: number | 'OL',
    marks: { readonly unsteady?: boolean } = {},
    { spoken, unit }: Words['session']['keypad'] = later.session.keypad,
  ): Promise<void> {
    if (value === 'OL') return this.tap(spoken.OL)
    const names: Readonly<Record<string, string>> = {
      '.': unit === later.session.keypad.unit ? spoken.point : spoken.comma,
      '-': spoken.minus,
    }
    const { text, prefix } = typed(value)
    for (const sign of text) await this.tap(names[sign] ?? sign)
    if (marks.unsteady) await this.tap(spoken.jumps)
    if (prefix !== '') await this.tap(new RegExp(`^${unit.replace('.', '')}`))
    if (prefix === 'M') await this.tap(new RegExp(`^${unit.replace('.', '')}`))
  }
  /** A session at the demo machine, with a meter alone, up to the list before work. */
  async startDemo(): Promise<void> {
    await this.tap('Demo machine')
    await this.tap('Everything is dead')
    await this.page.getByText('No', { exact: true }).tap()
    await this.tap('Start the session')
    await this.page.getByRole('heading', { name: later.cautions['before-work'].title }).waitFor()
  }
  async tickAll(): Promise<void> {
    for (const box of await this.page.getByRole('checkbox').all()) await box.tap()
  }
}
