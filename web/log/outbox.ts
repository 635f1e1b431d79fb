// Finished sessions to the desk, and the desk's to the log. Off until a site names a desk. Nothing is ever deleted on the phone.
import { fieldOf } from '../../engine/fields.ts'
import type { Desk, DeskLine } from './desk.ts'
import { type Log, originOf, type SessionSummary } from './log.ts'
import { chain } from './seal.ts'
import { type TakenIn, takeIn } from './takeIn.ts'

/** Events that are sent at once. */
const BATCH = 200

export interface Sent {
  /** Sessions whose every event was read back as it is here. */
  readonly done: number
  /** Sessions that the desk holds otherwise: they stay here, marked as not sent. */
  readonly differing: readonly string[]
  /** Sessions of which something is missing on the desk: to be sent again. */
  readonly missing: readonly string[]
}

const linesOf = async (log: Pick<Log, 'events'>, id: string): Promise<DeskLine[]> => {
  const events = await log.events(id)
  const session = originOf(id)
  const hashes = chain(session, events)
  const [first] = events
  const machine = first?.event.type === 'started' ? first.event.machine.id : ''
  return events.map((event, i) => ({ format: 'ohmward.event', version: 1, session, hash: hashes[i] ?? '', ...event, 'x-machine': machine }))
}

/** Finished, and with events that the desk was not yet seen to hold. */
export const unsent = (sessions: readonly SessionSummary[]): readonly SessionSummary[] =>
  sessions.filter(({ result, sent }) => result !== undefined && sent === undefined)

/** Sends what is unsent. A session is done only once the hash of each of its events was read back. Cut off, it goes on the next time. */
export const send = async (log: Log, desk: Desk): Promise<Sent> => {
  let done = 0
  const differing: string[] = []
  const missing: string[] = []
  for (const { id } of unsent(await log.sessions())) {
    const lines = await linesOf(log, id)
    let [differs, lacks] = [false, false]
    for (let i = 0; i < lines.length; i += BATCH) {
      const batch = lines.slice(i, i + BATCH)
      await desk.push(batch)
      const stored = await desk.hashes(batch)
      differs ||= batch.some(({ hash }, k) => stored[k] !== undefined && stored[k] !== hash)
      lacks ||= batch.some((_, k) => stored[k] === undefined)
    }
    if (differs) differing.push(id)
    else if (lacks) missing.push(id)
    else {
      await log.saveSent(id, { head: lines.at(-1)?.hash ?? '', count: lines.length })
      done += 1
    }
  }
  return { done, differing, missing }
}

/** So many events are taken in together; a session is never split. */
const TOGETHER = 20_000

/** Sessions at once; if one of them is spoilt each on its own, so that it keeps none of the others out. */
async function* takeAll(log: Log, sessions: readonly (readonly string[])[]): AsyncGenerator<TakenIn> {
  const all = await takeIn(log, sessions.flat().join('\n'))
  if (all.ok || sessions.length === 1) yield all
  else for (const lines of sessions) yield await takeIn(log, lines.join('\n'))
}

/** Takes in all that the desk holds, through the same checks as a file. */
export async function* receive(log: Log, desk: Desk): AsyncGenerator<TakenIn> {
  let sessions: string[][] = []
  let events = 0
  let last: unknown
  for await (const line of desk.pull()) {
    const session = fieldOf(line, 'session')
    if (sessions.length === 0 || session !== last) {
      if (events >= TOGETHER) {
        yield* takeAll(log, sessions)
        sessions = []
        events = 0
      }
      sessions.push([])
    }
    last = session
    events += 1
    sessions.at(-1)?.push(JSON.stringify(line))
  }
  if (sessions.length > 0) yield* takeAll(log, sessions)
}
