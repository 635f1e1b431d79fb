// Readings at the same points in several sessions at a machine: before and after a repair, and from one year to the next.
import type { Session } from '../flow/request.ts'
import type { StoredEvent } from './log.ts'
import { answersIn } from './standing.ts'

export interface Reading {
  readonly meter: 'volt' | 'ohm' | 'amp'
  /** The two points, or the branch of a current. */
  readonly points: readonly string[]
  /** V, Ω or A; OL where the meter showed no figure. */
  readonly value: number | 'OL'
  readonly session: string
  /** Local time with its offset. */
  readonly wall: string
  /** Taken after something was mended in its session. */
  readonly after: boolean
}

/** Readings that stand, but for those that did not settle or were of an alternating voltage. */
export const readingsOf = (id: string, session: Session, events: readonly StoredEvent[]): readonly Reading[] => {
  const answers = answersIn(events)
  const mended = session.entries.findIndex(({ request, answer }) => request.say === 'mend' && 'done' in answer)
  return session.entries.flatMap(({ request, answer }, i): Reading[] => {
    if (request.say !== 'step' || request.step.kind !== 'read' || !('value' in answer) || answer.unsteady || answer.ac) return []
    const { step } = request
    const points = step.meter === 'amp' ? [step.branch] : [step.red, step.black]
    return [{ meter: step.meter, points, value: answer.value, session: id, wall: answers[i]?.wall ?? '', after: mended >= 0 && i > mended }]
  })
}

export interface Trend {
  readonly meter: Reading['meter']
  readonly points: readonly string[]
  /** In the order of their time. */
  readonly readings: readonly Reading[]
}

/** Points that were read in several sessions, or before and after a repair; those with most readings first. */
export const trendsOf = (readings: readonly Reading[]): readonly Trend[] => {
  const groups = new Map<string, Reading[]>()
  for (const reading of readings) {
    const key = JSON.stringify([reading.meter, ...reading.points])
    const group = groups.get(key)
    if (group) group.push(reading)
    else groups.set(key, [reading])
  }
  return [...groups.values()]
    .filter(group => new Set(group.map(({ session, after }) => `${session} ${after}`)).size > 1)
    .map(group => group.sort((a, b) => Date.parse(a.wall) - Date.parse(b.wall)))
    .sort((a, b) => b.length - a.length)
    .flatMap(group => {
      const [first] = group
      return first ? [{ meter: first.meter, points: first.points, readings: group }] : []
    })
}
