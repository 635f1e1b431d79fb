// Methods to find the place of a short circuit on one cable: from readings to metres, with their uncertainty, in closed form.
// Loads are off or unplugged, so that past the fault no test current flows. A load left on side by side with the fault makes
// every ohm reading too low, and then nothing here holds.
import { type Cable, DEAD_SHORT, type FaultOhm, meanOf, USUAL_FAULT, varianceOf } from './cable.ts'
import { type Instrument, propagated, type Term } from './instrument.ts'
import { type Part, quantileWithin } from './normal.ts'
import type { Interval } from './step.ts'
import { type Tap, throughTaps } from './taps.ts'

/** What was read, Ω, V and A. `near` and `far` are the cable's two ends, `healthy` a pair of sound cores of the same cable. */
export type Readings =
  | { readonly method: 'one-end'; readonly near: number }
  | { readonly method: 'two-ends'; readonly near: number; readonly far: number }
  /** Against a sound pair of the same cable, joined at the far end. */
  | { readonly method: 'one-end-healthy'; readonly near: number; readonly healthy: number }
  | { readonly method: 'two-ends-healthy'; readonly near: number; readonly far: number; readonly healthy: number }
  /**
   * All at one end, with a jumper at the far end from the faulty core to a sound one: `around` through both, `healthy` and
   * `faulty` from either to the way back. The difference of the last two is what a loop bridge balances.
   */
  | { readonly method: 'far-jumper'; readonly around: number; readonly healthy: number; readonly faulty: number }
  /** A limited current fed in at the near end, and volts across the two cores at the near end alone. */
  | { readonly method: 'injected-near'; readonly near: number; readonly ampere: number }
  /** The same and volts at the open far end, which are the fault's own. */
  | { readonly method: 'injected-far'; readonly near: number; readonly far: number; readonly ampere: number }
  /** Drop along the faulty core, felt through a sound core; and drop along a sound core of the full length at the same current. */
  | { readonly method: 'core-drop'; readonly drop: number; readonly healthy: number }
  /** As `injected-far`, and the volts that the same current needs around a sound pair joined at the far end. */
  | { readonly method: 'loop-drop'; readonly near: number; readonly far: number; readonly healthy: number }
  /** Volts across the two cores at junctions along the way; the last lies past the fault. */
  | { readonly method: 'taps'; readonly taps: readonly Tap[]; readonly ampere: number }
export type Method = Readings['method']

/** A plain no, as a key: its words stand elsewhere. */
export type Refusal =
  /** Not sharper than knowing nothing but the cable's length: u ≥ L/√12, or a bound past its end. */
  | 'tells-nothing'
  /** The sound loop has hardly more than the meter may be off. */
  | 'loop-too-small'
  /** The way back is not a core like the other. */
  | 'unequal-cores'
  /** No place on this cable gives such readings: another length, size or core, a second fault, or a slip. */
  | 'does-not-fit'

export interface Estimate {
  /** Metres from the near end: the estimate as it comes out, also where it lies past an end. */
  readonly place: number
  /** Metres. */
  readonly standardUncertainty: number
  /** Holds the place in 95 of 100 if it may be anywhere on the cable, and lies on the cable. */
  readonly interval: Interval
  /** Ω: the way there and back with the fault, and of it the fault itself, as far as the readings tell. */
  readonly loopOhm?: number
  readonly faultOhm?: number
  /** Metres that the place cannot pass, whatever the fault's own resistance. */
  readonly upperBound?: number
  /** One ohm reading from one end cannot part wire from fault: only `upperBound` is to be told. */
  readonly upperBoundOnly?: true
  readonly refusedBecause?: Refusal
}

/** A sound loop of less than this many times what the meter may be off near 0 Ω is refused: 0.46 Ω at 0.1 Ω and 3 counts (computed here). */
const LOOP_OVER_LIMIT = 1.3
/** Standard uncertainties past which readings fit no place. */
const MISFIT = 4

/** What a method makes of its readings, before the judgement that all methods share. */
export interface Raw {
  readonly place: number
  /** m², all but the fault's own resistance. */
  readonly variance: number
  /** Metres that a further ohm in the fault moves the place by; 0 where the method measures the fault. */
  readonly perFaultOhm?: number
  readonly loopOhm?: number
  readonly faultOhm?: number
  /** Ω², of `faultOhm`. */
  readonly faultVariance?: number
  readonly upperBound?: number
  readonly upperBoundOnly?: boolean
  readonly refusedBecause?: Refusal | undefined
}

