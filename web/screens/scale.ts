import type { Session } from '../flow/request.ts'
import { advance, answerTo, readAnswer } from '../flow/session.ts'
import { rawValue, type Typed } from './keypad.tsx'

/** Prefixes by their factor: the two that a slip of the unit makes of one another. */
const STEPS = { '': ['m', 'k'], m: ['', ''], k: ['', 'M'], M: ['k', 'k'] } as const

const fits = (session: Session, typed: Typed): boolean => {
  const read = readAnswer(session.request, rawValue(typed), session.kit)
  if (!read.ok) return false
  try {
    return !advance(session, answerTo(session, read.value)).fitsNothing
  } catch {
    return false
  }
}
/**
 * The same figures with a prefix that is 1000 times as much or as little, where what was typed fits no fault and that one does;
 * nothing where the typed value is a value like others.
 */
export const otherScale = (session: Session, typed: Typed): Typed | undefined => {
  const { request } = session
  if (request.say !== 'step' || request.step.kind !== 'read' || typed.text === 'OL' || Number(typed.text) === 0) return undefined
  if (fits(session, typed)) return undefined
  const prefixes = STEPS[typed.prefix as keyof typeof STEPS] ?? []
  return prefixes.map(prefix => ({ ...typed, prefix })).find(other => fits(session, other))
}
