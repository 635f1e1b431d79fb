import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { later as german } from '../../content/de/later.ts'
import { demo } from '../../content/demo.ts'
import { later as english } from '../../content/en/later.ts'
import { later as polish } from '../../content/pl/later.ts'
import { PROBLEMS } from '../../content/shared/problems.ts'
import { readMachine } from '../../engine/check.ts'
import { readAnswer } from '../../web/flow/answer.ts'
import type { Request } from '../../web/flow/request.ts'

const FOLDERS = ['engine', 'web/flow', 'web/log', 'web/machines'].map(folder => fileURLToPath(new URL(`../../${folder}/`, import.meta.url)))
/** What is thrown where the program itself is at fault is no sentence for a technician. */
const INTERNAL = /^(no JSON|answer |a session starts|no canvas|too large|the runs|run |no run|no junction|not a value|\$|X+ bytes)/
/** Sentences and phrases as the layers below write them: what is wanted of a field, and what the store and the seal say. Each fact is an X. */
const written = (): string[] => {
  const texts = FOLDERS.flatMap(folder =>
    readdirSync(folder)
      .filter(name => name.endsWith('.ts'))
      .map(name => readFileSync(join(folder, name), 'utf8')),
  )
  const calls =
    /(?:\brefuse\((?:[^,()]|\([^()]*\))+,(?:[^,()]|\([^()]*\))+, |\bwrong\((?:[^,()]+, [^,()]+(?:\[[^\]]*\])?, )?|LogError\('\w+', |message: )('[^'\n]+'|"[^"\n]+"|`[^`\n]+`)/g
  return texts
    .flatMap(text => [...text.matchAll(calls)].map(([, literal = '']) => literal.slice(1, -1).replace(/\$\{(?:[^{}]|\{[^}]*\})*\}/g, 'X')))
    .filter(text => / /.test(text) && !INTERNAL.test(text))
}

test('every sentence and phrase of the layers below has words in each language', () => {
  const all = written()
  expect(all.length).toBeGreaterThan(40)
  expect([...new Set(all.filter(text => german.told(text) === text))]).toEqual([])
})
test('no template hides one that says more', () => {
  const filled = Object.entries(PROBLEMS).map(([key, text]) => ({ key, text: text.replace(/\{\d\}/g, 'X') }))
  const own = german.problems as Readonly<Record<string, string>>
  const told = filled.map(({ key, text }) => ({ key, told: german.told(text), own: (own[key] ?? '').replace(/\{\d\}/g, 'X') }))
  expect(told.filter(one => one.told !== one.own)).toEqual([])
})
test('English is told as it came', () => {
  for (const text of Object.values(PROBLEMS)) expect(english.told(text.replace(/\{\d\}/g, 'X'))).toBe(text.replace(/\{\d\}/g, 'X'))
})

const request: Request = {
  say: 'step',
  n: 1,
  seconds: 1,
  step: { kind: 'read', meter: 'volt', red: 'B1.plus', black: 'B1.zero' },
  why: { key: 'repeat', facts: {} },
}
const refusedBecause = (raw: unknown): string => {
  const read = readAnswer(request, raw)
  if (read.ok) throw new Error('nothing was refused')
  return read.message
}
test.each([
  { raw: { value: 2300.5 }, de: /^2300,5 ist eingegeben, aber eine Spannung liegt hier von/, pl: /^Wpisano 2300,5, a napięcie/ },
  { raw: { value: 'x' }, de: /^Wert: dort steht "x"; verlangt ist eine Zahl\.$/, pl: /potrzebna jest liczba/ },
  { raw: { value: 5, ac: 3 }, de: /true oder false/, pl: /true albo false/ },
])('an answer $raw that is refused is refused in the language', ({ raw, de, pl }) => {
  expect(german.told(refusedBecause(raw))).toMatch(de)
  expect(polish.told(refusedBecause(raw))).toMatch(pl)
})
test('a machine file that is refused names its field and what stands there in every language', () => {
  const read = readMachine({ ...demo, branches: [{ id: 'B1', protection: { kind: 'breaker', rating: -2 } }] })
  if (read.ok) throw new Error('nothing was refused')
  const text = german.told(read.message)
  expect(text).toMatch(/branches\[0\]\.protection\.rating: dort steht -2, verlangt ist: eine Zahl/)
})
test('what no template fits is shown as it came', () => expect(german.told('Something quite else.')).toBe('Something quite else.'))
