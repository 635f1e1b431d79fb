import { useEffect, useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import type { Log, SessionSummary } from '../log/log.ts'
import { csvOf } from '../machines/csv.ts'
import { first, problemWords, words, wrongWord } from '../words.ts'
import { share } from './share.ts'
import { Timeline } from './timeline.tsx'
import { Title } from './title.tsx'

interface OneProps {
  readonly log: Log
  readonly machine: Machine
  readonly retired: boolean
  readonly start: () => void
  readonly resume: (id: string) => void
  readonly describe: () => void
  readonly label: () => void
  readonly copy: () => void
  readonly retire: (retired: true | undefined) => void
  readonly back: () => void
}

/** One machine: what can be done with it, and what happened at it. */
export const MachineOne = ({ log, machine, retired, start, resume, describe, label, copy, retire, back }: OneProps) => {
  const [sessions, setSessions] = useState<readonly SessionSummary[]>([])
  const [chosen, setChosen] = useState<SessionSummary | undefined>()
  const [status, setStatus] = useState('')
  const { machines: say, labels, review } = words()
  useEffect(() => {
    log.sessions().then(
      all => setSessions(all.filter(({ machineId }) => machineId === machine.id)),
      e => setStatus(problemWords(e)),
    )
  }, [log, machine.id])
  if (chosen) return <Timeline log={log} summary={chosen} back={() => setChosen(undefined)} resume={resume} />
  const give = (name: string, mime: string, text: string) =>
    void share({ name, mime, text }).then(setStatus, e => setStatus(problemWords(e)))
  const file = machine.id.replace(/[^\w-]+/g, '-')
  const runs = machine.branches.flatMap(({ wiring = [] }) => wiring)
  const metres = runs.reduce((sum, { length }) => sum + length, 0)
  const button = (text: string, work: () => void) => (
    <button type="button" class="answer" onClick={work}>
      {text}
    </button>
  )
  return (
    <main class="place">
      <Title text={machine.name} step={`machine-${machine.id}`} />
      <p>{[machine.place, machine.id].filter(Boolean).join(' · ')}</p>
      <p>{say.known(machine.branches.length, runs.length, first().figures.round(metres, 1))}</p>
      {retired && <p>{say.isRetired}</p>}
      <p role="status">{status}</p>
      <div class="rows">
        {button(say.describeIt, describe)}
        {button(say.makeLabel, label)}
        {button(say.shareFile, () => give(`${file}.json`, 'application/json', `${JSON.stringify(machine, null, 2)}\n`))}
        {button(say.shareTable, () => give(`${file}.csv`, 'text/csv', csvOf(machine)))}
        {button(say.copy, copy)}
        {retired ? button(say.unretire, () => retire(undefined)) : button(say.retire, () => retire(true))}
      </div>
      <h2>{say.history}</h2>
      {sessions.length === 0 && <p>{say.noHistory}</p>}
      <div class="rows">
        {sessions.map(s => (
          <button type="button" class="answer two" key={s.id} onClick={() => setChosen(s)}>
            {s.result ? labels.results[s.result].title : review.notFinished}
            <small>
              {s.startedAt.slice(0, 10)} {s.startedAt.slice(11, 16)}
              {s.wrong ? ` · ${[s.branch, wrongWord(s.wrong)].filter(Boolean).join(': ')}` : ''}
            </small>
          </button>
        ))}
      </div>
      <div class="actions">
        <button type="button" class="primary" onClick={start}>
          {say.start}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
