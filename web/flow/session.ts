// A session is its list of events; what a screen shows is computed from them by the state machine's pure transition.
import { initialTransition, type SnapshotFrom, transition } from 'xstate'
import { branchShares } from '../../engine/belief.ts'
import { type Suspect, suspectsOf } from '../../engine/suspects.ts'
import { readAnswer } from './answer.ts'
import { answerTo } from './asked.ts'
import { atWorst, type Hunt, powerOf } from './hunt.ts'
import { type Kept, procedure } from './procedure.ts'
import type { Positions, Session, SessionEvent } from './request.ts'

type Snapshot = SnapshotFrom<typeof procedure>
type Started = SessionEvent & { type: 'started' }

/** A session with what its next event starts from: the machine's snapshot, and the session before the latest answer. */
interface Standing extends Session {
  readonly snapshot: Snapshot
  readonly before?: Standing
}

const FITS_NOTHING = 0.5

const standing = (events: readonly SessionEvent[], snapshot: Snapshot, before?: Standing): Standing => {
  // The state machine keeps what was thrown inside it; here it would only come up later and elsewhere.
  if (snapshot.status === 'error') throw snapshot.error
  const h = snapshot.context
  let suspects: readonly Suspect[] | undefined
  return {
    events,
    machine: h.machine,
    kit: h.kit,
    symptom: h.belief.symptom,
    known: h.known,
    fromLog: h.belief.fromLog,
    stage: snapshot.status === 'done' || snapshot.matches({ work: 'ended' }) ? 'ended' : h.stage,
    power: powerOf(h),
    request: h.request,
    positions: h.positions,
    seconds: h.seconds,
    entries: h.entries,
    energised: h.energised,
    fitsNothing: h.repair === undefined && h.belief.fitsNothing > FITS_NOTHING,
    get belief() {
      const p = branchShares(h.belief)
      return h.plant.branches.map(b => ({ branch: b.id, p: p[b.index] as number }))
    },
    // Intervals cost some arithmetic and only a screen asks for them.
    get suspects() {
      suspects ??= suspectsOf(h.belief)
      return suspects
    },
    ...(h.repair === undefined ? {} : { finding: h.repair.finding }),
    snapshot,
    ...(before === undefined ? {} : { before }),
  }
}

export const begin = (started: Started): Session => {
  const { type: _, machine, kit, symptom, ...known } = started
  const [snapshot] = initialTransition(procedure, { machine, kit, symptom, known })
  return standing([started], snapshot)
}

/**
 * What stays when the latest event is taken back. The log goes back; the machine does not: what is not proved dead now is not so
 * then, what was energised was energised, a confirmation that was used is used, and a device closed since may be closed still.
 */
export const keptOf = (h: Hunt, then: Hunt): Kept => {
  const isClosed = (positions: Positions) => (b: string) => positions.devices[b] === 'closed'
  const closed = Object.keys(h.positions.devices).filter(isClosed(h.positions))
  const { supply, injector, bond } = atWorst(h)
  const still = {
    ...(supply === 'on' && then.positions.supply === 'off' ? { supply } : {}),
    ...(injector !== undefined && then.positions.injector === undefined ? { injector } : {}),
    ...(bond === 'opened' && then.positions.bond === 'joined' ? { bond } : {}),
  }
  const live = then.positions.supply === 'on' || still.supply === 'on'
  return {
    provedDead: then.provedDead && h.provedDead,
    unsure: new Set([...then.unsure, ...h.unsure, ...closed.filter(b => !isClosed(then.positions)(b))]),
    still,
    covered: new Set([...then.covered].filter(key => h.covered.has(key))),
    energised: h.energised,
    liveSeconds: live ? Math.max(then.liveSeconds, h.liveSeconds) : 0,
  }
}
const takenBack = (now: Standing, before: Standing, events: readonly SessionEvent[]): Standing => {
  const kept = keptOf(now.snapshot.context, before.snapshot.context)
  return standing(events, transition(procedure, before.snapshot, { type: 'tookBack', kept })[0], before.before)
}

/** The session after one more event. An event that does not fit throws: screens and drive offer only what fits. */
export const advance = (session: Session, event: SessionEvent): Session => {
  const now = session as Standing
  const events = [...now.events, event]
  switch (event.type) {
    case 'started':
      throw new Error('a session starts once')
    case 'undone':
      return now.before === undefined ? standing(events, now.snapshot) : takenBack(now, now.before, events)
    case 'answered': {
      if (now.request.say === 'end') throw new Error('the session has ended')
      if (event.n !== now.request.n) throw new Error(`answer to request ${event.n}, but request ${now.request.n} is on the screen`)
      const { answer, asked } = event
      return standing(events, transition(procedure, now.snapshot, { type: 'answered', answer, asked })[0], now)
    }
    case 'resumed':
      return standing(events, transition(procedure, now.snapshot, { type: 'resumed' })[0], now.before)
    case 'kit':
      return standing(events, transition(procedure, now.snapshot, { type: 'kit', kit: event.kit })[0], now)
    case 'handedOver':
    case 'stopped':
    case 'closed':
      return standing(events, transition(procedure, now.snapshot, { type: event.type })[0], now)
  }
}

/** The session as it was before its latest event that stands; nothing before the start. */
export const beforeOf = (session: Session): Session | undefined => (session as Standing).before

/** The same session from its events alone. */
export const replay = (events: readonly SessionEvent[]): Session => {
  const [started, ...rest] = events
  if (started?.type !== 'started') throw new Error('a session begins with its start')
  return rest.reduce<Session>(advance, begin(started))
}

export { answerTo, readAnswer }
