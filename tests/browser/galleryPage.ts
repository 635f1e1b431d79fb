// The gallery as a page: the app's own drawings and style sheets, without the app.
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Page } from 'playwright-core'
import { rolldown } from 'rolldown'
import type { Language } from '../../content/languages.ts'
import { firstPage, launch, newProfile } from './launch.ts'
import { serve } from './server.ts'

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url))
const STYLES = ['screens/base.css', 'screens/session.css', 'drawing/drawing.css', 'screens/narrow.css']

export interface Gallery {
  readonly page: Page
  /** Draws all of a kind, one below the other; tells how many there are, none if one of them is not on the page. */
  readonly show: (kind: string, language?: Language) => Promise<number>
  readonly close: () => Promise<void>
}

export const openGallery = async (): Promise<Gallery> => {
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-'))
  const bundle = await rolldown({
    input: at('gallery.tsx'),
    platform: 'browser',
    logLevel: 'silent',
    moduleTypes: { '.css': 'empty' },
    transform: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  })
  await bundle.write({ file: join(folder, 'gallery.js'), format: 'esm', codeSplitting: false })
  await bundle.close()
  const css = await Promise.all(STYLES.map(path => readFile(at(`../../web/${path}`), 'utf8')))
  await writeFile(join(folder, 'style.css'), css.join('\n'))
  const links = '<link rel="stylesheet" href="style.css"><div id="app"></div><script type="module" src="gallery.js"></script>'
  await writeFile(join(folder, 'index.html'), `<!doctype html><meta name="viewport" content="width=device-width">${links}`)
  const server = await serve({ folder })
  const { profile, remove } = await newProfile()
  const browser = await launch(profile)
  const page = await firstPage(browser)
  await page.goto(server.url)
  return {
    page,
    show: (kind, language = 'en') =>
      page.evaluate(([k, l]) => (globalThis as unknown as { show: (kind: string, language: string) => Promise<number> }).show(k, l), [
        kind,
        language,
      ] as const),
    close: async () => {
      await browser.close()
      await server.stop()
      await remove()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
