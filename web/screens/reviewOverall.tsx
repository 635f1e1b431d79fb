import { TIME_KEYS } from '../../content/shared/ids.ts'
import { distinct } from '../log/counts.ts'
import { findingsOf } from '../log/facts.ts'
import type { SessionSummary } from '../log/log.ts'
import { first, words } from '../words.ts'
import { day, foundWords } from './reviewFilter.ts'
import { Title } from './title.tsx'

/** All sessions of the list as a page to print: of a machine, of a month, or of whatever the filters let through. Each time is defined below. */
export const ReviewOverall = ({ sessions, back }: { sessions: readonly SessionSummary[]; back: () => void }) => {
  const { keeping, record, review } = words()
  const { overall: say } = keeping
  const { duration } = first().figures
  const all = distinct(sessions)
  const machines = new Set(all.map(({ machineName }) => machineName))
  const days = all.map(({ startedAt }) => startedAt.slice(0, 10)).sort()
  const what = [machines.size === 1 ? [...machines][0] : '', [...new Set([days[0], days.at(-1)])].join(' – ')].filter(Boolean).join(', ')
  return (
    <main class="place review">
      <Title text={say.title(what)} step="overall" />
      <p>{say.sum(all.length, findingsOf(all).length)}</p>
      <ul class="overall">
        {all.map(session => {
          const took = TIME_KEYS.flatMap(key => {
            const seconds = session.facts?.times[key]
            return seconds === undefined ? [] : [`${record.times[key].name}: ${duration(seconds)}`]
          })
          return (
            <li key={session.id}>
              <strong>
                {day(session.startedAt)}
                {machines.size === 1 ? '' : ` ${session.machineName}`}
              </strong>
              {[foundWords(session), ...took].filter(Boolean).map(line => (
                <span key={line}>{line}</span>
              ))}
            </li>
          )
        })}
      </ul>
      <dl class="means">
        {TIME_KEYS.map(key => (
          <div key={key}>
            <dt>{record.times[key].name}</dt>
            <dd>{record.times[key].meaning}</dd>
          </div>
        ))}
      </dl>
      <p class="why">{record.timesNote}</p>
      <div class="actions flow">
        <button type="button" class="primary" onClick={() => print()}>
          {review.print}
        </button>
        <button type="button" class="plain" onClick={back}>
          {review.list.files}
        </button>
      </div>
    </main>
  )
}
