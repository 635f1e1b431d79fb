// Why a step is asked for: one sentence of facts each. English.

import { factsWith } from '../shared/facts.ts'
import type { Facts } from '../shared/types.ts'

const { of, yes, metres } = factsWith('.')
/** 'Branches B1, B2 and 4 more', where the list is shorter than the count. */
const branches = (f: Facts): string => {
  const list = of(f, 'branches').split(', ')
  const more = Number(f['count'] ?? 0) - list.length
  return `${list.length + Math.max(0, more) > 1 ? 'Branches' : 'Branch'} ${list.join(', ')}${more > 0 ? ` and ${more} more` : ''}`
}

export const whys = {
  recorded: () => 'This is what was asked then.',
  'mains-first': () => 'Without mains no 24 V supply works. The lamp tells it without a tool.',
  'lamp-tells': () => 'The supply’s lamp tells overload, no output and healthy apart, in five seconds.',
  'held-volts': (f: Facts) => `The supply gives ${of(f, 'ampere')} A at its limit: volts at the bus tell the ohms of what holds it down.`,
  drop: (f: Facts) => `The fault’s current drops millivolts across its own device alone. ${branches(f)} hold ${of(f, 'p')} of 100.`,
  'supply-off-first': () => 'Ohms and loosened conductors need a circuit without voltage.',
  'prove-dead-first': () => 'Only three readings prove it dead. A lamp that is off proves nothing.',
  'prove-dead-again': () => 'Voltage may have come back since it was last proved dead.',
  'device-past': (f: Facts) => `With its device open, a reading at branch ${of(f, 'branch')} sees its own wiring alone.`,
  group: (f: Facts) =>
    `${branches(f)} hold${Number(f['count']) === 1 ? 's' : ''} ${of(f, 'p')} of 100. One reading clears or names ${Number(f['count']) === 1 ? 'it' : 'them'}.`,
  likeliest: (f: Facts) =>
    `Branch ${of(f, 'branch')} holds ${of(f, 'p')} of 100${f['metres'] === undefined ? '' : `: ${metres(f['metres'])} of wiring${yes(f['moving']) ? ', part of it moving' : ''}`}.`,
  narrow: (f: Facts) => `This narrows the place in branch ${of(f, 'branch')} from ${metres(f['before'])} to about ${metres(f['after'])}.`,
  kind: (f: Facts) => `This tells which kind of fault branch ${of(f, 'branch')} has: to 0 V, to earth or in a load.`,
  current: (f: Facts) => `The current in branch ${of(f, 'branch')} turns volts into ohms: it must be known.`,
  inject: (f: Facts) =>
    `Millivolts at a known current place the fault in branch ${of(f, 'branch')} within ${metres(f['after'])}, ohms only within ${metres(f['ohm'] ?? f['before'])}.`,
  'trace-volts': (f: Facts) =>
    `An open conductor in branch ${of(f, 'branch')} leaves no voltage past it. This branch holds ${of(f, 'p')} of 100.`,
  'trace-ohms': (f: Facts) =>
    `Loads past an open conductor are missing from the ohms. Branch ${of(f, 'branch')} holds ${of(f, 'p')} of 100.`,
  'live-trial': (f: Facts) =>
    `Ohms are right, so the fault shows under voltage only. With ${of(f, 'count')} devices closed, the supply tells on which side it lies.`,
  'watch-moving': (f: Facts) =>
    `A fault that comes and goes hides at rest. Move what moves of branch ${of(f, 'branch')} and watch the meter: it holds ${of(f, 'p')} of 100.`,
  'other-supply': () =>
    'A voltage stays with the supply off: another supply feeds a branch, or the bus. It goes once that branch’s device is open; from the bus it does not.',
  'other-supply-branch': () => 'A voltage past an open device comes from another supply.',
  'zero-leads': (f: Facts) => `Zeroed leads narrow the place from ${metres(f['before'])} to about ${metres(f['after'])}.`,
  'go-look': (f: Facts) => `This place holds ${of(f, 'p')} of 100. Looking takes about ${of(f, 'seconds')} s, less than measuring on.`,
  'look-along': (f: Facts) => `Nothing is left to measure. Branch ${of(f, 'branch')} is looked along from end to end.`,
  'put-back': () => 'What was opened or unplugged for measuring goes back as it was found.',
  'check-mend': (f: Facts) => `Clean ohms in branch ${of(f, 'branch')} show no short circuit at rest, before voltage is on it.`,
  'prove-restored': () => 'Only a steady lamp and the right voltage prove that the control voltage is back.',
  'device-look': (f: Facts) => `A device may have opened by itself. Branch ${of(f, 'branch')} is read wrongly if so.`,
  'device-open': (f: Facts) => `Nothing was found there. If the device of branch ${of(f, 'branch')} was not open, another branch was read.`,
  'after-energising': (f: Facts) => `Voltage was on since the last look. The device of branch ${of(f, 'branch')} may have opened.`,
  'load-aside': (f: Facts) => `Load ${of(f, 'load')} sits across the conductors of branch ${of(f, 'branch')} and bends the reading.`,
  'switch-on': () => 'The next look or reading needs the supply on.',
  'in-rush': (f: Facts) =>
    `All at once would draw ${of(f, 'ampere')} A at the first moment; the supply gives ${of(f, 'limit')} A. This one comes later.`,
  pause: (f: Facts) => `Wait ${of(f, 'seconds')} s after the one before: its in-rush must be over first.`,
  'off-to-look': () => 'Nobody goes near a cable that is fed: moving it may let loads start.',
  repeat: () => 'The last reading fits badly with those before it. A second one settles it.',
}
