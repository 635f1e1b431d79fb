import { useEffect, useState } from 'preact/hooks'
import { results, symptoms } from '../../content/en-labels.ts'
import { causes, duration, foundPlace, mechanisms, modes, termWord, times, timesDoubt, timesNote } from '../../content/en-record.ts'
import type { Session } from '../flow/request.ts'
import { closedForm } from '../log/closing.ts'
import { playedAgain } from '../log/digest.ts'
import { exportCsv, exportJson, exportLines } from '../log/export.ts'
import { factsOf } from '../log/facts.ts'
import { type Facts, type Log, originOf, type SessionSummary, type StoredEvent } from '../log/log.ts'
import type { People } from '../log/sheet.ts'
import { Pairs } from './pairs.tsx'
import { day, faultWord } from './reviewFilter.ts'
import { ReviewRecord } from './reviewRecord.tsx'
import { ReviewReport } from './reviewReport.tsx'
import { ReviewSteps } from './reviewSteps.tsx'
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
export const Times = ({ facts }: { facts: Facts }) => (
  <>
    <dl class="means">
      {times.map(({ key, name, meaning }) => {
        const seconds = facts.times[key]
        return (
          <div key={key}>
            <dt>
              {name}: {seconds === undefined ? 'not known' : duration(seconds)}
              {key === 'down' &&
                seconds !== undefined &&
                (facts.times.downIsTold ? ', from when it was told' : ', from the session’s start')}
            </dt>
            <dd>{meaning}</dd>
          </div>
        )
      })}
    </dl>
    <p class="why">
      {timesNote} {facts.times.doubtful ? timesDoubt : ''}
    </p>
  </>
)

/** One session: what was found, the record, the times, and every step. */
export const ReviewSession = (p: { log: Log; summary: SessionSummary | undefined; changed: () => Promise<unknown>; back: () => void }) => {
  const { log, summary } = p
  const [opened, setOpened] = useState<Opened | undefined>()
  const [status, setStatus] = useState('')
  const [view, setView] = useState<'session' | 'record' | 'report'>('session')
  const fail = (reason: unknown) => setStatus(reason instanceof Error ? reason.message : String(reason))
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
        <Title text={summary?.machineName ?? 'This session is not in the log'} step="session" />
        <p role="status">{status || 'Reading the log …'}</p>
        <div class="actions">
          <button type="button" class="plain" onClick={p.back}>
            Back to the list
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
        opened={opened}
        back={here}
        save={async (event, person) => {
          if (person) await log.savePerson(person)
          await log.append(summary.id, event)
          await p.changed()
          setStatus('Saved')
          here()
        }}
      />
    )
  if (view === 'report') return <ReviewReport opened={opened} back={here} />
  const file = (make: () => Promise<{ name: string; mime: string; text: string }>) => make().then(share).then(setStatus, fail)
  const name = people.find(({ code }) => code === record?.who)?.name
  const stretch = facts.found?.alongRun
  return (
    <main class="place review">
      <Title text={summary.machineName} step="session" />
      <p>
        {day(summary.startedAt)} · {started?.type === 'started' ? symptoms[started.symptom] : ''} ·{' '}
        {summary.result ? results[summary.result]?.title : 'not finished'}
      </p>
      {originOf(summary.id) !== summary.id && <p>This is another telling of a session that the log holds differently.</p>}
      <section>
        <h2>Found</h2>
        {facts.found ? (
          <Pairs
            rows={[
              ['Fault', faultWord(facts.found.fault)],
              ['Branch', facts.found.branch],
              ['Place', foundPlace(facts.found)],
              ['Along the run', stretch && `${stretch.best.toFixed(1)} m, ${stretch.low.toFixed(1)} to ${stretch.high.toFixed(1)}`],
            ]}
          />
        ) : (
          <p>No finding was confirmed.</p>
        )}
      </section>
      <section>
        <h2>Record</h2>
        {closed ? (
          <Pairs
            rows={[
              ['What was wrong', closed.wrong],
              [modes.name, record?.mode && termWord(record.mode)],
              [mechanisms.name, record?.mechanism && termWord(record.mechanism)],
              [causes.name, record?.cause && termWord(record.cause)],
              ['Mended', record?.mended],
              ['With', record?.material],
              ['By', record?.who && (name ? `${record.who}, ${name}` : record.who)],
              ['Note', closed.note],
            ]}
          />
        ) : (
          <p>Not filled in yet.</p>
        )}
        <button type="button" class="answer" onClick={() => setView('record')}>
          Fill in the record
        </button>
      </section>
      <section>
        <h2>Times</h2>
        <Times facts={facts} />
      </section>
      <ReviewSteps events={events} session={session} />
      <p role="status">{status}</p>
      <div class="actions flow">
        <button type="button" class="answer" onClick={() => setView('report')}>
          Report to print and sign
        </button>
        {session && (
          <button type="button" class="answer" onClick={() => file(() => exportCsv(log, summary.id, session.entries))}>
            Table (CSV)
          </button>
        )}
        <button type="button" class="answer" onClick={() => file(() => exportJson(log, summary.id, { appVersion: APP_VERSION }))}>
          Whole log (JSON)
        </button>
        <button type="button" class="answer" onClick={() => file(() => exportLines(log, summary.id))}>
          Whole log, a line an event
        </button>
        <button type="button" class="plain" onClick={p.back}>
          Back to the list
        </button>
      </div>
    </main>
  )
}
