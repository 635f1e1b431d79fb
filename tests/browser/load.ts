import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'

interface Chunk {
  readonly file: string
  /** The part it is, of those that vite.config.ts names; else what it was made from. */
  readonly name?: string
  readonly imports?: readonly string[]
  readonly dynamicImports?: readonly string[]
  readonly css?: readonly string[]
}
export type Graph = Readonly<Record<string, Chunk>>

export const GRAPH = '.vite/manifest.json'
export const graphOf = (folder: string): Graph => JSON.parse(readFileSync(join(folder, GRAPH), 'utf8'))

/** The files that these chunks take; with `later`, what they import lazily too. */
export const filesFrom = (graph: Graph, keys: readonly string[], { later = false } = {}): string[] => {
  const seen = new Set<string>()
  const files = new Set<string>()
  const visit = (key: string): void => {
    const chunk = graph[key]
    if (!chunk || seen.has(key)) return
    seen.add(key)
    for (const file of [chunk.file, ...(chunk.css ?? [])]) files.add(file)
    for (const next of [...(chunk.imports ?? []), ...(later ? (chunk.dynamicImports ?? []) : [])]) visit(next)
  }
  for (const key of keys) visit(key)
  return [...files]
}

/** The scripts and styles that a built page names. */
export const namedBy = (folder: string): string[] =>
  [...readFileSync(join(folder, 'index.html'), 'utf8').matchAll(/(?:src|href)="\.\/([^"]+\.(?:js|css))"/g)].map(match => match[1] ?? '')

/** The files that the first load takes: the page, and what it needs before anything works; with `later`, all others too. */
export const filesOf = (folder: string, options: { readonly later?: boolean } = {}): string[] => {
  const graph = graphOf(folder)
  const named = namedBy(folder)
  const keys = Object.keys(graph).filter(key => named.includes(graph[key]?.file ?? ''))
  return [...new Set(['index.html', ...named, ...filesFrom(graph, keys, options)])]
}

/** Bytes over the air, gzip level 9. */
export const packed = (folder: string, files: readonly string[]): number =>
  files.reduce((sum, file) => sum + gzipSync(readFileSync(join(folder, file)), { level: 9 }).length, 0)

export const holding = (folder: string, files: readonly string[], mark: RegExp): string[] =>
  files.filter(file => mark.test(readFileSync(join(folder, file), 'utf8')))
