// The one door to the words: which language is on, and how it is changed. Screens read words while they draw and keep none;
// a session holds ids and figures alone, so that changing the language touches nothing but what is seen.
import { first as english } from '../content/en/first.ts'
import { LANGUAGES, type Language } from '../content/languages.ts'
import { whySentence } from '../content/shared/facts.ts'
import { said, word } from '../content/shared/ids.ts'
import type { First, Words } from '../content/words.ts'

interface Whole {
  readonly first: First
  readonly later: Words
}
/** English begins in the first load, so that it paints at once; each other language is one file, fetched when it is chosen. */
const LOADERS: Readonly<Record<Language, () => Promise<Whole>>> = {
  en: () => import('../content/en/later.ts').then(({ later }) => ({ first: english, later })),
  de: () => import('../content/de/later.ts'),
  es: () => import('../content/es/later.ts'),
  fr: () => import('../content/fr/later.ts'),
  pl: () => import('../content/pl/later.ts'),
}
/** Where the choice is kept. */
const KEY = 'ohmward.language'

let chosen: Language = 'en'
let firstWords: First = english
let laterWords: Words | undefined
const watchers = new Set<() => void>()

const isLanguage = (id: string | null | undefined): id is Language => typeof id === 'string' && id in LANGUAGES

export const language = (): Language => chosen
/** The words of the first screens, and the language's figures. */
export const first = (): First => firstWords
/** All other words, by topic. Parts that come after the first paint are fetched by `withWords`, so that these are there before them. */
export const words = (): Words => {
  if (laterWords === undefined) throw new Error('the words are not fetched yet')
  return laterWords
}
/** Fetches the words if they are not here yet. */
export const needWords = async (): Promise<void> => {
  while (laterWords === undefined) {
    const wanted = chosen
    const { later } = await LOADERS[wanted]()
    // Another language may have come in the meantime.
    if (wanted === chosen) laterWords ??= later
  }
}
/** A part that comes after the first paint, together with the words that it needs. */
export const withWords = <T>(part: Promise<T>): Promise<T> => Promise.all([part, needWords()]).then(([file]) => file)

const use = (id: Language, { first: beginning, later }: Whole): void => {
  chosen = id
  firstWords = beginning
  laterWords = later
  document.documentElement.lang = id
}
/** Changes every word at once. Rejects, and changes nothing, where the language is not stored and there is no network. */
export const setLanguage = async (id: Language): Promise<void> => {
  use(id, await LOADERS[id]())
  try {
    localStorage.setItem(KEY, id)
  } catch {
    // A browser that stores nothing asks anew the next time.
  }
  for (const again of watchers) again()
}
/** Calls `again` after each change; the answer ends that. */
export const onLanguage = (again: () => void): (() => void) => {
  watchers.add(again)
  return () => watchers.delete(again)
}

const kept = (): string | null => {
  try {
    return localStorage.getItem(KEY)
  } catch {
    return null
  }
}
/** The language for the first paint: the one that was chosen, else the phone's, else English. */
export const startLanguage = async (): Promise<void> => {
  const id = [kept(), ...navigator.languages.map(tag => tag.slice(0, 2).toLowerCase())].find(isLanguage)
  if (id === undefined || id === chosen) return
  try {
    use(id, await LOADERS[id]())
  } catch {
    // Not stored yet and no network: English stands in.
  }
}

export const whyWords = (why: Parameters<typeof whySentence>[1]): string => whySentence(words().whys, why)
export const faultWord = (fault: string): string => word(words().findings.faults, fault)
/** What was wrong, as a log holds it. */
export const wrongWord = (logged: string): string => said(words().labels.wrongs, logged)
/** A term of the record; its id where a later version knows more. */
export const termWord = (id: string): string => {
  const { modes, mechanisms, causes } = words().record
  return word({ ...modes.terms, ...mechanisms.terms, ...causes.terms }, id)
}
/** What went wrong, in the language; where its words are not here yet, as it was said. */
export const problemWords = (reason: unknown): string => {
  const text = reason instanceof Error ? reason.message : String(reason)
  return laterWords === undefined ? text : laterWords.told(text)
}
