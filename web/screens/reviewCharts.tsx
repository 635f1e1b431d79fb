import { useMemo } from 'preact/hooks'
import { said } from '../../content/shared/ids.ts'
import { distinct, failedAgain, monthOf, notDone, pareto, type Share, type Typical, timeToFind } from '../log/counts.ts'
import { findingsOf } from '../log/facts.ts'
import type { SessionSummary } from '../log/log.ts'
import { faultWord, first, language, termWord, words } from '../words.ts'
import { refusedWords } from './refusedWords.ts'
import { type Bar, Chart, useOpenedOnPaper } from './reviewBars.tsx'
import { day } from './reviewFilter.ts'
import { Title } from './title.tsx'

const shares = (list: readonly Share[]): Bar[] =>
  list.map(({ key, count, upTo }) => ({ name: key, value: count, label: String(count), upTo }))
const typical = (list: readonly Typical[]): Bar[] =>
  list.map(({ key, count, median }) => ({
    name: key,
    value: median,
    label: words().review.charts.found(first().figures.duration(median), count),
  }))

interface ChartsProps {
  readonly sessions: readonly SessionSummary[]
  readonly open: (id: string) => void
  readonly back: () => void
}

/** Which branch, what, how long, where again, and what could not be done: of the sessions that the list shows. */
export const ReviewCharts = ({ sessions, open, back }: ChartsProps) => {
  const { review, record } = words()
  const { charts: say } = review
  const { metres } = first().figures
  const counted = useMemo(() => {
    const all = distinct(sessions)
    const found = all.flatMap(({ machineName, facts }) => (facts?.found ? [{ machineName, ...facts.found }] : []))
    return {
      all: all.length,
      learned: findingsOf(all).length,
      branches: shares(pareto(found.map(f => `${f.machineName} · ${f.branch ?? say.supply}`))),
      whats: shares(pareto(found.map(f => faultWord(f.fault)))),
      mechanisms: shares(pareto(all.flatMap(({ facts }) => (facts?.mechanism ? [termWord(facts.mechanism)] : [])))),
      byMachine: typical(timeToFind(all, s => s.machineName)).sort((a, b) => b.value - a.value),
      byMonth: typical(timeToFind(all, monthOf)),
      again: failedAgain(all),
      refused: shares(notDone(all, ({ what, why }) => `${refusedWords(what)}: ${said(words().labels.cannots, why)}`)),
    }
  }, [sessions, language()])
  useOpenedOnPaper()
  return (
    <main class="place review">
      <Title text={say.title} step="charts" />
      <p>{say.counted(counted.all, counted.learned)}</p>
      <Chart {...say.branch} note={say.share} bars={counted.branches} />
      <Chart {...say.what} note={say.share} bars={counted.whats} />
      <Chart {...say.mechanism} bars={counted.mechanisms} />
      <Chart {...say.byMachine} note={say.diagnosis} bars={counted.byMachine} />
      <Chart {...say.byMonth} note={say.diagnosis} bars={counted.byMonth} />
      <section>
        <h2>{say.again.title}</h2>
        <p class="why">{say.again.note}</p>
        {counted.again.length === 0 && <p>{say.again.none}</p>}
        {counted.again.length > 0 && (
          <table>
            <thead>
              <tr>
                <th>{say.again.place}</th>
                <th>{say.again.times}</th>
                <th>{say.again.sessions}</th>
              </tr>
            </thead>
            <tbody>
              {counted.again.slice(0, 20).map(place => (
                <tr key={place.sessions[0]?.id}>
                  <td>
                    {place.machineName} · {place.branch} · {record.foundPlace(place)}
                    {place.from === undefined || place.to === undefined
                      ? ''
                      : place.to - place.from < 0.1
                        ? `, ${metres(place.from)}`
                        : `, ${say.again.stretch(metres(place.from), metres(place.to))}`}
                  </td>
                  <td>{place.sessions.length}</td>
                  <td>
                    {place.sessions.slice(-3).map(s => (
                      <button key={s.id} type="button" class="link" onClick={() => open(s.id)}>
                        {day(s.startedAt).slice(0, 10)}
                      </button>
                    ))}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </section>
      <Chart {...say.refused} bars={counted.refused} />
      <div class="actions flow">
        <button type="button" class="answer" onClick={() => print()}>
          {review.print}
        </button>
        <button type="button" class="plain" onClick={back}>
          {review.toList}
        </button>
      </div>
    </main>
  )
}
