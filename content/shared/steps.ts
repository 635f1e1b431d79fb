// How a step becomes words: which sentence, with which names. The sentences themselves stand in each language.
import { parts } from './points.ts'
import type { Act, Names, Read, Step } from './types.ts'

/** What an act's sentences can name. `load` is the load's name; `at` says where the run's near end is, or nothing. */
export interface ActFacts {
  readonly branch: string
  readonly load: string
  readonly run: string
  readonly at: string
  readonly into: 'zero' | 'earth'
}
type Say = string | ((a: ActFacts) => string)
export interface ActSentences {
  /** The instruction, verb first, at most 20 words. */
  readonly title: Say
  /** Where hands, dial and leads go. */
  readonly how: Say
  /** What is true once it is done: a button's words, short enough for one line. */
  readonly done: Say
}
export type ActKey =
  | 'supply on'
  | 'supply off'
  | 'prove-dead'
  | 'zero-leads'
  | `${'fuse' | 'breaker' | 'device'} ${'open' | 'closed'}`
  | 'load plugged'
  | 'load unplugged'
  | `${'run' | 'bus' | 'bond'} ${'opened' | 'joined'}`
  | 'inject on'
  | 'inject off'
type Meter = 'volt' | 'ohm'
export interface StepSentences {
  readonly acts: Readonly<Record<ActKey, ActSentences>>
  readonly points: {
    readonly earth: string
    readonly earthShort: string
    readonly supplyShort: string
    readonly busShort: string
    readonly supply: (plus: boolean) => string
    readonly bus: (plus: boolean) => string
    readonly branch: (branch: string, plus: boolean) => string
    readonly run: (run: string, plus: boolean) => string
    readonly junction: (junction: string, plus: boolean) => string
  }
  /** Where a run's near end is, as a title's last words, with the space before them. */
  readonly at: { readonly cabinet: string; readonly junction: (junction: string) => string }
  readonly read: {
    readonly amp: (branch: string) => string
    readonly between: (meter: Meter, red: string, black: string) => string
    readonly supply: (meter: Meter) => string
    readonly bus: (meter: Meter) => string
    readonly branch: (meter: Meter, branch: string) => string
    readonly run: (meter: Meter, run: string, at: string) => string
    readonly junction: (meter: Meter, junction: string, branch: string) => string
    readonly series: string
    readonly clamp: string
    readonly probes: (red: string, black: string) => string
    readonly waitOhm: string
    readonly waitVolt: string
  }
  readonly look: {
    readonly device: (branch: string, kind: 'fuse' | 'breaker' | 'device') => string
    readonly supplyLamp: string
    readonly mainsLamp: string
    readonly deviceHow: string
    readonly lampHow: string
  }
}

/** Points of the cabinet that belong to no branch. */
const CABINET = ['earth', 'supply', 'bus']

const kindOf = ({ device }: Names): 'fuse' | 'breaker' | 'device' => (device === 'fuse' || device === 'breaker' ? device : 'device')
const keyOf = (act: Act, names: Names): ActKey => {
  switch (act.act) {
    case 'supply':
      return `supply ${act.to}`
    case 'prove-dead':
    case 'zero-leads':
      return act.act
    case 'device':
      return `${kindOf(names)} ${act.to}`
    case 'load':
      return `load ${act.to}`
    case 'run':
    case 'bus':
    case 'bond':
      return `${act.act} ${act.to}`
    case 'inject':
      return `inject ${act.to}`
  }
}

/** The leads the other way round than usual, as for a diode: the drawing alone might be overlooked. */
const isTurned = ({ red, black }: { readonly red: string; readonly black: string }): boolean =>
  parts(red).place === parts(black).place && red.endsWith('.zero')

