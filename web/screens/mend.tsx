import type { Request } from '../flow/request.ts'
import { words } from '../words.ts'
import { Actions } from './actions.tsx'
import { Checklist } from './checklist.tsx'
import { FindingDrawing, placeOf } from './finding.tsx'
import { Frame } from './frame.tsx'
import { Notice } from './notice.tsx'
import { Title } from './title.tsx'
import type { Hunt } from './useSession.ts'

/** What to mend and what to check at it. */
export const MendScreen = ({ hunt, request }: { hunt: Hunt; request: Extract<Request, { say: 'mend' }> }) => {
  const { session, since, answer } = hunt
  const { findings, session: say } = words()
  const mend = findings.mend(request.finding, placeOf(session, request.finding))
  return (
    <Frame session={session} since={since} head={say.heads.mend}>
      <Title text={mend.title} step={request.n} />
      <Notice hunt={hunt} />
      <FindingDrawing session={session} finding={request.finding} />
      <Checklist key={request.n} points={mend.points} done={mend.done} go={() => answer({ done: true })}>
        {button => (
          <Actions hunt={hunt} flow>
            {button}
          </Actions>
        )}
      </Checklist>
    </Frame>
  )
}
