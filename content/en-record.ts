// Words of the record for maintenance, the review and the report. English.
// Terms after ISO 14224:2016 and EN 13306:2017, as published summaries give them; where a list or a number is from memory, it says so.

export interface Term {
  readonly id: string
  readonly word: string
}
export interface Terms {
  readonly name: string
  /** What the word means, told where it is asked for. */
  readonly meaning: string
  readonly source: string
  readonly terms: readonly Term[]
}

export const modes: Terms = {
  name: 'Failure mode',
  meaning: 'How the failure showed itself.',
  source: 'ISO 14224:2016, EN 13306:2017. The choice of modes is ours.',
  terms: [
    { id: 'no-output', word: 'No output' },
    { id: 'low-output', word: 'Low output' },
    { id: 'erratic-output', word: 'Erratic output' },
    { id: 'spurious-stop', word: 'Spurious stop' },
    { id: 'fails-to-start', word: 'Fails to start on demand' },
    { id: 'other', word: 'Other' },
  ],
}
export const mechanisms: Terms = {
  name: 'Failure mechanism',
  meaning: 'The physical, chemical or other process behind it.',
  source: 'ISO 14224:2016 table B.2; numbers from memory.',
  terms: [
    { id: 'short-circuit', word: '4.1 Short circuit' },
    { id: 'open-circuit', word: '4.2 Open circuit' },
    { id: 'no-power', word: '4.3 No power or voltage' },
    { id: 'faulty-power', word: '4.4 Faulty power or voltage' },
    { id: 'earth-fault', word: '4.5 Earth or isolation fault' },
    { id: 'looseness', word: '1.5 Looseness' },
    { id: 'wear', word: '2.4 Wear' },
    { id: 'breakage', word: '2.5 Breakage' },
    { id: 'overheating', word: '2.7 Overheating' },
    { id: 'contamination', word: '5.2 Contamination' },
    { id: 'unknown', word: '6.4 Unknown' },
  ],
}
export const causes: Terms = {
  name: 'Failure cause',
  meaning: 'The circumstances that led to it: in design, making, fitting, use or upkeep.',
  source: 'EN 13306:2017; the grouping after ISO 14224:2016.',
  terms: [
    { id: 'design', word: 'Design: capacity, material, routing' },
    { id: 'fabrication', word: 'Making' },
    { id: 'installation', word: 'Fitting' },
    { id: 'wear-in-use', word: 'Use: expected wear and tear' },
    { id: 'off-design', word: 'Use: outside its limits' },
    { id: 'operating-error', word: 'Use: mistake' },
    { id: 'maintenance', word: 'Upkeep' },
    { id: 'unknown', word: 'Not known' },
  ],
}

/** What is offered first: the mode by the symptom, the mechanism by the kind of fault. */
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

const all: readonly Term[] = [...modes.terms, ...mechanisms.terms, ...causes.terms]
/** A term's word; its id where a later version knows more. */
export const termWord = (id: string): string => all.find(term => term.id === id)?.word ?? id

/** Where on its branch a fault was, in a few words. */
export const foundPlace = ({ branch, run, load }: { branch?: string; run?: string; load?: string }): string =>
  run ? `run ${run}` : load ? `load ${load}` : branch ? `branch ${branch}` : 'supply'

export interface TimeWords {
  readonly key: 'down' | 'diagnosis' | 'correction' | 'checkOut'
  readonly name: string
  readonly meaning: string
}
/** Each is shown with its meaning beside it. */
export const times: readonly TimeWords[] = [
  {
    key: 'down',
    name: 'Down time',
    meaning: 'From the failure, if it was told when, else from the session’s start, until 24 V was proved (IEC 60050-192, 192-02-21).',
  },
  {
    key: 'diagnosis',
    name: 'Diagnosis',
    meaning: 'From the session’s start until the place was confirmed: fault localisation and diagnosis (192-07-02, figure 2).',
  },
  { key: 'correction', name: 'Correction', meaning: 'From the confirmed place until it was said to be mended (192-07-02, figure 2).' },
  { key: 'checkOut', name: 'Check-out', meaning: 'From mended until 24 V was proved: function check (192-07-02, figure 2).' },
]
export const timesNote = 'Waiting for people and parts is not told apart. Times come from the phone’s clocks.'
export const timesDoubt = 'The phone slept, was restarted or its clock was set: these times may be off.'

/** Seconds as people say them. */
export const duration = (seconds: number): string => {
  const minutes = Math.round(seconds / 60)
  if (seconds < 90) return `${Math.round(seconds)} s`
  return minutes < 120 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`
}

export const sealWords =
  'Tamper-evident, nothing more: an edit, a swap or a gap changes the head. A cut end, or a log sealed anew, shows only against a head noted elsewhere.'
