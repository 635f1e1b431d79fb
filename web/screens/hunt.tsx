// The session's screens, with the flow and the engine behind them: one file for the bundler, loaded whole before a session starts.
import { readMachine } from '../../engine/check.ts'
import type { Machine } from '../../engine/machine.ts'
import { Icon } from '../drawing/icons.tsx'
import { takenUp } from '../flow/away.ts'
import type { Session, SessionEvent } from '../flow/request.ts'
import { advance, begin, replay } from '../flow/session.ts'
import { isSession, takeUp, takingUp } from '../log/handOn.ts'
import { learnedOf } from '../log/learned.ts'
import type { Log, Started } from '../log/log.ts'
import { isOther } from '../machines/keep.ts'
import { words } from '../words.ts'
import { Confirm } from './confirm.tsx'
import { EndScreen } from './end.tsx'
import { FindingScreen } from './finding.tsx'
import { MendScreen } from './mend.tsx'
import { painted } from './painted.ts'
import { StepScreen } from './step.tsx'
import { type Opening, useSession } from './useSession.ts'
import { useWake } from './useWake.ts'

export const start = async (log: Log, plain: Started): Promise<Opening> => {
  // A hunt can do without what earlier ones found: a log that cannot be read now must not keep it from starting.
  const learned = await learnedOf(log, plain.machine.id).catch(() => [])
  const started = learned.length === 0 ? plain : { ...plain, learned }
  await painted()
  const session = begin(started)
  return { log, id: await log.create(started), session, since: Date.now(), draft: '' }
}

/** The session that the start screen offers to go on with, as far as it has been replayed. */
let ahead: Session | undefined
/** Replays it while that screen is read, an event at a time: a tap waits for one of them at most. */
export const replayAhead = async (log: Log, id: string): Promise<void> => {
  const [started, ...events] = await log.events(id)
  await painted()
  let session = replay(started === undefined ? [] : [started.event])
  ahead = session
  for (const { event } of events) {
    await painted()
    // Gone on with meanwhile.
    if (ahead !== session) return
    session = advance(session, event)
    ahead = session
  }
}
const goOn = (events: readonly SessionEvent[]): Session => {
  const done = ahead?.events ?? []
  const had = JSON.stringify(done) === JSON.stringify(events.slice(0, done.length)) ? ahead : undefined
  ahead = undefined
  return had === undefined ? replay(events) : events.slice(done.length).reduce(advance, had)
}
export const resume = async (log: Log, id: string): Promise<Opening> => {
  const [events, draft] = await Promise.all([log.events(id), log.draft(id)])
  const wall = events[0]?.wall
  await painted()
  const session = goOn(events.map(e => e.event))
  const since = wall ? Date.parse(wall) : Date.now()
  const last = Date.parse(events.at(-1)?.wall ?? '')
  const again = takenUp(session, last, Date.now())
  if (again === undefined) return { log, id, session, since, draft }
  await log.append(id, again)
  return { log, id, session: advance(session, again), since, draft: '' }
}
/** Goes on with a session of another phone. Throws the sentence for the screen where there is nothing to go on with. */
export const takeOver = async (log: Log, text: string): Promise<Opening> => {
  const id = await takeUp(log, text)
  const events = (await log.events(id)).map(({ event }) => event)
  const more = takingUp(events)
  const session = more.reduce(advance, replay(events))
  if (session.request.say === 'end') throw new Error(words().phone.handOn.ended)
  for (const event of more) await log.append(id, event)
  return resume(log, id)
}
/** Keeps a machine that came as a file, so that it is there the next time; gives false where another is kept under its id. */
export const keep = async (log: Log, machine: Machine): Promise<boolean> => {
  const kept = await log.machines()
  if (isOther(kept, machine)) return false
  if (kept.every(({ id }) => id !== machine.id)) await log.saveMachine(machine)
  return true
}
export { isSession, readMachine }

/** The screen for what the procedure asks now. */
export const HuntScreen = ({ opening, leave }: { opening: Opening; leave: () => void }) => {
  const hunt = useSession(opening)
  useWake()
  const { request } = hunt.session
  const screen = () => {
    if (request.say === 'confirm') return <Confirm hunt={hunt} request={request} />
    if (request.say === 'mend') return <MendScreen hunt={hunt} request={request} />
    if (request.say === 'end') return <EndScreen hunt={hunt} request={request} leave={leave} />
    const { step } = request
    if (step.kind === 'finding') return <FindingScreen hunt={hunt} request={request} finding={step.finding} />
    return <StepScreen key={`${request.n}/${hunt.session.events.length}`} hunt={hunt} request={{ ...request, step }} />
  }
  return (
    <>
      {screen()}
      <p role="status" class="status">
        {hunt.saved && (
          <>
            <Icon name="saved" />
            <span class="spared">{words().session.saved}</span>
          </>
        )}
      </p>
    </>
  )
}
