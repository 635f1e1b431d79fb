// A table of text: RFC 4180 with the separator that the file uses, and the counting of lines that an editor shows.

export interface Row {
  /** Where it begins in the file, from 1. */
  readonly line: number
  readonly cells: readonly string[]
}
export interface Table {
  readonly rows: readonly Row[]
  /** The line of a quote that is never closed; the rest of the file stands in that cell. */
  readonly unclosed?: number
}

const SEPARATORS = [';', '\t', ','] as const
/** The one that parts the first line most often, outside quotes. A decimal comma stands in no header. */
const separatorOf = (text: string): string => {
  const head = text.slice(0, text.search(/[\r\n]|$/)).replace(/"[^"]*"/g, '')
  const counts = SEPARATORS.map(separator => head.split(separator).length)
  return SEPARATORS[counts.indexOf(Math.max(...counts))] ?? ','
}

/** Never throws. A byte order mark counts as a space, as `trim` has it, empty lines are left out, any of the three line ends will do. */
export const tableOf = (text: string): Table => {
  const separator = separatorOf(text.trimStart())
  const rows: Row[] = []
  let cells: string[] = []
  let cell = ''
  let line = 1
  let start = 1
  let opened: number | undefined
  const endRow = (): void => {
    cells.push(cell)
    cell = ''
    if (cells.some(one => one.trim() !== '')) rows.push({ line: start, cells })
    cells = []
  }
  for (let i = 0; i < text.length; i++) {
    const sign = text.charAt(i)
    const isEnd = sign === '\n' || sign === '\r'
    if (isEnd && sign === '\r' && text[i + 1] === '\n') {
      if (opened !== undefined) cell += sign
      continue
    }
    if (isEnd) line++
    if (opened !== undefined) {
      if (sign !== '"') cell += sign
      else if (text[i + 1] === '"') {
        cell += '"'
        i++
      } else opened = undefined
    } else if (sign === '"' && cell.trim() === '') {
      cell = ''
      opened = line
    } else if (sign === separator) {
      cells.push(cell)
      cell = ''
    } else if (isEnd) {
      endRow()
      start = line
    } else cell += sign
  }
  endRow()
  return { rows, ...(opened === undefined ? {} : { unclosed: opened }) }
}
