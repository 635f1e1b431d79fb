// A step in words: its title, how to do it, and the places a probe can touch. English.
import type { StepSentences } from '../shared/steps.ts'

const UNITS = { volt: 'volts', ohm: 'ohms' } as const
const CLOSE_ONCE = 'Close it once. If it opens again, leave it open.'
const TIGHTEN = 'Tighten it and pull at it.'
const OWN_SWITCH = 'Use the machine’s own switch or breaker. Only for whoever is authorised there.'

export const steps: StepSentences = {
  acts: {
    'supply on': { title: 'Switch the 24 V supply on', how: `Take the lock off. ${OWN_SWITCH}`, done: 'Supply is on' },
    'supply off': {
      title: 'Switch the 24 V supply off and lock it',
      how: `${OWN_SWITCH} Lock it, keep the key.`,
      done: 'Supply is off and locked',
    },
    'prove-dead': {
      title: 'Prove the circuit dead',
      how: 'Meter on V: test it on a battery. Read 1, 2 and 3, d.c. and a.c. Test it again.',
      done: 'Dead on all three',
    },
    'zero-leads': {
      title: 'Hold the tips together and zero the meter',
      how: 'Dial on Ω. Tips hard together. Press the meter’s zero key. Wait until it stands.',
      done: 'Zeroed, it shows 0',
    },
    'fuse open': {
      title: a => `Pull the fuse of branch ${a.branch}`,
      how: 'Pull it without load. Keep it at hand.',
      done: a => `Fuse ${a.branch} is out`,
    },
    'fuse closed': {
      title: a => `Fit the fuse of branch ${a.branch}`,
      how: 'Fit it once, same size and kind. If it blows again, leave it out.',
      done: a => `Fuse ${a.branch} is in`,
    },
    'breaker open': {
      title: a => `Open the breaker of branch ${a.branch}`,
      how: 'Switch it off. Leave the others as they are.',
      done: a => `Breaker ${a.branch} is open`,
    },
    'breaker closed': {
      title: a => `Close the breaker of branch ${a.branch}`,
      how: CLOSE_ONCE,
      done: a => `Breaker ${a.branch} is closed`,
    },
    'device open': {
      title: a => `Open the device of branch ${a.branch}`,
      how: 'Switch the breaker off, or pull the fuse. Leave the others as they are.',
      done: a => `Device ${a.branch} is open`,
    },
    'device closed': {
      title: a => `Close the device of branch ${a.branch}`,
      how: CLOSE_ONCE,
      done: a => `Device ${a.branch} is closed`,
    },
    'load plugged': { title: a => `Plug in ${a.load} in branch ${a.branch}`, how: 'Plug it in where it was.', done: 'It is plugged in' },
    'load unplugged': {
      title: a => `Unplug ${a.load} in branch ${a.branch}`,
      how: 'Pull the plug straight. Keep it out of wet and dirt.',
      done: 'It is unplugged',
    },
    'run joined': {
      title: a => `Join run ${a.run} of branch ${a.branch}${a.at}`,
      how: 'Join both conductors as they were. Pull at each to test it.',
      done: a => `Run ${a.run} is joined`,
    },
    'run opened': {
      title: a => `Open run ${a.run} of branch ${a.branch}${a.at}`,
      how: 'Take off both conductors, + and 0 V. Mark them. Keep the ends apart.',
      done: a => `Run ${a.run} is open`,
    },
    'bus joined': { title: 'Join the supply’s output lead to the bus again', how: TIGHTEN, done: 'Output lead is joined' },
    'bus opened': {
      title: 'Open the supply’s output lead to the bus',
      how: 'Take the + lead off at the supply. Cover its end.',
      done: 'Output lead is open',
    },
    'bond joined': { title: 'Join the link from 0 V to earth again', how: TIGHTEN, done: 'Earth link is joined' },
    'bond opened': {
      title: 'Open the link from 0 V to earth',
      how: 'Take the link off at 0 V. Nothing is energised while it is off.',
      done: 'Earth link is open',
    },
    'inject on': {
      title: a => `Connect the current source to branch ${a.branch}`,
      how: a =>
        `Device open. Plus on ${a.branch} +, return on ${a.into === 'earth' ? 'earth' : `${a.branch} 0 V`}. Take it off after the readings.`,
      done: a => `Source feeds ${a.branch}`,
    },
    'inject off': {
      title: a => `Disconnect the current source from branch ${a.branch}`,
      how: 'Switch the source off first, then take its leads off.',
      done: 'Source is off and away',
    },
  },
  points: {
    earth: 'the earth terminal',
    earthShort: 'earth',
    supplyShort: 'supply',
    busShort: 'bus',
    supply: plus => `the supply, ${plus ? '+' : '0 V'} terminal`,
    bus: plus => `the ${plus ? '24 V' : '0 V'} bus`,
    branch: (branch, plus) => `branch ${branch}, outgoing ${plus ? '+' : '0 V'} terminal`,
    run: (run, plus) => `run ${run}, near end, ${plus ? '24 V' : '0 V'} core`,
    junction: (junction, plus) => `junction ${junction}, ${plus ? '24 V' : '0 V'}`,
  },
  at: { cabinet: ' at the cabinet', junction: junction => ` at junction ${junction}` },
  read: {
    amp: branch => `Read amperes in branch ${branch}`,
    between: (meter, red, black) => `Read ${UNITS[meter]} from ${red} to ${black}`,
    supply: meter => `Read ${UNITS[meter]} at the supply terminals`,
    bus: meter => `Read ${UNITS[meter]} at the bus`,
    branch: (meter, branch) => `Read ${UNITS[meter]} at branch ${branch}, outgoing terminals`,
    run: (meter, run, at) => `Read ${UNITS[meter]} into run ${run} at its near end${at}`,
    junction: (meter, junction, branch) => `Read ${UNITS[meter]} at junction ${junction} of branch ${branch}`,
    series: 'Meter in series with the source, leads in A and COM. Afterwards the red lead goes back to VΩ.',
    clamp: 'Zero the clamp. Clamp round the + conductor alone, arrow away from the supply.',
    probes: (red, black) => `Red on ${red}. Black on ${black}.`,
    waitOhm: 'Wait until the display stands.',
    waitVolt: 'Dial on V, direct current.',
  },
  look: {
    device: (branch, kind) => {
      const names = { fuse: 'fuse', breaker: 'breaker', device: 'device' }
      return `Look at the ${names[kind]} of branch ${branch}`
    },
    supplyLamp: 'Look at the supply’s lamp',
    mainsLamp: 'Look whether the supply has mains',
    deviceHow: 'Look only. Do not switch it.',
    lampHow: 'Look only. Covers stay shut.',
  },
}
