import { useEffect, useRef, useState } from 'preact/hooks'
import type { Session, SessionEvent } from '../flow/request.ts'
import { advance, readAnswer } from '../flow/session.ts'
import type { Log } from '../log/log.ts'
import { localIso } from '../log/stamp.ts'

export interface Opening {
  readonly log: Log
  readonly id: string
  readonly session: Session
  readonly since: number
  readonly draft: string
}
export interface Hunt {
  readonly session: Session
  readonly since: number
  /** 'Saved' once the last write is on the disk. */
  readonly status: string
  /** The sentence about an answer that was refused; the step stays. */
  readonly error: string
  readonly draft: string
  readonly saveDraft: (text: string) => void
  /** Writes the event to the log, and only then goes on. */
  readonly send: (event: SessionEvent) => Promise<void>
  /** Checks a raw answer to the step on the screen and sends it. */
  readonly answer: (raw: unknown) => void
}

export const useSession = ({ log, id, session: opened, since, draft: kept }: Opening): Hunt => {
  const [session, setSession] = useState(opened)
  const [draft, setDraft] = useState(kept)
  const [status, setStatus] = useState('')
  const [error, setError] = useState('')
  const busy = useRef(false)
  useEffect(() => log.onClosed(() => setError('Nothing more can be saved from this page. Reload the app.')), [log])

  const send = async (event: SessionEvent) => {
    // A second tap before the first is written must not answer the next step.
    if (busy.current) return
    busy.current = true
    try {
      const next = advance(session, event)
      const over = next.request.say === 'end' ? { result: next.request.result, endedAt: localIso(new Date()) } : undefined
      await log.append(id, event, over)
      setError('')
      setDraft('')
      setStatus('Saved')
      setSession(next)
    } catch (problem) {
      setStatus('')
      setError(problem instanceof Error ? problem.message : String(problem))
    } finally {
      busy.current = false
    }
  }
  const answer = (raw: unknown) => {
    const read = readAnswer(session.request, raw, session.kit, session.positions)
    if (read.ok) void send({ type: 'answered', n: session.request.n, answer: read.value })
    else setError(read.message)
  }
  const saveDraft = (text: string) => {
    setDraft(text)
    setError('')
    log.saveDraft(id, text).catch(() => setError('The half-typed value is not kept: the phone refused it.'))
  }
  return { session, since, status, error, draft, saveDraft, send, answer }
}
