import { mend } from '../../content/en-findings.ts'
import type { Request } from '../flow/request.ts'
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
  const words = mend(request.finding, placeOf(session, request.finding))
  return (
    <Frame session={session} since={since} head="Mend">
      <Title text={words.title} step={request.n} />
      <Notice hunt={hunt} />
      <FindingDrawing session={session} finding={request.finding} />
      <Checklist key={request.n} points={words.points} done={words.done} go={() => answer({ done: true })}>
        {button => (
          <Actions hunt={hunt} flow>
            {button}
          </Actions>
        )}
      </Checklist>
    </Frame>
  )
}
