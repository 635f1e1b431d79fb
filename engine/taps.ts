// The voltage along a cable that carries a limited current: it falls evenly up to the fault, and past it stands still.
import type { Cable } from './cable.ts'
import { type Instrument, propagated, type Term } from './instrument.ts'
import type { Raw } from './method.ts'

/** Volts across the two cores at a junction, metres from the near end. */
export interface Tap {
  readonly at: number
  readonly volts: number
}

/** A tap counts as past the fault while it stands within so many standard uncertainties of those behind it. */
const SAME = 5

const mean = (of: readonly number[]): number => of.reduce((sum, x) => sum + x, 0) / of.length

/**
 * Least squares: a line through the taps before the fault, a level through those past it, and where they meet. The line's slope
 * is what the cable's data say, corrected by the taps themselves as far as they know better.
 */
export const throughTaps = (taps: readonly Tap[], ampere: number, cable: Cable, tools: Instrument): Raw => {
  const sorted = [...taps].sort((a, b) => a.at - b.at)
  const [first, last] = [sorted[0], sorted.at(-1)]
  if (first === undefined || last === undefined || first.at === last.at)
    throw new RangeError(`taps at two places at least, found ${taps.length}`)
  const errors = sorted.map(({ volts }) => tools.volt(volts))
  const oneRange = errors.every(({ range }) => range === errors[0]?.range)
  const noise = Math.sqrt(mean(errors.map(({ own, common }) => own ** 2 + (oneRange ? 0 : common ** 2))))
  let past = 1
  while (past < sorted.length - 1) {
    const next = sorted.at(-past - 1)
    const level = mean(sorted.slice(-past).map(({ volts }) => volts))
    if (next === undefined || Math.abs(next.volts - level) > SAME * noise * Math.sqrt(1 + 1 / past)) break
    past += 1
  }
  const before = sorted.slice(0, -past)
  const level = mean(sorted.slice(-past).map(({ volts }) => volts))
  const [at, volts] = [mean(before.map(tap => tap.at)), mean(before.map(tap => tap.volts))]
  const sxx = before.reduce((sum, tap) => sum + (tap.at - at) ** 2, 0)
  const sxy = before.reduce((sum, tap) => sum + (tap.at - at) * (tap.volts - volts), 0)
  // Volts per metre by the cable's data, and how far that may be off; what the meter's gain adds to it counts for the weights alone.
  const told = ampere * cable.loop
  const amperes: Term = { per: 1 / ampere, value: ampere, errors: tools.ampere(ampere) }
  const toldSd = told * Math.hypot(cable.spread, Math.sqrt(propagated([amperes])))
  const doubt = Math.hypot(toldSd, told * (errors[0]?.gain ?? 0))
  // Of the slope, what the taps themselves say: by the inverse of the variances.
  const byTaps = noise === 0 || sxx === 0 ? 0 : sxx / noise ** 2 / (1 / doubt ** 2 + sxx / noise ** 2)
  const slope = byTaps === 0 ? told : byTaps * (-sxy / sxx) + (byTaps === 1 ? 0 : (1 - byTaps) * told)
  const place = at + (volts - level) / slope
  const terms = sorted.map((tap, i): Term => {
    const isBefore = i < before.length
    const throughSlope = byTaps === 0 ? 0 : ((place - at) * byTaps * (tap.at - at)) / sxx
    const per = isBefore ? (1 / before.length + throughSlope) / slope : -1 / past / slope
    return { per, value: tap.volts, errors: tools.volt(tap.volts) }
  })
  const throughTold = byTaps === 1 ? 0 : ((place - at) * (1 - byTaps) * toldSd) / slope
  return {
    place,
    // The junctions' own places are read off the drawing, and stretch with it.
    variance: propagated(terms) + throughTold ** 2 + ((place / cable.length) * cable.lengthSd) ** 2,
    faultOhm: level / ampere,
    faultVariance: (noise ** 2 / past + errors.reduce((most, { common }) => Math.max(most, common), 0) ** 2) / ampere ** 2,
    ...(first.at === 0 ? { loopOhm: first.volts / ampere } : {}),
  }
}
