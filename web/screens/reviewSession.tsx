import { useEffect, useState } from 'preact/hooks'
import { TIME_KEYS } from '../../content/shared/ids.ts'
import type { Session } from '../flow/request.ts'
import { closedForm } from '../log/closing.ts'
import { COMMA, POINT } from '../log/csv.ts'
import { playedAgain } from '../log/digest.ts'
import { type ExportFile, exportCsv, exportJson, exportLines } from '../log/export.ts'
import { factsOf } from '../log/facts.ts'
import { type Facts, type Log, originOf, type SessionSummary, type StoredEvent } from '../log/log.ts'
import type { People } from '../log/sheet.ts'
import { faultWord, first, problemWords, termWord, words, wrongWord } from '../words.ts'
import { useLeaving } from './leaving.tsx'
import { Pairs } from './pairs.tsx'
import { Photos } from './photos.tsx'
import { day } from './reviewFilter.ts'
import { ReviewRecord } from './reviewRecord.tsx'
import { ReviewReport } from './reviewReport.tsx'
import { ReviewSteps } from './reviewSteps.tsx'
import { ReviewTrend } from './reviewTrend.tsx'
import { share } from './share.ts'
import { Title } from './title.tsx'

declare const APP_VERSION: string

export interface Opened {
  readonly summary: SessionSummary
  readonly events: readonly StoredEvent[]
  /** The events played again; nothing where this version's procedure cannot. */
  readonly session: Session | undefined
  readonly facts: Facts
  readonly people: People
}

/** The times of maintenance, each with its meaning. */
export const Times = ({ facts }: { facts: Facts }) => {
  const { record: terms, review } = words()
  return (
    <>
      <dl class="means">
        {TIME_KEYS.map(key => {
          const { name, meaning } = terms.times[key]
          const seconds = facts.times[key]
          return (
            <div key={key}>
              <dt>
                {name}: {seconds === undefined ? review.notKnown : first().figures.duration(seconds)}
                {key === 'down' &&
                  seconds !== undefined &&
                  (facts.times.downIsTold ? `, ${review.session.fromTold}` : `, ${review.session.fromStart}`)}
              </dt>
              <dd>{meaning}</dd>
            </div>
          )
        })}
      </dl>
      <p class="why">
        {terms.timesNote} {facts.times.doubtful ? terms.timesDoubt : ''}
      </p>
    </>
  )
}

interface SessionProps {
  readonly log: Log
  readonly all: readonly SessionSummary[]
  readonly summary: SessionSummary | undefined
  readonly changed: () => Promise<unknown>
  readonly back: () => void
}

