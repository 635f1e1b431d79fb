import { useEffect, useState } from 'preact/hooks'
import { word } from '../../content/shared/ids.ts'
import type { Entry, Request, Session } from '../flow/request.ts'
import { replay } from '../flow/session.ts'
import { closedForm } from '../log/closing.ts'
import { exportCsv, exportJson } from '../log/export.ts'
import type { Log, SessionSummary, StoredEvent } from '../log/log.ts'
import { standing } from '../log/standing.ts'
import { first, problemWords, words, wrongWord } from '../words.ts'
import { Closing } from './closing.tsx'
import { placeOf } from './finding.tsx'
import { namesFor } from './names.ts'
import { share } from './share.ts'
import { Title } from './title.tsx'

/** Set by the build, from package.json. */
declare const APP_VERSION: string

export const asked = (session: Session, request: Request): string => {
  const { cautions, findings, labels, steps } = words()
  if (request.say === 'confirm') return cautions[request.caution].title
  if (request.say === 'mend') return findings.mend(request.finding, placeOf(session, request.finding)).title
  if (request.say === 'end') return labels.results[request.result].title
  const { step } = request
  return step.kind === 'finding'
    ? findings.findingTitle(step.finding, placeOf(session, step.finding))
    : steps.stepTitle(step, namesFor(session, step))
}
const unitOf = (request: Request): string => {
  if (request.say !== 'step') return ''
  if (request.step.kind === 'read') return { volt: 'V', ohm: 'Ω', amp: 'A' }[request.step.meter]
  return 'Ω'
}
export const answered = ({ request, answer }: Entry): string => {
  const { labels } = words()
  if (!('seen' in answer)) return labels.answerWords({ ...answer }, unitOf(request))
  return request.say === 'step' && request.step.kind === 'look' ? word(labels.seen[request.step.look], answer.seen) : answer.seen
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
  const { labels, review: say, session: sessionWords } = words()
  const load = () => log.events(summary.id).then(events => setLoaded({ events, session: replay(events.map(e => e.event)) }))
  useEffect(() => {
    load().catch(e => setStatus(problemWords(e)))
  }, [summary.id])
  if (!loaded)
    return (
      <main class="place">
        <Title text={summary.machineName} step="timeline" />
        <p role="status">{status || say.reading}</p>
      </main>
    )
  const { session, events } = loaded
  // One answer that was not taken back for each of the session's entries, in order.
  const answers = standing(events).filter(({ event }) => event.type === 'answered')
  const closed = closedForm(events)
  const file = (make: () => Promise<{ name: string; mime: string; text: string }>) =>
    make()
      .then(share)
      .then(setStatus, e => setStatus(problemWords(e)))
  if (closing)
    return (
      <main class="place">
        <Closing
          log={log}
          id={summary.id}
          session={session}
          save={event =>
            log
              .append(summary.id, event)
              .then(load)
              .then(() => setStatus(sessionWords.saved))
              .catch(e => setStatus(problemWords(e)))
              .then(() => setClosing(false))
          }
        />
      </main>
    )
  return (
    <main class="place">
      <Title text={summary.machineName} step="timeline" />
      <p>
        {summary.startedAt.slice(0, 10)} · {first().symptoms[session.symptom]} ·{' '}
        {summary.result ? labels.results[summary.result].title : say.notFinished}
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
      {closed && (
        <p>
          {say.closed}: {[closed.branch, wrongWord(closed.wrong), closed.note].filter(Boolean).join(' · ')}
        </p>
      )}
      <p role="status">{status}</p>
      <div class="actions flow">
        {!summary.result && (
          <button type="button" class="primary" onClick={() => resume(summary.id)}>
            {say.goOn}
          </button>
        )}
        {summary.result && !closed && (
          <button type="button" class="primary" onClick={() => setClosing(true)}>
            {sessionWords.end.sayWrong}
          </button>
        )}
        <button type="button" class="answer" onClick={() => file(() => exportCsv(log, summary.id, session.entries))}>
          {say.csv}
        </button>
        <button type="button" class="answer" onClick={() => file(() => exportJson(log, summary.id, { appVersion: APP_VERSION }))}>
          {say.json}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
