import { useEffect, useState } from 'preact/hooks'
import { Icon } from '../drawing/icons.tsx'
import type { Log, SessionSummary } from '../log/log.ts'
import { readyOffline } from '../offline.ts'
import { first, problemWords } from '../words.ts'
import { Install } from './install.tsx'
import { LanguageChoice } from './language.tsx'
import { Newer } from './newer.tsx'

interface StartProps {
  readonly log: () => Promise<Log>
  readonly problem?: string | undefined
  readonly take: (json: () => Promise<unknown>) => void
  readonly demo: () => void
  readonly unknown: () => void
  readonly resume: (id: string) => Promise<void>
  /** The session that can be gone on with stands on the screen. */
  readonly ahead: (id: string) => void
  readonly past: () => void
  readonly takeOver: () => void
  readonly settings: () => void
  readonly tool: () => void
  readonly check: () => void
  readonly machines: () => void
}
/** Larger than any machine file has a right to be, in bytes. */
const TOO_LARGE = 10_000_000

const readFile = async (file: File): Promise<unknown> => {
  if (file.size > TOO_LARGE) throw new Error(first().start.tooLarge(file.name))
  try {
    return JSON.parse(await file.text())
  } catch {
    throw new Error(first().start.notJson(file.name))
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
export const Start = ({
  log,
  problem,
  take,
  demo,
  unknown,
  resume,
  ahead,
  past,
  tool,
  check,
  machines,
  takeOver,
  settings,
}: StartProps) => {
  const [open, setOpen] = useState<(SessionSummary & { step: number }) | undefined>()
  const [trouble, setTrouble] = useState('')
  const [offline, setOffline] = useState(false)
  // Until it is known whether machines are kept here, no way in has more weight than the other.
  const [kept, setKept] = useState<boolean | undefined>()
  // Seen at the tap: what is gone on with may take a while to stand again.
  const [going, setGoing] = useState(false)
  const { start: say, note } = first()
  useEffect(() => {
    log()
      .then(unfinished)
      .then(
        found => {
          setOpen(found)
          if (found) ahead(found.id)
        },
        e => setTrouble(problemWords(e)),
      )
    log()
      .then(opened => opened.machines())
      .then(
        machines => setKept(machines.some(({ retired }) => !retired)),
        () => setKept(false),
      )
    readyOffline().then(setOffline, () => setOffline(false))
  }, [log])
  const goOn = (id: string) => {
    setGoing(true)
    void resume(id).finally(() => setGoing(false))
  }
  return (
    <main class="place">
      <h1>Ohmward</h1>
      <p>{say.lead}</p>
      {(problem || trouble) && (
        <p role="alert" class="problem">
          {problem || trouble}
        </p>
      )}
      {/* Above the list, so that what is tapped most stays in the thumb's reach. */}
      <div class="duo set">
        <LanguageChoice note={false} />
        <button type="button" class="answer" onClick={settings}>
          <Icon name="settings" />
          {say.settings}
        </button>
      </div>
      {note && <p class="source">{note}</p>}
      <div class="actions list still">
        {/* Who comes for the first time stands at a dead machine; who has described machines has one of them in mind. */}
        <button type="button" class={open || kept !== false ? 'answer two' : 'primary two'} onClick={unknown}>
          {say.begin}
          <small>{say.unknown}</small>
        </button>
        <button type="button" class={open || !kept ? 'answer' : 'primary'} onClick={machines}>
          {say.machines}
        </button>
        <div class="duo">
          <button type="button" class="answer" onClick={takeOver}>
            {say.takeOver}
          </button>
          <label class="answer file">
            {say.file}
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
            {say.past}
          </button>
          <button type="button" class="answer" onClick={tool}>
            {say.tool}
          </button>
          <button type="button" class="answer" onClick={demo}>
            {say.demo}
          </button>
          <button type="button" class="answer" onClick={check}>
            {say.check}
          </button>
        </div>
      </div>
      {/* What comes later comes below: nothing that a thumb is about to tap moves away. */}
      <p role="status">{offline ? say.offline : ''}</p>
      {!open && <Newer />}
      {!open && <Install />}
      {open && (
        <div class="actions">
          <button type="button" class="primary two" aria-busy={going} onClick={() => goOn(open.id)}>
            {say.goOn(open.machineName)}
            <small>{say.where(open.startedAt.slice(11, 16), open.step)}</small>
          </button>
        </div>
      )}
    </main>
  )
}
