// Bayes' rule, hypothesis by hypothesis: what one answer has made of a belief, set beside the chance that each hypothesis gives it.
import { expect } from 'vitest'
import { type Belief, begin } from '../../engine/belief.ts'
import type { Machine, Supply } from '../../engine/machine.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Suspicion } from '../../engine/suspicion.ts'
import { smallMachine } from '../bench/small.ts'

/** The chance (or density) of the answer under each hypothesis; `flicker` of a short circuit that comes and goes, where it is asked. */
export interface Likelihoods {
  readonly short: (b: number) => number
  readonly flicker: (b: number) => number | undefined
  readonly tripped: (b: number) => number
  readonly deviceOpen: (b: number) => number
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
  readonly suspicion: (x: Suspicion) => number
}

/** Every weight has been multiplied by its hypothesis's likelihood, to `digits` of relative precision. */
export const expectWeighed = (before: Belief, after: Belief, by: Likelihoods, digits = 9): void => {
  const near = (name: string, from: number | undefined, to: number | undefined, p: number | undefined): void => {
    if (p === undefined || (from === -Infinity && to === -Infinity)) return
    expect(Math.exp((to ?? Number.NaN) - (from ?? Number.NaN)) / p, name).toBeCloseTo(1, digits)
  }
  near('supply dead', before.supplyDead, after.supplyDead, by.supplyDead)
  near('no mains', before.noMains, after.noMains, by.noMains)
  near('other', before.other, after.other, by.other)
  before.suspicions.forEach((x, i) => {
    near(JSON.stringify(x), before.suspected[i], after.suspected[i], by.suspicion(x))
  })
  before.branches.forEach((own, b) => {
    const now = after.branches[b]
    near(`tripped ${b}`, own.tripped, now?.tripped, by.tripped(b))
    near(`device open ${b}`, own.deviceOpen, now?.deviceOpen, by.deviceOpen(b))
    for (let j = 0; j < own.places.count; j += 7) {
      near(`short ${b} ${j}`, own.outside[j], now?.outside[j], by.short(b))
      near(`flicker ${b} ${j}`, own.flicker[j], now?.flicker[j], by.flicker(b))
    }
  })
}

/** Every hypothesis gives the answer the same chance. */
export const alike = (p: number): Likelihoods => ({
  short: () => p,
  flicker: () => p,
  tripped: () => p,
  deviceOpen: () => p,
  supplyDead: p,
  noMains: p,
  other: p,
  suspicion: () => p,
})

/** 2 of 100 answers are plain wrong, and then of any size (common practice, no source); the others are so dense at `shown`. */
export const orWrong = (density: number, shown: number): number => 0.98 * density + 0.02 / (14 * (Math.abs(shown) + 0.05))
export const normal = (x: number, mean: number, sd: number): number =>
  Math.exp(-((x - mean) ** 2) / (2 * sd * sd)) / (sd * Math.sqrt(2 * Math.PI))

/** A short circuit that comes and goes is there four times in ten (common practice, no source). */
export const now = (there: number, away: number): number => 0.4 * there + 0.6 * away

/** The small machine with another supply. */
export const withSupply = (supply: Supply): Machine => ({ ...smallMachine, supply: { ...smallMachine.supply, ...supply } })
/** Under this symptom every sort of suspicion has a share. */
export const startOf = (machine: Machine = smallMachine): Belief => begin(plantOf(machine), {}, 'comes-and-goes')
