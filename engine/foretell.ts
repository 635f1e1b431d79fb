// What a method will give before anything is read: the readings it would take for a fault at a place, and the metres they leave.
import { type Cable, type FaultOhm, meanOf, USUAL_FAULT } from './cable.ts'
import { COST } from './cost.ts'
import type { Instrument } from './instrument.ts'
import { estimate, type Method, type Readings, type Refusal } from './method.ts'

/** What feeds the cable, and where along it volts can be read, metres; both only matter to the methods that use them. */
export interface Setting {
  readonly ampere: number
  readonly taps: readonly number[]
}

/** Readings without any error, for a fault of `ohm` at `place`. */
export const ideal = (method: Method, place: number, ohm: number, { length, core, loop }: Cable, { ampere, taps }: Setting): Readings => {
  const [near, far, healthy] = [loop * place + ohm, loop * (length - place) + ohm, 2 * core * length]
  switch (method) {
    case 'one-end':
      return { method, near }
    case 'two-ends':
      return { method, near, far }
    case 'one-end-healthy':
      return { method, near, healthy }
    case 'two-ends-healthy':
      return { method, near, far, healthy }
    case 'far-jumper':
      return { method, around: healthy, healthy: core * (length + (length - place)) + (loop - core) * place + ohm, faulty: near }
    case 'injected-near':
      return { method, near: near * ampere, ampere }
    case 'injected-far':
      return { method, near: near * ampere, far: ohm * ampere, ampere }
    case 'core-drop':
      return { method, drop: core * place * ampere, healthy: core * length * ampere }
    case 'loop-drop':
      return { method, near: near * ampere, far: ohm * ampere, healthy: healthy * ampere }
    case 'taps':
      return { method, taps: taps.map(at => ({ at, volts: (loop * Math.max(place - at, 0) + ohm) * ampere })), ampere }
  }
}

/** Where the fault may still be, metres from the near end. */
export interface Stretch {
  readonly low: number
  readonly high: number
}
export interface Foretold {
  /** Metres: root of the mean square over the stretch, every place alike. */
  readonly standardUncertainty: number
  /** The same of the stretch itself, which a reading has to beat: width/√12. */
  readonly now: number
  /** Metres of the stretch that are left to search on average: within the 95 % interval, or up to the bound where there is nothing else. */
  readonly leaves: number
  readonly refusedBecause?: Refusal
}

const PLACES = 24
/** A bound that leaves more of the stretch than this is none (a bar of the project's own). */
const NO_BOUND = 0.95

/** What a method will leave of a stretch of cable, and a plain no where that is worth nothing. */
export const foretell = (
  method: Method,
  cable: Cable,
  tools: Instrument,
  setting: Setting,
  fault: FaultOhm = USUAL_FAULT,
  { low, high }: Stretch = { low: 0, high: cable.length },
): Foretold => {
  const estimates = Array.from({ length: PLACES }, (_, i) => {
    const place = low + ((i + 0.5) / PLACES) * (high - low)
    return estimate(ideal(method, place, meanOf(fault), cable, setting), cable, tools, fault)
  })
  const standardUncertainty = Math.sqrt(estimates.reduce((sum, e) => sum + e.standardUncertainty ** 2, 0) / PLACES)
  const now = (high - low) / Math.sqrt(12)
  const within = (x: number): number => Math.min(Math.max(x, low), high)
  const leaves = estimates.map(({ interval, upperBoundOnly, upperBound = high }) =>
    upperBoundOnly ? within(upperBound) - low : within(interval.high) - within(interval.low),
  )
  const never = estimates.find(e => e.refusedBecause === 'loop-too-small' || e.refusedBecause === 'unequal-cores')?.refusedBecause
  const left = leaves.reduce((sum, x) => sum + x, 0) / PLACES
  const isBound = estimates.some(e => e.upperBoundOnly)
  const tells = isBound ? left <= NO_BOUND * (high - low) : standardUncertainty < now
  const refusedBecause = never ?? (tells ? undefined : 'tells-nothing')
  return { standardUncertainty, now, leaves: left, ...(refusedBecause === undefined ? {} : { refusedBecause }) }
}

/** What is read where: in the cabinet at the near end, out at the far end or a junction, and cores joined or a jumper set out there. */
const WORK: Readonly<Record<Method, { readonly near: number; readonly out: number; readonly joins: number; readonly fed: number }>> = {
  'one-end': { near: 1, out: 0, joins: 0, fed: 0 },
  'two-ends': { near: 1, out: 1, joins: 0, fed: 0 },
  'one-end-healthy': { near: 2, out: 0, joins: 1, fed: 0 },
  'two-ends-healthy': { near: 2, out: 1, joins: 1, fed: 0 },
  'far-jumper': { near: 3, out: 0, joins: 1, fed: 0 },
  'injected-near': { near: 2, out: 0, joins: 0, fed: 1 },
  'injected-far': { near: 2, out: 1, joins: 0, fed: 1 },
  'core-drop': { near: 2, out: 0, joins: 1, fed: 1 },
  'loop-drop': { near: 2, out: 1, joins: 1, fed: 2 },
  taps: { near: 2, out: 0, joins: 0, fed: 1 },
}

/** Does the method feed a current, or is it for an ohmmeter on a dead cable? */
export const feeds = (method: Method): boolean => WORK[method].fed > 0

/** Seconds that a method's readings take by the table of step costs, from a circuit proved dead with zeroed leads. */
export const secondsOf = (method: Method, { taps }: Pick<Setting, 'taps'>, by: 'injector' | 'supply' = 'injector'): number => {
  const { near, out, joins, fed } = WORK[method]
  const walks = out + joins + (method === 'taps' ? taps.filter(at => at > 0).length : 0)
  return near * COST.readInCabinet + walks * COST.readOutside + fed * (by === 'supply' ? COST.supply : COST.inject)
}
