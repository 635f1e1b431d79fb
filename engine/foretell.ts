// What a method will give before anything is read: the readings it would take for a fault at a place, and the metres they leave.
import { type Cable, type FaultOhm, meanOf, USUAL_FAULT } from './cable.ts'
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
  readonly refusedBecause?: Refusal
}

const PLACES = 24

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
  const never = estimates.find(e => e.refusedBecause === 'loop-too-small' || e.refusedBecause === 'unequal-cores')?.refusedBecause
  const refusedBecause = never ?? (standardUncertainty >= now ? 'tells-nothing' : undefined)
  return { standardUncertainty, now, ...(refusedBecause === undefined ? {} : { refusedBecause }) }
}
