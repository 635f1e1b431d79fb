// What a language must have, taken from English: every topic, every key, every sentence with what it needs.
import type { first } from './en/first.ts'
import type { sentences } from './en/sentences.ts'
import type { wordsFrom } from './shared/build.ts'

/** The same shape with any text in it. */
type Widen<T> = T extends string
  ? string
  : T extends (...facts: infer F) => infer R
    ? (...facts: F) => Widen<R>
    : T extends object
      ? { readonly [K in keyof T]: Widen<T[K]> }
      : T

/** The words of the first screens. */
export type First = Widen<typeof first>
/** All other sentences, by topic, as a language's files hold them. */
export type Sentences = Widen<typeof sentences>
/** The same as the screens read them: with functions of a step, a finding, a drawing. */
export type Words = ReturnType<typeof wordsFrom>
