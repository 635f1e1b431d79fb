// What loads draw in the moments after switching on: a time line of the whole machine while its branches are closed one by one.
import { BUS, type Circuit, circuitOf, farEnd, SUPPLY } from './circuit.ts'
import { type Ladder, solve } from './ladder.ts'
import type { Load, Machine } from './machine.ts'
import { CABINET, type Plant, RATED, voltsOf } from './plant.ts'
import { asFound } from './positions.ts'
import { feedIn, SOURCE_OHM } from './prospect.ts'

/** Where no data sheet tells: the peak in times the rated current, and the time constant in s with which it dies away. */
const USUAL_IN_RUSH: Readonly<Record<Load['kind'], { readonly times: number; readonly seconds: number }>> = {
  /** A direct-current coil rises slowly and has none. */
  coil: { times: 1, seconds: 0 },
  /** Cold filament: two switch and lamp makers say ten times; the time is common practice, no source. */
  lamp: { times: 10, seconds: 0.1 },
  /** At rest: one switch maker says six times; the time is common practice, no source. */
  motor: { times: 6, seconds: 0.2 },
  /** Input capacitor, where its capacitance is not told either: common practice, no source. */
  electronic: { times: 20, seconds: 0.001 },
}

/**
 * A load while it comes up: `ohm` in series, then a capacitance with what it feeds beside it. For an electronic load that is its
 * input; a lamp's warmth and a motor's speed take the same form: at first the full in-rush, then dying away to the rated current.
 */
export interface Rising {
  readonly ohm: number
  readonly farad: number
  /** Beside the capacitance: S, or A from 16 V on. */
  readonly siemens: number
  readonly ampere: number
}
const risingOf = ({ kind, watts = 5, inRush, capacitance }: Load): Rising => {
  const rated = watts / RATED
  const { times, seconds } = USUAL_IN_RUSH[kind]
  const peak = Math.max(inRush?.peak ?? times * rated, rated)
  const tau = inRush?.seconds ?? seconds
  const ohm = RATED / peak
  if (kind === 'electronic') return { ohm, farad: capacitance ?? tau / ohm, siemens: 0, ampere: rated }
  const rest = RATED / rated - ohm
  if (rest < 1e-9 || tau === 0) return { ohm: RATED / rated, farad: 0, siemens: Infinity, ampere: 0 }
  return { ohm, farad: tau * (1 / ohm + 1 / rest), siemens: 1 / rest, ampere: 0 }
}

interface Part extends Rising {
  readonly node: number
  /** Across the capacitance, V. */
  volts: number
}
export interface Moment {
  readonly seconds: number
  /** From the supply, A. */
  readonly ampere: number
  /** Between the buses, V. */
  readonly volts: number
  readonly limited: boolean
}
export interface Closing {
  readonly branch: string
  /** Seconds from the start. */
  readonly at: number
}

/** First step after a closing, s, its growth, and the longest: the fastest in-rush here lasts a millisecond. */
const STEP = { first: 2e-5, growth: 1.04, longest: 5e-3 } as const

/** Every device open, nothing of an ohmmeter's view left, and each load as it comes up. */
const atRest = (plant: Plant): { circuit: Circuit; parts: Part[] } => {
  const circuit = circuitOf(plant, asFound(plant.branches.map(b => b.id)))
  const l = circuit.ladder
  const parts: Part[] = []
  for (const b of plant.branches) {
    const base = circuit.base[b.index] as number
    l.plusOhm[base] = CABINET.open
    for (const { load, run, siemens } of b.loads) {
      const node = farEnd(base, run)
      l.across[node] = (l.across[node] as number) - siemens
      const rising = risingOf(load)
      if (rising.farad === 0) l.across[node] = (l.across[node] as number) + 1 / rising.ohm
      else parts.push({ ...rising, node, volts: 0 })
    }
  }
  // The supply itself stands at the bus; what it shows while it is off does not count.
  l.across[SUPPLY] = 0
  l.zeroEarth[BUS] = (l.zeroEarth[BUS] as number) + 1
  return { circuit, parts }
}

