// Faults, findings and mends in words. English.
import type { FindingSentences } from '../shared/findings.ts'

const STRAIN_RELIEF = 'Strain relief holds.'
const NOTHING_LEFT = 'No strand, chip or tool is left behind.'
const MAINS_SIDE = 'The mains side is not proved dead: only an electrically qualified person works there.'
const COOLING = 'Cooling slots are free.'

export const faults = {
  'short-to-zero': '24 V core against 0 V core',
  'short-to-earth': '24 V core against earth',
  'load-short': 'Short circuit inside the load',
  short: 'Short circuit: to 0 V, to earth or in a load',
  overload: 'Too much current drawn',
  'in-rush': 'Too much switched on at once',
  'open-plus': '24 V core broken',
  'open-zero': '0 V core broken',
  'poor-joint': 'Poor joint: loose, dirty or burnt',
  swapped: 'Conductors swapped',
  diode: 'Suppressor diode broken down or the wrong way round',
  intermittent: 'Short circuit that comes and goes',
  backfeed: 'Voltage fed in from elsewhere',
  'device-open': 'Device is open',
  'supply-low': 'Supply gives too little voltage',
  'supply-dead': 'Supply gives nothing',
  'no-mains': 'Supply has no mains',
}

export const findings: FindingSentences & { readonly faults: typeof faults } = {
  faults,
  title: {
    noMains: 'Find out why the supply has no mains',
    deviceOpen: branch => (branch ? `Look at the device of branch ${branch}: it is open` : 'Look at the devices: one is open'),
    at: (run, metres, past) => `Go and look at run ${run}, at ${metres} ${past}`,
    stretch: (run, from, to, past) => `Go and look at run ${run}, from ${from} to ${to} ${past}`,
    pastCabinet: 'past the cabinet’s terminals',
    pastJunction: junction => `past junction ${junction}`,
    run: (run, branch) => `Go and look at run ${run}${branch && ` of branch ${branch}`}`,
    load: (load, junction) => `Go and look at ${load}${junction && ` at junction ${junction}`}`,
    branch: branch => `Go and look along branch ${branch}, from cabinet to loads`,
    supply: 'Look at the 24 V supply and its terminals',
  },
  doubt: 'Likeliest, not proved.',
  inMoving: 'In the moving cable.',
  inFixed: 'In the fixed cable.',
  how: {
    comesAndGoes: {
      look: 'Look where it bends and rubs, half a metre past each end too.',
      hands: 'Hang the meter on its near end and bend it piece by piece: ohms that drop name the place.',
    },
    wrongWay: {
      look: 'Compare plus and 0 V with its marks, and the stripe of its diode, which points to plus.',
      hands: 'Unplug it and read its diode both ways: one way only may conduct.',
    },
    tooMuch: {
      look: 'Look for heat, a rotor that sticks, and a part of the wrong power.',
      hands: 'Turn it by hand and read its ohms against its plate.',
    },
    otherSupply:
      'Look for a second supply, a buffer module, or a link to another branch or machine. Once it is switched off and secured, confirm.',
    handsOff: 'Look only: it is not proved dead.',
    noMains: 'Look at the main switch and the breaker before it. Covers stay shut, unless electrically qualified.',
    deviceOpen: 'It opened for a reason. Look along its branch before it is closed again.',
    supplyDead: 'Mains is there, but nothing comes out. Look for burns, loose output leads and closed cooling slots.',
    supply: 'Look at its setting, its output leads and what hangs on it.',
    openRun: {
      look: 'Look at both ends for a loose or broken core, then along it for a cut or crushed place.',
      hands: 'Pull at each core.',
    },
    run: { look: 'Look for a worn, crushed, cut or hot place, half a metre past each end too.', hands: 'Move clamps aside.' },
    load: {
      look: 'Look for wet, burns and bent pins.',
      hands: 'Unplug it and look into plug and socket. A short circuit inside does not show: read ohms across its own pins.',
    },
    branch: {
      look: 'Follow its whole cable: clamps, bends, glands.',
      hands: 'Unplug each load, read the branch’s ohms, plug it in again. Where they jump up, the fault is past that plug.',
    },
  },
  mends: {
    'other-supply': {
      title: m => `Disconnect the other supply${m.branch && ` from branch ${m.branch}`}`,
      points: [
        'It is switched off and secured by whoever is authorised there.',
        'The link between the two is taken out, or a decoupling module keeps them apart.',
        'Both feeds are marked where they meet.',
      ],
      done: 'Taken off and secured',
    },
    'wrong-way': {
      title: m => `Put the wiring of ${m.load || m.branch} right`,
      points: [
        'Plus and 0 V are where its marks want them.',
        'The stripe of its diode points to plus. A diode that has conducted is changed.',
        'Its terminals are tight.',
      ],
      done: 'Put right',
    },
    run: {
      title: m => `Mend run ${m.run}${m.branch && ` of branch ${m.branch}`}`,
      points: [
        'Change the cable, or cut the damaged piece out and join it in a box.',
        'Find the edge, bend or clamp that wore it, and take it away.',
        STRAIN_RELIEF,
        NOTHING_LEFT,
      ],
      done: 'Mended and covered',
    },
    load: {
      title: m => `Change ${m.load}`,
      points: [
        'The new one has the same voltage and power.',
        'Plug and socket are dry, pins straight, seal in place.',
        'Suppressor diode, if any, is the right way round.',
        STRAIN_RELIEF,
      ],
      done: 'Changed and fitted',
    },
    'no-mains': {
      title: 'Put the mains of the supply right',
      points: [
        MAINS_SIDE,
        'Why its breaker or fuse opened is known and put right.',
        'The main switch and its terminals are sound, checked by that person.',
        'The supply is still off and locked for what comes next.',
      ],
      done: 'Mains is put right',
    },
    'supply-dead': {
      title: 'Change the 24 V supply, or mend what stops it',
      points: [
        MAINS_SIDE,
        'The new one has the same voltage and no less current.',
        'Output leads are tight, + and 0 V not swapped.',
        COOLING,
      ],
      done: 'Supply is put right',
    },
    supply: {
      title: 'Put the supply right',
      points: [MAINS_SIDE, 'Setting, rating and load fit each other.', 'Output terminals are tight.', COOLING],
      done: 'Supply is put right',
    },
    'device-open': {
      title: m => `Find why the device${m.branch && ` of branch ${m.branch}`} is open`,
      points: [
        'Nothing in the branch is damaged, wet or hot.',
        'Its loads together are within its rating.',
        'The device is sound, of the right rating, its terminals tight.',
        'A worn device is changed for one of the same kind.',
      ],
      done: 'Cause is put right',
    },
    branch: {
      title: m => `Mend the fault${m.branch && ` in branch ${m.branch}`}`,
      points: [
        'What was damaged is changed or cut out: cable, plug or load.',
        'What wore it is taken away: edge, bend, clamp, wet.',
        'Terminals are tight, strain relief holds.',
        NOTHING_LEFT,
      ],
      done: 'Mended and covered',
    },
  },
  strainRelief: { fixed: STRAIN_RELIEF, moving: 'Strain relief holds, and the bend is wide through its whole travel.' },
}
