// Words of the record for maintenance, the review and the report. English.
// Terms after ISO 14224:2016 and EN 13306:2017, as published summaries give them; where a list or a number is from memory, it says so.

export const record = {
  wrong: 'What was wrong',
  modes: {
    name: 'Failure mode',
    meaning: 'How the failure showed itself.',
    source: 'ISO 14224:2016, EN 13306:2017. The choice of modes is ours.',
    terms: {
      'no-output': 'No output',
      'low-output': 'Low output',
      'erratic-output': 'Erratic output',
      'spurious-stop': 'Spurious stop',
      'fails-to-start': 'Fails to start on demand',
      other: 'Other',
    },
  },
  mechanisms: {
    name: 'Failure mechanism',
    meaning: 'The physical, chemical or other process behind it.',
    source: 'ISO 14224:2016 table B.2; numbers from memory.',
    terms: {
      'short-circuit': '4.1 Short circuit',
      'open-circuit': '4.2 Open circuit',
      'no-power': '4.3 No power or voltage',
      'faulty-power': '4.4 Faulty power or voltage',
      'earth-fault': '4.5 Earth or isolation fault',
      looseness: '1.5 Looseness',
      wear: '2.4 Wear',
      breakage: '2.5 Breakage',
      overheating: '2.7 Overheating',
      contamination: '5.2 Contamination',
      unknown: '6.4 Unknown',
    },
  },
  causes: {
    name: 'Failure cause',
    meaning: 'The circumstances that led to it: in design, making, fitting, use or upkeep.',
    source: 'EN 13306:2017; the grouping after ISO 14224:2016.',
    terms: {
      design: 'Design: capacity, material, routing',
      fabrication: 'Making',
      installation: 'Fitting',
      'wear-in-use': 'Use: expected wear and tear',
      'off-design': 'Use: outside its limits',
      'operating-error': 'Use: mistake',
      maintenance: 'Upkeep',
      unknown: 'Not known',
    },
  },
  /** Where on its branch a fault was, in a few words. */
  place: {
    run: (run: string) => `run ${run}`,
    load: (load: string) => `load ${load}`,
    branch: (branch: string) => `branch ${branch}`,
    supply: 'supply',
  },
  /** Each is shown with its meaning beside it. */
  times: {
    down: {
      name: 'Down time',
      meaning: 'From the failure, if it was told when, else from the session’s start, until 24 V was proved (IEC 60050-192, 192-02-21).',
    },
    diagnosis: {
      name: 'Diagnosis',
      meaning: 'From the session’s start until the place was confirmed: fault localisation and diagnosis (192-07-02, figure 2).',
    },
    correction: {
      name: 'Correction',
      meaning: 'From the confirmed place until it was said to be mended (192-07-02, figure 2).',
    },
    checkOut: { name: 'Check-out', meaning: 'From mended until 24 V was proved: function check (192-07-02, figure 2).' },
  },
  timesNote: 'Waiting for people and parts is not told apart. Times come from the phone’s clocks.',
  timesDoubt: 'The phone slept, was restarted or its clock was set: these times may be off.',
  sealWords:
    'Tamper-evident, nothing more: an edit, a swap or a gap changes the head. A cut end, or a log sealed anew, shows only against a head noted elsewhere.',
}
