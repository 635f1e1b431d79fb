import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { later } from '../../content/en/later.ts'
import { word } from '../../content/shared/ids.ts'
import type { Words } from '../../content/words.ts'
import type { Answer } from '../../engine/step.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { advance, answerTo, readAnswer } from '../../web/flow/session.ts'
import { placeOf } from '../../web/screens/finding.tsx'
import { namesFor } from '../../web/screens/names.ts'
import type { Technician } from '../bench/technician.ts'
import { Thumb, typed } from './thumb.ts'

/** More requests than this and the session is going round in circles. */
const MOST = 200

/** The title that the screen must have now. */
export const titleOf = (session: Session, words: Words = later): string => {
  const { request } = session
  const { cautions, findings, labels, steps } = words
  if (request.say === 'confirm') return cautions[request.caution].title
  if (request.say === 'mend') return findings.mend(request.finding, placeOf(session, request.finding)).title
  if (request.say === 'end') return (request.caution ? cautions[request.caution] : labels.results[request.result]).title
  const { step } = request
  return step.kind === 'finding'
    ? findings.findingTitle(step.finding, placeOf(session, step.finding))
    : steps.stepTitle(step, namesFor(session, step))
}

/** What the keypad makes of a display's value. */
const rounded = (raw: object): object => {
  if (!('value' in raw) || typeof raw.value !== 'number') return raw
  const { text, prefix } = typed(raw.value)
  return { ...raw, value: Number((Number(text) * { '': 1, k: 1e3, M: 1e6 }[prefix]).toPrecision(12)) }
}

/** Gives an answer by tapping alone. `pause` runs between typing a value and sending it, and says whether to go on. */
const give = async (thumb: Thumb, session: Session, answer: Answer, words: Words, pause: () => Promise<boolean>): Promise<boolean> => {
  const { cautions, findings, labels, steps, session: say } = words
  const { request } = session
  const tap = async (name: string | RegExp): Promise<true> => {
    await thumb.tap(name)
    return true
  }
  if (request.say === 'confirm' || request.say === 'mend') {
    await thumb.tickAll()
    return tap(
      request.say === 'mend' ? findings.mend(request.finding, placeOf(session, request.finding)).done : cautions[request.caution].done,
    )
  }
  if (request.say === 'end') throw new Error('the session has ended')
  const { step } = request
  if ('cannot' in answer) {
    await thumb.tap(say.actions.cannot)
    return tap(labels.cannots['not-there'])
  }
  if ('confirmed' in answer) return tap(answer.confirmed ? say.finding.here : say.finding.notThere)
  if ('seen' in answer) return tap(step.kind === 'look' ? word(labels.seen[step.look], answer.seen) : '')
  if ('done' in answer) return tap(step.kind === 'act' ? steps.actDone(step.act, namesFor(session, step)) : '')
  await thumb.tap(step.kind === 'read' ? say.reading.enter : 'volts' in answer ? say.reading.volts : say.reading.other)
  await thumb.type(
    'volts' in answer ? answer.volts : answer.value,
    'value' in answer && answer.unsteady ? { unsteady: true } : {},
    say.keypad,
  )
  return (await pause()) ? tap(new RegExp(`^${say.keypad.shows('')}`)) : false
}

export interface Watch {
  /** What answers: a thumb unless it is something else. */
  readonly hand?: Thumb
  /** The screen of the session's present request stands. */
  readonly shown?: (session: Session, title: string) => Promise<void>
  /** A value is typed and not yet sent; `false` ends the playing here. */
  readonly typing?: (session: Session, title: string) => Promise<boolean>
  /** The screen says that this answer is saved. */
  readonly saved?: (answered: { readonly n: number; readonly answer: Answer }) => void
}

/** What the technician answers to a request. */
const answerOf = (technician: Technician, request: Exclude<Request, { say: 'end' }>): unknown =>
  request.say === 'step' ? technician.step(request) : request.say === 'mend' ? technician.mend(request) : technician.confirm(request)

/** A screen that is late on a busy computer is no screen that is wrong, ms. */
const LATE = { timeout: 20_000 }
/** The screen shows the session's present request, and the focus stands at its title. */
export const stands = async (page: Page, session: Session, words: Words = later): Promise<string> => {
  const title = titleOf(session, words).replace(/\s+/g, ' ')
  await expect.poll(async () => ((await page.locator('h1').textContent()) ?? '').replace(/\s+/g, ' '), LATE).toBe(title)
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName), LATE).toBe('H1')
  return title
}

/** One answer of the technician's, not yet given: it may be given again after the phone was put away. */
export interface Pending {
  readonly session: Session
  readonly answer: Answer
}

/**
 * Plays on by tapping alone until the session ends, or until `typing` says so; gives the session as it then stands, and the
 * answer that was typed but not sent. The session here is computed beside the page's own, from the same answers.
 */
export const playOn = async (
  page: Page,
  from: Session,
  technician: Technician,
  watch: Watch = {},
  words: Words = later,
): Promise<Partial<Pending> & { session: Session }> => {
  let session = from
  await stands(page, session, words)
  for (let i = 0; i < MOST && session.request.say !== 'end'; i += 1) {
    const { request } = session
    const title = titleOf(session, words)
    await watch.shown?.(session, title)
    const answer = readAnswer(request, rounded(answerOf(technician, request) as object), session.kit)
    if (!answer.ok) throw new Error(answer.message)
    const now = session
    const sent = await give(watch.hand ?? new Thumb(page), now, answer.value, words, async () => (await watch.typing?.(now, title)) ?? true)
    if (!sent) return { session, answer: answer.value }
    session = await saved(page, session, answer.value, watch, words)
  }
  return { session }
}

/** The answer was sent: the session after it, once the screen says that it is saved. */
export const saved = async (page: Page, session: Session, answer: Answer, watch: Watch = {}, words: Words = later): Promise<Session> => {
  const next = advance(session, answerTo(session, answer))
  await stands(page, next, words)
  await page.getByText(words.session.saved, { exact: true }).waitFor()
  watch.saved?.({ n: session.request.n, answer })
  return next
}
