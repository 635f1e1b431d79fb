// Faults, findings and mends in words. English.

interface Interval {
  readonly best: number
  readonly low: number
  readonly high: number
}
export interface Finding {
  readonly fault: string
  readonly branch?: string
  readonly run?: string
  readonly load?: string
  readonly fromTerminals?: Interval
  readonly alongRun?: Interval
  /** Of 1. */
  readonly probability?: number
}
/** What the machine file adds: the load's name, the junction at the run's near end (or at the load), whether the run moves. */
export interface Place {
  readonly load?: string
  readonly near?: string
  readonly moving?: boolean
}

export const faults: Readonly<Record<string, string>> = {
  'short-to-zero': '24 V core against 0 V core',
  'short-to-earth': '24 V core against earth',
  'load-short': 'Short circuit inside the load',
  short: 'Short circuit: to 0 V, to earth or in a load',
  overload: 'More load than the supply can carry',
  'in-rush': 'Too much switched on at once',
  'open-plus': '24 V core broken',
  'open-zero': '0 V core broken',
  'poor-joint': 'Poor joint: loose, dirty or burnt',
  swapped: 'Conductors swapped',
  diode: 'Suppressor diode broken down or the wrong way round',
  intermittent: 'Contact that comes and goes',
  backfeed: 'Voltage fed in from elsewhere',
  'device-open': 'Device is open',
  'supply-low': 'Supply gives too little voltage',
  'supply-dead': 'Supply gives nothing',
  'no-mains': 'Supply has no mains',
}

const m = (x: number) => `${x.toFixed(1)} m`

/** Where to go and look; verb first, at most 20 words. */
export const findingTitle = (f: Finding, place: Place = {}): string => {
  if (f.fault === 'no-mains') return 'Find out why the supply has no mains'
  if (f.fault === 'device-open')
    return f.branch ? `Look at the device of branch ${f.branch}: it is open` : 'Look at the devices: one is open'
  const past = place.near === undefined || place.near === 'terminals' ? 'past the cabinet’s terminals' : `past junction ${place.near}`
  if (f.run && f.alongRun) {
    const { low, high } = f.alongRun
    const stretch = m(low) === m(high) ? `at ${m(low)}` : `from ${m(low)} to ${m(high)}`
    return `Go and look at run ${f.run}, ${stretch} ${past}`
  }
  if (f.run) return `Go and look at run ${f.run} of branch ${f.branch ?? ''}`.trimEnd()
  if (f.load) return `Go and look at ${place.load ?? f.load}${place.near && place.near !== 'terminals' ? ` at junction ${place.near}` : ''}`
  if (f.branch) return `Go and look along branch ${f.branch}, from cabinet to loads`
  return 'Look at the 24 V supply and its terminals'
}

const LIKELY = 0.7

export const findingSentence = (f: Finding, place: Place = {}): string => {
  const where = f.load ? '' : place.moving ? 'In the moving cable. ' : f.run ? 'In the fixed cable. ' : ''
  // Under this it is the likeliest of several places, and the words must not sound surer than the figure.
  const doubt = (f.probability ?? 1) < LIKELY ? 'Likeliest, not proved. ' : ''
  return `${doubt}${where}${faults[f.fault] ?? f.fault}.`
}

/** What to look for at the place, in the field or at the cabinet. Hands stay off what is not proved dead. */
export const findingHow = (f: Finding, dead: boolean): string => {
  const hands = (words: string) => (dead ? words : 'Look only: it is not proved dead.')
  if (f.fault === 'no-mains') return 'Look at the main switch and the breaker before it. Covers stay shut, unless electrically qualified.'
  if (f.fault === 'device-open') return 'It opened for a reason. Look along its branch before it is closed again.'
  if (!f.branch && f.fault === 'supply-dead')
    return 'Mains is there, but nothing comes out. Look for burns, loose output leads and closed cooling slots.'
  if (!f.branch) return 'Look at its setting, its output leads and what hangs on it.'
  if (f.run && f.fault.startsWith('open'))
    return `Look at both ends for a loose or broken core, then along it for a cut or crushed place. ${hands('Pull at each core.')}`
  if (f.run) return `Look for a worn, crushed, cut or hot place, half a metre past each end too. ${hands('Move clamps aside.')}`
  if (f.load)
    return `Look for wet, burns and bent pins. ${hands('Unplug it and look into plug and socket. A short circuit inside does not show: read ohms across its own pins.')}`
  return `Follow its whole cable: clamps, bends, glands. ${hands('Unplug each load, read the branch’s ohms, plug it in again. Where they jump up, the fault is past that plug.')}`
}

export interface Mend {
  readonly title: string
  readonly points: readonly string[]
  readonly done: string
}

export const mend = (f: Finding, place: Place = {}): Mend => {
  if (f.run)
    return {
      title: `Mend run ${f.run} of branch ${f.branch ?? ''}`.trimEnd(),
      points: [
        'Change the cable, or cut the damaged piece out and join it in a box.',
        'Find the edge, bend or clamp that wore it, and take it away.',
        `Strain relief holds${place.moving ? ', and the bend is wide through its whole travel' : ''}.`,
        'No strand, chip or tool is left behind.',
      ],
      done: 'Mended and covered',
    }
  if (f.load)
    return {
      title: `Change ${place.load ?? f.load}`,
      points: [
        'The new one has the same voltage and power.',
        'Plug and socket are dry, pins straight, seal in place.',
        'Suppressor diode, if any, is the right way round.',
        'Strain relief holds.',
      ],
      done: 'Changed and fitted',
    }
  if (f.fault === 'no-mains')
    return {
      title: 'Put the mains of the supply right',
      points: [
        'The mains side is not proved dead: only an electrically qualified person works there.',
        'Why its breaker or fuse opened is known and put right.',
        'The main switch and its terminals are sound, checked by that person.',
        'The supply is still off and locked for what comes next.',
      ],
      done: 'Mains is put right',
    }
  if (f.fault === 'supply-dead')
    return {
      title: 'Change the 24 V supply, or mend what stops it',
      points: [
        'Its mains side is not proved dead: only an electrically qualified person works there.',
        'The new one has the same voltage and no less current.',
        'Output leads are tight, + and 0 V not swapped.',
        'Cooling slots are free.',
      ],
      done: 'Supply is put right',
    }
  if (['overload', 'in-rush', 'supply-low'].includes(f.fault))
    return {
      title: 'Put the supply right',
      points: [
        'The mains side is not proved dead: only an electrically qualified person works there.',
        'Setting, rating and load fit each other.',
        'Output terminals are tight.',
        'Cooling slots are free.',
      ],
      done: 'Supply is put right',
    }
  if (f.fault === 'device-open')
    return {
      title: f.branch ? `Find why the device of branch ${f.branch} is open` : 'Find why the device is open',
      points: [
        'Nothing in the branch is damaged, wet or hot.',
        'Its loads together are within its rating.',
        'The device is sound, of the right rating, its terminals tight.',
        'A worn device is changed for one of the same kind.',
      ],
      done: 'Cause is put right',
    }
  return {
    title: f.branch ? `Mend the fault in branch ${f.branch}` : 'Mend the fault',
    points: [
      'What was damaged is changed or cut out: cable, plug or load.',
      'What wore it is taken away: edge, bend, clamp, wet.',
      'Terminals are tight, strain relief holds.',
      'No strand, chip or tool is left behind.',
    ],
    done: 'Mended and covered',
  }
}
