// No lettering lies on other lettering or under a lead, in any drawing, at any width, in any language.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { LANGUAGES, type Language } from '../../content/languages.ts'
import { type Gallery, openGallery } from './galleryPage.ts'
import { overlaps } from './overlap.ts'

const WIDTHS = [320, 360, 412, 740] as const
const KINDS = ['cabinet', 'buses', 'strip', 'supply', 'branch', 'cable'] as const

let gallery: Gallery
beforeAll(async () => {
  gallery = await openGallery()
})
afterAll(() => gallery.close())

test.each(KINDS)('no lettering of a drawing of the %s lies on another or under a lead', { timeout: 240_000 }, async kind => {
  const found: string[] = []
  for (const width of WIDTHS) {
    await gallery.page.setViewportSize({ width, height: width > 700 ? 360 : 640 })
    for (const language of Object.keys(LANGUAGES) as Language[]) {
      // Words are longest where the screen is narrowest; in a drawing of a branch, of a strip or of one cable they are names and figures.
      if (language !== 'en' && (width > 320 || ['strip', 'branch', 'cable'].includes(kind))) continue
      expect(await gallery.show(kind, language)).toBeGreaterThan(2)
      found.push(...(await overlaps(gallery.page)).map(flaw => `${width} ${language}: ${flaw}`))
    }
  }
  expect(found).toEqual([])
})
