import { useEffect, useState } from 'preact/hooks'
import { stepTitle } from '../../content/en.ts'
import { cautions } from '../../content/en-cautions.ts'
import { findingTitle, mend } from '../../content/en-findings.ts'
import { answerWords, results, seen, symptoms } from '../../content/en-labels.ts'
import type { Entry, Request, Session } from '../flow/request.ts'
import { replay } from '../flow/session.ts'
import { closedForm } from '../log/closing.ts'
import { exportCsv, exportJson } from '../log/export.ts'
import type { Log, SessionSummary, StoredEvent } from '../log/log.ts'
import { standing } from '../log/standing.ts'
import { Closing } from './closing.tsx'
import { placeOf } from './finding.tsx'
import { namesFor } from './names.ts'
import { share } from './share.ts'
import { Title } from './title.tsx'

/** Set by the build, from package.json. */
declare const APP_VERSION: string

export const asked = (session: Session, request: Request): string => {
  if (request.say === 'confirm') return cautions[request.caution]?.title ?? request.caution
  if (request.say === 'mend') return mend(request.finding, placeOf(session, request.finding)).title
  if (request.say === 'end') return results[request.result]?.title ?? request.result
  const { step } = request
  return step.kind === 'finding' ? findingTitle(step.finding, placeOf(session, step.finding)) : stepTitle(step, namesFor(session, step))
}
const unitOf = (request: Request): string => {
  if (request.say !== 'step') return ''
  if (request.step.kind === 'read') return { volt: 'V', ohm: 'Ω', amp: 'A' }[request.step.meter]
  return 'Ω'
}
export const answered = ({ request, answer }: Entry): string => {
  const look = request.say === 'step' && request.step.kind === 'look' ? request.step.look : ''
  return 'seen' in answer ? (seen[look]?.[answer.seen] ?? answer.seen).toLowerCase() : answerWords({ ...answer }, unitOf(request))
}
interface TimelineProps {
  readonly log: Log
  readonly summary: SessionSummary
  readonly back: () => void
  readonly resume: (id: string) => void
}

/** One session: what was asked and answered, when; and its files. */
export const Timeline = ({ log, summary, back, resume }: TimelineProps) => {
  const [loaded, setLoaded] = useState<{ session: Session; events: readonly StoredEvent[] } | undefined>()
  const [status, setStatus] = useState('')
  const [closing, setClosing] = useState(false)
  const load = () => log.events(summary.id).then(events => setLoaded({ events, session: replay(events.map(e => e.event)) }))
  useEffect(() => {
    load().catch(e => setStatus(String(e?.message ?? e)))
  }, [summary.id])
  if (!loaded)
    return (
      <main class="place">
        <Title text={summary.machineName} step="timeline" />
        <p role="status">{status || 'Reading the log …'}</p>
      </main>
    )
  const { session, events } = loaded
  // One answer that was not taken back for each of the session's entries, in order.
  const answers = standing(events).filter(({ event }) => event.type === 'answered')
  const closed = closedForm(events)
  const file = (make: () => Promise<{ name: string; mime: string; text: string }>) =>
    make()
      .then(share)
      .then(setStatus, e => setStatus(String(e?.message ?? e)))
  if (closing)
    return (
      <main class="place">
        <Closing
          session={session}
          save={(branch, wrong, note) =>
            log
              .append(summary.id, { type: 'closed', branch, wrong, note })
              .then(load)
              .then(() => setStatus('Saved'))
              .catch(e => setStatus(String(e?.message ?? e)))
              .then(() => setClosing(false))
          }
        />
      </main>
    )
  return (
    <main class="place">
      <Title text={summary.machineName} step="timeline" />
      <p>
        {summary.startedAt.slice(0, 10)} · {symptoms[session.symptom]} · {summary.result ? results[summary.result]?.title : 'not finished'}
      </p>
      <ol class="timeline">
        {session.entries.map((e, i) => (
          <li key={`${e.request.n}`}>
            <time>{answers[i]?.wall.slice(11, 16)}</time>
            <span>
              {asked(session, e.request)} <strong>{answered(e)}</strong>
            </span>
          </li>
        ))}
      </ol>
      {closed && <p>Closed: {[closed.branch, closed.wrong, closed.note].filter(Boolean).join(' · ')}</p>}
      <p role="status">{status}</p>
      <div class="actions flow">
        {!summary.result && (
          <button type="button" class="primary" onClick={() => resume(summary.id)}>
            Go on with it
          </button>
        )}
        {summary.result && !closed && (
          <button type="button" class="primary" onClick={() => setClosing(true)}>
            Say what was wrong
          </button>
        )}
        <button type="button" class="answer" onClick={() => file(() => exportCsv(log, summary.id, session.entries))}>
          Table (CSV)
        </button>
        <button type="button" class="answer" onClick={() => file(() => exportJson(log, summary.id, { appVersion: APP_VERSION }))}>
          Whole log (JSON)
        </button>
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </div>
    </main>
  )
}
