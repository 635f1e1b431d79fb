import { expect, test } from 'vitest'
import { LANGUAGES, type Language } from '../../content/languages.ts'
import type { First, Sentences, Words } from '../../content/words.ts'
import { ACTS, NAMES, POINTS, STEPS } from './samples.ts'

interface Whole {
  readonly first: First
  readonly sentences: Sentences
  readonly later: Words
}
const load = async (id: Language): Promise<Whole> => {
  const folder = `../../content/${id}`
  const [{ first }, { sentences }, { later }] = await Promise.all([
    import(`${folder}/first.ts`),
    import(`${folder}/sentences.ts`),
    import(`${folder}/later.ts`),
  ])
  return { first, sentences, later }
}
const english = await load('en')
const OTHERS = (Object.keys(LANGUAGES) as Language[]).filter(id => id !== 'en')
const others = await Promise.all(OTHERS.map(async id => ({ id, ...(await load(id)) })))
const all = [{ id: 'en' as Language, ...english }, ...others]

/** The verb that begins an instruction: imperative; in French, as its manuals have it, the infinitive. */
const VERBS: Readonly<Record<Language, RegExp>> = {
  en: /^(Switch|Prove|Hold|Open|Close|Fit|Pull|Unplug|Plug|Join|Connect|Disconnect|Look|Read|Go|Find|Mend|Change|Put)[ ,]/,
  de: /^(Schalte|Stelle|Halte|Zieh|Setze|Öffne|Schließe?|Steck|Verbinde|Trenne|Miss|Sieh|Geh|Finde|Bring|Ersetze|Behebe)[ ,]/,
  es: /^(Conecte|Corte|Verifique|Junte|Saque|Ponga|Abra|Cierre|Enchufe|Desenchufe|Desconecte|Mida|Mire|Vaya|Recorra|Averigüe|Repare|Cambie)[ ,]/,
  fr: /^(Mettre|Couper|Vérifier|Réunir|Retirer|Poser|Ouvrir|Fermer|Brancher|Débrancher|Raccorder|Mesurer|Regarder|Aller|Chercher|Réparer|Changer|Remettre)[ ,]/,
  pl: /^(Załącz|Wyłącz|Potwierdź|Zewrzyj|Wyjmij|Włóż|Otwórz|Zamknij|Podłącz|Odłącz|Połącz|Rozłącz|Zmierz|Obejrzyj|Sprawdź|Idź|Przejdź|Ustal|Napraw|Usuń|Wymień|Doprowadź)[ ,]/,
}
/** Words that a language shares with English, whatever their case, beside units, signs and the names of standards. */
const SHARED: Readonly<Record<Language, readonly string[]>> = {
  en: [],
  de: ['browser', 'minus', 'name', 'symptom', 'vibration'],
  es: ['conductor', 'motor', 'no'],
  fr: ['correction', 'date', 'machine', 'machines', 'ohms', 'photos', 'point', 'sessions', 'vibration', 'volts'],
  pl: ['limit', 'minus'],
}
// The last two are columns of a machine’s table, which have one name in every language.
const SIGNS = /^(OL|AWG|UL 248-14|item|branch)$/

/** Every text and every function of a table, under its path. */
const leaves = (table: unknown, path = ''): readonly (readonly [path: string, leaf: unknown])[] =>
  typeof table === 'object' && table !== null
    ? Object.entries(table).flatMap(([key, value]) => leaves(value, path === '' ? key : `${path}.${key}`))
    : [[path, table]]

/** Stands for any name or fact: `name` in a sentence, and with the key behind it where a sentence takes one out of it. */
const stand = (name: string): unknown =>
  new Proxy(Object(name), {
    get: (_, key) =>
      key === Symbol.toPrimitive || key === 'toString' ? () => name : typeof key === 'symbol' ? undefined : `${name}${key}`,
  })
