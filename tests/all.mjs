// `npm test`: types, lint, build, then every test. Each runner's own report is printed as it comes; the last line is the sum.
import { spawnSync } from 'node:child_process'
import { mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { count } from './count.mjs'

const top = fileURLToPath(new URL('..', import.meta.url))
const reports = join(top, 'node_modules/.cache/ohmward/reports')
const total = { passed: 0, failed: 0 }
/** @type {string[]} */
const notes = []

/** @param {string} tool @param {string[]} args @returns {number | null} the exit code; null when it was killed */
function run(tool, ...args) {
  console.log(`\n> ${tool} ${args.join(' ')}`)
  // Every tool is a package's own program, started by this same Node or natively: no shell in between.
  return spawnSync(join(top, 'node_modules/.bin', tool), args, { cwd: top, stdio: 'inherit', shell: process.platform === 'win32' }).status
}

/** A step without tests of its own: it counts only when it fails. @param {string} tool @param {string[]} args */
function check(tool, ...args) {
  if (run(tool, ...args) === 0) return
  total.failed += 1
  notes.push(`${tool} ${args.join(' ')}: failed`)
}

/** @param {string} file @returns {import('./count.mjs').Report | undefined} */
function reportIn(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    return undefined
  }
}

/** @param {string} project as vitest selects it @param {string[]} files that this run must cover */
function test(project, files) {
  const report = join(reports, `${project.replace('!', 'not-')}.json`)
  rmSync(report, { force: true })
  const code = run('vitest', 'run', '--project', project, '--reporter=default', '--reporter=json', `--outputFile.json=${report}`)
  const counted = count(reportIn(report), files, code)
  total.passed += counted.passed
  total.failed += counted.failed
  notes.push(...counted.notes)
}

// The list comes from the disk and not from the runner, so that no file is left out by a pattern that does not match it.
const files = readdirSync(join(top, 'tests'), { recursive: true, encoding: 'utf8' })
  .filter(name => /\.test\.tsx?$/.test(name))
  .map(name => join(top, 'tests', name).split(sep).join('/'))
const inBrowser = files.filter(name => name.includes('/tests/browser/'))

mkdirSync(reports, { recursive: true })
check('tsc', '-b')
check('biome', 'check')
check('vite', 'build')
test(
  '!browser',
  files.filter(name => !inBrowser.includes(name)),
)
test('browser', inBrowser)

console.log()
for (const note of notes) console.log(note)
console.log(`${total.passed} passed, ${total.failed} failed`)
process.exitCode = total.failed === 0 ? 0 : 1
