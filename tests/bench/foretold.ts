// Is 'this narrows the place from X to about Y m' true? What a reading was said to leave, beside what the next step then says.
import type { Played } from './play.ts'

export interface Foretelling {
  /** Metres before the reading, and what it was said to leave. */
  readonly before: number
  readonly said: number
  /** What is then left: as the next plan in this branch says, or the stretch of the finding that it leads to. */
  readonly left: number
}
interface Told {
  readonly branch: string
  readonly before: number
  readonly after: number
}

const metresIn = (out: unknown): Told | undefined => {
  const { why } = out as { why?: { facts?: Readonly<Record<string, unknown>> } }
  const { branch, before, after } = why?.facts ?? {}
  return typeof branch === 'string' && typeof before === 'number' && typeof after === 'number' ? { branch, before, after } : undefined
}

/** One for each plan whose readings were answered and after which the same branch is spoken of again. */
export const foretellings = ({ transcript }: Played): Foretelling[] => {
  const found: Foretelling[] = []
  let open: Told | undefined
  for (const { out, answer } of transcript) {
    if (out.say !== 'step') continue
    const { step } = out
    const told = metresIn(out)
    if (open !== undefined && step.kind === 'finding' && step.finding.branch === open.branch && step.finding.alongRun) {
      const { low, high } = step.finding.alongRun
      found.push({ before: open.before, said: open.after, left: high - low })
      open = undefined
    } else if (
      open !== undefined &&
      told !== undefined &&
      told.branch === open.branch &&
      (told.before !== open.before || told.after !== open.after)
    ) {
      found.push({ before: open.before, said: open.after, left: told.before })
      open = undefined
    } else if (told !== undefined && told.branch !== open?.branch) open = undefined
    const isRead = step.kind === 'read' && typeof answer === 'object' && answer !== null && 'value' in answer
    if (told !== undefined && isRead) open = told
  }
  return found
}

const mean = (of: readonly number[]): number => of.reduce((sum, x) => sum + x, 0) / Math.max(1, of.length)
export const foretoldLine = (name: string, all: readonly Foretelling[]): string => {
  const [before, said, left] = (['before', 'said', 'left'] as const).map(key => mean(all.map(one => one[key])).toFixed(1))
  return `${name}: ${all.length} readings, on average from ${before} m, said to leave ${said} m, left ${left} m`
}
