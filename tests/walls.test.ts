// The compiler and the linter hold the walls between the folders. Here each is shown a wall that is broken.
import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, onTestFinished, test } from 'vitest'

const top = fileURLToPath(new URL('..', import.meta.url))
const CONFIGURATION = [
  '.config',
  'biome.json',
  'engine/tsconfig.json',
  'content/tsconfig.json',
  'web/flow/tsconfig.json',
  'web/tsconfig.json',
]
const SOUND = {
  'engine/ohm.ts': 'export const ohm = 1\n',
  'content/words.ts': "export const words = 'ohm'\n",
  'web/flow/ask.ts': "import { ohm } from '../../engine/ohm.ts'\n\nexport const ask = ohm\n",
  'web/page.ts': "import { words } from '../content/words.ts'\nimport { ask } from './flow/ask.ts'\n\ndocument.title = words + ask\n",
}

/** A house of one small file a folder, under the very configuration of this one, with `files` added. */
const house = (files: Readonly<Record<string, string>>): string => {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-walls-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  for (const [name, text] of Object.entries({ ...SOUND, ...files })) {
    mkdirSync(dirname(join(folder, name)), { recursive: true })
    writeFileSync(join(folder, name), text)
  }
  for (const name of CONFIGURATION) cpSync(join(top, name), join(folder, name), { recursive: true })
  symlinkSync(join(top, 'node_modules'), join(folder, 'node_modules'))
  return folder
}
const run = (folder: string, tool: string, ...args: string[]): { code: number | null; said: string } => {
  const { status, stdout, stderr } = spawnSync(join(top, 'node_modules/.bin', tool), args, { cwd: folder, encoding: 'utf8' })
  return { code: status, said: stdout + stderr }
}
const compile = (folder: string) => run(folder, 'tsc', '-b', 'engine', 'content', 'web/flow', 'web', '--pretty', 'false')
const lint = (folder: string) => run(folder, 'biome', 'lint', '--max-diagnostics=none', 'engine', 'content', 'web')

test('a sound house passes', () => {
  const folder = house({})
  expect(compile(folder)).toEqual({ code: 0, said: '' })
  expect(lint(folder).code).toBe(0)
})

test.each([
  { file: 'engine/bad.ts', text: 'export const bad = document.title', code: 'TS2584', why: 'the engine has no screen' },
  { file: 'engine/bad.ts', text: 'export const bad = localStorage', code: 'TS2304', why: 'the engine has no storage' },
  { file: 'engine/bad.ts', text: 'console.log(1)', code: 'TS2584', why: 'the engine has no console' },
  { file: 'engine/bad.ts', text: 'setTimeout(() => 1, 1)', code: 'TS2304', why: 'the engine has no clock' },
  { file: 'engine/bad.ts', text: 'export const bad = process.env', code: 'TS2591', why: 'the engine knows no Node' },
  { file: 'engine/bad.ts', text: "export * from '../web/page.ts'", code: 'TS6307', why: 'the engine does not know the web' },
  { file: 'engine/bad.ts', text: "export * from '../content/words.ts'", code: 'TS6307', why: 'the engine does not know the words' },
  { file: 'content/bad.ts', text: 'export const bad = document.title', code: 'TS2584', why: 'words have no screen' },
  { file: 'content/bad.ts', text: "export * from '../engine/ohm.ts'", code: 'TS6307', why: 'words do not know the engine' },
  { file: 'web/flow/bad.ts', text: 'export const bad = document.title', code: 'TS2584', why: 'the flow has no screen' },
  { file: 'web/flow/bad.ts', text: "export * from '../page.ts'", code: 'TS6307', why: 'the flow does not know the screens' },
  { file: 'web/flow/bad.ts', text: "export * from '../../content/words.ts'", code: 'TS6307', why: 'the flow does not know the words' },
])('$why: the compiler refuses $text', ({ file, text, code }) => {
  const { code: exit, said } = compile(house({ [file]: `${text}\n` }))
  expect(exit).not.toBe(0)
  expect(said).toContain(`${file}(1,`)
  expect(said).toContain(code)
})

test.each([
  { file: 'engine/bad.ts', text: "export * from '../web/page.ts'", says: 'It imports nothing from outside engine/' },
  { file: 'engine/bad.ts', text: "export { createActor } from 'xstate'", says: 'It imports nothing from outside engine/' },
  {
    file: 'engine/bad.ts',
    text: "export const bad = () => import('../content/words.ts')",
    says: 'It imports nothing from outside engine/',
  },
  { file: 'engine/bad.ts', text: 'export const bad = Date.now()', says: 'Clock and chance come into the engine as arguments' },
  { file: 'engine/bad.ts', text: 'export const bad = new Date()', says: 'Clock and chance come into the engine as arguments' },
  { file: 'engine/bad.ts', text: 'export const bad = Math.random()', says: 'Clock and chance come into the engine as arguments' },
  { file: 'content/bad.ts', text: "export * from '../engine/ohm.ts'", says: 'It imports nothing from outside content/' },
  { file: 'content/en/bad.ts', text: "export * from '../../engine/ohm.ts'", says: 'It imports nothing from outside content/' },
  { file: 'web/flow/bad.ts', text: "export { Dexie } from 'dexie'", says: 'from web/flow/, engine/ and xstate only' },
  { file: 'web/flow/bad.ts', text: "export * from '../page.ts'", says: 'from web/flow/, engine/ and xstate only' },
])('the linter says why $file may not hold: $text', ({ file, text, says }) => {
  const { code, said } = lint(house({ [file]: `${text}\n` }))
  expect(code).not.toBe(0)
  expect(said).toContain(file)
  expect(said.replace(/\s+/g, ' ')).toContain(says)
})
