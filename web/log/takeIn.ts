// A file into the log: read, then checked against its own seal, then merged. A file that is refused leaves the log as it was.

import { checked } from '../../engine/fields.ts'
import { measured } from './files.ts'
import { readSessions } from './import.ts'
import type { Log, Merged, TakenPhotos } from './log.ts'
import { isPhotos, readPhotos } from './photoFile.ts'
import { verify } from './seal.ts'
import type { SealedSession } from './sheet.ts'

export type TakenIn =
  /** `unsealed`: sessions whose file held no seal, so that nobody can tell whether they were changed. */
  | ({ readonly ok: true; readonly unsealed: number } & Merged)
  | { readonly ok: true; readonly photos: TakenPhotos }
  | { readonly ok: false; readonly message: string }

export const takeIn = async (log: Pick<Log, 'merge' | 'people' | 'savePerson' | 'takePhotos'>, text: string): Promise<TakenIn> => {
  if (isPhotos(text)) {
    const photos = checked(() => readPhotos(measured(text)), text)
    return photos.ok ? { ok: true, photos: await log.takePhotos(photos.value) } : photos
  }
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