const square = (x: number): number => x * x

/** place = L × Σ(top × value) / Σ(bottom × value): gain, current, conductor and temperature cancel. Values in `readings`, all of one unit. */
const byRatio = (
  cable: Cable,
  errors: Instrument['ohm'],
  readings: readonly { readonly value: number; readonly top: number; readonly bottom: number }[],
): { readonly place: number; readonly variance: number } => {
  const over = (of: 'top' | 'bottom'): number => readings.reduce((sum, reading) => sum + reading[of] * reading.value, 0)
  const whole = over('bottom')
  const share = over('top') / whole
  const terms = readings.map(
    ({ value, top, bottom }): Term => ({ per: (cable.length / whole) * (top - share * bottom), value, errors: errors(value) }),
  )
  // Dividing by a reading that may itself be off by the share ε: E[1/(1 + ε)²] = 1 + 3ε² + 15ε⁴ for normal errors. First order
  // alone is a tenth too small where ε is 0.23, a quarter where it is 0.35.
  const off = propagated(readings.map(({ value, bottom }): Term => ({ per: bottom / whole, value: 0, errors: errors(value) })))
  return {
    place: cable.length * share,
    variance: propagated(terms) * (1 + 3 * off + 15 * square(off)) + square(share * cable.lengthSd),
  }
}

const smallLoop = (healthy: number, { ohm }: Instrument): Refusal | undefined =>
  healthy <= LOOP_OVER_LIMIT * ohm(0).limit ? 'loop-too-small' : undefined
const equalCores = ({ core, loop }: Cable): Refusal | undefined => (Math.abs(loop - 2 * core) > 1e-9 * loop ? 'unequal-cores' : undefined)

export const measured = (r: Readings, cable: Cable, tools: Instrument): Raw => {
  const { length, loop, spread, lengthSd, leastLoop } = cable
  const ohms = (per: number, value: number): Term => ({ per, value, errors: tools.ohm(value) })
  const volts = (per: number, value: number): Term => ({ per, value, errors: tools.volt(value) })
  const amperes = (per: number, value: number): Term => ({ per, value, errors: tools.ampere(value) })
  switch (r.method) {
    case 'one-end': {
      const place = r.near / loop
      return {
        place,
        variance: propagated([ohms(1 / loop, r.near)]),
        perFaultOhm: -1 / loop,
        loopOhm: r.near,
        upperBound: (r.near + tools.ohm(r.near).limit) / leastLoop,
        upperBoundOnly: true,
      }
    }
    case 'two-ends': {
      const place = length / 2 + (r.near - r.far) / (2 * loop)
      const off = place - length / 2
      return {
        place,
        variance: propagated([ohms(1 / (2 * loop), r.near), ohms(-1 / (2 * loop), r.far)]) + square(off * spread) + square(lengthSd / 2),
        loopOhm: r.near,
        faultOhm: (r.near + r.far - loop * length) / 2,
        faultVariance:
          propagated([ohms(0.5, r.near), ohms(0.5, r.far)]) + square((loop * length * spread) / 2) + square((loop * lengthSd) / 2),
      }
    }
    case 'one-end-healthy': {
      const off = tools.ohm(r.near).limit
      return {
        ...byRatio(cable, tools.ohm, [
          { value: r.near, top: 1, bottom: 0 },
          { value: r.healthy, top: 0, bottom: 1 },
        ]),
        perFaultOhm: -length / r.healthy,
        loopOhm: r.near,
        upperBound: r.healthy > off ? (length * (r.near + off)) / (r.healthy - off) : Number.POSITIVE_INFINITY,
        upperBoundOnly: true,
        refusedBecause: equalCores(cable) ?? smallLoop(r.healthy, tools),
      }
    }
    case 'two-ends-healthy':
      return {
        ...byRatio(cable, tools.ohm, [
          { value: r.near, top: 0.5, bottom: 0 },
          { value: r.far, top: -0.5, bottom: 0 },
          { value: r.healthy, top: 0.5, bottom: 1 },
        ]),
        loopOhm: r.near,
        faultOhm: (r.near + r.far - r.healthy) / 2,
        faultVariance: propagated([ohms(0.5, r.near), ohms(0.5, r.far), ohms(-0.5, r.healthy)]),
        refusedBecause: equalCores(cable) ?? smallLoop(r.healthy, tools),
      }
    case 'far-jumper':
      return {
        ...byRatio(cable, tools.ohm, [
          { value: r.around, top: 1, bottom: 1 },
          { value: r.healthy, top: -1, bottom: 0 },
          { value: r.faulty, top: 1, bottom: 0 },
        ]),
        loopOhm: r.faulty,
        refusedBecause: smallLoop(r.around, tools),
      }
    case 'injected-near': {
      const ohm = r.near / r.ampere
      const off = (r.near + tools.volt(r.near).limit) / Math.max(r.ampere - tools.ampere(r.ampere).limit, 1e-9)
      return {
        place: ohm / loop,
        variance: propagated([volts(1 / (r.ampere * loop), r.near)]) + propagated([amperes(-ohm / (r.ampere * loop), r.ampere)]),
        perFaultOhm: -1 / loop,
        loopOhm: ohm,
        upperBound: off / leastLoop,
      }
    }
    case 'injected-far': {
      const per = 1 / (r.ampere * loop)
      const place = (r.near - r.far) * per
      return {
        place,
        variance:
          propagated([volts(per, r.near), volts(-per, r.far)]) +
          propagated([amperes(-place / r.ampere, r.ampere)]) +
          square(place * spread),
        loopOhm: r.near / r.ampere,
        faultOhm: r.far / r.ampere,
        faultVariance: (propagated([volts(1, r.far)]) + propagated([amperes(r.far / r.ampere, r.ampere)])) / square(r.ampere),
      }
    }
    case 'core-drop':
      return byRatio(cable, tools.volt, [
        { value: r.drop, top: 1, bottom: 0 },
        { value: r.healthy, top: 0, bottom: 1 },
      ])
    case 'loop-drop':
      return {
        ...byRatio(cable, tools.volt, [
          { value: r.near, top: 1, bottom: 0 },
          { value: r.far, top: -1, bottom: 0 },
          { value: r.healthy, top: 0, bottom: 1 },
        ]),
        refusedBecause: equalCores(cable),
      }
    case 'taps':
      return throughTaps(r.taps, r.ampere, cable, tools)
  }
}

