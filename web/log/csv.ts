// One cell of a table for people: RFC 4180 quoting, and no text that a spreadsheet would run.

/** What starts a formula: = + - @ and their look-alikes, after spaces, quotes and unseen characters too (OWASP ASVS 5, 1.2.10). */
const FORMULA = /[\s\p{C}"]*[=+\-@−＝＋－＠]/u.source
const INSIDE = new RegExp(`[;\\t\\r\\n](?=${FORMULA})`, 'gu')
const AT_HEAD = new RegExp(`^(?:${FORMULA}|[\\s\\p{C}]*[\\t\\r\\0])`, 'u')

/**
 * An apostrophe keeps a text a text: at its head, and after a ; TAB or line break inside it, where a spreadsheet that separates
 * cells by those would start a new one. The exact text stands in the JSON export.
 */
export const textCell = (text: string): string => {
  const inside = text.replace(INSIDE, "$&'")
  const inert = AT_HEAD.test(text) ? `'${inside}` : inside
  return /[",\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert
}

/** A number is written plain, sign and all: a guard would turn −1.0 into text. */
const numberCell = (x: number): string => (Number.isFinite(x) ? String(x) : textCell(String(x)))

const cell = (x: string | number | undefined): string => (typeof x === 'number' ? numberCell(x) : textCell(x ?? ''))

/** The byte order mark is for spreadsheets, which else misread Ω. */
export const table = (rows: readonly (readonly (string | number | undefined)[])[]): string =>
  `\uFEFF${rows.map(row => `${row.map(cell).join(',')}\r\n`).join('')}`
