// A session as text: written once when its facts are taken, so that a log of years leaves without each of its events being read again.
import { canonical } from './canonical.ts'
import type { StoredEvent } from './log.ts'
import { Chain, type Seal } from './seal.ts'

export interface Written extends Seal {
  /** The events in canonical form, a comma and a line break between them: as they stand in a list. */
  readonly events: string
  /** Of `events`, in UTF-8. */
  readonly bytes: number
  /** The hash of each, one behind the other. */
  readonly hashes: string
}
const DIGITS = 64
/** No canonical form holds a line break, so it can be taken apart here again. */
const BETWEEN = ',\n'

export const write = (id: string, events: readonly StoredEvent[]): Written => {
  const links = new Chain(id)
  const lines: string[] = []
  let hashes = ''
  for (const event of events) {
    const line = canonical(event)
    links.add(line)
    lines.push(line)
    hashes += links.head
  }
  const bytes = links.bytes + Math.max(0, lines.length - 1) * BETWEEN.length
  return { ...links.seal, events: lines.join(BETWEEN), bytes, hashes }
}

/** The session of an `ohmward.sessions` file. */
export const asSession = (id: string, { head, count, events }: Written): string =>
  `{"id":${JSON.stringify(id)},"seal":{"head":"${head}","count":${count}},"events":[${events}]}`

/** The lines of an `ohmward.event` file. */
export const asLines = (id: string, { events, hashes }: Written): string => {
  const head = `{"format":"ohmward.event","version":1,"session":${JSON.stringify(id)},"hash":"`
  const line = (text: string, i: number) => `${head}${hashes.slice(i * DIGITS, (i + 1) * DIGITS)}",${text.slice(1)}\n`
  return events.split(BETWEEN).map(line).join('')
}
