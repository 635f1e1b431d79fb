import { useEffect, useMemo } from 'preact/hooks'
import { duration, foundPlace, termWord } from '../../content/en-record.ts'
import { distinct, failedAgain, monthOf, notDone, pareto, type Share, type Typical, timeToFind } from '../log/counts.ts'
import { findingsOf } from '../log/facts.ts'
import type { SessionSummary } from '../log/log.ts'
import { type Bar, Chart } from './reviewBars.tsx'
import { day, faultWord } from './reviewFilter.ts'
import { Title } from './title.tsx'

const shares = (list: readonly Share[]): Bar[] =>
  list.map(({ key, count, upTo }) => ({ name: key, value: count, label: String(count), upTo }))
const typical = (list: readonly Typical[]): Bar[] =>
  list.map(({ key, count, median }) => ({ name: key, value: median, label: `${duration(median)}, ${count} found` }))
const metres = (x: number) => `${x.toFixed(1)} m`

interface ChartsProps {
  readonly sessions: readonly SessionSummary[]
  readonly open: (id: string) => void
  readonly back: () => void
}

/** Which branch, what, how long, where again, and what could not be done: of the sessions that the list shows. */
export const ReviewCharts = ({ sessions, open, back }: ChartsProps) => {
  const counted = useMemo(() => {
    const all = distinct(sessions)
    const found = all.flatMap(({ machineName, facts }) => (facts?.found ? [{ machineName, ...facts.found }] : []))
    return {
      all: all.length,
      learned: findingsOf(all).length,
      branches: shares(pareto(found.map(f => `${f.machineName} · ${f.branch ?? 'supply'}`))),
      whats: shares(pareto(found.map(f => faultWord(f.fault)))),
      mechanisms: shares(pareto(all.flatMap(({ facts }) => (facts?.mechanism ? [termWord(facts.mechanism)] : [])))),
      byMachine: typical(timeToFind(all, s => s.machineName)).sort((a, b) => b.value - a.value),
      byMonth: typical(timeToFind(all, monthOf)),
      again: failedAgain(all),
      refused: shares(notDone(all)),
    }
  }, [sessions])
  useEffect(() => {
    // On paper a table cannot be opened.
    const opened = () => {
      for (const table of document.querySelectorAll('details')) table.open = true
    }
    addEventListener('beforeprint', opened)
    return () => removeEventListener('beforeprint', opened)
  }, [])
  return (
    <main class="place review">
      <Title text="Charts of the log" step="charts" />
      <p>
        {counted.all} sessions, {counted.learned} with a confirmed finding.
      </p>
      <Chart
        title="Which branch"
        note="Confirmed findings. The dots are the running share of all."
        bars={counted.branches}
        heads={['Branch', 'found']}
      />
      <Chart
        title="What it was"
        note="Confirmed findings. The dots are the running share of all."
        bars={counted.whats}
        heads={['Fault', 'found']}
      />
      <Chart
        title="Failure mechanism"
        note="From the records, ISO 14224 table B.2 (numbers from memory)."
        bars={counted.mechanisms}
        heads={['Mechanism', 'recorded']}
      />
      <Chart
        title="Time to find, by machine"
        note="Median from the session’s start to the confirmed place: diagnosis."
        bars={counted.byMachine}
        heads={['Machine', 'median']}
      />
      <Chart
        title="Time to find, by month"
        note="Median from the session’s start to the confirmed place: diagnosis."
        bars={counted.byMonth}
        heads={['Month', 'median']}
      />
      <section>
        <h2>Places that failed again</h2>
        <p class="why">The same load, or the same run within 2 m of the fault before (common practice, no source).</p>
        {counted.again.length === 0 && <p>None.</p>}
        {counted.again.length > 0 && (
          <table>
            <thead>
              <tr>
                <th>Place</th>
                <th>Times</th>
                <th>Sessions</th>
              </tr>
            </thead>
            <tbody>
              {counted.again.slice(0, 20).map(place => (
                <tr key={place.sessions[0]?.id}>
                  <td>
                    {place.machineName} · {place.branch} · {foundPlace(place)}
                    {place.from === undefined || place.to === undefined
                      ? ''
                      : place.to - place.from < 0.1
                        ? `, ${metres(place.from)}`
                        : `, ${metres(place.from)} to ${metres(place.to)}`}
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
      <Chart
        title="Steps that could not be done"
        note="With the reason that was given."
        bars={counted.refused}
        heads={['Step and reason', 'times']}
      />
      <div class="actions flow">
        <button type="button" class="answer" onClick={() => print()}>
          Print
        </button>
        <button type="button" class="plain" onClick={back}>
          Back to the list
        </button>
      </div>
    </main>
  )
}
