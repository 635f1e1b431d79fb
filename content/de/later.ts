// All German words: one file for the bundler, fetched when the language is chosen.
import { wordsFrom } from '../shared/build.ts'
import type { Words } from '../words.ts'
import { first } from './first.ts'
import { sentences } from './sentences.ts'

export const later: Words = wordsFrom(sentences, first.figures)
export { first }
