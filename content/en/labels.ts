// Words of the screens: power states, looks, results, reasons, answers. English.

export const labels = {
  /** Power state: the word, and what it allows. */
  powers: {
    live: { word: 'LIVE', allows: 'volts only' },
    fed: { word: 'SOURCE ON', allows: 'volts, amps' },
    off: { word: 'OFF, NOT PROVED', allows: 'no ohms' },
    danger: { word: 'VOLTAGE THERE', allows: 'hands off' },
    provedDead: { word: 'PROVED DEAD', allows: 'ohms allowed' },
  },
  seen: {
    'supply-lamp': { steady: 'Steady', blinking: 'Blinking', off: 'Off' },
    'mains-lamp': { on: 'Mains is there', off: 'No mains' },
    device: { closed: 'Closed', tripped: 'Tripped', open: 'Open' },
  },
  results: {
    restored: { title: 'Control voltage is back', text: 'Fault mended, all put back, lamp and voltage proved.' },
    'handed-over': { title: 'Hand the job over', text: 'Past sessions on the first screen tells the next person what was measured.' },
    stopped: { title: 'Session is stopped', text: 'Leave the machine safe. The log is kept.' },
  },
  /** What was opened or unplugged and not put back, when a session ends before the fault is mended. */
  leftOpen: 'Not put back yet',
  /** Said over the step when the readings together fit no single fault. */
  fitsNothing: 'No single fault fits. Read the last one again, or two faults are present.',
  /** Why a step cannot be done. */
  cannots: {
    'out-of-reach': 'Cannot reach it',
    'not-allowed': 'Not allowed to do it',
    'no-tool': 'The tool is missing',
    'not-there': 'It is not there',
    'not-safe': 'It would not be safe',
  },
  wrongs: {
    'worn-through': 'Cable worn through',
    crushed: 'Cable crushed or cut',
    'load-short': 'Load short-circuited',
    plug: 'Plug wet or bent',
    loose: 'Terminal or strand loose',
    device: 'Device worn or wrong',
    supply: 'Supply failed',
    else: 'Something else',
  },
  answers: {
    cannot: (why: string) => `cannot: ${why}`,
    found: 'found it here',
    notThere: 'looked, not there',
    notDead: (volts: string) => `not dead: ${volts}`,
    done: 'done',
    shows: (value: string) => `shows ${value}`,
    ac: 'a.c.',
    jumping: 'jumping',
  },
}
