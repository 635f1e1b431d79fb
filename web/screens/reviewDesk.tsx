import { useState } from 'preact/hooks'
import { couch } from '../log/couch.ts'
import type { Log } from '../log/log.ts'
import { receive, send } from '../log/outbox.ts'
import { words } from '../words.ts'
import { takenWords } from './reviewTaken.ts'

/** Where the address is kept. Empty, as it is at first: nothing is sent anywhere. */
const KEY = 'ohmward.desk'
const kept = (): string => {
  try {
    return localStorage.getItem(KEY) ?? ''
  } catch {
    return ''
  }
}
/** The page's own policy lets it talk to its own host alone: the database lies there too, under a path. */
const onThisSite = (text: string): string | undefined => {
  try {
    const address = new URL(text, location.href)
    return address.origin === location.origin ? address.href.replace(/\/+$/, '') : undefined
  } catch {
    return undefined
  }
}

interface DeskProps {
  readonly log: Log
  readonly busy: boolean
  readonly work: (doing: () => Promise<void>) => Promise<void>
  readonly say: (line: string) => void
  readonly changed: () => Promise<unknown>
}

/** The site's own store, if there is one: finished sessions go there, all others come from there. */
export const ReviewDesk = ({ log, busy, work, say, changed }: DeskProps) => {
  const [path, setPath] = useState(kept)
  const { desk } = words().review
  const address = path.trim() === '' ? undefined : onThisSite(path.trim())
  const keep = (text: string) => {
    setPath(text)
    try {
      localStorage.setItem(KEY, text)
    } catch {
      say(desk.notKept)
    }
  }
  const out = () =>
    work(async () => {
      const { done, differing, missing } = await send(log, couch(address ?? ''))
      say(desk.sent(done, differing.length, missing.length))
      await changed()
    })
  const take = () =>
    work(async () => {
      let any = false
      for await (const taken of receive(log, couch(address ?? ''))) {
        any = true
        say(takenWords(desk.from, taken))
      }
      if (!any) say(desk.nothing)
      await changed()
    })
  return (
    <section>
      <h2>{desk.title}</h2>
      <p>{desk.note}</p>
      <label class="field">
        {desk.path}
        <input type="text" value={path} autocomplete="off" placeholder={desk.off} onInput={e => keep(e.currentTarget.value)} />
      </label>
      {path.trim() !== '' && address === undefined && <p class="problem">{desk.onlyHere}</p>}
      <button type="button" class="answer" disabled={busy || address === undefined} onClick={out}>
        {desk.send}
      </button>
      <button type="button" class="answer" disabled={busy || address === undefined} onClick={take}>
        {desk.fetch}
      </button>
    </section>
  )
}
