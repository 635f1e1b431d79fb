// A session goes on at another phone: the log's own file, and there its events with the hand-over taken back.
import type { SessionEvent } from '../flow/request.ts'
import type { Log } from './log.ts'

/** Set by the build, from package.json. */
declare const APP_VERSION: string

export const isSession = (given: unknown): boolean => Object(given).format === 'ohmward.session'

/** The session as one line of text, for codes or a file. */
export const sessionText = async (log: Log, id: string): Promise<{ readonly name: string; readonly text: string }> => {
  // With the screens of past sessions: a hunt starts without files out and in.
  const { exportJson } = await import('./export.ts')
  const { name, text } = await exportJson(log, id, { appVersion: APP_VERSION })
  return { name, text: JSON.stringify(JSON.parse(text)) }
}

/** What must follow, so that the session goes on here: nothing that was proved dead elsewhere is so here. */
export const takingUp = (events: readonly SessionEvent[]): readonly SessionEvent[] =>
  events.at(-1)?.type === 'handedOver' ? [{ type: 'undone' }, { type: 'resumed' }] : [{ type: 'resumed' }]

/** Takes the session into this phone's log and gives its id there. Throws the sentence of what is wrong with the text. */
export const takeUp = async (log: Log, text: string): Promise<string> => {
  const { takeIn } = await import('./takeIn.ts')
  const taken = await takeIn(log, text)
  if (!taken.ok) throw new Error(taken.message)
  const told = 'conflicts' in taken ? taken.conflicts.at(0) : undefined
  return told ?? String(Object(JSON.parse(text)).id)
}
