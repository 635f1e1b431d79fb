// Beliefs whose weights are set by hand, all places of a branch alike: which search has its turn follows from these alone.
import { type Belief, begin } from '../../engine/belief.ts'
import type { Machine } from '../../engine/machine.ts'
import { IN_LOAD } from '../../engine/place.ts'
import { plantOf } from '../../engine/plant.ts'
import type { Suspicion } from '../../engine/suspicion.ts'
import { rowOfBranches } from './machines.ts'

export interface Weights {
  /** Branch by branch: short circuits that stay, those with their device opened, those that come and go, devices open with nothing else. */
  readonly short?: readonly number[]
  readonly tripped?: readonly number[]
  readonly flicker?: readonly number[]
  readonly deviceOpen?: readonly number[]
  readonly supplyDead?: number
  readonly noMains?: number
  readonly suspected?: (x: Suspicion) => number
}
export const row = rowOfBranches(4)
/** What is left of 1 is something else, in no branch. */
export const weighted = (of: Weights, machine: Machine = row): Belief => {
  const before = begin(plantOf(machine), {}, 'one-load-dead')
  const suspected = before.suspicions.map(x => of.suspected?.(x) ?? 0)
  const per = (list: readonly number[] | undefined, b: number): number => list?.[b] ?? 0
  const sum = (list: readonly number[] = []): number => list.reduce((a, x) => a + x, 0)
  const named =
    sum(of.short) + sum(of.tripped) + sum(of.flicker) + sum(of.deviceOpen) + (of.supplyDead ?? 0) + (of.noMains ?? 0) + sum(suspected)
  return {
    ...before,
    suspected: Float64Array.from(suspected, Math.log),
    supplyDead: Math.log(of.supplyDead ?? 0),
    noMains: Math.log(of.noMains ?? 0),
    other: Math.log(Math.max(1 - named, 1e-9)),
    branches: before.branches.map((own, b) => {
      const all = own.places.prior.reduce((a, p) => a + p, 0)
      const cable = own.places.prior.reduce((a, p, j) => a + (own.places.kind[j] === IN_LOAD ? 0 : p), 0)
      return {
        ...own,
        outside: own.outside.map(() => Math.log(per(of.short, b) / all)),
        tripped: Math.log(per(of.tripped, b) / all),
        flicker: Float64Array.from(own.places.kind, kind => (kind === IN_LOAD ? -Infinity : Math.log(per(of.flicker, b) / cable))),
        deviceOpen: Math.log(per(of.deviceOpen, b)),
      }
    }),
  }
}
