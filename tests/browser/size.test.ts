import { randomBytes } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { appendFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, onTestFinished, test } from 'vitest'
import { copyOfDist } from './copy.ts'
import { filesFrom, filesOf, GRAPH, graphOf, holding, namedBy, packed } from './load.ts'
import { DIST } from './server.ts'

/** Bytes, gzip level 9: HTML, and the script and style that it needs before anything works. Raised only with a reason. */
const FIRST_LOAD = 30_000

/** Text that survives minifying, and stands for a library that must wait until the page is on the screen. */
const LATER = [
  { what: 'the store', mark: /dexie/i },
  { what: 'the update check', mark: /workbox|serviceWorker\.register/i },
]
const later = true

describe('first load', () => {
  test('index.html names a script and a style, and the bundler knows them', () => {
    const known = Object.values(graphOf(DIST)).map(({ file }) => file)
    expect(namedBy(DIST).map(file => file.replace(/.*\./, ''))).toEqual(expect.arrayContaining(['js', 'css']))
    expect(known).toEqual(expect.arrayContaining(namedBy(DIST)))
  })

  test(`is at most ${FIRST_LOAD} bytes`, () => {
    const bytes = packed(DIST, filesOf(DIST))
    console.info(`first load: ${bytes} bytes; with all that comes later: ${packed(DIST, filesOf(DIST, { later }))} bytes`)
    expect(bytes).toBeLessThanOrEqual(FIRST_LOAD)
  })

  test('README.md names the same ceiling', () => {
    const grouped = FIRST_LOAD.toLocaleString('en').replace(',', ' ')
    expect(readFileSync(join(DIST, '../README.md'), 'utf8')).toContain(`at most ${grouped} bytes (gzip)`)
  })

  test.each(LATER)('$what is not in it, and is in what comes later', ({ mark }) => {
    expect(holding(DIST, filesOf(DIST), mark)).toEqual([])
    // The same search must find it where it belongs, or it would find nothing anywhere.
    expect(holding(DIST, filesOf(DIST, { later }), mark)).not.toEqual([])
  })

  test('an entry grown by the ceiling would be refused', async () => {
    const { folder, remove } = await copyOfDist()
    onTestFinished(remove)
    const script = filesOf(folder).find(file => file.endsWith('.js')) ?? 'no script'
    await appendFile(join(folder, script), randomBytes(FIRST_LOAD))
    expect(packed(folder, filesOf(folder))).toBeGreaterThan(FIRST_LOAD)
  })

  test.each(LATER)('$what taken in at once would be seen', async ({ mark }) => {
    const { folder, remove } = await copyOfDist()
    onTestFinished(remove)
    const eager = Object.entries(graphOf(folder)).map(([key, chunk]) => [
      key,
      { ...chunk, imports: [...(chunk.imports ?? []), ...(chunk.dynamicImports ?? [])] },
    ])
    await writeFile(join(folder, GRAPH), JSON.stringify(Object.fromEntries(eager)))
    expect(holding(folder, filesOf(folder), mark)).not.toEqual([])
  })
})

/** The files of the offline set, as the worker lists them. */
const storedIn = (folder: string): string[] => [
  ...new Set([...readFileSync(join(folder, 'sw.js'), 'utf8').matchAll(/\burl"?:"([^"]+)"/g)].map(match => match[1] ?? '')),
]
/** Words are no code: each language is a file of its own, and a phone uses one. */
const isWords = (key: string): boolean => /content\/\w+\/(first|later)/.test(key)

const CEILINGS = [
  {
    what: 'all code without words',
    most: 222_000,
    why: 'the store is 34 kB and the engine with the flow 51 kB; log review, machines, codes and protection are screens beside the hunt',
    of: (folder: string) =>
      packed(
        folder,
        Object.entries(graphOf(folder)).flatMap(([key, { file }]) => (file.endsWith('.js') && !isWords(key) ? [file] : [])),
      ),
  },
  {
    what: 'what a hunt needs in one language',
    most: 167_500,
    why: 'the step from the start screen to an answered reading: the first load, the store, the engine, one language',
    of: (folder: string) => {
      const graph = graphOf(folder)
      const hunt = Object.keys(graph).filter(key => /^(hunt|store)$/.test(graph[key]?.name ?? '') || /content\/en\/later/.test(key))
      if (hunt.length !== 3) throw new Error(`a hunt is three parts, found ${hunt.join(', ')}`)
      return packed(folder, [...new Set([...filesOf(folder), ...filesFrom(graph, hunt)])])
    },
  },
  {
    what: 'the offline set',
    most: 334_000,
    why: 'five languages are 102 kB of it, since whoever needs one has no network to fetch it by',
    of: (folder: string) => packed(folder, storedIn(folder)),
  },
] as const

test.each(CEILINGS)('$what is at most $most bytes (gzip): $why', ({ what, most, of }) => {
  const bytes = of(DIST)
  console.info(`${what}: ${bytes} bytes`)
  expect(bytes).toBeLessThanOrEqual(most)
  // A ceiling far above what is under it holds nothing.
  expect(bytes).toBeGreaterThan(most * 0.85)
})

test('the offline set has at most 60 files: each is a request of the first visit', () => {
  const files = storedIn(DIST)
  console.info(`the offline set: ${files.length} files`)
  expect(files.length).toBeLessThanOrEqual(60)
})

test('what is stored for offline use is every built file that the app can ask for, and no other', () => {
  const stored = storedIn(DIST)
  const assets = readdirSync(join(DIST, 'assets')).map(name => `assets/${name}`)
  const others = ['index.html', 'manifest.webmanifest', 'icon.svg', 'icon-192.png', 'apple-touch-icon.png']
  expect(stored.sort()).toEqual([...others, ...assets].sort())
})
