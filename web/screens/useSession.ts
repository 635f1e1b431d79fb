import { useEffect, useRef, useState } from 'preact/hooks'
import { takenUp } from '../flow/away.ts'
import type { Session, SessionEvent } from '../flow/request.ts'
import { advance, answerTo, readAnswer } from '../flow/session.ts'
import type { Log } from '../log/log.ts'
import { localIso } from '../log/stamp.ts'
import { signal } from '../signal.ts'
import { problemWords, words } from '../words.ts'
import { painted } from './painted.ts'

export interface Opening {
  readonly log: Log
  readonly id: string
  readonly session: Session
  readonly since: number
  readonly draft: string
}
export interface Hunt {
  readonly log: Log
  readonly id: string
  readonly session: Session
  readonly since: number
  /** The last write is on the disk. */
  readonly saved: boolean
  /** The sentence about an answer that was refused; the step stays. */
  readonly error: string
  readonly draft: string
  readonly saveDraft: (text: string) => void
  /** Writes the event to the log, and only then goes on. */
  readonly send: (event: SessionEvent) => Promise<void>
  /** The same for one event after the other, as long as there is one for the session as it stands then. */
  readonly sendWhile: (next: (now: Session) => SessionEvent | undefined) => Promise<void>
  /** The branch whose device was said to have tripped at a look along the row, until it is asked for. */
  readonly tripped: string | undefined
  readonly sayTripped: (branch: string) => void
  /** Checks a raw answer to the step on the screen and sends it. */
  readonly answer: (raw: unknown) => void
}

export const useSession = ({ log, id, session: opened, since, draft: kept }: Opening): Hunt => {
  const [session, setSession] = useState(opened)
  const [draft, setDraft] = useState(kept)
  const [saved, setSaved] = useState(false)
  const [error, setError] = useState('')
  const [tripped, sayTripped] = useState<string | undefined>()
  const busy = useRef(false)
  const lastAt = useRef(Date.now())
  // A phone that lay aside with the app open is like one on which it was opened again.
  useEffect(() => {
    const look = () => {
      const again = document.visibilityState === 'visible' ? takenUp(session, lastAt.current, Date.now()) : undefined
      if (again !== undefined) void send(again)
    }
    document.addEventListener('visibilitychange', look)
    const timer = setInterval(look, 60_000)
    return () => {
      document.removeEventListener('visibilitychange', look)
      clearInterval(timer)
    }
  })
  useEffect(() => log.onClosed(() => setError(words().session.closed)), [log])

  const sendWhile: Hunt['sendWhile'] = async following => {
    // A second tap before the first is written must not answer the next step.
    if (busy.current) return
    busy.current = true
    let now = session
    try {
      await painted()
      for (let event = following(now); event !== undefined; event = following(now)) {
        const next = advance(now, event)
        const over = next.request.say === 'end' ? { result: next.request.result, endedAt: localIso(new Date()) } : undefined
        await log.append(id, event, over, now.events.length)
        now = next
      }
      setError('')
      setDraft('')
      setSaved(true)
      signal('saved')
      lastAt.current = Date.now()
    } catch (problem) {
      setSaved(false)
      signal('refused')
      setError(problemWords(problem))
    } finally {
      setSession(now)
      busy.current = false
    }
  }
  const send = (event: SessionEvent) => sendWhile(now => (now === session ? event : undefined))
  const answer = (raw: unknown) => {
    const read = readAnswer(session.request, raw, session.kit)
    if (read.ok) void send(answerTo(session, read.value))
    else {
      signal('refused')
      setError(problemWords(read.message))
    }
  }
  const saveDraft = (text: string) => {
    setDraft(text)
    setError('')
    log.saveDraft(id, text).catch(() => setError(words().session.draftLost))
  }
  return { log, id, session, since, saved, error, draft, saveDraft, send, sendWhile, tripped, sayTripped, answer }
}
