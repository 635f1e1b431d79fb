// How Stryker runs the tests for `npm run mutate`: all in one process, the files bundled once. For each mutant the bundle is evaluated
// anew, so that nothing that an engine keeps from one mutant reaches the next, yet a mutant takes milliseconds where a test worker of
// its own takes half a second. `expect` and `vi` are vitest's own; tests that mock modules do not run here (tests/mutate.mjs).
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { builtinModules } from 'node:module'
import { isAbsolute, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import vm from 'node:vm'
import fc from 'fast-check'
import { rolldown } from 'rolldown'
import { expect, vi } from 'vitest'

/** A test that took longer, in ms of processor time, is left out: it would run for thousands of mutants. That can only lower a score. */
const LONGEST = Number(process.env['MUTATE_LONGEST'] ?? 600)

/** As Stryker numbers them. */
const [SUCCESS, FAILED, SKIPPED] = [0, 1, 2]
/** Beside the copy of the project that Stryker works on. */
const TOOK = 'took.json'

/** @typedef {{ static: object, perTest: Record<string, object> }} Coverage */
/** @typedef {{ activeMutant?: string | undefined, mutantCoverage?: Coverage, currentTestId?: string | undefined, hitCount?: number, hitLimit?: number | undefined }} Namespace */
/** @typedef {{ id: string, name: string, body: () => unknown }} Case */
/** @typedef {{ cases: Case[], before: (() => unknown)[], after: (() => unknown)[], name: string }} Suite */

/** `test` and `describe` of one evaluation, which gather what is to be run. @param {Suite} into */
const gathering = into => {
  /** @type {string[]} */
  const path = []
  const add = (/** @type {string} */ name, /** @type {() => unknown} */ body) => {
    const whole = [...path, name].join(' ')
    into.cases.push({ id: `${into.name}#${into.cases.length} ${whole}`, name: whole, body })
  }
  const bodyOf = (/** @type {unknown[]} */ rest) => /** @type {(...a: unknown[]) => unknown} */ (rest.find(x => typeof x === 'function'))
  const test = (/** @type {string} */ name, /** @type {unknown[]} */ ...rest) => add(name, bodyOf(rest))
  test.each =
    (/** @type {readonly unknown[]} */ rows) =>
    (/** @type {string} */ name, /** @type {unknown[]} */ ...rest) => {
      for (const row of rows) add(name, () => bodyOf(rest)(...(Array.isArray(row) ? row : [row])))
    }
  const describe = (/** @type {string} */ name, /** @type {unknown[]} */ ...rest) => {
    path.push(name)
    bodyOf(rest)()
    path.pop()
  }
  const beforeEach = (/** @type {() => unknown} */ body) => void into.before.push(body)
  const afterEach = (/** @type {() => unknown} */ body) => void into.after.push(body)
  return { test, describe, beforeEach, afterEach, expect, vi }
}

/** The test files and all of the project's own that they import, as one script. @param {readonly string[]} files */
const bundled = async files => {
  const isPackage = (/** @type {string} */ id) => !id.startsWith('.') && !isAbsolute(id) && id !== 'all-tests'
  const bundle = await rolldown({
    input: 'all-tests',
    platform: 'node',
    external: isPackage,
    treeshake: false,
    logLevel: 'silent',
    plugins: [
      {
        name: 'all-tests',
        resolveId: id => (id === 'all-tests' ? id : undefined),
        load: id =>
          id === 'all-tests'
            ? `export default {${files.map(f => `${JSON.stringify(f)}: () => import(${JSON.stringify(join(process.cwd(), f))})`)}}`
            : undefined,
        transform: (code, id) =>
          code.includes('import.meta.url') ? code.replaceAll('import.meta.url', `'${pathToFileURL(id)}'`) : undefined,
      },
    ],
  })
  const { output } = await bundle.generate({ format: 'cjs', codeSplitting: false })
  await bundle.close()
  const { code, imports } = output[0]
  /** @type {Map<string, unknown>} */
  const packages = new Map()
  for (const name of imports) if (name !== 'vitest') packages.set(name, await import(builtinModules.includes(name) ? `node:${name}` : name))
  return { script: new vm.Script(`(function (require, module, exports) {${code}\n})`, { filename: 'all-tests.cjs' }), packages }
}

const milliseconds = () => {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

class Runner {
  /** What Stryker's own code in the files under test looks at. @type {Namespace} */
  ns
  /** @type {string[]} */
  files = (process.env['MUTATE_TESTS'] ?? '').split(' ')
  /** Milliseconds of each test that is not left out, from the first run. @type {Map<string, number>} */
  took = new Map()

  constructor() {
    const all = /** @type {{ __stryker__?: Namespace }} */ (globalThis)
    all.__stryker__ ??= {}
    this.ns = all.__stryker__
  }

  capabilities() {
    return { reloadEnvironment: true }
  }

  async init() {
    // Whether a property fails is asked, not the smallest case in which it does.
    fc.configureGlobal({ endOnFailure: true })
    this.bundle = await bundled(this.files)
    // After a mutant that never ended, a new process goes on where the old one was.
    if (existsSync(TOOK)) this.took = new Map(JSON.parse(readFileSync(TOOK, 'utf8')))
  }

  /** Evaluates the bundle, then what each named file registers. @param {readonly string[]} files @returns {Promise<Suite[]>} */
  async loaded(files) {
    if (this.bundle === undefined) throw new Error('not bundled yet')
    const { script, packages } = this.bundle
    let api = gathering({ cases: [], before: [], after: [], name: '' })
    // Read at each call, so that every file's tests land in its own suite.
    const vitest = new Proxy({}, { get: (_, key) => (key === '__esModule' ? true : Reflect.get(api, key)) })
    const module = { exports: /** @type {any} */ ({}) }
    script.runInThisContext()((/** @type {string} */ name) => (name === 'vitest' ? vitest : packages.get(name)), module, module.exports)
    const suites = []
    for (const name of files) {
      const suite = { cases: [], before: [], after: [], name }
      api = gathering(suite)
      await (module.exports.default ?? module.exports)[name]()
      suites.push(suite)
    }
    return suites
  }

  /** @param {Suite} suite @param {Case} one @returns {Promise<string | undefined>} what failed */
  async failureOf({ before, after }, { body }) {
    try {
      for (const hook of before) await hook()
      await body()
      return undefined
    } catch (error) {
      return error instanceof Error ? error.message : String(error)
    } finally {
      for (const hook of after) await hook()
    }
  }

  async dryRun() {
    const { ns } = this
    ns.activeMutant = undefined
    ns.mutantCoverage = { static: {}, perTest: {} }
    const tests = []
    for (const suite of await this.loaded(this.files))
      for (const one of suite.cases) {
        ns.currentTestId = one.id
        const from = milliseconds()
        const failureMessage = await this.failureOf(suite, one)
        ns.currentTestId = undefined
        const timeSpentMs = milliseconds() - from
        const base = { id: one.id, name: one.name, fileName: suite.name, timeSpentMs }
        if (timeSpentMs > LONGEST) {
          delete ns.mutantCoverage.perTest[one.id]
          tests.push({ ...base, status: SKIPPED })
          continue
        }
        this.took.set(one.id, timeSpentMs)
        if (failureMessage !== undefined) process.stderr.write(`${one.id}: ${failureMessage}\n`)
        tests.push(failureMessage === undefined ? { ...base, status: SUCCESS } : { ...base, status: FAILED, failureMessage })
      }
    writeFileSync(TOOK, JSON.stringify([...this.took]))
    return { status: 'complete', tests, mutantCoverage: ns.mutantCoverage }
  }

  /** @param {{ testFilter?: string[], hitLimit?: number, activeMutant: { id: string }, mutantActivation: string }} options */
  async mutantRun({ testFilter, hitLimit, activeMutant, mutantActivation }) {
    const { ns, took } = this
    const wanted = new Set(testFilter ?? took.keys())
    ns.hitCount = 0
    ns.hitLimit = hitLimit
    ns.activeMutant = mutantActivation === 'static' ? activeMutant.id : undefined
    const killed = (/** @type {string} */ id, /** @type {string} */ failureMessage) =>
      hitLimit !== undefined && Number(ns.hitCount) > hitLimit
        ? { status: 'timeout' }
        : { status: 'killed', killedBy: [id], failureMessage, nrOfTests: 1 }
    /** @type {Suite[]} */
    let suites
    try {
      suites = await this.loaded(this.files.filter(file => [...wanted].some(id => id.startsWith(`${file}#`))))
    } catch (error) {
      return killed([...wanted][0] ?? '', `not even loaded: ${error}`)
    }
    ns.activeMutant = activeMutant.id
    // The quickest first.
    const cases = suites.flatMap(suite => suite.cases.filter(({ id }) => wanted.has(id)).map(one => ({ suite, one })))
    cases.sort((a, b) => (took.get(a.one.id) ?? 0) - (took.get(b.one.id) ?? 0))
    for (const { suite, one } of cases) {
      const failure = await this.failureOf(suite, one)
      if (failure !== undefined) return killed(one.id, failure)
    }
    return { status: 'survived', nrOfTests: cases.length }
  }
}

const factory = () => new Runner()
export const strykerPlugins = [{ kind: 'TestRunner', name: 'at-once', factory }]
