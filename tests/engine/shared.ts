// Shares set by hand: what a plan is made of can then be reckoned in the head, without any reading.
import type { Belief, Shared } from '../../engine/belief.ts'
import { costOf } from '../../engine/cost.ts'
import type { Machine } from '../../engine/machine.ts'
import type { Situation } from '../../engine/plan.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Act, Step } from '../../engine/step.ts'
import type { Suspicion } from '../../engine/suspicion.ts'
import { found } from './machines.ts'

const NONE: Omit<Shared, 'short' | 'tripped' | 'flicker' | 'deviceOpen' | 'suspected'> = {
  supplyDead: 0,
  noMains: 0,
  other: 0,
  evidence: 0,
}
/** Branch by branch; what is not named is 0. */
export const sharesOf = (
  belief: Belief,
  of: { [K in 'short' | 'tripped' | 'flicker' | 'deviceOpen']?: readonly number[] } & { suspected?: (x: Suspicion) => number },
): Shared => {
  const per = (list: readonly number[] = []): Float64Array => Float64Array.from(belief.branches, (_, i) => list[i] ?? 0)
  return {
    ...NONE,
    short: per(of.short),
    tripped: per(of.tripped),
    flicker: per(of.flicker),
    deviceOpen: per(of.deviceOpen),
    suspected: Float64Array.from(belief.suspicions, x => of.suspected?.(x) ?? 0),
  }
}
/** Nothing set aside, nothing taken; dead unless the supply is on. */
export const situationOf = (machine: Machine, positions: Positions, more: Partial<Situation> = {}): Situation => ({
  positions,
  power: positions.supply === 'on' ? 'live' : 'provedDead',
  zeroed: true,
  found: found(machine),
  setAside: new Set(),
  taken: new Set(),
  ...more,
})
export const act = (a: Act): Step => ({ kind: 'act', act: a })
export const device = (branch: string, to: 'open' | 'closed'): Step => act({ act: 'device', branch, to })
export const supply = (to: 'on' | 'off'): Step => act({ act: 'supply', to })
export const seconds = (belief: Belief, steps: readonly Step[]): number => steps.reduce((sum, x) => sum + costOf(belief.plant, x), 0)
/** Going to look at items in the order of likelihood for cost; each in vain adds `vain`. Probabilities as they are. */
export const lookingAt = (items: readonly (readonly [p: number, cost: number])[], vain: number): number => {
  const order = [...items].sort((a, b) => b[0] / b[1] - a[0] / a[1])
  let before = 0
  const all = items.reduce((sum, [p]) => sum + p, 0)
  return order.reduce((sum, [p, cost], i) => {
    const tried = all - before
    before += p
    return sum + tried * (cost + (i === 0 ? 0 : vain))
  }, 0)
}
