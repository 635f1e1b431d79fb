// What a session comes to, from its events: its record where there is one, else what the procedure makes of them.
import type { FaultRecord, Found, PhotoNote, Session } from '../flow/request.ts'
import { closedForm } from './closing.ts'
import type { Ending, Facts, SessionSummary, StoredEvent } from './log.ts'
import { originOf } from './log.ts'
import { whatOf } from './row.ts'
import { answersIn, standing } from './standing.ts'
import { believedIn } from './steps.ts'
import { type Marks, timesOf } from './times.ts'

/** Which events mark the times, as the procedure played them. */
export const marksOf = (session: Session, events: readonly Pick<StoredEvent, 'seq' | 'event'>[]): Marks => {
  const answers = answersIn(events)
  const last = (is: (entry: Session['entries'][number]) => boolean): number | undefined => answers[session.entries.findLastIndex(is)]?.seq
  const located = last(({ answer }) => 'confirmed' in answer && answer.confirmed)
  const corrected = last(({ request, answer }) => request.say === 'mend' && 'done' in answer)
  const isRestored = session.request.say === 'end' && session.request.result === 'restored'
  const restored = isRestored ? answers.at(-1)?.seq : undefined
  return {
    ...(located === undefined ? {} : { located }),
    ...(corrected === undefined ? {} : { corrected }),
    ...(restored === undefined ? {} : { restored }),
  }
}

export const foundIn = ({ finding }: Session): Found | undefined =>
  finding && {
    fault: finding.fault,
    ...(finding.branch === undefined ? {} : { branch: finding.branch }),
    ...(finding.run === undefined ? {} : { run: finding.run }),
    ...(finding.load === undefined ? {} : { load: finding.load }),
    ...(finding.alongRun === undefined ? {} : { alongRun: finding.alongRun }),
  }

/** What the closing form keeps of a session as it stands: later versions may ask, and find, otherwise. */
export const recordOf = (session: Session, photos: readonly PhotoNote[], checked: readonly string[] = []): FaultRecord => {
  const found = foundIn(session)
  const numbered = session.events.map((event, i) => ({ seq: i + 1, event }))
  const believed = believedIn(session, numbered)
  return {
    ...(found === undefined ? {} : { found }),
    ...marksOf(session, numbered),
    ...(photos.length === 0 ? {} : { photos }),
    ...(checked.length === 0 ? {} : { checked }),
    ...(believed.length === 0 ? {} : { believed }),
  }
}

const endingOf = (session: Session | undefined, events: readonly StoredEvent[], record: FaultRecord): Partial<Ending> => {
  const last = standing(events).findLast(({ event }) => event.type !== 'closed')
  const endedAt = last?.wall
  if (endedAt === undefined) return {}
  if (session?.request.say === 'end') return { result: session.request.result, endedAt }
  if (last?.event.type === 'handedOver') return { result: 'handed-over', endedAt }
  if (last?.event.type === 'stopped') return { result: 'stopped', endedAt }
  return record.restored === undefined ? {} : { result: 'restored', endedAt }
}

/** `session`: the events played again, or nothing where this version of the procedure cannot. The record goes before it. */
export const factsOf = (events: readonly StoredEvent[], session: Session | undefined): Facts => {
  const { mode, mechanism, cause, who, found: recorded, ...record } = closedForm(events)?.record ?? {}
  const found = recorded ?? (session && foundIn(session))
  const marks: Marks = { ...(session && marksOf(session, events)), ...record }
  const cannots = session
    ? session.entries.flatMap(({ request, answer }) => ('cannot' in answer ? [{ what: whatOf(request), why: answer.cannot }] : []))
    : answersIn(events).flatMap(({ event }) =>
        event.type === 'answered' && 'cannot' in event.answer ? [{ what: `request ${event.n}`, why: event.answer.cannot }] : [],
      )
  return {
    events: events.length,
    ...endingOf(session, events, record),
    ...(found === undefined ? {} : { found }),
    ...(mode === undefined ? {} : { mode }),
    ...(mechanism === undefined ? {} : { mechanism }),
    ...(cause === undefined ? {} : { cause }),
    ...(who === undefined ? {} : { who }),
    times: timesOf(events, marks),
    cannots,
  }
}

export interface ConfirmedFinding {
  readonly machine: string
  readonly fault: Found['fault']
  /** Missing where the fault was on the supply's side. */
  readonly branch?: string
  readonly run?: string
  readonly load?: string
}

/** Confirmed findings, own and imported, one for each session that has one: what the engine's prior may count. */
export const findingsOf = (sessions: readonly SessionSummary[]): ConfirmedFinding[] => {
  const counted = new Set<string>()
  return sessions.flatMap(({ id, machineId, facts }) => {
    // A session that is told in two ways still happened once.
    if (!facts?.found || counted.has(originOf(id))) return []
    counted.add(originOf(id))
    const { alongRun: _alongRun, ...found } = facts.found
    return [{ machine: machineId, ...found }]
  })
}
