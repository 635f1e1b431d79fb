import { useEffect, useState } from 'preact/hooks'
import { COMMA, POINT } from '../log/csv.ts'
import schema from '../log/export.schema.json'
import { type ExportFile, type Extras, exportMany } from '../log/export.ts'
import { readSessions } from '../log/import.ts'
import type { Log, SessionSummary } from '../log/log.ts'
import { exportOverview } from '../log/overview.ts'
import { exportPhotos } from '../log/photoFile.ts'
import { grouped, verify } from '../log/seal.ts'
import type { People } from '../log/sheet.ts'
import { takeIn } from '../log/takeIn.ts'
import { first, problemWords, words } from '../words.ts'
import { useLeaving } from './leaving.tsx'
import { ReviewDesk } from './reviewDesk.tsx'
import { day } from './reviewFilter.ts'
import { takenWords } from './reviewTaken.ts'
import { share } from './share.ts'
import { Title } from './title.tsx'

declare const APP_VERSION: string

/** More than any file of this app holds: a larger one is not even read into memory. */
const MOST_BYTES = 10_000_000

const FilePick = ({ name, taken }: { name: string; taken: (files: readonly File[]) => void }) => (
  <label class="answer file">
    {name}
    <input
      type="file"
      multiple
      accept=".json,.ndjson,.txt,application/json"
      onChange={e => {
        taken([...(e.currentTarget.files ?? [])])
        e.currentTarget.value = ''
      }}
    />
  </label>
)
const textOf = async (file: File): Promise<string> => {
  if (file.size > MOST_BYTES) throw new Error(words().review.files.tooLong(file.name, file.size, MOST_BYTES))
  return file.text()
}

/** The sessions, and after them their photos where they are asked for. */
async function* allFiles(
  log: Log,
  ids: readonly string[],
  what: string,
  kind: 'json' | 'ndjson',
  extras: Extras,
  withPhotos: boolean,
): AsyncGenerator<ExportFile> {
  yield* exportMany(log, ids, what, kind, extras)
  if (withPhotos) yield* exportPhotos(log, ids, what, extras)
}

interface FilesProps {
  readonly log: Log
  readonly sessions: readonly SessionSummary[]
  /** The log has taken something in. */
  readonly changed: () => Promise<unknown>
  /** Opens the report of these sessions. */
  readonly report: () => void
  readonly back: () => void
}

/** When the latest of them was seen to leave. */
const lastExported = (sessions: readonly SessionSummary[]): string => {
  const { left } = words().keeping
  const latest = sessions.reduce((last, { exported = '' }) => (exported > last ? exported : last), '')
  return latest === '' ? left.never : left.last(day(latest))
}

/** Sessions out of the log, into it, and a file compared with its seal. */
export const ReviewFiles = ({ log, sessions, changed, report, back }: FilesProps) => {
  const [lines, setLines] = useState<readonly string[]>([])
  const [people, setPeople] = useState<People>([])
  const [withNames, setWithNames] = useState(false)
  const [withPhotos, setWithPhotos] = useState(false)
  const [comma, setComma] = useState(first().figures.sign === ',')
  const [noted, setNoted] = useState('')
  const [busy, setBusy] = useState(false)
  useEffect(() => {
    log.people().then(setPeople, () => setPeople([]))
  }, [log])
  const { keeping, review } = words()
  const { files: text, toList } = review
  const say = (line: string) => setLines(now => [...now, line])
  const work = async (doing: () => Promise<void>) => {
    setBusy(true)
    setLines([])
    await doing().catch(reason => say(problemWords(reason)))
    setBusy(false)
  }
  const machines = new Set(sessions.map(s => s.machineName))
  const [only] = machines
  const what = machines.size === 1 && only ? only : text.sessions
  const { leave, box } = useLeaving(log, say, changed)
  const out = (kind: 'json' | 'ndjson') =>
    work(async () => {
      const ids = sessions.map(s => s.id)
      const extras = { appVersion: APP_VERSION, ...(withNames ? { people } : {}) }
      await leave(allFiles(log, ids, what, kind, extras, withPhotos), sessions)
      await changed()
    })
  const overview = () => work(async () => say(await share(exportOverview(sessions, what, comma ? COMMA : POINT))))
  const takeFiles = (files: readonly File[]) =>
    work(async () => {
      for (const file of files) say(takenWords(file.name, await takeIn(log, await textOf(file))))
      await changed()
    })
  const compare = (files: readonly File[]) =>
    work(async () => {
      for (const file of files) {
        const read = readSessions(await textOf(file))
        if (!read.ok) say(`${file.name}: ${problemWords(read.message)}`)
        if (!read.ok) continue
        for (const claim of read.value.sessions) {
          const verdict = await verify(claim, noted.trim() === '' ? undefined : noted)
          const word = verdict.ok ? (verdict.sealed ? text.fits : text.noSeal) : problemWords(verdict.message)
          say(text.verdict(claim.id, word, verdict.seal.count, grouped(verdict.seal.head)))
        }
      }
    })
  const describe = () =>
    work(async () =>
      say(await share({ name: 'ohmward-export.schema.json', mime: 'application/json', text: JSON.stringify(schema, null, 1) })),
    )
  return (
    <main class="place review">
      <Title text={text.title} step="files" />
      <section>
        <h2>{text.out(sessions.length)}</h2>
        <p>
          {text.outNote} {lastExported(sessions)}
        </p>
        {people.length > 0 && (
          <label class="choice">
            <input type="checkbox" checked={withNames} onChange={e => setWithNames(e.currentTarget.checked)} />
            <span>{text.names(people.length)}</span>
          </label>
        )}
        <label class="choice">
          <input type="checkbox" checked={withPhotos} onChange={e => setWithPhotos(e.currentTarget.checked)} />
          <span>{keeping.photos.withPhotos}</span>
        </label>
        <button type="button" class="answer" disabled={busy || sessions.length === 0} onClick={() => out('json')}>
          {text.json}
        </button>
        <button type="button" class="answer" disabled={busy || sessions.length === 0} onClick={() => out('ndjson')}>
          {text.ndjson}
        </button>
        <button type="button" class="answer" disabled={busy || sessions.length === 0} onClick={overview}>
          {keeping.tables.overview}
        </button>
        <label class="choice">
          <input type="checkbox" checked={comma} onChange={e => setComma(e.currentTarget.checked)} />
          <span>{keeping.tables.comma}</span>
        </label>
        <button type="button" class="answer" disabled={sessions.length === 0} onClick={report}>
          {keeping.overall.link}
        </button>
        <button type="button" class="plain" disabled={busy} onClick={describe}>
          {text.schema}
        </button>
      </section>
      <section>
        <h2>{text.in}</h2>
        <p>{text.inNote}</p>
        <FilePick name={text.take} taken={takeFiles} />
      </section>
      <section>
        <h2>{text.verify}</h2>
        <p>{words().record.sealWords}</p>
        <label class="field">
          {text.head}
          <input type="text" value={noted} autocomplete="off" onInput={e => setNoted(e.currentTarget.value)} />
        </label>
        <FilePick name={text.compare} taken={compare} />
      </section>
      <ReviewDesk log={log} busy={busy} work={work} say={say} changed={changed} />
      <div role="status" class="lines">
        {busy && <p>{text.working}</p>}
        {lines.map(line => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {box}
      <div class="actions flow">
        <button type="button" class="plain" onClick={back}>
          {toList}
        </button>
      </div>
    </main>
  )
}
