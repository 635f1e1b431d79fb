import { useEffect, useState } from 'preact/hooks'
import type { Log, SessionSummary } from '../log/log.ts'
import { Newer } from './newer.tsx'

interface StartProps {
  readonly log: () => Promise<Log>
  readonly problem?: string | undefined
  readonly take: (json: () => Promise<unknown>) => void
  readonly demo: () => void
  readonly unknown: () => void
  readonly resume: (id: string) => void
  readonly past: () => void
}
/** Larger than any machine file has a right to be, in bytes. */
const TOO_LARGE = 10_000_000

const readFile = async (file: File): Promise<unknown> => {
  if (file.size > TOO_LARGE) throw new Error(`${file.name} is larger than 10 MB: not a machine file.`)
  try {
    return JSON.parse(await file.text())
  } catch {
    throw new Error(`${file.name} is not a JSON file.`)
  }
}
/** The unfinished session and the step it stands at. */
const unfinished = async (log: Log) => {
  const id = await log.open()
  if (id === undefined) return undefined
  const [sessions, events] = await Promise.all([log.sessions(), log.events(id)])
  const summary = sessions.find(s => s.id === id)
  const standing = events.reduce(
    (n, { event }) => (event.type === 'answered' ? n + 1 : event.type === 'undone' ? Math.max(0, n - 1) : n),
    0,
  )
  return summary && { ...summary, step: standing + 1 }
}

/** The first screen: which machine, or go on where it was left. */
export const Start = ({ log, problem, take, demo, unknown, resume, past }: StartProps) => {
  const [open, setOpen] = useState<(SessionSummary & { step: number }) | undefined>()
  const [trouble, setTrouble] = useState('')
  const [offline, setOffline] = useState(false)
  useEffect(() => {
    log()
      .then(unfinished)
      .then(setOpen, e => setTrouble(e instanceof Error ? e.message : String(e)))
    navigator.serviceWorker?.ready.then(() => setOffline(true))
  }, [log])
  return (
    <main class="place">
      <h1>Ohmward</h1>
      <p>To the fault in a 24 V d.c. control circuit, with a multimeter, step by step.</p>
      {(problem || trouble) && (
        <p role="alert" class="problem">
          {problem || trouble}
        </p>
      )}
      <p role="status">{offline ? 'Stored on this phone: works without a network.' : ''}</p>
      {!open && <Newer />}
      {open && (
        <button type="button" class="primary two" onClick={() => resume(open.id)}>
          Go on: {open.machineName}
          <small>
            session of {open.startedAt.slice(11, 16)}, step {open.step}
          </small>
        </button>
      )}
      <div class="actions">
        <button type="button" class={open ? 'answer' : 'primary'} onClick={demo}>
          Demo machine
        </button>
        <button type="button" class="answer" onClick={unknown}>
          Unknown machine
        </button>
        <label class="answer file">
          Machine file
          <input
            type="file"
            accept=".json,application/json"
            onChange={e => {
              const file = e.currentTarget.files?.[0]
              if (file) take(() => readFile(file))
              e.currentTarget.value = ''
            }}
          />
        </label>
        <button type="button" class="answer" onClick={past}>
          Past sessions
        </button>
      </div>
    </main>
  )
}
