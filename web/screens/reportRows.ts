// What goes into a report's table, and how much of it: the report has two pages and no more.
import { word } from '../../content/shared/ids.ts'
import type { Entry } from '../flow/request.ts'
import type { StoredEvent } from '../log/log.ts'
import { words } from '../words.ts'

export interface ReportRow {
  readonly n: number
  readonly time: string
  readonly what: string
  readonly value: string
  /** Taken after the repair: the check of the work. */
  readonly after: boolean
}

const UNITS = { volt: 'V', ohm: 'Ω', amp: 'A' } as const
/** A reading or a look in few words; nothing for all other steps. */
const shortly = ({ request, answer }: Entry): readonly [string, string] | undefined => {
  if (request.say !== 'step') return undefined
  const { step } = request
  const { labels, report: say, steps } = words()
  if (step.kind === 'read') {
    const what =
      step.meter === 'amp'
        ? `A ${step.branch}`
        : `${UNITS[step.meter]} ${say.between(steps.pointShort(step.red), steps.pointShort(step.black))}`
    return [what, labels.valueWords({ ...answer }, UNITS[step.meter])]
  }
  if (step.kind === 'look') {
    const what = step.look === 'device' ? say.device(step.branch) : say.looks[step.look]
    return [what, 'seen' in answer ? word(labels.seen[step.look], answer.seen) : labels.valueWords({ ...answer }, '')]
  }
  if (step.kind !== 'act') return undefined
  if (step.act.act === 'prove-dead') return [say.dead, labels.valueWords({ ...answer }, 'V')]
  return step.act.act === 'zero-leads' ? [say.zeroed, labels.valueWords({ ...answer }, 'Ω')] : undefined
}

export const reportRows = (entries: readonly Entry[], answers: readonly StoredEvent[]): readonly ReportRow[] => {
  const mended = entries.findLastIndex(({ request }) => request.say === 'mend')
  return entries.flatMap((entry, i) => {
    const words = shortly(entry)
    if (!words) return []
    const [what, value] = words
    return [{ n: i + 1, time: answers[i]?.wall.slice(11, 16) ?? '', what, value, after: mended >= 0 && i > mended }]
  })
}

/** Text of at most so many characters; what is cut off is in the log. */
export const cut = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most - 1)}…` : text)

/** Lines of readings that leave room for all else on two pages. */
export const MOST_LINES = 84
/** Photos in a report, side by side, and the lines of readings that give them their room. */
export const PHOTOS = 3
export const PHOTO_LINES = 30
/** Signs of a reading that surely stand on one line, in one of two columns. */
const WIDE = 36
export const lines = ({ what, value }: ReportRow): number => Math.ceil((what.length + value.length + 2) / WIDE)
/** The rows that fit into so many lines: the last ones, which hold the finding and the check, and as many of the first. */
export const fitting = (
  rows: readonly ReportRow[],
  most: number,
): { readonly head: readonly ReportRow[]; readonly tail: readonly ReportRow[] } => {
  const short = rows.map(row => ({ ...row, what: cut(row.what, WIDE * 2), value: cut(row.value, WIDE) }))
  const all = short.reduce((sum, row) => sum + lines(row), 0)
  if (all <= most) return { head: short, tail: [] }
  const take = (from: readonly ReportRow[], room: number): ReportRow[] => {
    let used = 0
    return from.filter(row => {
      used += lines(row)
      return used <= room
    })
  }
  const tail = take([...short].reverse(), Math.floor(most * 0.6)).reverse()
  return { head: take(short, most - 1 - Math.floor(most * 0.6)), tail }
}
