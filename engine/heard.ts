// What readings have told of a branch's loads. They are known no better than their watts, but that error is the same each time the
// same loads are read: a second reading of them says little more than the first, whoever takes it and from whichever terminal.
import { WRONG, wrongDensity } from './chain.ts'
import { OHM_SPREAD, type Sound, soundDensity } from './sound.ts'

/** How far the loads are from what is told, in standard deviations of it: mean and variance; and whether they showed any current at all. */
export interface Heard {
  readonly mean: number
  readonly variance: number
  readonly conducts?: boolean
}
const NOTHING: Heard = { mean: 0, variance: 1 }
/** Per hypothesis and set of loads. */
export type AllHeard = ReadonlyMap<string, Heard>

/** 'sound', or a suspicion's index. */
export type Of = 'sound' | number
const keyOf = (of: Of, { loads }: Sound): string => `${of} ${loads}`

/** Chance that loads which showed no current, or some, do otherwise the next time (common practice, no source). */
const OTHERWISE = 0.02
/** A meter's own share of what it shows of loads (common practice, no source). */
const METER = 0.01

/** The loads as they are expected to be read now. */
export const expecting = (all: AllHeard, of: Of, s: Sound): Sound => {
  const h = all.get(keyOf(of, s))
  if (h === undefined) return s
  const openChance = h.conducts === undefined ? s.openChance : h.conducts ? OTHERWISE * s.openChance : 1 - OTHERWISE
  return { ...s, siemens: Math.max(s.siemens + h.mean * s.sd, 0.1 * s.siemens), sd: s.sd * Math.sqrt(h.variance), openChance }
}

/** With one more reading; what is likelier to be plain wrong tells nothing of the loads. `leads` as in `soundDensity`. */
export const hearing = (all: AllHeard, of: Of, s: Sound, shown: number | 'OL', leads: number): readonly [string, Heard] | undefined => {
  if (s.loads === undefined || s.untold > 0 || s.siemens <= 0) return undefined
  const now = expecting(all, of, s)
  if ((1 - WRONG) * soundDensity(now, shown, leads) < WRONG * wrongDensity(shown)) return undefined
  const key = keyOf(of, s)
  const h = all.get(key) ?? NOTHING
  if (shown === 'OL') return [key, { ...h, conducts: false }]
  const g = 1 / Math.max(shown - leads, 0.05)
  // Of a linear gaussian: y = siemens + z sd + noise, z the loads' own error (Kalman 1960, from memory).
  const noise = Math.hypot(g * g * OHM_SPREAD, METER * g)
  const gain = (s.sd * h.variance) / (s.sd ** 2 * h.variance + noise ** 2)
  return [key, { mean: h.mean + gain * (g - s.siemens - h.mean * s.sd), variance: h.variance - gain * s.sd * h.variance, conducts: true }]
}
