import { readFileSync } from 'node:fs'
import { satisfies, validRange } from 'semver'
import { expect, test } from 'vitest'

interface Entry {
  readonly resolved?: string
  readonly hasInstallScript?: boolean
  readonly engines?: { readonly node?: string }
}
type Packages = Readonly<Record<string, Entry>>
interface Project {
  readonly engines: { readonly node: string }
  readonly dependencies: Readonly<Record<string, string>>
  readonly devDependencies: Readonly<Record<string, string>>
}

const read = (name: string): unknown => JSON.parse(readFileSync(new URL(`../${name}`, import.meta.url), 'utf8'))
const { packages } = read('package-lock.json') as { packages: Packages }
const project = read('package.json') as Project

const withScript = (all: Packages): string[] => Object.keys(all).filter(key => all[key]?.hasInstallScript)
const withAddress = (all: Packages): string[] => Object.keys(all).filter(key => all[key]?.resolved !== undefined)
/** A range that cannot be read counts as a refusal. */
const refusing = (all: Packages, node: string): string[] =>
  Object.keys(all).filter(key => {
    const range = validRange(all[key]?.engines?.node ?? '*')
    return range === null || !satisfies(node, range)
  })

test('no package runs a script of its own when it is installed', () => {
  expect(Object.keys(packages).length).toBeGreaterThan(100)
  expect(withScript(packages)).toEqual([])
  expect(withScript({ builder: { hasInstallScript: true } })).toEqual(['builder'])
})

test('every package accepts the Node that runs', () => {
  expect(refusing(packages, process.version)).toEqual([])
  expect(refusing({ newer: { engines: { node: '>=999' } }, fits: { engines: { node: '>=18' } } }, process.version)).toEqual(['newer'])
})

test('every package accepts the oldest Node that the project allows', () => {
  expect(refusing(packages, `${project.engines.node.replace('>=', '')}.0`)).toEqual([])
})

test('the lock file names no download address, so that any registry serves', () => {
  expect(withAddress(packages)).toEqual([])
  expect(withAddress({ found: { resolved: 'https://registry.example/found.tgz' } })).toEqual(['found'])
})

test('what the project itself asks for is pinned, each to one version', () => {
  for (const version of Object.values({ ...project.dependencies, ...project.devDependencies })) expect(version).toMatch(/^\d+\.\d+\.\d+$/)
})
