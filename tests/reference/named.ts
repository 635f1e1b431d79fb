/** A published row; its test carries the row's id and the standard that it stands in. */
interface Published {
  readonly id: string
  readonly standard: string
}

/** For `test.each`: the title, as vitest would quote and shorten it otherwise, and the row. */
export const named = <Row extends Published>(rows: readonly Row[]): [title: string, row: Row][] =>
  rows.map(row => [`[${row.id}] ${row.standard}`, row])
