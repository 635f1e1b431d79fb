import { useEffect, useState } from 'preact/hooks'
import { sealWords } from '../../content/en-record.ts'
import schema from '../log/export.schema.json'
import { exportMany } from '../log/export.ts'
import { readSessions } from '../log/import.ts'
import type { Log, SessionSummary } from '../log/log.ts'
import { grouped, verify } from '../log/seal.ts'
import type { People } from '../log/sheet.ts'
import { takeIn } from '../log/takeIn.ts'
import { ReviewDesk } from './reviewDesk.tsx'
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
  if (file.size > MOST_BYTES) throw new Error(`${file.name} is ${file.size} bytes long, but at most ${MOST_BYTES} are read.`)
  return file.text()
}

interface FilesProps {
  readonly log: Log
  readonly sessions: readonly SessionSummary[]
  /** The log has taken something in. */
  readonly changed: () => Promise<unknown>
  readonly back: () => void
}

/** Sessions out of the log, into it, and a file compared with its seal. */
export const ReviewFiles = ({ log, sessions, changed, back }: FilesProps) => {
  const [lines, setLines] = useState<readonly string[]>([])
  const [people, setPeople] = useState<People>([])
  const [withNames, setWithNames] = useState(false)
  const [noted, setNoted] = useState('')
  const [busy, setBusy] = useState(false)
  useEffect(() => {
    log.people().then(setPeople, () => setPeople([]))
  }, [log])
  const say = (line: string) => setLines(now => [...now, line])
  const work = async (doing: () => Promise<void>) => {
    setBusy(true)
    setLines([])
    await doing().catch(reason => say(reason instanceof Error ? reason.message : String(reason)))
    setBusy(false)
  }
  const machines = new Set(sessions.map(s => s.machineName))
  const [only] = machines
  const what = machines.size === 1 && only ? only : 'sessions'
  const out = (kind: 'json' | 'ndjson') =>
    work(async () => {
      const ids = sessions.map(s => s.id)
      const extras = { appVersion: APP_VERSION, ...(withNames ? { people } : {}) }
      const seals = new Map(sessions.map(s => [s.id, s.seal]))
      const source = { events: log.events, eventsOfMany: log.eventsOfMany, seal: async (id: string) => seals.get(id) }
      for await (const file of exportMany(source, ids, what, kind, extras)) say(await share(file))
    })
  const takeFiles = (files: readonly File[]) =>
    work(async () => {
      for (const file of files) say(takenWords(file.name, await takeIn(log, await textOf(file))))
      await changed()
    })
  const compare = (files: readonly File[]) =>
    work(async () => {
      for (const file of files) {
        const read = readSessions(await textOf(file))
        if (!read.ok) say(`${file.name}: ${read.message}`)
        if (!read.ok) continue
        for (const claim of read.value.sessions) {
          const verdict = await verify(claim, noted.trim() === '' ? undefined : noted)
          const word = verdict.ok ? (verdict.sealed ? 'Fits its seal.' : 'Holds no seal.') : verdict.message
          say(`${claim.id}: ${word} ${verdict.seal.count} events, head ${grouped(verdict.seal.head)}`)
        }
      }
    })
  const describe = () =>
    work(async () =>
      say(await share({ name: 'ohmward-export.schema.json', mime: 'application/json', text: JSON.stringify(schema, null, 1) })),
    )
  return (
    <main class="place review">
      <Title text="Export, import, verify" step="files" />
      <section>
        <h2>Out: the {sessions.length} sessions of the list</h2>
        <p>Machine and month are chosen by the list’s filters. Large ones leave as several files.</p>
        {people.length > 0 && (
          <label class="choice">
            <input type="checkbox" checked={withNames} onChange={e => setWithNames(e.currentTarget.checked)} />
            <span>With the names of {people.length} technicians; else codes alone</span>
          </label>
        )}
        <button type="button" class="answer" disabled={busy || sessions.length === 0} onClick={() => out('json')}>
          One file (JSON)
        </button>
        <button type="button" class="answer" disabled={busy || sessions.length === 0} onClick={() => out('ndjson')}>
          One event a line (NDJSON)
        </button>
        <button type="button" class="plain" disabled={busy} onClick={describe}>
          Description of the files (JSON Schema)
        </button>
      </section>
      <section>
        <h2>In: files of other phones</h2>
        <p>Nothing is doubled, nothing overwritten. What differs is kept both ways.</p>
        <FilePick name="Take in files" taken={takeFiles} />
      </section>
      <section>
        <h2>Verify</h2>
        <p>{sealWords}</p>
        <label class="field">
          Head from a printed report, if there is one
          <input type="text" value={noted} autocomplete="off" onInput={e => setNoted(e.currentTarget.value)} />
        </label>
        <FilePick name="Compare a file with its seal" taken={compare} />
      </section>
      <ReviewDesk log={log} busy={busy} work={work} say={say} changed={changed} />
      <div role="status" class="lines">
        {busy && <p>Working …</p>}
        {lines.map(line => (
          <p key={line}>{line}</p>
        ))}
      </div>
      <div class="actions flow">
        <button type="button" class="plain" onClick={back}>
          Back to the list
        </button>
      </div>
    </main>
  )
}
