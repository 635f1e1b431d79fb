// `npm run lighthouse`: three scores of the built app. The tool is large (185 MB) and no part of the project: it is installed beside,
// at its exact version and without install scripts, when it is first asked for.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { launch, newProfile } from './launch.ts'
import { serve } from './server.ts'

const TOOL = 'lighthouse@12.8.2'
const FOLDER = process.env['LIGHTHOUSE'] ?? join(process.cwd(), 'node_modules/.cache/ohmward/lighthouse')
const PORT = 9333

interface Report {
  readonly categories: Readonly<Record<string, { readonly title: string; readonly score: number | null }>>
  readonly audits: Readonly<Record<string, { readonly title: string; readonly score: number | null; readonly scoreDisplayMode: string }>>
}
type Lighthouse = (url: string, flags: object) => Promise<{ readonly lhr: Report } | undefined>

if (!existsSync(join(FOLDER, 'node_modules/lighthouse'))) {
  mkdirSync(FOLDER, { recursive: true })
  const { status } = spawnSync('npm', ['install', '--prefix', FOLDER, '--no-save', '--ignore-scripts', '--no-audit', '--no-fund', TOOL], {
    stdio: 'inherit',
  })
  if (status !== 0) throw new Error(`${TOOL} could not be installed`)
}
const entry = createRequire(join(FOLDER, 'package.json')).resolve('lighthouse')
const { default: lighthouse }: { default: Lighthouse } = await import(pathToFileURL(entry).href)

const server = await serve({ folder: resolve('dist') })
const { profile, remove } = await newProfile()
const browser = await launch(profile, { flags: [`--remote-debugging-port=${PORT}`] })
const result = await lighthouse(server.url, {
  port: PORT,
  onlyCategories: ['performance', 'accessibility', 'best-practices'],
  logLevel: 'error',
})
await browser.close()
await server.stop()
await remove()
if (!result) throw new Error('no report came')
for (const { title, score } of Object.values(result.lhr.categories)) console.log(`${title}: ${Math.round(100 * (score ?? 0))}`)
for (const { title, score, scoreDisplayMode } of Object.values(result.lhr.audits))
  if (score !== null && score < 1 && ['binary', 'metricSavings', 'numeric'].includes(scoreDisplayMode))
    console.log(`  ${Math.round(score * 100)}  ${title}`)
