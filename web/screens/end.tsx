import { useState } from 'preact/hooks'
import { CHECKED } from '../../content/shared/ids.ts'
import type { Positions, Request } from '../flow/request.ts'
import { words } from '../words.ts'
import { Below } from './below.tsx'
import { Checklist } from './checklist.tsx'
import { Closing } from './closing.tsx'
import { useDesigner } from './designerLink.tsx'
import { Frame } from './frame.tsx'
import { HandOn } from './handOn.tsx'
import { Notice } from './notice.tsx'
import { Title } from './title.tsx'
import type { Hunt } from './useSession.ts'

/** What was opened or unplugged and still is. */
const leftOf = ({ devices, unplugged, openedRuns, bus, bond, injector }: Positions): string[] => {
  const { left } = words().session.end
  return [
    ...Object.keys(devices)
      .filter(b => devices[b] !== 'closed')
      .map(left.device),
    ...unplugged,
    ...openedRuns.map(left.run),
    ...(bus === 'opened' ? [left.bus] : []),
    ...(bond === 'opened' ? [left.bond] : []),
    ...(injector ? [left.source(injector.branch)] : []),
  ]
}

/** How the session ended; a stop for safety says what to do, large. Then the closing form. */
export const EndScreen = ({ hunt, request, leave }: { hunt: Hunt; request: Extract<Request, { say: 'end' }>; leave: () => void }) => {
  const { session, since } = hunt
  const [closing, setClosing] = useState(false)
  const [ticked, setTicked] = useState<readonly boolean[]>([])
  const designer = useDesigner()
  const closed = session.events.some(e => e.type === 'closed')
  const { cautions, labels, session: say } = words()
  const { after } = words().care
  const stop = request.caution && cautions[request.caution]
  const minutes = Math.max(1, Math.round((Date.now() - since) / 60_000))
  if (closing && !closed)
    return (
      <main class="place">
        <Notice hunt={hunt} />
        <Closing
          log={hunt.log}
          id={hunt.id}
          session={session}
          checked={CHECKED.filter((_, i) => ticked[i])}
          back={() => setClosing(false)}
          save={hunt.send}
        />
      </main>
    )
  if (designer.file)
    return <designer.file.Designer machine={session.machine} finding={session.finding} entries={session.entries} back={designer.back} />
  const result = labels.results[request.result]
  const lists = request.result === 'restored' && !closed
  const handedOver = request.result === 'handed-over'
  const left = request.result === 'restored' ? [] : leftOf(session.positions)
  return (
    <Frame session={session} since={since} head={say.heads.end}>
      {stop ? (
        <div class="stop">
          <Title text={stop.title} step={`end ${closed}`} />
          <ol>
            {stop.points.map(p => (
              <li key={p}>{p}</li>
            ))}
          </ol>
        </div>
      ) : (
        <>
          <Title text={result.title} step={`end ${closed}`} />
          <p>{result.text}</p>
        </>
      )}
      <p>{say.end.took(session.entries.length, minutes)}</p>
      {left.length > 0 && (
        <p>
          <strong>{labels.leftOpen}:</strong> {left.join(', ')}.
        </p>
      )}
      {handedOver && <p>{words().phone.handOn.lead}</p>}
      {stop && <p class="source">{stop.source}</p>}
      {lists && (
        <>
          <h2>{after.title}</h2>
          <Checklist points={after.points} done={after.done} ticked={ticked} tick={setTicked} go={() => setClosing(true)} />
          <p class="source">{after.source}</p>
        </>
      )}
      {closed && <p>{say.end.formSaved}</p>}
      <div class={stop || lists ? 'actions flow' : 'actions'}>
        {!stop && !lists && <Below />}
        {/* Who hands over gives the session away first; what was wrong is not known yet. */}
        {handedOver && <HandOn log={hunt.log} id={hunt.id} />}
        <div class={handedOver && !closed ? 'duo' : 'looks'}>
          {!closed && (
            <button type="button" class={handedOver ? 'answer' : 'primary'} onClick={() => setClosing(true)}>
              {say.end.sayWrong}
            </button>
          )}
          <button type="button" class={closed && !handedOver ? 'primary' : 'answer'} onClick={leave}>
            {say.end.toStart}
          </button>
        </div>
        {!stop && designer.link()}
        {!closed && (
          <nav>
            <button type="button" class="link" onClick={() => hunt.send({ type: 'undone' })}>
              {say.actions.undo}
            </button>
          </nav>
        )}
      </div>
    </Frame>
  )
}
