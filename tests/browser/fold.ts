import type { Page } from 'playwright-core'

/**
 * What a thumb must scroll for though it should not: a step's own buttons under the screen's edge, and words cut at an edge with no sign
 * that more follows. Lists to tick off are read to their end before their button.
 */
export const folded = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = []
    const sheet = document.querySelector('dialog[open]')
    const main = document.querySelector('main:has(> .top)')
    const inSight = (e: Element) => {
      const { top, bottom, height } = e.getBoundingClientRect()
      return height > 0 && top >= 0 && bottom <= innerHeight + 1
    }
    const bar = main?.querySelector('.checks, .stop') ? undefined : main?.querySelector('.actions')
    if (!sheet && bar)
      for (const button of bar.querySelectorAll('.primary, .answer, nav button'))
        if (!inSight(button)) found.push(`"${button.textContent}" needs scrolling`)
    const scroller = sheet?.querySelector('.body') ?? (bar ? document.documentElement : null)
    if (scroller && scroller.scrollHeight - scroller.clientHeight - scroller.scrollTop > 12) {
      const sign = (sheet ?? bar)?.querySelector('.below')
      if (!sign || !inSight(sign)) found.push('more follows, and no sign says so')
    }
    return found
  })
