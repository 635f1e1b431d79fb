import type { Request } from '../flow/request.ts'
import { words } from '../words.ts'
import { Actions } from './actions.tsx'
import { Checklist } from './checklist.tsx'
import { Frame } from './frame.tsx'
import { namesFor } from './names.ts'
import { Notice } from './notice.tsx'
import { Title } from './title.tsx'
import type { Hunt } from './useSession.ts'

const ENERGISE: readonly string[] = ['switch-on-again', 'voltage-may-return', 'injection']

/** A caution before its acts: each point is ticked off, then the acts it covers may come. */
export const Confirm = ({ hunt, request }: { hunt: Hunt; request: Extract<Request, { say: 'confirm' }> }) => {
  const { session, since, answer } = hunt
  const { cautions, steps, session: say } = words()
  const caution = cautions[request.caution]
  const acts = request.acts.flatMap(step => (step.kind === 'finding' ? [] : [steps.stepTitle(step, namesFor(session, step))]))
  return (
    <Frame session={session} since={since}>
      <Title text={caution.title} step={request.n} />
      <Notice hunt={hunt} />
      {ENERGISE.includes(request.caution) && session.energised > 0 && <p>{say.energised(session.energised)}</p>}
      <Checklist key={request.n} points={caution.points} done={caution.done} go={() => answer({ done: true })}>
        {button => (
          <>
            {acts.length > 0 && (
              <>
                <h2>{say.next}</h2>
                <ol class="acts">
                  {acts.map(title => (
                    <li key={title}>{title}</li>
                  ))}
                </ol>
              </>
            )}
            <p class="source">{caution.source}</p>
            <Actions hunt={hunt} flow>
              {button}
            </Actions>
          </>
        )}
      </Checklist>
    </Frame>
  )
}
