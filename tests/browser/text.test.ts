// Text at twice its size: words wrap, nothing pushes the screen wider than the phone (WCAG 2.2, 1.4.4 and 1.4.10).
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { openApp } from './open.ts'
import { tour } from './tour.ts'

/** All lettering outside drawings at so many times its size; gives what then leaves the screen at its side, and puts it back. */
const wider = (page: Page, times: number): Promise<string[]> =>
  page.evaluate(by => {
    const all = [...document.querySelectorAll<HTMLElement>('body, body *:not(svg, svg *)')]
    const sizes = all.map(e => Number.parseFloat(getComputedStyle(e).fontSize))
    for (const [i, e] of all.entries()) e.style.fontSize = `${(sizes[i] ?? 0) * by}px`
    const { scrollWidth, clientWidth } = document.documentElement
    const found = all
      .filter(e => [...e.childNodes].some(n => n.nodeType === Node.TEXT_NODE && (n.textContent ?? '').trim() !== ''))
      .filter(e => e.getBoundingClientRect().width > 1 && e.getBoundingClientRect().right > innerWidth + 1)
      .map(e => `"${(e.textContent ?? '').slice(0, 30)}" ends at ${Math.round(e.getBoundingClientRect().right)}`)
    if (scrollWidth > clientWidth) found.push(`scrolls sideways: ${scrollWidth} > ${clientWidth}`)
    for (const e of all) e.style.fontSize = ''
    return found
  }, times)

test('no screen scrolls sideways at 320 px with its text at 200 %', { timeout: 300_000 }, async () => {
  const { page, broken } = await openApp({ width: 320, height: 640, dark: false })
  const found: string[] = []
  await tour(page, async name => {
    found.push(...(await wider(page, 2)).map(flaw => `${name}: ${flaw}`))
  })
  expect(found).toEqual([])
  expect(broken).toEqual([])
})
