// The columns of a machine's table. Common practice of wiring lists, no source; names of our own, in any order, loosely spelt.
import { FIELDS, type Field, type Item } from './fields.ts'

/** What a line tells. */
export type Told = Exclude<Item, 'supply'>
export const TOLD: readonly Told[] = ['machine', 'branch', 'run', 'load']
/** In the order in which we write them. `item` and `branch` say what the line is about. */
export const COLUMNS = [
  'item',
  'branch',
  'id',
  'name',
  'place',
  'device',
  'rating',
  'curve',
  'from',
  'to',
  'length',
  'area',
  'class',
  'awg',
  'stranded',
  'moving',
  'temperature',
  'load',
  'at',
  'watts',
  'pluggable',
] as const
export type Column = (typeof COLUMNS)[number]

const ALSO: Readonly<Partial<Record<Column, readonly string[]>>> = {
  item: ['line', 'what', 'kind of line'],
  device: ['protection'],
  rating: ['amperes', 'ampere', 'a', 'rated current'],
  length: ['metres', 'meters', 'm'],
  area: ['mm2', 'mm²', 'cross section', 'conductor'],
  awg: ['gauge'],
  temperature: ['°c', 'c'],
  watts: ['w', 'power', 'watt'],
  branch: ['circuit'],
  load: ['load kind', 'kind'],
}
/** Small letters, no unit in brackets, one space for any run of spaces, dashes, underscores. */
const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[([].*$/, '')
    .replace(/[\s_-]+/g, ' ')
    .trim()
const BY_NAME: ReadonlyMap<string, Column> = new Map(
  COLUMNS.flatMap(column => [column, ...(ALSO[column] ?? [])].map((name): [string, Column] => [name, column])),
)
/** The column that a heading means; a unit may follow its name: 'length m', 'Length (m)', 'length_m'. */
export const columnOf = (heading: string): Column | undefined => {
  const name = plain(heading)
  return BY_NAME.get(name) ?? BY_NAME.get(name.replace(/ (m|mm2|mm²|a|w|°c|c)$/, ''))
}

/** A machine's own line has its id too; a branch's id stands in the column `branch`. */
const keysOf = (item: Told): readonly string[] => [...FIELDS[item].map(({ key }) => key), ...(item === 'machine' ? ['id'] : [])]
export const belongs = (item: Told, column: Column): boolean => column === 'item' || column === 'branch' || keysOf(item).includes(column)
/** The field of a line's thing that a column tells, as forms name it. */
export const keyOf = (item: Told, column: Column): string => (item === 'branch' && column === 'branch' ? 'id' : column)

const WORDS: Readonly<Record<string, Told>> = { device: 'branch', circuit: 'branch', cable: 'run', wire: 'run', conductor: 'run' }
/** What a line tells, by its own word; or, where it has none, by the columns that are filled. */
export const toldOf = (word: string, filled: ReadonlySet<Column>): Told | undefined => {
  const name = plain(word)
  if (name !== '') return TOLD.find(told => told === name) ?? WORDS[name]
  if (filled.has('to') || filled.has('length')) return 'run'
  if (filled.has('load') || filled.has('at') || filled.has('watts')) return 'load'
  return filled.has('branch') ? 'branch' : undefined
}
const NUMBERS: ReadonlySet<string> = new Set(
  TOLD.flatMap(item => (FIELDS[item] as readonly Field[]).filter(({ type }) => type === 'number').map(({ key }) => key)),
)
export const isNumber = (column: Column): boolean => NUMBERS.has(column)
