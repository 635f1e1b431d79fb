// Ids that logs hold in place of words, and what they led to. The words stand in each language.

/** What a record offers first: the mode by the symptom, the mechanism by the kind of fault. */
export const likelyMode: Readonly<Record<string, string>> = {
  'all-dead': 'no-output',
  'all-low': 'low-output',
  'one-branch-dead': 'no-output',
  'one-load-dead': 'no-output',
  'trips-again': 'spurious-stop',
  'dead-at-start': 'fails-to-start',
  'comes-and-goes': 'erratic-output',
}
export const likelyMechanism: Readonly<Record<string, string>> = {
  'short-to-zero': 'short-circuit',
  'short-to-earth': 'earth-fault',
  'load-short': 'short-circuit',
  short: 'short-circuit',
  overload: 'faulty-power',
  'in-rush': 'faulty-power',
  'open-plus': 'open-circuit',
  'open-zero': 'open-circuit',
  'poor-joint': 'looseness',
  diode: 'breakage',
  intermittent: 'looseness',
  'supply-low': 'faulty-power',
  'supply-dead': 'no-power',
  'no-mains': 'no-power',
}

/** The points of the list before a machine goes back to work, in the order in which each language tells them. */
export const CHECKED = ['numbers', 'terminals', 'strain-relief', 'safety-function', 'restart', 'tools-and-locks', 'taken-back'] as const

/** The times of maintenance, in the order in which they are told. */
export const TIME_KEYS = ['down', 'diagnosis', 'correction', 'checkOut'] as const

/** Logs of the first version hold these reasons and choices as English words. */
const OLD: Readonly<Record<string, string>> = {
  'Cannot reach it': 'out-of-reach',
  'Not allowed to do it': 'not-allowed',
  'The tool is missing': 'no-tool',
  'It is not there': 'not-there',
  'It would not be safe': 'not-safe',
  'Cable worn through': 'worn-through',
  'Cable crushed or cut': 'crushed',
  'Load short-circuited': 'load-short',
  'Plug wet or bent': 'plug',
  'Terminal or strand loose': 'loose',
  'Device worn or wrong': 'device',
  'Supply failed': 'supply',
  'Something else': 'else',
}
/** The id of a reason or choice as a log holds it: an id, old English words, or what somebody typed, which stays as it is. */
export const idOf = (logged: string): string => OLD[logged] ?? logged
type Table = Readonly<Record<string, string>>
/** The word for an id; the id itself where a later version knows more. */
export const word = (table: Table, id: string): string => table[id] ?? id
/** The words for a reason or choice as a log holds it; typed text stays as it is. */
export const said = (table: Table, logged: string): string => table[idOf(logged)] ?? logged
