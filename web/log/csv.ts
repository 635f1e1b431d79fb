// One cell of a table for people: RFC 4180 quoting, and no text that a spreadsheet would run.

/** Spreadsheets of places that write 0,5 part cells by semicolons, for the comma is taken (common practice, no source). */
export interface Style {
  readonly decimal: '.' | ','
  readonly separator: ',' | ';'
}
export const POINT: Style = { decimal: '.', separator: ',' }
export const COMMA: Style = { decimal: ',', separator: ';' }

/** What starts a formula: = + - @ and their look-alikes, after spaces, quotes and unseen characters too (OWASP ASVS 5, 1.2.10). */
const FORMULA = /[\s\p{C}"]*[=+\-@−＝＋－＠]/u.source
const partedBy = (signs: string): RegExp => new RegExp(`[${signs}\\t\\r\\n](?=${FORMULA})`, 'gu')
const INSIDE = { ',': partedBy(';'), ';': partedBy(';,') } as const
const AT_HEAD = new RegExp(`^(?:${FORMULA}|[\\s\\p{C}]*[\\t\\r\\0])`, 'u')

/**
 * An apostrophe keeps a text a text: at its head, and after a ; TAB or line break inside it, where a spreadsheet that separates
 * cells by those would start a new one. The exact text stands in the JSON export.
 */
export const textCell = (text: string, { separator }: Style = POINT): string => {
  const inside = text.replace(INSIDE[separator], "$&'")
  const inert = AT_HEAD.test(text) ? `'${inside}` : inside
  return inert.includes(separator) || /["\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert
}

/** A number is written plain, sign and all: a guard would turn −1.0 into text. */
const numberCell = (x: number, style: Style): string =>
  Number.isFinite(x) ? String(x).replace('.', style.decimal) : textCell(String(x), style)

export type Cell = string | number | undefined
const cell = (x: Cell, style: Style): string => (typeof x === 'number' ? numberCell(x, style) : textCell(x ?? '', style))

/** The byte order mark is for spreadsheets, which else misread Ω. */
export const table = (rows: readonly (readonly Cell[])[], style: Style = POINT): string =>
  `\uFEFF${rows.map(row => `${row.map(x => cell(x, style)).join(style.separator)}\r\n`).join('')}`
