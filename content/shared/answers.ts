// How an answer becomes words for the timeline and the report. The sentences themselves stand in each language.
import type { Figures } from './figures.ts'
import { said } from './ids.ts'

export interface AnswerSentences {
  readonly cannots: Readonly<Record<string, string>>
  readonly answers: {
    readonly cannot: (why: string) => string
    readonly found: string
    readonly notThere: string
    readonly notDead: (volts: string) => string
    readonly done: string
    readonly shows: (value: string) => string
    /** After a value. */
    readonly ac: string
    readonly jumping: string
  }
}

/** The sentences of a language as functions of an answer. */
export const answersFrom = ({ cannots, answers }: AnswerSentences, { quantity }: Figures) => {
  /** What a display showed, or that it is done. `unit`: V, A or Ω. */
  const valueWords = (answer: Readonly<Record<string, unknown>>, unit: string): string => {
    if ('cannot' in answer) return answers.cannot(said(cannots, String(answer['cannot'])))
    if ('confirmed' in answer) return answer['confirmed'] ? answers.found : answers.notThere
    if ('volts' in answer) return answers.notDead(quantity(Number(answer['volts']), 'V'))
    if (!('value' in answer)) return answers.done
    const shown = answer['value'] === 'OL' ? 'OL' : quantity(Number(answer['value']), unit)
    return `${shown}${answer['ac'] ? ` ${answers.ac}` : ''}${answer['unsteady'] ? `, ${answers.jumping}` : ''}`
  }
  return {
    valueWords,
    answerWords: (answer: Readonly<Record<string, unknown>>, unit: string): string =>
      'value' in answer ? answers.shows(valueWords(answer, unit)) : valueWords(answer, unit),
  }
}
