import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { findChromium } from './chromium.ts'
import { DIST } from './server.ts'

/** Before any browser test: the built app and a browser must be there. */
export const setup = (): void => {
  if (!existsSync(join(DIST, 'index.html'))) throw new Error('There is no built app in dist/: run `npm run build` first.')
  findChromium()
}
