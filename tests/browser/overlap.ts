import type { Page } from 'playwright-core'

/**
 * Lettering of drawings and strips that lies on other lettering, on a meter's lead, or past the drawing's edge, and shapes past it. A text counts as wide as
 * it is, and as high as its capitals: what reaches below the line or is only room above it may touch a neighbour. CSS pixels.
 */
export const overlaps = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = []
    const [above, below, least] = [3, 4, 1]
    const scope = document.querySelector('dialog[open]') ?? document.body
    for (const drawing of scope.querySelectorAll('.drawing, .strip')) {
      // The larger drawing is turned and enlarged: the same drawing, measured where it stands upright.
      if (drawing.closest('.large')) continue
      const frame = drawing.getBoundingClientRect()
      const texts = [...drawing.querySelectorAll(drawing.matches('.strip') ? 'b' : 'text')].flatMap(text => {
        const said = text.textContent ?? ''
        if (said.trim() === '') return []
        const range = document.createRange()
        range.selectNodeContents(text)
        const { left, right, top, bottom } = (text instanceof SVGElement ? text : range).getBoundingClientRect()
        return [{ said, left, right, top: top + above, bottom: bottom - below }]
      })
      const where = (drawing.getAttribute('aria-label') ?? '').slice(0, 40)
      for (const [i, a] of texts.entries()) {
        for (const b of texts.slice(i + 1)) {
          const across = Math.min(a.right, b.right) - Math.max(a.left, b.left)
          const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
          if (across > least && down > least) found.push(`"${a.said}" lies on "${b.said}" (${where})`)
        }
        if (a.left < frame.left - 1 || a.right > frame.right + 1 || a.top < frame.top - 1 || a.bottom > frame.bottom + 1)
          found.push(`"${a.said}" leaves its drawing (${where})`)
      }
      for (const shape of drawing.querySelectorAll('circle, ellipse, rect')) {
        const { left, right, top, bottom } = shape.getBoundingClientRect()
        // What is cropped away as a whole is not meant to be seen.
        const away = right <= frame.left || left >= frame.right || bottom <= frame.top || top >= frame.bottom
        const over = Math.max(frame.left - left, right - frame.right, frame.top - top, bottom - frame.bottom)
        if (!away && over > 2) found.push(`a ${shape.tagName} leaves its drawing by ${Math.round(over)} (${where})`)
      }
      // The button that shows it larger lies in its corner.
      const button = drawing.closest('.picture')?.querySelector('.larger svg')?.getBoundingClientRect()
      for (const t of button ? texts : [])
        if (button && Math.min(t.right, button.right) - Math.max(t.left, button.left) > least)
          if (Math.min(t.bottom, button.bottom) - Math.max(t.top, button.top) > least)
            found.push(`"${t.said}" lies under a button (${where})`)
      for (const mark of button ? drawing.querySelectorAll('circle.full, path.heavy') : []) {
        const box = mark.getBoundingClientRect()
        if (button && Math.min(box.right, button.right) - Math.max(box.left, button.left) > least)
          if (Math.min(box.bottom, button.bottom) - Math.max(box.top, button.top) > least)
            found.push(`a mark lies under a button (${where})`)
      }
      for (const lead of drawing.querySelectorAll<SVGPathElement>('path.lead')) {
        const to = lead.getScreenCTM()
        const length = lead.getTotalLength()
        for (let at = 0; to && at <= length; at += 4) {
          const { x, y } = lead.getPointAtLength(at).matrixTransform(to)
          const hit = texts.find(t => x > t.left - 1 && x < t.right + 1 && y > t.top - 1 && y < t.bottom + 1)
          if (!hit) continue
          found.push(`a lead runs over "${hit.said}" (${where})`)
          break
        }
      }
    }
    return [...new Set(found)]
  })
