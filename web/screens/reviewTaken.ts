import type { TakenIn } from '../log/takeIn.ts'

/** What became of a file, or of what the desk sent. */
export const takenWords = (name: string, taken: TakenIn): string => {
  if (!taken.ok) return `${name} was refused. ${taken.message}`
  const { added, grown, known, conflicts, unsealed } = taken
  const parts = [`${added} new`, `${grown} gone on with`, `${known} known before`]
  const odd = conflicts.length > 0 ? ` ${conflicts.length} told otherwise than here: both are kept, and marked in the list.` : ''
  return `${name}: ${parts.join(', ')}.${odd}${unsealed > 0 ? ` ${unsealed} held no seal.` : ''}`
}
