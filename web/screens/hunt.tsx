// The session's screens, with the flow and the engine behind them: one file for the bundler, loaded whole before a session starts.
import { readMachine } from '../../engine/check.ts'
import { begin, replay } from '../flow/session.ts'
import type { Log, Started } from '../log/log.ts'
import { Confirm } from './confirm.tsx'
import { EndScreen } from './end.tsx'
import { FindingScreen } from './finding.tsx'
import { MendScreen } from './mend.tsx'
import { StepScreen } from './step.tsx'
import { type Opening, useSession } from './useSession.ts'
import { useWake } from './useWake.ts'

export const start = async (log: Log, started: Started): Promise<Opening> => {
  const session = begin(started)
  return { log, id: await log.create(started), session, since: Date.now(), draft: '' }
}
export const resume = async (log: Log, id: string): Promise<Opening> => {
  const [events, draft] = await Promise.all([log.events(id), log.draft(id)])
  const wall = events[0]?.wall
  return { log, id, session: replay(events.map(e => e.event)), since: wall ? Date.parse(wall) : Date.now(), draft }
}
export { readMachine }

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
        {hunt.status}
      </p>
    </>
  )
}
