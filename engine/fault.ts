// What can be wrong, and how likely each is before anything is measured.
import type { FaultKind, Symptom } from './step.ts'

/** A fault at its place, as the circuit needs it. `at` in metres from the run's near end, `ohm` the fault's own resistance. */
export interface Fault {
  readonly kind: FaultKind
  readonly branch?: string
  readonly run?: string
  readonly load?: string
  readonly at?: number
  readonly ohm?: number
}

/** Conductor short circuits fall per metre of run, this many times as often on a moving run (common practice, no source). */
export const MOVING = 6

/** Of 17 short circuits on a dead supply: 11 conductor to 0 V, 3 conductor to earth, 3 inside a load (common practice, no source). */
export const SHORTS = { toZero: 11 / 17, toEarth: 3 / 17, load: 3 / 17 } as const

/** Chance that a 0 V that is said to float is earthed after all, by a cable's screen for one (common practice, no source). */
export const EARTHED_AFTER_ALL = 0.1

/** The fault's own resistance in Ω, evenly spread in its logarithm (common practice, no source). */
export const CONDUCTOR_SHORT_OHM = { low: 0.005, high: 0.3 } as const
/** A short circuit whose contact is worse than that, charred or wet: how many of them, and its Ω (common practice, no source). */
export const CHARRED = { share: 0.02, low: 0.3, high: 3 } as const
export const LOAD_SHORT_OHM = { low: 0.02, high: 0.5 } as const
/** A load that draws too much and shows it to an ohmmeter, Ω: turns shorted, water inside, one load too many (common practice, no source). */
export const OVERLOAD_OHM = { low: 0.8, high: 12 } as const
/** From here on a shorted load is called one that draws too much, Ω (a bar of the project's own). */
export const OVERLOAD_FROM = 0.65

/** Of the short circuits and what looks like one, the share that is a load that draws too much (common practice, no source). */
export const OVERLOADED: Readonly<Record<Symptom, number>> = {
  'all-dead': 0.01,
  'all-low': 0.3,
  'dead-at-start': 0.03,
  'trips-again': 0.15,
  'one-branch-dead': 0.1,
  'one-load-dead': 0.1,
  'comes-and-goes': 0.03,
}

/**
 * How the causes share a symptom, as weights. `short`: a short circuit with its device closed; `shortTripped`: one whose
 * device has opened (both with the loads that draw too much, by `OVERLOADED`); `flicker`: one that comes and goes as a cable moves;
 * `deviceOpen`: a device open with nothing wrong behind it; `open`: a conductor open in plus or 0 V. Then what shows under voltage
 * only: `hotLoad`, a load that draws too much while its ohms are right; `polarity`, plus and 0 V swapped at a load, or a suppression
 * diode that conducts; `all`, the loads together too much for the supply; `inRush`, too much switched on at once. `backfeed`:
 * another supply feeds a branch. `other`: whatever this program has no circuit for, so that belief never claims to have listed
 * everything (common practice, no source).
 */
export interface Shares {
  readonly short: number
  readonly shortTripped: number
  readonly flicker: number
  readonly hotLoad: number
  readonly polarity: number
  readonly all: number
  readonly inRush: number
  readonly backfeed: number
  readonly deviceOpen: number
  readonly open: number
  readonly poorJoint: number
  readonly supplyLow: number
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
}
const none = { open: 0, poorJoint: 0, supplyLow: 0 } as const
const rare = { flicker: 0.01, hotLoad: 0.004, polarity: 0.006, all: 0.003, inRush: 0.003, backfeed: 0.002 } as const
export const SHARES: Readonly<Record<Symptom, Shares>> = {
  'all-dead': { ...none, ...rare, short: 0.82, shortTripped: 0.012, deviceOpen: 0.005, supplyDead: 0.07, noMains: 0.05, other: 0.015 },
  'all-low': {
    ...none,
    short: 0.48,
    shortTripped: 0.02,
    flicker: 0.01,
    hotLoad: 0.07,
    polarity: 0.01,
    all: 0.07,
    inRush: 0.003,
    backfeed: 0.002,
    deviceOpen: 0.005,
    supplyLow: 0.22,
    supplyDead: 0.07,
    noMains: 0.005,
    other: 0.035,
  },
  'dead-at-start': {
    ...none,
    ...rare,
    inRush: 0.1,
    all: 0.04,
    short: 0.598,
    shortTripped: 0.02,
    deviceOpen: 0.01,
    supplyLow: 0.02,
    supplyDead: 0.09,
    noMains: 0.07,
    other: 0.03,
  },
  'trips-again': {
    ...none,
    short: 0.09,
    shortTripped: 0.66,
    flicker: 0.06,
    hotLoad: 0.05,
    polarity: 0.03,
    all: 0.004,
    inRush: 0.004,
    backfeed: 0.002,
    deviceOpen: 0.05,
    supplyDead: 0.01,
    noMains: 0.01,
    other: 0.03,
  },
  'one-branch-dead': {
    ...rare,
    short: 0.02,
    shortTripped: 0.312,
    deviceOpen: 0.45,
    open: 0.1,
    poorJoint: 0.03,
    supplyLow: 0.005,
    supplyDead: 0.01,
    noMains: 0.01,
    other: 0.035,
  },
  'one-load-dead': {
    ...rare,
    polarity: 0.044,
    short: 0.01,
    shortTripped: 0.104,
    deviceOpen: 0.2,
    open: 0.31,
    poorJoint: 0.14,
    supplyLow: 0.01,
    supplyDead: 0.005,
    noMains: 0.005,
    other: 0.15,
  },
  'comes-and-goes': {
    ...none,
    flicker: 0.45,
    hotLoad: 0.01,
    polarity: 0.004,
    all: 0.004,
    inRush: 0.01,
    backfeed: 0.022,
    short: 0.1,
    shortTripped: 0.1,
    deviceOpen: 0.05,
    open: 0.06,
    poorJoint: 0.06,
    supplyLow: 0.02,
    supplyDead: 0.04,
    noMains: 0.02,
    other: 0.05,
  },
}

/** A poor joint’s resistance, Ω, equally likely: 2 to 120 Ω in equal ratios (common practice, no source). */
export const POOR_JOINT_OHM = [2.8, 5.5, 11, 22, 43, 85] as const

/** Bins of the fault's resistance, evenly wide in its logarithm: mean and standard deviation of each in Ω, equally likely. */
export const ohmBins = (range: { low: number; high: number }, count: number): { mean: number; sd: number }[] => {
  const ratio = (range.high / range.low) ** (1 / count)
  return Array.from({ length: count }, (_, i) => {
    const a = range.low * ratio ** i
    const b = a * ratio
    // Moments of a value whose logarithm is even over (a, b): E[x] = (b − a)/ln(b/a), E[x²] = (b² − a²)/(2 ln(b/a)).
    const log = Math.log(ratio)
    const mean = (b - a) / log
    return { mean, sd: Math.sqrt((b * b - a * a) / (2 * log) - mean * mean) }
  })
}
