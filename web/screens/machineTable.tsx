import { useMemo, useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import { COLUMNS, type Column, columnOf } from '../machines/columns.ts'
import { machineFrom, type Problem } from '../machines/csv.ts'
import type { Table } from '../machines/table.ts'
import { first, words } from '../words.ts'
import { Title } from './title.tsx'

interface TableProps {
  readonly table: Table
  /** The file's, without its ending. */
  readonly name: string
  readonly take: (machine: Machine) => void
  readonly back: () => void
}
/** So many problems are shown at once: mended ones make room. */
const SHOWN = 20

const cellAt = ({ rows }: Table, line: number, column: Column | undefined) => {
  const row = rows.findIndex(r => r.line === line)
  const cell = rows[0]?.cells.findIndex(heading => columnOf(heading) === column) ?? -1
  return row > 0 && column !== undefined && cell >= 0 ? { row, cell } : undefined
}
const withCell = (table: Table, row: number, cell: number, text: string): Table => ({
  ...table,
  rows: table.rows.map((r, i) =>
    i === row
      ? { ...r, cells: Array.from({ length: Math.max(r.cells.length, cell + 1) }, (_, j) => (j === cell ? text : (r.cells[j] ?? ''))) }
      : r,
  ),
})

/** A table before it is stored: what it holds, and each cell that is not understood, to be mended on the spot. */
export const MachineTable = ({ table: file, name, take, back }: TableProps) => {
  const [table, setTable] = useState(file)
  /** What the fields of the problems hold by now: read anew only when asked, or a field would go while it is typed in. */
  const [mended, setMended] = useState<Readonly<Record<string, string>>>({})
  const read = useMemo(() => machineFrom(table, name), [table, name])
  const { machines: say } = words()
  const { counts, machine, problems, unread } = read
  const keyOf = ({ line, column, why }: Problem) => `${line} ${column ?? ''} ${why}`
  const again = () => {
    const changed = problems.reduce((now, problem) => {
      const at = cellAt(table, problem.line, problem.column)
      const text = mended[keyOf(problem)]
      return at === undefined || text === undefined ? now : withCell(now, at.row, at.cell, text)
    }, table)
    setTable(changed)
    setMended({})
  }
  const line = (problem: Problem) => {
    const { column, found, why } = problem
    const must = COLUMNS.some(c => c === column) ? say.fields[column as Column].must : ''
    const told = say.table.problem(problem.line, column ?? '', say.tableWrong[why](column ?? '', found, must))
    const key = keyOf(problem)
    return (
      <li key={key} class="field">
        {cellAt(table, problem.line, column) ? (
          <label>
            {told}
            <input
              type="text"
              autocomplete="off"
              value={mended[key] ?? found}
              onInput={e => setMended({ ...mended, [key]: e.currentTarget.value })}
            />
          </label>
        ) : (
          told
        )}
      </li>
    )
  }
  return (
    <main class="place">
      <Title text={machine ? say.table.right : say.table.wrong(problems.length)} step={machine ? 'table' : `table-${problems.length}`} />
      <p>{say.table.holds(name, counts.branches, counts.runs, counts.loads)}</p>
      {unread.length > 0 && <p>{say.table.unread(unread.join(', '))}</p>}
      <ul class="rows">{problems.slice(0, SHOWN).map(line)}</ul>
      {problems.length > SHOWN && <p>{say.table.more(problems.length - SHOWN)}</p>}
      {machine && (
        <ul class="rows">
          {machine.branches.map(({ id, name: own, wiring = [], loads = [] }) => (
            <li key={id}>
              <strong>{own ? `${id} · ${own}` : id}</strong> {say.holds(wiring.length, loads.length)}
            </li>
          ))}
        </ul>
      )}
      <div class="actions">
        {machine ? (
          <button type="button" class="primary" onClick={() => take(machine)}>
            {say.table.take}
          </button>
        ) : (
          <button type="button" class="primary" disabled={Object.keys(mended).length === 0} onClick={again}>
            {say.table.again}
          </button>
        )}
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
