// A machine from a table as it comes from a drawing's terminal list, and back. One line is a branch with its device, a run or a load.
// Nothing is guessed silently: every cell that is not understood is told by line and column, and so is every column left out.
import { readMachine } from '../../engine/check.ts'
import type { Branch, Load, Machine, Run } from '../../engine/machine.ts'
import { TERMINALS } from '../../engine/wiring.ts'
import { table as written } from '../log/csv.ts'
import { belongs, COLUMNS, type Column, columnOf, isNumber, keyOf, type Told, toldOf } from './columns.ts'
import { type Texts, type Things, textsOf, thingOf, type Why } from './fields.ts'
import { loadIdFor, machineIdFor, runIdFor } from './ids.ts'
import type { Row, Table } from './table.ts'

/** The wiring of any one machine, many times over; 10 MB is refused before this is asked. */
const MOST_LINES = 5000

/** `item`: nobody can say what the line tells. `taken`: another has this id. `hangs`: no run leads there, or runs form a loop. */
export type Fault = Why | 'item' | 'taken' | 'hangs' | 'unclosed' | 'header' | 'twice' | 'empty' | 'lines'
export interface Problem {
  /** From 1, as an editor counts. */
  readonly line: number
  /** Missing where the line as a whole is meant. */
  readonly column?: Column
  readonly found: string
  readonly why: Fault
}
export interface ReadTable {
  /** Only where there are no problems. */
  readonly machine?: Machine
  readonly problems: readonly Problem[]
  /** Headings that mean nothing here; their cells were not read. */
  readonly unread: readonly string[]
  readonly counts: { readonly branches: number; readonly runs: number; readonly loads: number }
}

