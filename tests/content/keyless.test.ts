// The built files hold a language's words without their keys: here each word is compared with the one of its source.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { rolldown } from 'rolldown'
import { afterAll, describe, expect, test } from 'vitest'
import { KEYS, keyless } from '../../.config/keyless.ts'
import { LANGUAGES, type Language } from '../../content/languages.ts'

const folder = mkdtempSync(join(tmpdir(), 'ohmward-words-'))
afterAll(() => rmSync(folder, { recursive: true }))

interface Tables {
  readonly tables: Readonly<Record<string, unknown>>
  readonly code: string
}
/** A language's tables out of one bundled file. */
const bundled = async (id: Language, name: string, plugins: readonly (typeof keyless)[]): Promise<Tables> => {
  const source = (file: string) => fileURLToPath(new URL(`../../content/${id}/${file}.ts`, import.meta.url))
  const entry = `export { first } from '${source('first')}'\nexport { sentences } from '${source('sentences')}'`
  const bundle = await rolldown({
    input: 'entry',
    plugins: [
      { name: 'entry', resolveId: file => (file === 'entry' ? file : null), load: file => (file === 'entry' ? entry : null) },
      ...plugins,
    ],
  })
  const file = join(folder, `${id}-${name}.mjs`)
  const { output } = await bundle.write({ file })
  const { first, sentences } = await import(pathToFileURL(file).href)
  return { tables: { first, ...sentences }, code: output[0].code }
}
/** Every word under its path, in order; of a sentence with facts its source. */
const leaves = (table: unknown, path: string): readonly (readonly [path: string, word: unknown])[] =>
  typeof table === 'object' && table !== null
    ? Object.entries(table).flatMap(([key, value]) => leaves(value, `${path}/${key}`))
    : [[path, typeof table === 'function' ? table.toString() : table]]

describe.each(Object.keys(LANGUAGES) as Language[])('%s', async id => {
  const [plain, short] = await Promise.all([bundled(id, 'plain', []), bundled(id, 'short', [keyless])])

  test.each(Object.keys(KEYS))('says the same in %s once its keys are left out', name => {
    const words = leaves(plain.tables[name], name)
    expect(words.length).toBeGreaterThan(10)
    expect(Object.fromEntries(leaves(short.tables[name], name))).toEqual(Object.fromEntries(words))
  })

  test('stands there without keys', () => {
    const without = [...short.code.matchAll(/\bkeyed\((\w+)(?:\$\d+)?, \[/g)].map(([, name]) => name)
    // What is a list has no keys; English begins in the first load and has one table from elsewhere.
    const kept = id === 'en' ? ['first', 'glossary', 'problems'] : ['glossary']
    expect(without.sort()).toEqual(
      Object.keys(KEYS)
        .filter(name => !kept.includes(name))
        .sort(),
    )
  })
})
