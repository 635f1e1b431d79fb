import { useState } from 'preact/hooks'
import { couch } from '../log/couch.ts'
import type { Log } from '../log/log.ts'
import { receive, send } from '../log/outbox.ts'
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
  const address = path.trim() === '' ? undefined : onThisSite(path.trim())
  const keep = (text: string) => {
    setPath(text)
    try {
      localStorage.setItem(KEY, text)
    } catch {
      say('The address is not kept: this browser stores nothing.')
    }
  }
  const out = () =>
    work(async () => {
      const { done, differing, missing } = await send(log, couch(address ?? ''))
      say(`Sent and read back: ${done} sessions. Held otherwise there: ${differing.length}. Not all there yet: ${missing.length}.`)
      await changed()
    })
  const take = () =>
    work(async () => {
      let any = false
      for await (const taken of receive(log, couch(address ?? ''))) {
        any = true
        say(takenWords('From the desk', taken))
      }
      if (!any) say('The desk holds nothing.')
      await changed()
    })
  return (
    <section>
      <h2>Desk</h2>
      <p>A CouchDB database of the site. Off until its path on this host stands here. Nothing is deleted on the phone.</p>
      <label class="field">
        Path of the database
        <input type="text" value={path} autocomplete="off" placeholder="off" onInput={e => keep(e.currentTarget.value)} />
      </label>
      {path.trim() !== '' && address === undefined && <p class="problem">Only a path on this host: the app talks to no other.</p>}
      <button type="button" class="answer" disabled={busy || address === undefined} onClick={out}>
        Send finished sessions
      </button>
      <button type="button" class="answer" disabled={busy || address === undefined} onClick={take}>
        Fetch all sessions
      </button>
    </section>
  )
}
