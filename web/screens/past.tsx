import { useEffect, useState } from 'preact/hooks'
import { results } from '../../content/en-labels.ts'
import { keep } from '../log/keep.ts'
import type { Log, SessionSummary } from '../log/log.ts'
import type * as ReviewFile from './review.tsx'
import { Timeline } from './timeline.tsx'
import { Title } from './title.tsx'

const day = (iso: string) => `${iso.slice(0, 10)} ${iso.slice(11, 16)}`

/** The latest ones; the review has them all. */
const MOST = 50

/** The log: past sessions, newest first. */
export const Past = ({ log, leave, resume }: { log: Log; leave: () => void; resume: (id: string) => void }) => {
  const [sessions, setSessions] = useState<readonly SessionSummary[] | undefined>()
  const [chosen, setChosen] = useState<SessionSummary | undefined>()
  const [problem, setProblem] = useState('')
  const [kept, setKept] = useState<boolean | undefined>()
  const [review, setReview] = useState<{ file: typeof ReviewFile } | undefined>()
  useEffect(() => {
    log.sessions().then(
      all => setSessions(all.filter(s => !s.imported)),
      e => setProblem(String(e?.message ?? e)),
    )
    keep().then(setKept, () => setKept(false))
  }, [log, chosen, review])
  const openReview = () =>
    import('./review.tsx').then(
      file => setReview({ file }),
      () => setProblem('A part of this app is not stored yet. Open it once with a network.'),
    )
  if (review) return <review.file.Review log={log} leave={() => setReview(undefined)} />
  if (chosen) return <Timeline log={log} summary={chosen} back={() => setChosen(undefined)} resume={resume} />
  return (
    <main class="place">
      <Title text="Past sessions" step="past" />
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      {sessions?.length === 0 && <p>None yet.</p>}
      <ul class="sessions">
        {sessions?.slice(0, MOST).map(s => (
          <li key={s.id}>
            <button type="button" class="answer two" onClick={() => setChosen(s)}>
              {s.machineName}
              <small>
                {day(s.startedAt)} · {s.result ? results[s.result]?.title : 'not finished'}
                {s.wrong ? ` · ${[s.branch, s.wrong].filter(Boolean).join(': ')}` : ''}
              </small>
            </button>
          </li>
        ))}
      </ul>
      {kept !== undefined && (
        <p>{kept ? 'The phone keeps this log.' : 'The phone may clear this log when space runs short. Save a file of what matters.'}</p>
      )}
      <div class="actions">
        <button type="button" class="answer" onClick={openReview}>
          Search, charts, files
        </button>
        <button type="button" class="plain" onClick={leave}>
          Back
        </button>
      </div>
    </main>
  )
}
