// Part of the build: languages without their keys. `content/LANGUAGE/TOPIC.ts` holds a table whose keys are those of English, held so by
// the compiler. In the built files a table is the list of its values, and the keys stand once, in a file that all languages share.
import type { Plugin } from 'vite'
import { first } from '../content/en/first.ts'
import { sentences } from '../content/en/sentences.ts'
import type { Keys } from '../content/shared/keyed.ts'

/** What is used here of a syntax tree (ESTree). */
interface Node {
  readonly type: string
  readonly start: number
  readonly end: number
  readonly [field: string]: unknown
}

const isTable = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const keysOf = (table: Readonly<Record<string, unknown>>): Keys =>
  Object.fromEntries(Object.entries(table).map(([key, value]) => [key, isTable(value) ? keysOf(value) : 0]))

/** The keys of every table, by its name. */
export const KEYS: Keys = keysOf({ first, ...sentences })
const TABLES = /[\\/]content[\\/]([a-z]{2})[\\/](\w+)\.ts$/
const KEYS_MODULE = 'virtual:keys'

const nameOf = (property: Node): string | undefined => {
  const key = property['key'] as Node
  if (property.type !== 'Property' || property['computed'] === true || property['method'] === true || property['kind'] !== 'init') return
  return String(key.type === 'Identifier' ? key['name'] : key['value'])
}

/** A table's source without keys. What is no table written out (a name, a call, one with a part taken from elsewhere) stays as it is. */
const withoutKeys = (code: string, node: Node, keys: Keys | 0 | undefined): string => {
  const properties = node.type === 'ObjectExpression' && typeof keys === 'object' ? (node['properties'] as readonly Node[]) : []
  const named = new Map(properties.map(property => [nameOf(property), property['value'] as Node]))
  if (typeof keys !== 'object' || properties.length === 0 || named.has(undefined)) return code.slice(node.start, node.end)
  const values = Object.entries(keys).map(([key, under]) => {
    const value = named.get(key)
    if (value === undefined) throw new Error(`no word for ${key}`)
    return withoutKeys(code, value, under)
  })
  if (named.size !== values.length) throw new Error(`keys that English does not have: ${[...named.keys()].join(' ')}`)
  return `[${values.join(',\n')}]`
}

/** The variable of that name which the module exports, and its table. */
const exported = (program: Node, name: string): Node | undefined =>
  (program['body'] as readonly Node[])
    .filter(({ type, declaration }) => type === 'ExportNamedDeclaration' && (declaration as Node | null)?.type === 'VariableDeclaration')
    .flatMap(({ declaration }) => (declaration as Node)['declarations'] as readonly Node[])
    .find(({ id }) => (id as Node)['name'] === name)?.['init'] as Node | undefined

/** English begins in the first load, where it is used at once: there it keeps its keys. */
export const keyless: Plugin = {
  name: 'ohmward-keyless',
  apply: 'build',
  resolveId: id => (id === KEYS_MODULE ? `\0${KEYS_MODULE}` : undefined),
  load: id =>
    id === `\0${KEYS_MODULE}`
      ? Object.entries(KEYS)
          .map(([name, keys]) => `export const ${name} = ${JSON.stringify(keys)}`)
          .join('\n')
      : undefined,
  transform(code, id) {
    const [, language, name = ''] = TABLES.exec(id) ?? []
    if (language === undefined || !(name in KEYS) || (language === 'en' && name === 'first')) return
    const table = exported(this.parse(code, { lang: 'ts' }) as unknown as Node, name)
    if (table?.type !== 'ObjectExpression') return
    const keyed = `keyed(keys, ${withoutKeys(code, table, KEYS[name])})`
    const head = `import { ${name} as keys } from '${KEYS_MODULE}'\nimport { keyed } from '../shared/keyed.ts'\n`
    return { code: `${head}${code.slice(0, table.start)}${keyed}${code.slice(table.end)}`, map: null }
  },
}
