// Words of the screens: symptoms, power states, looks, results, buttons. English.

export const symptoms: Readonly<Record<string, string>> = {
  'all-dead': 'Everything is dead',
  'all-low': 'All weak, lamps dim',
  'one-branch-dead': 'One branch is dead',
  'one-load-dead': 'One load is dead',
  'trips-again': 'Trips again when reset',
  'dead-at-start': 'Dies at each start',
  'comes-and-goes': 'It comes and goes',
}

/** Power state: the word, and what it allows. */
export const powers = {
  live: { word: 'LIVE', allows: 'volts only' },
  fed: { word: 'SOURCE ON', allows: 'volts, amps' },
  off: { word: 'OFF, NOT PROVED', allows: 'no ohms' },
  danger: { word: 'VOLTAGE THERE', allows: 'hands off' },
  provedDead: { word: 'PROVED DEAD', allows: 'ohms allowed' },
} as const

export const seen: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'supply-lamp': { steady: 'Steady', blinking: 'Blinking', off: 'Off' },
  'mains-lamp': { on: 'Mains is there', off: 'No mains' },
  device: { closed: 'Closed', tripped: 'Tripped', open: 'Open' },
}

export const results: Readonly<Record<string, { title: string; text: string }>> = {
  restored: { title: 'Control voltage is back', text: 'Fault mended, all put back, lamp and voltage proved.' },
  'handed-over': { title: 'Hand the job over', text: 'Past sessions on the first screen tells the next person what was measured.' },
  stopped: { title: 'Session is stopped', text: 'Leave the machine safe. The log is kept.' },
}

/** What was opened or unplugged and not put back, when a session ends before the fault is mended. */
export const leftOpen = 'Not put back yet'

/** Said over the step when the readings together fit no single fault. */
export const fitsNothing = 'No single fault fits. Read the last one again, or two faults are present.'

/** Why a step cannot be done. */
export const cannots: readonly string[] = [
  'Cannot reach it',
  'Not allowed to do it',
  'The tool is missing',
  'It is not there',
  'It would not be safe',
]

export const wrongs: readonly string[] = [
  'Cable worn through',
  'Cable crushed or cut',
  'Load short-circuited',
  'Plug wet or bent',
  'Terminal or strand loose',
  'Device worn or wrong',
  'Supply failed',
  'Something else',
]

/** A value as a meter would show it. Unit V, A or Ω. */
export const quantity = (value: number, unit: string): string => {
  const size = Math.abs(value)
  const [factor, prefix] = size >= 1e6 ? [1e-6, 'M'] : size >= 1000 ? [1e-3, 'k'] : size > 0 && size < 0.1 ? [1e3, 'm'] : [1, '']
  return `${Number((value * factor).toPrecision(4))} ${prefix}${unit}`
}

/** An answer in words, for the timeline. */
export const answerWords = (answer: Readonly<Record<string, unknown>>, unit: string): string => {
  if ('cannot' in answer) return `cannot: ${answer['cannot']}`
  if ('confirmed' in answer) return answer['confirmed'] ? 'found it here' : 'looked, not there'
  if ('volts' in answer) return `not dead: ${quantity(Number(answer['volts']), 'V')}`
  if (!('value' in answer)) return 'done'
  const shown = answer['value'] === 'OL' ? 'OL' : quantity(Number(answer['value']), unit)
  return `shows ${shown}${answer['ac'] ? ' a.c.' : ''}${answer['unsteady'] ? ', jumping' : ''}`
}
