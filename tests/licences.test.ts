// What is built into the app comes from these packages: under which licence each, and that none wants to run anything when it is installed.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

interface Manifest {
  readonly name: string
  readonly version: string
  readonly license?: string
  readonly scripts?: Readonly<Record<string, string>>
  readonly dependencies?: Readonly<Record<string, string>>
}
const read = (path: string): Manifest => JSON.parse(readFileSync(new URL(`../${path}`, import.meta.url), 'utf8'))

/** Every package that the app needs at run time, with what those need: from the manifests as they are installed. */
const needed = (): Manifest[] => {
  const found = new Map<string, Manifest>()
  const queue = Object.keys(read('package.json').dependencies ?? {})
  for (const name of queue) {
    if (found.has(name)) continue
    const manifest = read(`node_modules/${name}/package.json`)
    found.set(name, manifest)
    queue.push(...Object.keys(manifest.dependencies ?? {}))
  }
  return [...found.values()].sort((a, b) => a.name.localeCompare(b.name))
}
/** Licences that allow to hand the app on under its own, with their notices kept. */
const ALLOWED = ['MIT', 'Apache-2.0', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD']
const isAllowed = ({ license = '' }: Pick<Manifest, 'license'>): boolean =>
  license
    .replace(/[()]/g, '')
    .split(' OR ')
    .some(one => ALLOWED.includes(one))
const AT_INSTALL = ['preinstall', 'install', 'postinstall']
const runsAtInstall = ({ scripts = {} }: Pick<Manifest, 'scripts'>): boolean => AT_INSTALL.some(name => name in scripts)

test('each package of the app has a licence that lets it be handed on', () => {
  const all = needed()
  for (const { name, version, license } of all) process.stdout.write(`${name} ${version}: ${license}\n`)
  expect(all.length).toBeGreaterThanOrEqual(5)
  expect(all.filter(one => !isAllowed(one)).map(({ name }) => name)).toEqual([])
  expect([isAllowed({ license: 'GPL-3.0' }), isAllowed({}), isAllowed({ license: '(MIT OR GPL-3.0)' })]).toEqual([false, false, true])
})
test('none of them runs a script when it is installed', () => {
  expect(needed().filter(runsAtInstall)).toEqual([])
  expect(runsAtInstall({ scripts: { postinstall: 'node setup.js' } })).toBe(true)
})
test('the lock file has these and no others for the app', () => {
  const lock = read('package-lock.json') as unknown as { packages: Record<string, { dev?: boolean }> }
  const own = Object.keys(lock.packages).filter(path => path !== '' && !lock.packages[path]?.dev)
  const names = new Set(own.map(path => path.replace(/^.*node_modules\//, '')))
  expect([...names].sort()).toEqual(
    needed()
      .map(({ name }) => name)
      .sort(),
  )
})
