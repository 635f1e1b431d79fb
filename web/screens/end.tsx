import { useState } from 'preact/hooks'
import { cautions } from '../../content/en-cautions.ts'
import { leftOpen, results } from '../../content/en-labels.ts'
import type { Positions, Request } from '../flow/request.ts'
import { Closing } from './closing.tsx'
import { useDesigner } from './designerLink.tsx'
import { Frame } from './frame.tsx'
import { Notice } from './notice.tsx'
import { Title } from './title.tsx'
import type { Hunt } from './useSession.ts'

/** What was opened or unplugged and still is. */
const leftOf = ({ devices, unplugged, openedRuns, bus, bond, injector }: Positions): string[] => [
  ...Object.keys(devices)
    .filter(b => devices[b] !== 'closed')
    .map(b => `device ${b}`),
  ...unplugged,
  ...openedRuns.map(r => `run ${r}`),
  ...(bus === 'opened' ? ['output lead at the supply'] : []),
  ...(bond === 'opened' ? ['link from 0 V to earth'] : []),
  ...(injector ? [`current source on ${injector.branch}`] : []),
]

/** How the session ended; a stop for safety says what to do, large. Then the closing form. */
export const EndScreen = ({ hunt, request, leave }: { hunt: Hunt; request: Extract<Request, { say: 'end' }>; leave: () => void }) => {
  const { session, since } = hunt
  const [closing, setClosing] = useState(false)
  const designer = useDesigner()
  const closed = session.events.some(e => e.type === 'closed')
  const stop = request.caution && cautions[request.caution]
  const minutes = Math.max(1, Math.round((Date.now() - since) / 60_000))
  if (closing && !closed)
    return (
      <main class="place">
        <Notice hunt={hunt} />
        <Closing
          session={session}
          back={() => setClosing(false)}
          save={(branch, wrong, note) => hunt.send({ type: 'closed', branch, wrong, note })}
        />
      </main>
    )
  if (designer.file)
    return <designer.file.Designer machine={session.machine} finding={session.finding} entries={session.entries} back={designer.back} />
  const words = results[request.result]
  const left = request.result === 'restored' ? [] : leftOf(session.positions)
  return (
    <Frame session={session} since={since} head="End">
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
          <Title text={words?.title ?? request.result} step={`end ${closed}`} />
          <p>{words?.text}</p>
        </>
      )}
      <p>
        {session.entries.length} steps, {minutes} min.
      </p>
      {left.length > 0 && (
        <p>
          <strong>{leftOpen}:</strong> {left.join(', ')}.
        </p>
      )}
      {stop && <p class="source">{stop.source}</p>}
      {closed && <p>The closing form is saved.</p>}
      <div class={stop ? 'actions flow' : 'actions'}>
        {!closed && (
          <button type="button" class="primary" onClick={() => setClosing(true)}>
            Say what was wrong
          </button>
        )}
        <button type="button" class={closed ? 'primary' : 'answer'} onClick={leave}>
          Back to the start
        </button>
        {!stop && designer.link()}
        {!closed && (
          <nav>
            <button type="button" class="link" onClick={() => hunt.send({ type: 'undone' })}>
              Undo
            </button>
          </nav>
        )}
      </div>
    </Frame>
  )
}
