// A file into the log: read, then checked against its own seal, then merged. A file that is refused leaves the log as it was.

import { readSessions } from './import.ts'
import type { Log, Merged } from './log.ts'
import { verify } from './seal.ts'
import type { SealedSession } from './sheet.ts'

export type TakenIn =
  /** `unsealed`: sessions whose file held no seal, so that nobody can tell whether they were changed. */
  ({ readonly ok: true; readonly unsealed: number } & Merged) | { readonly ok: false; readonly message: string }

export const takeIn = async (log: Pick<Log, 'merge' | 'people' | 'savePerson'>, text: string): Promise<TakenIn> => {
  const file = readSessions(text)
  if (!file.ok) return file
  const sealed: SealedSession[] = []
  let unsealed = 0
  for (const claim of file.value.sessions) {
    const verdict = await verify(claim)
    if (!verdict.ok) return { ok: false, message: `Session ${claim.id}: ${verdict.message} Nothing was taken in.` }
    if (!verdict.sealed) unsealed += 1
    sealed.push({ id: claim.id, events: claim.events, seal: verdict.seal })
  }
  const merged = await log.merge(sealed)
  const known = new Set((await log.people()).map(({ code }) => code))
  for (const person of file.value.people) if (!known.has(person.code)) await log.savePerson(person)
  return { ok: true, unsealed, ...merged }
}
