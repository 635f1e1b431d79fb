import type { TakenIn } from '../log/takeIn.ts'
import { problemWords, words } from '../words.ts'

/** What became of a file, or of what the desk sent. */
export const takenWords = (name: string, taken: TakenIn): string => {
  const { files } = words().review
  if (!taken.ok) return files.refused(name, problemWords(taken.message))
  if ('photos' in taken) return words().keeping.photos.taken(name, taken.photos.added, taken.photos.known, taken.photos.strangers)
  const { added, grown, known, conflicts, unsealed } = taken
  return [
    files.taken(name, added, grown, known),
    conflicts.length > 0 ? files.conflicts(conflicts.length) : '',
    unsealed > 0 ? files.unsealed(unsealed) : '',
  ]
    .filter(Boolean)
    .join(' ')
}
