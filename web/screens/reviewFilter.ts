import { monthOf } from '../log/counts.ts'
import type { SessionSummary } from '../log/log.ts'
import { faultWord, words, wrongWord } from '../words.ts'

/** Empty texts let everything through. */
export interface Filter {
  readonly words: string
  readonly machine: string
  readonly month: string
  readonly result: string
  readonly fault: string
}
export const noFilter: Filter = { words: '', machine: '', month: '', result: '', fault: '' }

export const day = (iso: string): string => `${iso.slice(0, 10)} ${iso.slice(11, 16)}`

/** What was found, in a line. */
export const foundWords = ({ facts, branch, wrong }: SessionSummary): string => {
  const found = facts?.found
  if (found)
    return [found.branch, found.run || found.load ? words().record.foundPlace(found) : '', faultWord(found.fault)]
      .filter(Boolean)
      .join(' · ')
  return [branch, wrongWord(wrong ?? '')].filter(Boolean).join(': ')
}
const searched = (session: SessionSummary): string =>
  [
    session.machineName,
    session.machineId,
    day(session.startedAt),
    session.result && words().labels.results[session.result].title,
    wrongWord(session.wrong ?? ''),
    session.facts?.who,
    foundWords(session),
  ]
    .join(' ')
    .toLowerCase()

/** The sessions that the filter lets through; each word must occur somewhere. */
export const filtered = (sessions: readonly SessionSummary[], { words: text, machine, month, result, fault }: Filter): SessionSummary[] => {
  const wanted = text.toLowerCase().split(/\s+/).filter(Boolean)
  return sessions.filter(
    session =>
      (machine === '' || session.machineId === machine) &&
      (month === '' || monthOf(session) === month) &&
      (result === '' || (session.result ?? 'open') === result) &&
      (fault === '' || session.facts?.found?.fault === fault) &&
      (wanted.length === 0 || wanted.every(word => searched(session).includes(word))),
  )
}

/** What the filter offers: only what occurs. */
export const choices = (sessions: readonly SessionSummary[]) => {
  const machines = new Map(sessions.map(({ machineId, machineName }) => [machineId, machineName]))
  const found = sessions.flatMap(({ facts }) => facts?.found?.fault ?? [])
  return {
    machine: [...machines].sort(([, a], [, b]) => (a < b ? -1 : 1)),
    month: [...new Set(sessions.map(monthOf))]
      .sort()
      .reverse()
      .map(month => [month, month] as const),
    fault: [...new Set(found)].sort().map(fault => [fault, faultWord(fault)] as const),
  }
}
