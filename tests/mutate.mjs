// The mutation score: `npm run mutate` for every file of engine/ and web/flow/, `npm run mutate -- FILE...` for some.
// Each file is tried by the quick tests that import it, so that a mutant takes a fraction of a second. What was measured is kept
// beside the other caches; the table at the end sums up all that stands there, and `--survivors` lists what no test found.
// `--table` runs nothing and prints the table alone.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const top = fileURLToPath(new URL('..', import.meta.url))
const cache = join(top, 'node_modules/.cache/ohmward')
const kept = join(cache, 'mutation')
const REPORT = join(cache, 'mutation.json')

/** Left out: what mocks modules, starts programs of its own, or walks for minutes. */
const NOT_HERE = ['hostile', 'mutants', 'walk', 'replay', 'drive', 'ngspice']
/** Files of which each test takes seconds: only for a source file that no other tests. */
const SLOW = ['any-json', 'hidden', 'inrush', 'locate', 'method', 'opens', 'optimum', 'powerup', 'prospect', 'held', 'drop', 'switchingOn']
/** Tests that a source file is tried by beside those that import it. @type {Readonly<Record<string, string>>} */
const ALSO = {
  'engine/fields.ts': 'engine/check flow/told',
  'engine/taps.ts': 'engine/method',
  'engine/method.ts': 'engine/method',
  'engine/foretell.ts': 'engine/method',
  'engine/weigh.ts': 'engine/looks engine/fedElsewhere engine/liveVolts engine/inBranch',
  'engine/walked.ts': 'engine/belief',
  'web/flow/answer.ts': 'flow/answer',
}
/** Source files that half of the engine's tests import: these are near enough. @type {Readonly<Record<string, string>>} */
const ONLY = {
  'engine/suspects.ts': 'engine/suspects engine/suspectPlaces',
  'engine/belief.ts': 'engine/belief engine/prior engine/walked flow/told',
  'engine/atBus.ts': 'engine/behindDevice',
  'engine/choose.ts': 'engine/choose engine/walks engine/hidden',
  'engine/drop.ts': 'engine/dropAcross',
  'engine/fedElsewhere.ts': 'engine/fedElsewhere',
  'engine/locate.ts': 'engine/spots',
  'engine/narrow.ts': 'engine/narrow',
  'engine/observe.ts':
    'engine/looks engine/liveVolts engine/dropAcross engine/inBranch engine/fedElsewhere engine/belief engine/suspects engine/walked',
  'engine/plan.ts': 'engine/pinpoint engine/tracing',
  'engine/pinpoint.ts': 'engine/pinpoint',
  'engine/tracing.ts': 'engine/tracing',
  'engine/place.ts': 'engine/place engine/walked',
  'engine/plant.ts': 'engine/plant engine/place engine/cost engine/circuit',
  'engine/positions.ts': 'engine/live engine/way',
  'engine/quantities.ts': 'engine/conductor engine/wiring',
  'engine/reading.ts': 'engine/reading engine/spread engine/chain',
  'engine/fault.ts': 'engine/fault engine/belief',
  'engine/sound.ts': 'engine/plant engine/reading',
  'engine/suspicion.ts': 'engine/suspicion engine/walked engine/suspects',
  'web/flow/asked.ts': 'flow/asked flow/notOpened flow/session',
  'web/flow/answered.ts': 'flow/changes flow/safety',
  'web/flow/decide.ts': 'flow/requests flow/safety',
  'web/flow/hunt.ts': 'flow/hunt flow/session flow/away flow/ends flow/told',
  'web/flow/notOpened.ts': 'flow/notOpened',
  'web/flow/procedure.ts': 'flow/procedure flow/session',
  'web/flow/repair.ts': 'flow/wayBack flow/repair flow/unseen',
  'web/flow/unseen.ts': 'flow/cleared',
  'web/flow/session.ts': 'flow/session',
}
/** Files that hold no code but types. */
const TYPES = ['engine/machine.ts', 'engine/step.ts', 'web/flow/request.ts']

/** @param {string} folder @param {string} end @returns {string[]} */
const within = (folder, end) =>
  readdirSync(join(top, folder))
    .filter(name => name.endsWith(end))
    .sort()
    .map(name => `${folder}/${name}`)
