// A language's sentences made into what the screens read: the same logic for every language, over its own sentences.
import type { Sentences } from '../words.ts'
import { answersFrom } from './answers.ts'
import { drawingsFrom } from './drawings.ts'
import type { Figures } from './figures.ts'
import { findingsFrom } from './findings.ts'
import { problemsFrom } from './problems.ts'
import { protectionFrom } from './protection.ts'
import { stepsFrom } from './steps.ts'

export interface FoundAt {
  readonly branch?: string
  readonly run?: string
  readonly load?: string
}

export const wordsFrom = (s: Sentences, figures: Figures) => ({
  ...s,
  steps: stepsFrom(s.steps),
  findings: findingsFrom(s.findings, figures),
  drawings: { ...s.drawings, ...drawingsFrom(s.drawings, figures) },
  labels: { ...s.labels, ...answersFrom(s.labels, figures) },
  /** A sentence of the layers below, in the language. */
  told: problemsFrom(s.problems, figures.written),
  protection: { ...s.protection, ...protectionFrom(s.protection, figures) },
  record: {
    ...s.record,
    /** Where on its branch a fault was, in a few words. */
    foundPlace: ({ branch, run, load }: FoundAt): string => {
      const { place } = s.record
      return run ? place.run(run) : load ? place.load(load) : branch ? place.branch(branch) : place.supply
    },
  },
})
