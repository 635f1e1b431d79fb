// Opens the tables in a spreadsheet program and compares what it understood: npm run --silent sheets
// It takes LibreOffice Calc (soffice) and unzip, and half a minute. Exit code 0: every number is the same number, no text became a formula. 1: something is
// not. 2: no such program here.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { COMMA, POINT, type Style, table } from '../../web/log/csv.ts'

const SEED = 30
const ROWS = 10_000
const number = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e15, max: 1e15 }),
  fc.integer({ min: -100_000, max: 100_000 }).map(n => n / 100),
)
/** A spreadsheet takes what is nearer to nought than a normal double for nought. */
const LEAST = 1e-300
const numbers = fc.sample(number, { seed: SEED, numRuns: ROWS }).map(x => (Math.abs(x) < LEAST ? 0 : x))
const TEXTS = ['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', ' =1', ';=1', 'a;=1+1;b', ',=1', 'a\n=1', '"=1";=2', '＝1', '−1', 'Ω, µ']

/** Its code for a separator, and for a language that writes numbers so: English of the United States, German. */
const OPENED = [
  { style: POINT, filter: 'CSV:44,34,76,1,,1033', how: 'decimal point' },
  { style: COMMA, filter: 'CSV:59,34,76,1,,1031', how: 'decimal comma' },
]

const opened = (folder: string, style: Style, filter: string): string => {
  const rows = numbers.map((x, i) => [i, x, TEXTS[i % TEXTS.length] ?? ''])
  writeFileSync(join(folder, 'sheet.csv'), table(rows, style))
  const args = [
    '--headless',
    `-env:UserInstallation=file://${folder}/profile`,
    `--infilter=${filter}`,
    '--convert-to',
    'xlsx',
    '--outdir',
    folder,
  ]
  const { status, stderr } = spawnSync('soffice', [...args, join(folder, 'sheet.csv')], { encoding: 'utf8', timeout: 240_000 })
  if (status !== 0) throw new Error(`soffice: ${stderr}`)
  // Of the forms that it writes, this one keeps 15 digits however small a number is.
  return spawnSync('unzip', ['-p', join(folder, 'sheet.xlsx'), 'xl/worksheets/sheet1.xml'], { encoding: 'utf8', maxBuffer: 1e8 }).stdout
}

/** What the program did not understand as it was written; nothing if it did. */
const faultIn = (sheet: string): string | undefined => {
  const values = [...sheet.matchAll(/<c [^>]*t="n"[^>]*><v>([^<]+)<\/v>/g)].map(match => Number(match[1]))
  const read = values.filter((_, i) => i % 2 === 1)
  // Two numbers a row, and no text among them; equal to the 15 digits that a spreadsheet keeps.
  if (values.length !== 2 * ROWS) return `${values.length} cells are numbers, but ${2 * ROWS} were written`
  const odd = read.findIndex((x, i) => !(Math.abs(x - (numbers[i] ?? Number.NaN)) <= Math.abs(x) * 1e-14))
  if (odd >= 0) return `row ${odd + 1} was ${numbers[odd]}, but is read as ${read[odd]}`
  const formulas = sheet.match(/<f[ >]/g)?.length ?? 0
  return formulas > 0 ? `${formulas} texts became formulas` : undefined
}

if (spawnSync('soffice', ['--version'], { encoding: 'utf8' }).status === 0) {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-sheets-'))
  for (const { style, filter, how } of OPENED) {
    const fault = faultIn(opened(folder, style, filter))
    if (fault !== undefined) process.exitCode = 1
    process.stdout.write(
      `${how}: ${fault ?? `${ROWS} numbers equal, ${ROWS} texts of ${TEXTS.length} kinds, none a formula`} [seed ${SEED}]\n`,
    )
  }
  rmSync(folder, { recursive: true, force: true })
} else {
  process.stderr.write('No LibreOffice here (soffice): nothing was compared.\n')
  process.exitCode = 2
}
