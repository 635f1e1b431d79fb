// How one answer is weighed: a log factor for every hypothesis, and the densities that it is made of.
import type { Belief, OfBranch } from './belief.ts'
import { WRONG, wrongDensity } from './chain.ts'
import type { PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import type { Suspicion } from './suspicion.ts'

export const mixed = (density: number, shown: number | 'OL'): number => Math.log((1 - WRONG) * density + WRONG * wrongDensity(shown))

export const normal = (x: number, mean: number, variance: number): number =>
  Math.exp(-((x - mean) ** 2) / (2 * variance)) / Math.sqrt(2 * Math.PI * variance)

/** Adds to every hypothesis: `short(b, place)`, `tripped(b)`, `deviceOpen(b)` and the three that lie in no branch. */
export interface Factors {
  readonly short: (b: number, place: number) => number
  readonly tripped: (b: number) => number
  readonly deviceOpen: (b: number) => number
  readonly supplyDead: number
  readonly noMains: number
  readonly other: number
  readonly suspicion: (s: Suspicion) => number
  /** A short circuit of branch `b` that comes and goes, while it is not there; and where that is not the whole story, both. */
  readonly away: (b: number) => number
  readonly flicker?: (b: number) => number
}
/**
 * A short circuit of a branch that comes and goes, after one more reading or look: logs of what it would show at each place while it is
 * there, and while it is not. Whether it was there is itself only likely; so much of it is added to the count.
 */
export const cameOrWent = (own: OfBranch, there: (place: number) => number, away: number): Pick<OfBranch, 'flicker' | 'present'> => {
  const { present, places } = own
  const share = present.there / (present.there + present.away)
  const top = own.flicker.reduce((a, v) => Math.max(a, v), -Infinity)
  let [all, was] = [0, 0]
  const flicker = own.flicker.map((v, j) => {
    const [is, not] = [share * Math.exp(there(j)), (1 - share) * Math.exp(away)]
    const weight = Math.exp(v - top) * (places.prior[j] as number)
    all += weight * (is + not)
    was += weight * is
    return v + Math.log(is + not)
  })
  const seen = all > 0 ? was / all : 0
  return { flicker, present: all > 0 ? { there: present.there + seen, away: present.away + 1 - seen } : present }
}

export const weigh = (belief: Belief, f: Factors): Belief => ({
  ...belief,
  supplyDead: belief.supplyDead + f.supplyDead,
  noMains: belief.noMains + f.noMains,
  other: belief.other + f.other,
  suspected: belief.suspected.map((v, i) => v + f.suspicion(belief.suspicions[i] as Suspicion)),
  branches: belief.branches.map((x, b) => ({
    ...x,
    outside: x.outside.map((v, j) => v + f.short(b, j)),
    tripped: x.tripped + f.tripped(b),
    deviceOpen: x.deviceOpen + f.deviceOpen(b),
    ...(f.flicker === undefined
      ? cameOrWent(x, j => f.short(b, j), f.away(b))
      : { flicker: x.flicker.map(v => v + (f.flicker?.(b) ?? 0)) }),
  })),
})

/** Is the device of this branch closed, as far as the acts and looks say. */
export const closed = (p: Positions, b: PlantBranch): boolean => p.devices[b.id] === 'closed'

/** Log of a mixture: one with chance `p`, else the other. */
export const either = (p: number, one: number, other: number): number => Math.log(p * Math.exp(one) + (1 - p) * Math.exp(other))