/** A sentence is tried with names, with numbers, and with a meter's mode first: it must be sound with one of them at least. */
const TRIES: readonly (readonly unknown[])[] = [
  ['Q1', 'Q2', 'Q3', 'Q4', 'Q5', 'Q6', 'Q7'],
  ['Q1', 'Q2', 'Q3', 'Q4', 'Q5', 'Q6', 'Q7'].map(stand),
  [71, 72, 73, 74, 75, 76, 77],
  ['volt', 'Q2', 'Q3'],
  ['Q1', 'fuse'],
  ['Q1', 'breaker'],
  ['Q1', 'device'],
]
const tried = (sentence: unknown, facts: readonly unknown[]): string | undefined => {
  try {
    const text: unknown = (sentence as (...facts: readonly unknown[]) => unknown)(...facts)
    return typeof text !== 'string' || /undefined|NaN|\[object/.test(text) ? undefined : text
  } catch {
    return undefined
  }
}
/** What of the facts a sentence shows. */
const shown = (text: string): readonly string[] => [...new Set(text.match(/Q\d\w*|\b7[1-7]\b/g) ?? [])].sort()

const words = (text: string) => text.split(/\s+/).filter(w => /[\p{L}\d]/u.test(w)).length
const tooLong = (texts: readonly string[]) => texts.flatMap(text => text.split(/(?<=[.:;]) /)).filter(sentence => words(sentence) > 20)

const tables = ({ first, sentences }: Whole) => ({ ...sentences, first: { ...first, figures: undefined } })
const known = leaves(tables(english))

test.each(others)('$id has a text for each English one, and lists of the same length', whole => {
  const paths = (of: Whole) =>
    leaves(tables(of))
      .map(([path]) => path)
      .sort()
  expect(paths(whole)).toEqual(paths(english))
})
test.each(others)('$id leaves nothing in English but what the languages share', whole => {
  const own = new Map(leaves(tables(whole)))
  const same = known.filter(([path, text]) => typeof text === 'string' && own.get(path) === text && /\p{L}{2}/u.test(text))
  expect(
    same.filter(([, text]) => !SIGNS.test(String(text)) && !SHARED[whole.id].includes(String(text).toLowerCase())).map(([, text]) => text),
  ).toEqual([])
})
test('each English sentence with facts can be tried', () => {
  const functions = known.filter(([, leaf]) => typeof leaf === 'function')
  expect(functions.length).toBeGreaterThan(100)
  expect(functions.filter(([, f]) => TRIES.every(facts => tried(f, facts) === undefined)).map(([path]) => path)).toEqual([])
})
test.each(others)('$id shows every fact that English shows, in each sentence', whole => {
  const own = new Map(leaves(tables(whole)))
  const lacking = known.flatMap(([path, leaf]) =>
    typeof leaf !== 'function'
      ? []
      : TRIES.flatMap(facts => {
          const text = tried(leaf, facts)
          if (text === undefined) return []
          const told = tried(own.get(path), facts)
          return told !== undefined && shown(told).join() === shown(text).join() ? [] : [{ path, text, told }]
        }),
  )
  expect(lacking).toEqual([])
})

test.each(all)('$id: every step begins with its verb, in at most 20 words, and is told in sentences of at most 20', ({ id, later }) => {
  const titles = STEPS.flatMap(step => [later.steps.stepTitle(step, NAMES), later.steps.stepTitle(step, { device: 'fuse' })])
  expect(titles.filter(title => !VERBS[id].test(title) || words(title) > 20)).toEqual([])
  expect(tooLong(STEPS.map(step => later.steps.stepHow(step, NAMES)))).toEqual([])
})
test.each(all)(
  '$id: every finding and mend begins with its verb, and hands stay off what is not proved dead',
  ({ id, later, sentences }) => {
    const { faults, findingTitle, findingHow, mend } = later.findings
    const found = Object.keys(faults).flatMap(fault => [
      { fault },
      { fault, branch: 'B3' },
      { fault, branch: 'B3', load: 'Y32' },
      { fault, branch: 'B3', run: '3-W2', alongRun: { best: 1.7, low: 1.1, high: 2.4 } },
    ])
    const titles = found.flatMap(f => [findingTitle(f, NAMES), mend(f, NAMES).title])
    expect(titles.filter(title => !VERBS[id].test(title) || words(title) > 20)).toEqual([])
    expect(tooLong(found.flatMap(f => [findingHow(f, true), findingHow(f, false), ...mend(f, NAMES).points]))).toEqual([])
    expect(found.filter(f => mend(f, NAMES).done.length > 24)).toEqual([])
    const { handsOff, openRun, run, load, branch } = sentences.findings.how
    for (const part of [openRun, run, load, branch]) expect(part.look).not.toContain(part.hands)
    const live = findingHow({ fault: 'short-to-zero', branch: 'B3', run: '3-W2' }, false)
    expect(live).toContain(handsOff)
    expect(live).not.toContain(run.hands)
  },
)
test.each(all)('$id: what is true after an act, a caution or a reason fits on its button', ({ later }) => {
  const { actDone } = later.steps
  const acts = Object.values(ACTS).flat()
  const done = acts.flatMap(act => [actDone(act), actDone(act, { device: 'fuse' }), actDone(act, { device: 'breaker' })])
  expect(done.filter(text => text === '' || text.length > 26)).toEqual([])
  expect(Object.values(later.cautions).filter(({ done }) => done.length > 24)).toEqual([])
  expect([...Object.values(later.labels.cannots), ...Object.values(later.labels.wrongs)].filter(text => text.length > 26)).toEqual([])
})
test.each(all)('$id: a caution’s points are states to tick off, short ones; only a stop tells what to do', ({ id, later }) => {
  const { 'not-extra-low-voltage': stop, ...rest } = later.cautions
  const points = Object.values(rest).flatMap(caution => caution.points)
  expect(points.filter(point => VERBS[id].test(point))).toEqual([])
  expect(tooLong([...points, ...stop.points])).toEqual([])
})
test.each(all)('$id: no two points of a machine have the same words', ({ later }) => {
  expect(new Set(POINTS.map(point => later.steps.pointWords(point, NAMES.runs))).size).toBe(POINTS.length)
  expect(new Set(POINTS.map(point => later.steps.pointShort(point))).size).toBe(POINTS.length)
})
test.each(others)('$id says on its own that a machine made it and nobody of the trade has read it', ({ first }) => {
  expect(first.note.length).toBeGreaterThan(40)
  expect(others.filter(other => other.first.note === first.note).length).toBe(1)
})
/** One word a thing: what slips in instead of the trade's word that the language has chosen. */
const STRAY: Readonly<Partial<Record<Language, RegExp>>> = {
  de: /\bZweige?\b|\bSicherungsautomat|keine Quelle|\bSie (können|müssen)/,
  es: /sin fuente\b|\brama\b|\bdisyuntor/,
  fr: /sans source\b|\bbranche\b| [:;!»](?=\s|$)|« /,
  pl: /gałąź|gałęzi|zwykła praktyka/i,
}
test.each(others)('$id keeps to one word a thing', whole => {
  const stray = STRAY[whole.id]
  const texts = leaves(tables(whole)).flatMap(([, leaf]) =>
    typeof leaf === 'string' ? [leaf] : TRIES.flatMap(facts => (typeof leaf === 'function' ? (tried(leaf, facts) ?? []) : [])),
  )
  expect([...new Set(texts)].filter(text => stray?.test(text))).toEqual([])
})
test.each([
  { id: 'en', metres: '1.5 m', quantity: '31.2 mV', why: 'about 3.4 m' },
  { id: 'de', metres: '1,5 m', quantity: '31,2 mV', why: 'etwa 3,4 m' },
  { id: 'es', metres: '1,5 m', quantity: '31,2 mV', why: 'unos 3,4 m' },
  { id: 'fr', metres: '1,5 m', quantity: '31,2 mV', why: 'environ 3,4 m' },
  { id: 'pl', metres: '1,5 m', quantity: '31,2 mV', why: 'około 3,4 m' },
])('$id writes $metres and $quantity with its decimal sign', ({ id, metres, quantity, why }) => {
  const whole = all.find(language => language.id === id)
  expect(whole?.first.figures.metres(1.5)).toBe(metres)
  expect(whole?.first.figures.quantity(0.0312, 'V')).toBe(quantity)
  expect(whole?.sentences.whys.narrow({ branch: 'B3', before: 20.5, after: 3.4 })).toContain(why)
})
