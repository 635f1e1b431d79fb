import { useEffect, useState } from 'preact/hooks'
import { keep } from '../log/keep.ts'
import type { Log, SessionSummary } from '../log/log.ts'
import { first, problemWords, words, wrongWord } from '../words.ts'
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
  const { review: say, labels } = words()
  useEffect(() => {
    log.sessions().then(
      all => setSessions(all.filter(s => !s.imported)),
      e => setProblem(problemWords(e)),
    )
    keep().then(setKept, () => setKept(false))
  }, [log, chosen, review])
  const openReview = () =>
    import('./review.tsx').then(
      file => setReview({ file }),
      () => setProblem(first().notStored),
    )
  if (review) return <review.file.Review log={log} leave={() => setReview(undefined)} />
  if (chosen) return <Timeline log={log} summary={chosen} back={() => setChosen(undefined)} resume={resume} />
  return (
    <main class="place">
      <Title text={say.past.title} step="past" />
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      {sessions?.length === 0 && <p>{say.past.none}</p>}
      <ul class="sessions">
        {sessions?.slice(0, MOST).map(s => (
          <li key={s.id}>
            <button type="button" class="answer two" onClick={() => setChosen(s)}>
              {s.machineName}
              <small>
                {day(s.startedAt)} · {s.result ? labels.results[s.result].title : say.notFinished}
                {s.wrong ? ` · ${[s.branch, wrongWord(s.wrong)].filter(Boolean).join(': ')}` : ''}
              </small>
            </button>
          </li>
        ))}
      </ul>
      {kept !== undefined && <p>{kept ? say.past.kept : say.past.notKept}</p>}
      <div class="actions">
        <button type="button" class="answer" onClick={openReview}>
          {say.past.review}
        </button>
        <button type="button" class="plain" onClick={leave}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
