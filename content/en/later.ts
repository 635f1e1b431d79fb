// All English words but those of the first screens: one file for the bundler, fetched after the first paint.
import { wordsFrom } from '../shared/build.ts'
import type { Words } from '../words.ts'
import { first } from './first.ts'
import { sentences } from './sentences.ts'

export const later: Words = wordsFrom(sentences, first.figures)