/** The sentences of a language as functions of a step. */
export const stepsFrom = ({ acts, points, at, read: reads, look }: StepSentences) => {
  const atWords = (near: string | undefined): string => (near === undefined ? '' : near === 'terminals' ? at.cabinet : at.junction(near))
  const say = (what: keyof ActSentences, act: Act, names: Names): string => {
    const { [what]: sentence } = acts[keyOf(act, names)]
    if (typeof sentence === 'string') return sentence
    return sentence({
      branch: 'branch' in act ? act.branch : '',
      load: act.act === 'load' ? (names.load ?? act.load) : '',
      run: act.act === 'run' ? act.run : '',
      at: atWords(names.near),
      into: act.act === 'inject' ? (act.into ?? 'zero') : 'zero',
    })
  }
  /** 'B3.plus' in words: 'branch B3, outgoing + terminal'. */
  const pointWords = (point: string, runs: readonly string[] = []): string => {
    const { place, side, branch, node } = parts(point)
    const plus = side === 'plus'
    if (place === 'earth') return points.earth
    if (place === 'supply') return points.supply(plus)
    if (place === 'bus') return points.bus(plus)
    if (node === undefined) return points.branch(branch, plus)
    return runs.includes(node) ? points.run(node, plus) : points.junction(node, plus)
  }
  /** The same in a few signs, for the line above the keypad: 'B3 +'. */
  const pointShort = (point: string): string => {
    const { place, side, node } = parts(point)
    const { [place]: named = node ?? place } = { supply: points.supplyShort, bus: points.busShort }
    return place === 'earth' ? points.earthShort : `${named} ${side === 'plus' ? '+' : '0 V'}`
  }
  const readTitle = (step: Read, names: Names): string => {
    if (step.meter === 'amp') return reads.amp(step.branch)
    const { meter } = step
    const red = parts(step.red)
    const black = parts(step.black)
    const runs = names.runs ?? []
    // Two outgoing terminals are named as shortly as the drawing names them: in full they would take a small screen's room for it.
    const short = [red, black].every(({ place, node }) => node === undefined && !CABINET.includes(place))
    const name = (point: string) => (short ? pointShort(point) : pointWords(point, runs))
    if (red.place !== black.place) return reads.between(meter, name(step.red), name(step.black))
    if (red.place === 'supply') return reads.supply(meter)
    if (red.place === 'bus') return reads.bus(meter)
    if (red.node === undefined) return reads.branch(meter, red.branch)
    return runs.includes(red.node) ? reads.run(meter, red.node, atWords(names.near)) : reads.junction(meter, red.node, red.branch)
  }
  const wait = (meter: Meter): string => (meter === 'ohm' ? reads.waitOhm : reads.waitVolt)
  /** The step in detail: where the probes, the dial and the leads go. */
  const stepHow = (step: Step, names: Names = {}): string => {
    if (step.kind === 'act') return say('how', step.act, names)
    if (step.kind === 'look') return step.look === 'device' ? look.deviceHow : look.lampHow
    if (step.meter === 'amp') return names.series ? reads.series : reads.clamp
    const runs = names.runs ?? []
    return `${reads.probes(pointWords(step.red, runs), pointWords(step.black, runs))} ${wait(step.meter)}`
  }
  return {
    pointWords,
    pointShort,
    /** The instruction, verb first, at most 20 words. */
    stepTitle: (step: Step, names: Names = {}): string => {
      if (step.kind === 'act') return say('title', step.act, names)
      if (step.kind === 'read') return readTitle(step, names)
      if (step.look === 'device') return look.device(step.branch, kindOf(names))
      return step.look === 'supply-lamp' ? look.supplyLamp : look.mainsLamp
    },
    stepHow,
    /** What stands under the drawing of a step: where the drawing and the title say where the probes go, only the rest. */
    stepUnder: (step: Step, names: Names = {}): string =>
      step.kind === 'read' && step.meter !== 'amp' && !isTurned(step) ? wait(step.meter) : stepHow(step, names),
    /** What is true once the act is done: the button's words. */
    actDone: (act: Act, names: Names = {}): string => say('done', act, names),
  }
}
