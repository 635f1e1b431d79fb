import { spawnSync } from 'node:child_process'
import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']

const runs = (file: string): boolean => {
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}

const onPath = (): string | undefined =>
  NAMES.flatMap(name => (process.env['PATH'] ?? '').split(delimiter).map(folder => join(folder, name))).find(runs)

const apt = (...args: string[]): boolean => spawnSync('apt-get', args, { stdio: ['ignore', 'ignore', 'inherit'] }).status === 0

const install = (): string | undefined => {
  if (process.getuid?.() !== 0 || spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status !== 0) return undefined
  process.stderr.write('No Chromium here: installing it with apt-get.\n')
  const wait = ['-o', 'DPkg::Lock::Timeout=300']
  apt('update', ...wait)
  apt('install', '-y', '--no-install-recommends', ...wait, 'chromium')
  return onPath()
}

/** The browser to test in: the CHROMIUM variable, else one that is installed, else (as root, with apt-get) installed now. */
export const findChromium = (): string => {
  const named = process.env['CHROMIUM']
  if (named) {
    if (!runs(named)) throw new Error(`CHROMIUM names no program: ${named}`)
    return named
  }
  const found = onPath() ?? install()
  if (!found) {
    throw new Error(`The browser tests need Chromium or Google Chrome (${NAMES.join(', ')}). Install one, or set CHROMIUM to its path.`)
  }
  return found
}
