// Small machines between which every kind of device, fault, kit and act comes up.
import type { Act, Finding } from '../../engine/step.ts'
import type { Family } from './anyPlan.ts'
import type { Setup } from './follow.ts'
import { INJECTOR, known, METER, one, three, trees, unknown } from './machines.ts'

const SWITCHING: readonly Act['act'][] = ['supply', 'prove-dead', 'device']
const shortInRun: Finding = { fault: 'short-to-zero', branch: 'B1', run: 'W1', probability: 0.9 }
const shortInLoad: Finding = { fault: 'load-short', branch: 'B1', load: 'K1', probability: 0.9 }
const quantum = 30

const whole = (name: string, acts: readonly Act['act'][], more: Partial<Family> = {}): Family => ({
  name,
  machine: one('breaker'),
  acts,
  findings: [],
  quantum: 60,
  ...more,
})
const wayBack = (fault: Finding['fault'], where: Pick<Finding, 'branch' | 'run' | 'load'>): Family =>
  whole(`the way back from ${fault}`, ['prove-dead'], { findings: [{ fault, ...where, probability: 0.9 }] })
const [INSIDE, IN_RUN, IN_LOAD] = [{ branch: 'B1' }, { branch: 'B1', run: 'W1' }, { branch: 'B1', load: 'K1' }]

/** Walked to the very last state, each in well under a minute on a quiet computer: pairs of acts, and the way back from each kind of fault. */
export const SMALL: readonly Family[] = [
  whole('the supply', ['supply', 'prove-dead']),
  whole('the supply, a breaker', ['supply', 'prove-dead', 'device']),
  whole('the supply, a fuse', ['supply', 'device'], { machine: one('fuse') }),
  whole('injection', ['prove-dead', 'inject']),
  whole('the link to earth', ['supply', 'prove-dead', 'bond']),
  whole('the bus', ['prove-dead', 'bus']),
  whole('a run, the leads', ['prove-dead', 'run', 'zero-leads']),
  whole('a plug', ['prove-dead', 'load']),
  ...(['short-to-zero', 'short-to-earth', 'open-plus', 'open-zero', 'poor-joint'] as const).map(fault => wayBack(fault, IN_RUN)),
  ...(['load-short', 'overload', 'diode'] as const).map(fault => wayBack(fault, IN_LOAD)),
  ...(['short', 'in-rush', 'swapped', 'intermittent', 'backfeed', 'device-open'] as const).map(fault => wayBack(fault, INSIDE)),
  ...(['supply-low', 'supply-dead', 'no-mains'] as const).map(fault => wayBack(fault, {})),
]

/** Each lets a few kinds of act meet; together they have the whole vocabulary. */
export const FAMILIES: readonly Family[] = [
  { name: 'a breaker, injection', machine: one('breaker'), acts: [...SWITCHING, 'inject'], findings: [], quantum },
  { name: 'a fuse, a plug, the way back', machine: one('fuse'), acts: [...SWITCHING, 'load'], findings: [shortInLoad], quantum },
  {
    name: 'bus, bond, a run, leads, the way back',
    machine: one('breaker'),
    acts: ['supply', 'prove-dead', 'zero-leads', 'bus', 'bond', 'run'],
    findings: [shortInRun],
    quantum,
  },
  { name: 'a breaker beside a fuse', machine: known, acts: SWITCHING, findings: [], quantum },
]

/** The same where all acts and faults of one branch, or of two, meet: millions of states, walked as far as time allows. */
export const LARGER: readonly Family[] = [
  {
    name: 'one branch, all acts',
    machine: one('breaker'),
    acts: [...SWITCHING, 'inject', 'zero-leads', 'load', 'run', 'bus', 'bond'],
    findings: [shortInRun, shortInLoad, { fault: 'open-plus', branch: 'B1', run: 'W1', probability: 0.9 }],
    quantum: 15,
  },
  {
    name: 'a breaker beside a fuse, injection, the way back',
    machine: known,
    acts: [...SWITCHING, 'inject'],
    findings: [
      { fault: 'short', branch: 'B2', probability: 0.9 },
      { fault: 'supply-dead', probability: 0.9 },
      { fault: 'device-open', branch: 'B1', probability: 0.9 },
    ],
    quantum: 15,
  },
]

const QUICK = 100
/** The planner as it is, on machines of every kind of knowledge; `most` is for the tests, the command walks on. */
export const SETUPS: readonly Setup[] = [
  { name: 'two branched branches, injector', machine: trees, kit: INJECTOR, symptom: 'all-dead', longest: 17, odd: 1, most: QUICK },
  { name: 'two branches, wiring known, one trips', machine: known, kit: METER, symptom: 'trips-again', longest: 14, odd: 1, most: QUICK },
  { name: 'three branches, wiring known', machine: three, kit: METER, symptom: 'all-dead', longest: 16, odd: 1, most: QUICK },
  { name: 'three branches, wiring unknown', machine: unknown, kit: METER, symptom: 'all-dead', longest: 18, odd: 1, most: QUICK },
  {
    name: 'one branch, a load dead',
    machine: one('fuse'),
    kit: { clamp: true },
    symptom: 'one-load-dead',
    longest: 14,
    odd: 1,
    most: QUICK,
  },
  { name: 'two branches, one dead', machine: known, kit: INJECTOR, symptom: 'one-branch-dead', longest: 12, odd: 1, most: QUICK },
  { name: 'two branches, comes and goes', machine: known, kit: METER, symptom: 'comes-and-goes', longest: 10, odd: 2, most: QUICK },
]