/**
 * The place by one method. `fault`: what the fault itself may have; it matters to the methods that read at one end only, which
 * cannot tell it from wire.
 */
export const estimate = (readings: Readings, cable: Cable, tools: Instrument, fault: FaultOhm = USUAL_FAULT): Estimate => {
  const { length } = cable
  const { perFaultOhm = 0, variance, faultVariance, ...raw } = measured(readings, cable, tools)
  const unknown = perFaultOhm === 0 ? DEAD_SHORT : fault
  const place = raw.place + perFaultOhm * meanOf(unknown)
  // Ohms from one end are wire only as far as they are not fault: so is what the conductor's tolerance makes of them.
  const byWire = perFaultOhm === 0 || 'healthy' in readings ? 0 : cable.spread
  const standardUncertainty = Math.sqrt(variance + square(place * byWire) + square(perFaultOhm) * varianceOf(unknown))
  const parts = unknown.map(({ share, mean, sd }): Part => {
    const here = raw.place + perFaultOhm * mean
    return { share, mean: here, sd: Math.sqrt(variance + square(here * byWire) + square(perFaultOhm * sd)) }
  })
  const at = (q: number): number => quantileWithin(parts, q, 0, length)
  const outside = place < -MISFIT * standardUncertainty || place > length + MISFIT * standardUncertainty
  const negative = raw.faultOhm !== undefined && faultVariance !== undefined && raw.faultOhm < -MISFIT * Math.sqrt(faultVariance)
  const open = varianceOf(unknown) > 0
  const boundOnly = open && raw.upperBoundOnly === true
  const refusedBecause =
    raw.refusedBecause ??
    (outside || negative ? ('does-not-fit' as const) : undefined) ??
    ((boundOnly ? (raw.upperBound ?? length) >= length : standardUncertainty >= length / Math.sqrt(12))
      ? ('tells-nothing' as const)
      : undefined)
  return {
    place,
    standardUncertainty,
    interval: { best: at(0.5), low: at(0.025), high: at(0.975) },
    ...(raw.loopOhm === undefined ? {} : { loopOhm: raw.loopOhm }),
    ...(raw.faultOhm === undefined ? {} : { faultOhm: raw.faultOhm }),
    ...(open && raw.upperBound !== undefined ? { upperBound: Math.min(raw.upperBound, length) } : {}),
    ...(boundOnly ? { upperBoundOnly: true as const } : {}),
    ...(refusedBecause === undefined ? {} : { refusedBecause }),
  }
}
