// One session on at most two A4 pages, black on white, ready for a signature. Shown on the screen, printed, and saved as a file.
import { TIME_KEYS } from '../../content/shared/ids.ts'
import type { Tools } from '../flow/request.ts'
import { closedForm } from '../log/closing.ts'
import { originOf } from '../log/log.ts'
import type { Photo } from '../log/photo.ts'
import { base64 } from '../log/photoFile.ts'
import { grouped, type Seal } from '../log/seal.ts'
import { answersIn, standing } from '../log/standing.ts'
import { first, termWord, words, wrongWord } from '../words.ts'
import { FindingDrawing, placeOf } from './finding.tsx'
import { Pairs } from './pairs.tsx'
import { cut, fitting, MOST_LINES, PHOTO_LINES, PHOTOS, type ReportRow, reportRows } from './reportRows.ts'
import { day } from './reviewFilter.ts'
import type { Opened } from './reviewSession.tsx'

/** Changes of the kit that are told, the latest, and the lines of readings that give each its room. */
const KITS = 4
const KIT_LINES = 4

const kitWords = ({ clamp, injector, qualified }: Tools): string => {
  const { report } = words()
  const { ampere, volt } = first().figures
  return [
    report.meter,
    clamp ? report.clamp : '',
    injector ? report.source(ampere(injector.ampere), volt(injector.volts)) : '',
    qualified ? report.qualified : '',
  ]
    .filter(Boolean)
    .join(', ')
}

const Readings = ({ rows }: { rows: readonly ReportRow[] }) => (
  <>
    {rows.map(({ n, time, what, value, after }) => (
      <li key={n}>
        <span>
          {n}. {time}
        </span>{' '}
        {what}: <b>{value}</b>
        {after ? ` ${words().report.afterRepair}` : ''}
      </li>
    ))}
  </>
)
const Sign = ({ who }: { who: string }) => (
  <div class="sign-line">
    <span>{who}</span>
    <span>{words().report.date}</span>
  </div>
)

interface ReportProps {
  readonly opened: Opened
  readonly seal: Seal
  readonly withName: boolean
  readonly photos: readonly Photo[]
}

export const Report = ({ opened, seal, withName, photos }: ReportProps) => {
  const { summary, events, session, facts, people } = opened
  const closed = closedForm(events)
  const record = closed?.record
  const started = events[0]?.event
  const machine = started?.type === 'started' ? started.machine : undefined
  const rows = session ? reportRows(session.entries, answersIn(events)) : []
  const kits = standing(events)
    .flatMap(({ event, wall }) =>
      event.type === 'kit' ? [[words().report.kitFrom(wall.slice(11, 16)), kitWords(event.kit)] as const] : [],
    )
    .slice(-KITS)
  const room = MOST_LINES - kits.length * KIT_LINES - (photos.length === 0 ? 0 : PHOTO_LINES)
  const { head, tail } = fitting(rows, room)
  const left = rows.length - head.length - tail.length
  const stretch = facts.found?.alongRun
  const { care, report: say, record: terms, review, labels, findings } = words()
  const { figures, symptoms, note } = first()
  const finding = session?.finding
  const name = withName ? people.find(({ code }) => code === record?.who)?.name : undefined
  return (
    <article class="report">
      <h1>{say.title(cut(summary.machineName, 80), day(summary.startedAt))}</h1>
      <Pairs
        rows={[
          [say.machine, machine && cut([machine.id, machine.place].filter(Boolean).join(', '), 120)],
          [say.symptom, started?.type === 'started' ? symptoms[started.symptom] : undefined],
          [say.result, summary.result ? labels.results[summary.result].title : review.notFinished],
          [say.kit, started?.type === 'started' ? kitWords(started.kit) : undefined],
          ...kits,
          [say.technician, record?.who && cut(name ? `${record.who}, ${name}` : record.who, 80)],
          [say.steps, session ? String(session.entries.length) : undefined],
          [say.zone, events[0]?.zone && cut(events[0].zone, 40)],
        ]}
      />
      <section class="finding">
        <h2>{say.finding}</h2>
        {facts.found ? (
          <p>
            <b>
              {[facts.found.branch, terms.foundPlace(facts.found)]
                .filter(Boolean)
                .map(word => cut(word ?? '', 60))
                .join(', ')}
              {stretch ? `, ${say.along(figures.metres(stretch.best), figures.fixed(stretch.low, 1), figures.metres(stretch.high))}` : ''}
            </b>
            . {findings.findingSentence(facts.found, finding && session ? placeOf(session, finding) : {})}
          </p>
        ) : (
          <p>{say.noFinding}</p>
        )}
        {finding && session && <FindingDrawing session={session} finding={finding} />}
      </section>
      <section>
        <h2>{say.record}</h2>
        <Pairs
          rows={[
            [terms.wrong, closed && cut(wrongWord(closed.wrong), 80)],
            [terms.modes.name, record?.mode && cut(termWord(record.mode), 60)],
            [terms.mechanisms.name, record?.mechanism && cut(termWord(record.mechanism), 60)],
            [terms.causes.name, record?.cause && cut(termWord(record.cause), 60)],
            [say.mendedBy, record?.mended && cut(record.mended, 160)],
            [say.with, record?.material && cut(record.material, 160)],
            [care.after.title, record?.checked && `${record.checked.length}/${care.after.points.length}`],
            [say.note, closed && cut(closed.note, 400)],
          ]}
        />
      </section>
      <section>
        <h2>{say.times}</h2>
        <Pairs
          rows={TIME_KEYS.map(key => {
            const { name, meaning } = terms.times[key]
            const seconds = facts.times[key]
            return [name, `${seconds === undefined ? review.notKnown : figures.duration(seconds)}. ${meaning}`] as const
          })}
        />
        {facts.times.doubtful && <p>{terms.timesDoubt}</p>}
      </section>
      <section>
        <h2>{say.readings}</h2>
        {!session && <p>{say.otherVersion}</p>}
        <ol class="readings">
          <Readings rows={head} />
          {left > 0 && <li>{say.more(left)}</li>}
          <Readings rows={tail} />
        </ol>
      </section>
      {photos.length > 0 && (
        <section class="photo-row">
          {photos.slice(0, PHOTOS).map((photo, i) => (
            <img key={photo.hash} src={`data:${photo.type};base64,${base64(photo.bytes)}`} alt={words().keeping.photos.alt(i + 1)} />
          ))}
        </section>
      )}
      <section class="seal">
        <h2>{say.seal}</h2>
        <p>
          {say.sealed(originOf(summary.id), seal.count)} <code>{grouped(seal.head)}</code>. {terms.sealWords}
        </p>
      </section>
      <div class="signs">
        <Sign who={say.technician} />
        <Sign who={say.maintenance} />
      </div>
      {note && <p class="source">{note}</p>}
    </article>
  )
}
