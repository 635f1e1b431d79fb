import { useEffect, useState } from 'preact/hooks'
import type { Session } from '../flow/request.ts'
import { replay } from '../flow/session.ts'
import { closedForm } from '../log/closing.ts'
import { exportCsv, exportJson } from '../log/export.ts'
import type { Log, SessionSummary, StoredEvent } from '../log/log.ts'
import { answersIn } from '../log/standing.ts'
import { first, problemWords, words, wrongWord } from '../words.ts'
import { Closing } from './closing.tsx'
import { useLeaving } from './leaving.tsx'
import { share } from './share.ts'
import { Title } from './title.tsx'
import { answered, asked } from './told.ts'

/** Set by the build, from package.json. */
declare const APP_VERSION: string

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
  const { leave, box } = useLeaving(log, setStatus)
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
  const answers = answersIn(events)
  const closed = closedForm(events)
  const fail = (reason: unknown) => setStatus(problemWords(reason))
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
      {box}
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
        <button type="button" class="answer" onClick={() => exportCsv(log, summary.id, session.entries).then(share).then(setStatus, fail)}>
          {say.csv}
        </button>
        <button
          type="button"
          class="answer"
          onClick={() =>
            exportJson(log, summary.id, { appVersion: APP_VERSION })
              .then(made => leave([made], [summary]))
              .catch(fail)
          }
        >
          {say.json}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