const tests = ['tests/engine', 'tests/flow', 'tests/reference']
  .flatMap(folder => within(folder, '.test.ts'))
  .filter(path => !NOT_HERE.some(name => path.endsWith(`/${name}.test.ts`)))
const isSlow = (/** @type {string} */ path) => SLOW.some(name => path.endsWith(`/${name}.test.ts`))
/** @param {string} file @returns {readonly string[]} the tests that are to find its mutants */
const testsOf = file => {
  const named = (/** @type {string | undefined} */ names) => (names ?? '').split(' ').map(name => `tests/${name}.test.ts`)
  const [also, only] = [named(ALSO[file]), named(ONLY[file])]
  if (ONLY[file] !== undefined) return tests.filter(path => only.includes(path))
  const own = tests.filter(path => also.includes(path) || readFileSync(join(top, path), 'utf8').includes(`/${file}'`))
  const quick = own.filter(path => !isSlow(path) || also.includes(path))
  return quick.length > 0 ? quick : own
}

const nameOf = (/** @type {string} */ file) => `${file.replaceAll('/', '-')}.json`
/** @typedef {{ status: string, mutatorName: string, replacement?: string, location: { start: { line: number, column: number } } }} Mutant */
const COLUMNS = /** @type {const} */ (['Killed', 'Timeout', 'Survived', 'NoCoverage', 'Ignored', 'RuntimeError'])

/** @param {string} file @param {readonly Mutant[]} mutants */
const rowOf = (file, mutants) => {
  const counts = COLUMNS.map(status => mutants.filter(m => m.status === status).length)
  const [killed = 0, timeout = 0, survived = 0, uncovered = 0] = counts
  const judged = killed + timeout + survived + uncovered
  return `| ${[file, mutants.length, ...counts, judged === 0 ? '-' : ((100 * (killed + timeout)) / judged).toFixed(1)].join(' | ')} |`
}

/** @param {string} file */
const run = file => {
  const own = testsOf(file)
  if (own.length === 0) {
    process.stderr.write(`${file}: no test imports it\n`)
    return
  }
  process.stderr.write(`${file} by ${own.join(' ')}\n`)
  const { status } = spawnSync('npx', ['stryker', 'run', '.config/stryker.json', '--mutate', file], {
    cwd: top,
    env: { ...process.env, MUTATE_TESTS: own.join(' ') },
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  if (status !== 0) {
    process.stderr.write(`${file}: the run ended with ${status}\n`)
    process.exitCode = 1
    return
  }
  mkdirSync(kept, { recursive: true })
  renameSync(REPORT, join(kept, nameOf(file)))
  process.stderr.write(`${rowOf(file, mutantsOf(nameOf(file)))}\n`)
}

/** @param {string} name @returns {readonly Mutant[]} */
const mutantsOf = name => {
  const { files } = JSON.parse(readFileSync(join(kept, name), 'utf8'))
  return Object.values(files).flatMap(({ mutants }) => mutants)
}

const args = process.argv.slice(2)
const named = args.filter(arg => !arg.startsWith('--'))
const all = ['engine', 'web/flow'].flatMap(folder => within(folder, '.ts')).filter(file => !TYPES.includes(file))
if (!args.includes('--table')) for (const file of named.length > 0 ? named : all) run(file)

const measured = all.filter(file => existsSync(join(kept, nameOf(file))))
process.stdout.write(
  `| file | mutants | ${COLUMNS.map(c => c.toLowerCase()).join(' | ')} | score % |\n|---|${'---|'.repeat(COLUMNS.length + 2)}\n`,
)
for (const file of measured) process.stdout.write(`${rowOf(file, mutantsOf(nameOf(file)))}\n`)
process.stdout.write(
  `${rowOf(
    'all of them',
    measured.flatMap(file => mutantsOf(nameOf(file))),
  )}\n`,
)
if (args.includes('--survivors'))
  for (const file of named.length > 0 ? named : measured) {
    const lines = readFileSync(join(top, file), 'utf8').split('\n')
    for (const { status, mutatorName, replacement, location } of mutantsOf(nameOf(file)))
      if (status === 'Survived' || status === 'NoCoverage') {
        const { line, column } = location.start
        process.stdout.write(`${file}:${line}:${column} ${status} ${mutatorName} → ${replacement}\n    ${lines[line - 1]?.trim()}\n`)
      }
  }
