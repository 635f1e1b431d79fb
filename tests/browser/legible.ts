import type { Page } from 'playwright-core'

/**
 * Where lettering or lines are too small or too faint on the screen as it stands: step text 20 px, values 32 px and 12:1,
 * other text 7:1, lines and borders that carry a state 3:1. The contrast is that of WCAG 2.2, of computed colours.
 */
export const legibility = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = []
    const scope = document.querySelector('dialog[open]') ?? document.body
    const rgb = (css: string) => (css.match(/[\d.]+/g) ?? []).map(Number)
    const light = (css: string) => {
      const [r = 0, g = 0, b = 0] = rgb(css).map(v => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4))
      return 0.2126 * r + 0.7152 * g + 0.0722 * b
    }
    const contrast = (a: string, b: string) => {
      const [hi = 0, lo = 0] = [light(a), light(b)].sort((x, y) => y - x)
      return (hi + 0.05) / (lo + 0.05)
    }
    const paper = (e: Element | null): string => {
      if (!e) return 'rgb(255, 255, 255)'
      const { backgroundColor } = getComputedStyle(e)
      return rgb(backgroundColor)[3] === 0 ? paper(e.parentElement) : backgroundColor
    }
    const says = (e: Element) => (e.textContent ?? '').trim().slice(0, 40)
    const need = (e: Element, size: number, ratio: number) => {
      const style = getComputedStyle(e)
      const got = contrast(style.color, paper(e))
      if (Number.parseFloat(style.fontSize) < size) found.push(`"${says(e)}" has ${style.fontSize}, not ${size}px`)
      if (got < ratio) found.push(`"${says(e)}" has ${got.toFixed(1)}:1, not ${ratio}:1`)
    }
    // What carries the step or the value.
    for (const e of scope.querySelectorAll('h1, .primary, .answer, .step-text'))
      need(e, e.matches('.enter h1') ? 20 : e.matches('.abreast > *') ? 16 : 19, 12)
    for (const e of scope.querySelectorAll('output strong')) need(e, 32, 12)
    for (const e of scope.querySelectorAll('button, label, li, dt, dd, p, header span')) if (says(e) !== '') need(e, 16, 7)
    // Lines of drawings and borders of controls against what they lie on.
    for (const e of scope.querySelectorAll('.drawing path, .drawing rect, .drawing circle, .drawing ellipse, .mark path, .tick path')) {
      const { stroke, strokeWidth, fill } = getComputedStyle(e)
      const seen = stroke !== 'none' && Number.parseFloat(strokeWidth) > 0 && !e.matches('.halo, .lead.black')
      if (seen && contrast(stroke, paper(e)) < 3)
        found.push(`a line of ${says(e.closest('svg') ?? e)} has ${contrast(stroke, paper(e)).toFixed(1)}:1`)
      if (!seen && fill !== 'none' && fill.startsWith('rgb') && e.matches('.full') && contrast(fill, paper(e)) < 3)
        found.push('a filled sign is too faint')
    }
    for (const e of scope.querySelectorAll('button, select, textarea, input, .level')) {
      const { borderBottomColor, borderBottomWidth } = getComputedStyle(e)
      const bare = e.matches('.link, .plain, .larger') || Number.parseFloat(borderBottomWidth) === 0
      if (!bare && contrast(borderBottomColor, paper(e.parentElement)) < 3 && contrast(paper(e), paper(e.parentElement)) < 3)
        found.push(`the border of "${says(e)}" is too faint`)
    }
    return [...new Set(found)]
  })
