// One session on at most two A4 pages, black on white, ready for a signature. Shown on the screen, printed, and saved as a file.
import { findingSentence } from '../../content/en-findings.ts'
import { results, symptoms } from '../../content/en-labels.ts'
import { causes, duration, foundPlace, mechanisms, modes, sealWords, termWord, times, timesDoubt } from '../../content/en-record.ts'
import type { Kit } from '../../engine/machine.ts'
import { closedForm } from '../log/closing.ts'
import { answersIn } from '../log/facts.ts'
import { originOf } from '../log/log.ts'
import { grouped, type Seal } from '../log/seal.ts'
import { FindingDrawing, placeOf } from './finding.tsx'
import { Pairs } from './pairs.tsx'
import { cut, fitting, MOST_LINES, type ReportRow, reportRows } from './reportRows.ts'
import { day } from './reviewFilter.ts'
import type { Opened } from './reviewSession.tsx'

const kitWords = ({ clamp, injector, qualified }: Kit): string =>
  [
    'multimeter',
    clamp ? 'clamp' : '',
    injector ? `current source ${injector.ampere} A, ${injector.volts} V` : '',
    qualified ? 'electrically qualified' : '',
  ]
    .filter(Boolean)
    .join(', ')

const Readings = ({ rows }: { rows: readonly ReportRow[] }) => (
  <>
    {rows.map(({ n, time, what, value, after }) => (
      <li key={n}>
        <span>
          {n}. {time}
        </span>{' '}
        {what}: <b>{value}</b>
        {after ? ' (after the repair)' : ''}
      </li>
    ))}
  </>
)
const Sign = ({ who }: { who: string }) => (
  <div class="sign-line">
    <span>{who}</span>
    <span>Date</span>
  </div>
)

export const Report = ({ opened, seal, withName }: { opened: Opened; seal: Seal; withName: boolean }) => {
  const { summary, events, session, facts, people } = opened
  const closed = closedForm(events)
  const record = closed?.record
  const started = events[0]?.event
  const machine = started?.type === 'started' ? started.machine : undefined
  const rows = session ? reportRows(session.entries, answersIn(events)) : []
  const { head, tail } = fitting(rows, MOST_LINES)
  const left = rows.length - head.length - tail.length
  const stretch = facts.found?.alongRun
  const finding = session?.finding
  const name = withName ? people.find(({ code }) => code === record?.who)?.name : undefined
  return (
    <article class="report">
      <h1>
        {cut(summary.machineName, 80)}: session of {day(summary.startedAt)}
      </h1>
      <Pairs
        rows={[
          ['Machine', machine && cut([machine.id, machine.place].filter(Boolean).join(', '), 120)],
          ['Symptom', started?.type === 'started' ? symptoms[started.symptom] : undefined],
          ['Result', summary.result ? results[summary.result]?.title : 'not finished'],
          ['Kit', started?.type === 'started' ? kitWords(started.kit) : undefined],
          ['Technician', record?.who && cut(name ? `${record.who}, ${name}` : record.who, 80)],
          ['Steps', session ? String(session.entries.length) : undefined],
          ['Time zone', events[0]?.zone && cut(events[0].zone, 40)],
        ]}
      />
      <section class="finding">
        <h2>Finding</h2>
        {facts.found ? (
          <p>
            <b>
              {[facts.found.branch, foundPlace(facts.found)]
                .filter(Boolean)
                .map(word => cut(word ?? '', 60))
                .join(', ')}
              {stretch
                ? `, ${stretch.best.toFixed(1)} m from its near end (${stretch.low.toFixed(1)} to ${stretch.high.toFixed(1)} m)`
                : ''}
            </b>
            . {findingSentence(facts.found, finding && session ? placeOf(session, finding) : {})}
          </p>
        ) : (
          <p>No finding was confirmed.</p>
        )}
        {finding && session && <FindingDrawing session={session} finding={finding} />}
      </section>
      <section>
        <h2>Record</h2>
        <Pairs
          rows={[
            ['What was wrong', closed && cut(closed.wrong, 80)],
            [modes.name, record?.mode && cut(termWord(record.mode), 60)],
            [mechanisms.name, record?.mechanism && cut(termWord(record.mechanism), 60)],
            [causes.name, record?.cause && cut(termWord(record.cause), 60)],
            ['Mended by', record?.mended && cut(record.mended, 160)],
            ['With', record?.material && cut(record.material, 160)],
            ['Note', closed && cut(closed.note, 400)],
          ]}
        />
      </section>
      <section>
        <h2>Times</h2>
        <Pairs
          rows={times.map(({ key, name, meaning }) => {
            const seconds = facts.times[key]
            return [name, `${seconds === undefined ? 'not known' : duration(seconds)}. ${meaning}`] as const
          })}
        />
        {facts.times.doubtful && <p>{timesDoubt}</p>}
      </section>
      <section>
        <h2>Readings and looks</h2>
        {!session && <p>Led by another version of the procedure. The exported log holds all answers.</p>}
        <ol class="readings">
          <Readings rows={head} />
          {left > 0 && <li>… {left} more in the exported log …</li>}
          <Readings rows={tail} />
        </ol>
      </section>
      <section class="seal">
        <h2>Seal</h2>
        <p>
          Session {originOf(summary.id)}, {seal.count} events, SHA-256 head <code>{grouped(seal.head)}</code>. {sealWords}
        </p>
      </section>
      <div class="signs">
        <Sign who="Technician" />
        <Sign who="For maintenance" />
      </div>
    </article>
  )
}