/** Volts at the root with the supply at its voltage, or at its limit where that would need more. */
const solveRoot = (l: Ladder, volts: number, limit: number): Moment => {
  const put = (siemens: number, ampere: number): number => {
    l.across[BUS] = (l.across[BUS] as number) + siemens
    feedIn(l, BUS, ampere)
    solve(l)
    feedIn(l, BUS, -ampere)
    l.across[BUS] = (l.across[BUS] as number) - siemens
    return (l.plus[BUS] as number) - (l.zero[BUS] as number)
  }
  const free = put(1 / SOURCE_OHM, volts / SOURCE_OHM)
  const ampere = (volts - free) / SOURCE_OHM
  if (ampere <= limit) return { seconds: 0, ampere, volts: free, limited: false }
  return { seconds: 0, ampere: limit, volts: put(0, limit), limited: true }
}

/** One step of backward Euler: each part becomes a conductance and a current at its node. */
const step = (l: Ladder, parts: readonly Part[], dt: number, volts: number, limit: number): Moment => {
  const put = parts.map(p => {
    const held = p.farad / dt
    const draws = p.volts >= 16 ? p.ampere : p.ampere * Math.max(0, p.volts - 15)
    const inner = held + p.siemens
    const siemens = 1 / (p.ohm + 1 / inner)
    const open = (held * p.volts - draws) / inner
    l.across[p.node] = (l.across[p.node] as number) + siemens
    feedIn(l, p.node, siemens * open)
    return { siemens, open }
  })
  const found = solveRoot(l, volts, limit)
  for (const [i, p] of parts.entries()) {
    const { siemens, open } = put[i] as (typeof put)[number]
    const across = (l.plus[p.node] as number) - (l.zero[p.node] as number)
    p.volts = across - siemens * (across - open) * p.ohm
    l.across[p.node] = (l.across[p.node] as number) - siemens
    feedIn(l, p.node, -siemens * open)
  }
  return found
}

/** The supply's current and the bus voltage from the first closing until `seconds`. `limit` in A; Infinity shows what is asked for. */
export const timeLine = (plant: Plant, closings: readonly Closing[], seconds: number, limit: number): readonly Moment[] => {
  const { circuit, parts } = atRest(plant)
  const l = circuit.ladder
  const volts = voltsOf(plant.machine)
  const moments: Moment[] = []
  const coming = [...closings].sort((a, b) => a.at - b.at)
  let now = 0
  let dt: number = STEP.first
  while (now < seconds) {
    while (coming[0] !== undefined && coming[0].at <= now + 1e-12) {
      const b = plant.branches[plant.indexOf.get(coming.shift()?.branch ?? '') ?? -1]
      if (b !== undefined) l.plusOhm[circuit.base[b.index] as number] = b.deviceOhm
      dt = STEP.first
    }
    dt = Math.min(dt, (coming[0]?.at ?? seconds) - now, seconds - now)
    if (dt < 1e-12) break
    now += dt
    moments.push({ ...step(l, parts, dt, volts, limit), seconds: now })
    dt = Math.min(dt * STEP.growth, STEP.longest)
    if (dt < STEP.first) dt = STEP.first
  }
  return moments
}

/** A that a branch asks for at the very moment of closing, from a supply without limit: what its order goes by. */
export const peakOf = (plant: Plant, branch: string): number => timeLine(plant, [{ branch, at: 0 }], STEP.first, Infinity)[0]?.ampere ?? 0

/** Loads whose in-rush no data sheet tells: all but coils, which have none. */
export const guessed = ({ branches }: Machine): readonly string[] =>
  branches.flatMap(b => (b.loads ?? []).filter(l => l.kind !== 'coil' && l.inRush === undefined).map(l => `${b.id}/${l.id}`))