interface Line {
  readonly line: number
  readonly item: Told
  readonly texts: Texts
  readonly branch: string
}
/** The guard of a text that a spreadsheet would run as a formula; the writer of tables puts it there. */
const unguarded = (text: string): string => text.replace(/^'(?=[=+\-@−＝＋－＠])/, '').trim()

const lineOf = ({ line, cells }: Row, columns: readonly (Column | undefined)[]): Line | Problem => {
  const all = columns.flatMap((column, i): [Column, string][] => {
    const text = unguarded(cells[i] ?? '')
    return column === undefined || text === '' ? [] : [[column, text]]
  })
  const held = Object.fromEntries(all)
  const item = toldOf(held['item'] ?? '', new Set(all.map(([column]) => column)))
  if (item === undefined) return { line, column: 'item', found: held['item'] ?? '', why: 'item' }
  const texts = Object.fromEntries(all.flatMap(([column, text]) => (belongs(item, column) ? [[keyOf(item, column), text]] : [])))
  return { line, item, texts, branch: held['branch'] ?? '' }
}
const isProblem = (read: Line | Problem): read is Problem => 'why' in read

const isText = (text: string | undefined): text is string => text !== undefined

interface Growing {
  readonly id: string
  own: Line | undefined
  told: Omit<Branch, 'wiring' | 'loads'>
  readonly runs: { readonly line: Line; readonly run: Run }[]
  readonly loads: { readonly line: Line; readonly load: Load }[]
}
const branchFrom = ({ told, runs, loads }: Growing): Branch => ({
  ...told,
  ...(runs.length > 0 ? { wiring: runs.map(({ run }) => run) } : {}),
  ...(loads.length > 0 ? { loads: loads.map(({ load }) => load) } : {}),
})

/** Which cell a field of the machine came from, and what may be wrong there once each cell by itself is right. */
const placeOf = (field: string, branches: readonly Growing[]): Problem | undefined => {
  const [, b, list, n, key] = /^branches\[(\d+)\](?:\.(wiring|loads)\[(\d+)\])?\.(\w+)/.exec(field) ?? []
  const branch = branches[Number(b)]
  const from = list === 'wiring' ? branch?.runs[Number(n)]?.line : list === 'loads' ? branch?.loads[Number(n)]?.line : branch?.own
  const line = from ?? branch?.runs[0]?.line ?? branch?.loads[0]?.line
  if (line === undefined) return undefined
  const column = list === undefined && key === 'id' ? 'branch' : COLUMNS.find(name => name === key)
  const why = key === 'id' ? 'taken' : key === 'from' || key === 'to' || key === 'at' ? 'hangs' : 'value'
  return { line: line.line, ...(column ? { column } : {}), found: line.texts[key ?? ''] ?? '', why }
}

/** Things of the lines, by branch in the order of their first line; ids that are missing are made. */
const gather = (lines: readonly Line[], problems: Problem[]): { head?: Line; branches: Growing[] } => {
  const branches = new Map<string, Growing>()
  let head: Line | undefined
  const say = (line: Line, key: string, found: string, why: Fault): void => {
    const column = line.item === 'branch' && key === 'id' ? 'branch' : COLUMNS.find(name => name === key)
    problems.push({ line: line.line, ...(column ? { column } : {}), found, why })
  }
  const take = <I extends Told>(line: Line, item: I, texts: Texts, keep: (thing: Things[I]) => void): void => {
    const read = thingOf(item, texts)
    if (read.ok) keep(read.value)
    else for (const { key, found, why } of read.wrong) say(line, key, found, why)
  }
  /** Names that some line gives, so that none is given again. */
  const taken = new Set(
    lines.flatMap(({ item, texts }) => (item === 'branch' ? [] : [texts['id'], texts['from'], texts['to']])).filter(isText),
  )
  const named = (id: string): string => {
    taken.add(id)
    return id
  }
  for (const line of lines) {
    const { item, texts } = line
    if (item === 'machine') {
      if (head !== undefined) say(line, 'item', texts['item'] ?? 'machine', 'twice')
      head ??= line
      continue
    }
    if (line.branch === '') {
      say(line, 'branch', '', 'missing')
      continue
    }
    const branch = branches.get(line.branch) ?? { id: line.branch, own: undefined, told: { id: line.branch }, runs: [], loads: [] }
    branches.set(line.branch, branch)
    if (item === 'branch') {
      if (branch.own !== undefined) say(line, 'id', line.branch, 'taken')
      branch.own ??= line
      take(line, item, texts, told => {
        branch.told = told
      })
    } else if (item === 'run') {
      const id = texts['id'] ?? named(runIdFor(branch.id, taken))
      take(line, item, { from: TERMINALS, ...texts, id }, run => branch.runs.push({ line, run }))
    } else {
      const id = texts['id'] ?? named(loadIdFor(branch.id, taken))
      take(line, item, { ...texts, id }, load => branch.loads.push({ line, load }))
    }
  }
  return { ...(head === undefined ? {} : { head }), branches: [...branches.values()] }
}

const headerProblems = (header: Row | undefined, columns: readonly (Column | undefined)[]): Problem[] => {
  if (header === undefined) return [{ line: 1, found: '', why: 'empty' }]
  if (!columns.includes('branch'))
    return [{ line: header.line, column: 'branch', found: header.cells.join(' ').slice(0, 60), why: 'header' }]
  return columns.flatMap((column, i): Problem[] =>
    column !== undefined && columns.indexOf(column) < i ? [{ line: header.line, column, found: header.cells[i] ?? '', why: 'twice' }] : [],
  )
}

/**
 * Reads a table whose first line names the columns. `name` stands in where no line tells the machine's, for example the file's.
 * Never throws: what cannot be read comes back as problems, each with its line and, where one is meant, its column.
 */
export const machineFrom = ({ rows, unclosed }: Table, name: string): ReadTable => {
  const [header, ...body] = rows
  const columns = (header?.cells ?? []).map(columnOf)
  const unread = (header?.cells ?? []).filter((heading, i) => columns[i] === undefined && heading.trim() !== '')
  const problems = headerProblems(header, columns)
  if (unclosed !== undefined) problems.push({ line: unclosed, found: '"', why: 'unclosed' })
  if (body.length > MOST_LINES) problems.push({ line: body[MOST_LINES]?.line ?? 0, found: String(body.length), why: 'lines' })
  const none = { branches: 0, runs: 0, loads: 0 }
  if (problems.length > 0) return { problems, unread, counts: none }
  const read = body.map(row => lineOf(row, columns))
  problems.push(...read.filter(isProblem))
  const lines = read.filter((one): one is Line => !isProblem(one))
  const { head, branches } = gather(lines, problems)
  const counts = {
    branches: branches.length,
    runs: lines.filter(({ item }) => item === 'run').length,
    loads: lines.filter(({ item }) => item === 'load').length,
  }
  if (branches.length === 0 && problems.length === 0) problems.push({ line: header?.line ?? 1, found: '', why: 'empty' })
  const own = thingOf('machine', { ...head?.texts, name: head?.texts['name'] ?? name })
  if (!own.ok)
    problems.push(
      ...own.wrong.map(
        ({ key, found, why }): Problem => ({
          line: head?.line ?? 1,
          ...(key === 'place' ? { column: 'place' } : { column: 'name' }),
          found,
          why,
        }),
      ),
    )
  if (problems.length > 0 || !own.ok) return { problems: problems.sort((a, b) => a.line - b.line), unread, counts }

  const wire = (all: readonly Growing[]) => ({ format: 'ohmward.machine', version: 1, branches: all.map(branchFrom) })
  // Branch by branch first, so that a slip in each is told at once.
  for (const branch of branches) {
    const alone = readMachine(wire([branch]))
    if (!alone.ok) problems.push(placeOf(alone.field, [branch]) ?? { line: 1, found: alone.found, why: 'value' })
  }
  if (problems.length > 0) return { problems, unread, counts }
  const id = head?.texts['id'] ?? machineIdFor(own.value.name, [])
  const whole = readMachine({ ...wire(branches), ...own.value, id })
  if (whole.ok) return { machine: whole.value, problems, unread, counts }
  const told = placeOf(whole.field, branches) ?? {
    line: head?.line ?? 1,
    ...(whole.field === 'id' ? { column: 'id' as const } : {}),
    found: whole.found,
    why: 'value' as const,
  }
  return { problems: [told], unread, counts }
}

/** The machine as a table that `machineFrom` reads: the supply and figures from data sheets are not in it; the machine file has them. */
export const csvOf = (machine: Machine): string => {
  // Numbers as numbers: a guard would turn −20 °C into text.
  const row = (texts: Texts): readonly (string | number)[] =>
    COLUMNS.map(column => (isNumber(column) && texts[column] ? Number(texts[column]) : (texts[column] ?? '')))
  const branches = machine.branches.flatMap(branch => [
    row({ ...textsOf('branch', branch), item: 'branch', branch: branch.id, id: '' }),
    ...(branch.wiring ?? []).map(run => row({ ...textsOf('run', run), item: 'run', branch: branch.id })),
    ...(branch.loads ?? []).map(load => row({ ...textsOf('load', load), item: 'load', branch: branch.id })),
  ])
  return written([COLUMNS, row({ ...textsOf('machine', machine), item: 'machine', id: machine.id }), ...branches])
}
