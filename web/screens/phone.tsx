import { useEffect, useState } from 'preact/hooks'
import type { Log } from '../log/log.ts'
import { localIso } from '../log/stamp.ts'
import { first, problemWords, words } from '../words.ts'
import { Pairs } from './pairs.tsx'
import { lookAtPhone, type PhoneFound } from './phoneLook.ts'
import { share } from './share.ts'
import { Title } from './title.tsx'

declare const APP_VERSION: string

const MEGA = 1e6

/** What maintenance asks for on the telephone: one line a fact, the same as text to share. */
export const Phone = ({ log, leave }: { log: () => Promise<Log>; leave: () => void }) => {
  const [found, setFound] = useState<PhoneFound | undefined>()
  const [problem, setProblem] = useState('')
  const [status, setStatus] = useState('')
  const { check: say } = words().care
  const { round } = first().figures
  useEffect(() => {
    log()
      .then(lookAtPhone)
      .then(setFound, e => setProblem(problemWords(e)))
  }, [log])
  const yesNo = (is: boolean | undefined) => (is === undefined ? say.unknown : is ? say.yes : say.no)
  const mega = (bytes: number | undefined) => (bytes === undefined ? say.unknown : `${round(bytes / MEGA, 1)} MB`)
  const now = localIso(new Date())
  const lines: readonly (readonly [string, string])[] = [
    [say.version, APP_VERSION],
    [say.clock, `${now.slice(0, 16).replace('T', ' ')} ${now.slice(-6)} ${Intl.DateTimeFormat().resolvedOptions().timeZone}`],
    ...(found === undefined
      ? []
      : ([
          [say.offline, yesNo(found.offline)],
          [say.kept, yesNo(found.kept)],
          [say.space, found.room === undefined ? mega(found.used) : `${mega(found.used)} / ${mega(found.room)}`],
          [say.sessions, String(found.sessions)],
          [say.unfinished, String(found.unfinished)],
          [say.machines, String(found.machines)],
          [say.photos, `${found.photos}, ${mega(found.photoBytes)}`],
          [say.exported, found.exported?.slice(0, 16).replace('T', ' ') ?? say.never],
          [say.jumps, `${found.jumps} ${say.jumped}`],
        ] as const)),
    [say.browser, navigator.userAgent],
  ]
  const text = () => `Ohmward\n${lines.map(([name, value]) => `${name}: ${value}`).join('\n')}\n`
  return (
    <main class="place">
      <Title text={say.title} step="phone" />
      <p>{say.lead}</p>
      {problem && (
        <p role="alert" class="problem">
          {say.failed}: {problem}
        </p>
      )}
      <div class="facts">
        <Pairs rows={lines} />
      </div>
      <p role="status">{status || (found === undefined && problem === '' ? say.busy : '')}</p>
      <div class="actions flow">
        <button
          type="button"
          class="answer"
          onClick={() =>
            share({ name: 'ohmward-phone.txt', mime: 'text/plain', text: text() }).then(setStatus, e => setStatus(problemWords(e)))
          }
        >
          {say.share}
        </button>
        <button type="button" class="plain" onClick={leave}>
          {say.back}
        </button>
      </div>
    </main>
  )
}
