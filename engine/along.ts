// The prospective current over a branch's length, for a drawing: the way to the end that gets least.

import { AT_ONCE } from './breaker.ts'
import type { Machine } from './machine.ts'
import { type Assumed, currentAt, currentAtTerminals, USUAL } from './prospect.ts'
import { extremesOf } from './protection.ts'
import { pathTo } from './wiring.ts'

export interface Along {
  /** The junction at the end of this way. */
  readonly to: string
  /** Metres from the terminals; lowest and highest current there, A. */
  readonly points: readonly { readonly metres: number; readonly low: number; readonly high: number }[]
}
const STEPS = 12

/** Points along every run of the way; undefined where the wiring is not told. */
export const along = (machine: Machine, branch: string, assumed: Assumed = USUAL): Along | undefined => {
  const { low, high } = extremesOf(machine, assumed, AT_ONCE)
  const [b, cold] = [low, high].map(x => x.plant.branches.find(one => one.id === branch))
  if (b === undefined || cold === undefined || b.wiring.unknown) return undefined
  const { runs } = b.wiring
  const ends = runs.map((r, i) => ({ to: r.far, ampere: currentAt(low, b, i, r.run.length).ampere, reaches: r.endsAt }))
  const least = ends.sort((x, y) => x.ampere - y.ampere || y.reaches - x.reaches)[0]
  if (least === undefined) return undefined
  const points = pathTo(b.wiring, least.to).flatMap(placed => {
    const run = runs.indexOf(placed)
    return Array.from({ length: STEPS }, (_, k) => {
      const at = (placed.run.length * (k + 1)) / STEPS
      return { metres: placed.startsAt + at, low: currentAt(low, b, run, at).ampere, high: currentAt(high, cold, run, at).ampere }
    })
  })
  const start = { metres: 0, low: currentAtTerminals(low, b).ampere, high: currentAtTerminals(high, cold).ampere }
  return { to: least.to, points: [start, ...points] }
}