/** One session: what was found, the record, the times, and every step. */
export const ReviewSession = (p: SessionProps) => {
  const { log, summary } = p
  const [opened, setOpened] = useState<Opened | undefined>()
  const [status, setStatus] = useState('')
  const [view, setView] = useState<'session' | 'record' | 'report' | 'trend'>('session')
  const { keeping, labels, record: terms, review } = words()
  const { session: say } = review
  const [comma, setComma] = useState(first().figures.sign === ',')
  const { leave, box } = useLeaving(log, setStatus)
  const fail = (reason: unknown) => setStatus(problemWords(reason))
  const load = async () => {
    if (!summary) return
    const [events, people] = await Promise.all([log.events(summary.id), log.people()])
    const session = playedAgain(events)
    setOpened({ summary, events, session, people, facts: factsOf(events, session) })
  }
  useEffect(() => {
    load().catch(fail)
  }, [summary])
  if (!summary || !opened)
    return (
      <main class="place review">
        <Title text={summary?.machineName ?? say.missing} step="session" />
        <p role="status">{status || review.reading}</p>
        <div class="actions">
          <button type="button" class="plain" onClick={p.back}>
            {review.toList}
          </button>
        </div>
      </main>
    )
  const { events, session, facts, people } = opened
  const closed = closedForm(events)
  const record = closed?.record
  const started = events[0]?.event
  const here = () => setView('session')
  if (view === 'record')
    return (
      <ReviewRecord
        log={log}
        opened={opened}
        back={here}
        save={async (event, person) => {
          if (person) await log.savePerson(person)
          await log.append(summary.id, event)
          await p.changed()
          setStatus(say.saved)
          here()
        }}
      />
    )
  if (view === 'report') return <ReviewReport log={log} opened={opened} back={here} />
  if (view === 'trend') return <ReviewTrend log={log} sessions={p.all} machine={summary.machineId} back={here} />
  const file = (make: () => Promise<ExportFile>) =>
    make()
      .then(made => leave([made], [summary]))
      .catch(fail)
  const table = (entries: Session['entries']) =>
    exportCsv(log, summary.id, entries, comma ? COMMA : POINT)
      .then(share)
      .then(setStatus, fail)
  const name = people.find(({ code }) => code === record?.who)?.name
  const stretch = facts.found?.alongRun
  const { fixed } = first().figures
  return (
    <main class="place review">
      <Title text={summary.machineName} step="session" />
      <p>
        {day(summary.startedAt)} · {started?.type === 'started' ? first().symptoms[started.symptom] : ''} ·{' '}
        {summary.result ? labels.results[summary.result].title : review.notFinished}
      </p>
      {originOf(summary.id) !== summary.id && <p>{say.otherTelling}</p>}
      <section>
        <h2>{say.found}</h2>
        {facts.found ? (
          <Pairs
            rows={[
              [say.fault, faultWord(facts.found.fault)],
              [say.branch, facts.found.branch],
              [say.place, terms.foundPlace(facts.found)],
              [say.along, stretch && say.stretch(fixed(stretch.best, 1), fixed(stretch.low, 1), fixed(stretch.high, 1))],
            ]}
          />
        ) : (
          <p>{say.noFinding}</p>
        )}
      </section>
      <section>
        <h2>{say.record}</h2>
        {closed ? (
          <Pairs
            rows={[
              [terms.wrong, wrongWord(closed.wrong)],
              [terms.modes.name, record?.mode && termWord(record.mode)],
              [terms.mechanisms.name, record?.mechanism && termWord(record.mechanism)],
              [terms.causes.name, record?.cause && termWord(record.cause)],
              [say.mended, record?.mended],
              [say.with, record?.material],
              [say.by, record?.who && (name ? `${record.who}, ${name}` : record.who)],
              [say.note, closed.note],
            ]}
          />
        ) : (
          <p>{say.notFilled}</p>
        )}
        <button type="button" class="answer" onClick={() => setView('record')}>
          {say.fill}
        </button>
      </section>
      <section>
        <h2>{say.times}</h2>
        <Times facts={facts} />
      </section>
      <Photos log={log} id={summary.id} named={record?.photos} />
      <ReviewSteps events={events} session={session} />
      <button type="button" class="answer" onClick={() => setView('trend')}>
        {keeping.trend.show}
      </button>
      <p role="status">{status}</p>
      {box}
      <div class="actions flow">
        <button type="button" class="answer" onClick={() => setView('report')}>
          {say.report}
        </button>
        {session && (
          <label class="choice">
            <input type="checkbox" checked={comma} onChange={e => setComma(e.currentTarget.checked)} />
            <span>{keeping.tables.comma}</span>
          </label>
        )}
        {session && (
          <button type="button" class="answer" onClick={() => table(session.entries)}>
            {review.csv}
          </button>
        )}
        <button type="button" class="answer" onClick={() => file(() => exportJson(log, summary.id, { appVersion: APP_VERSION }))}>
          {review.json}
        </button>
        <button type="button" class="answer" onClick={() => file(() => exportLines(log, summary.id))}>
          {review.lines}
        </button>
        <button type="button" class="plain" onClick={p.back}>
          {review.toList}
        </button>
      </div>
    </main>
  )
}
