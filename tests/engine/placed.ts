// A belief of a few places set by hand in one branch of the small machine, all other branches and faults as good as excluded.
import { type Belief, begin, type OfBranch } from '../../engine/belief.ts'
import { emptyChain } from '../../engine/chain.ts'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Places } from '../../engine/place.ts'
import { plantOf } from '../../engine/plant.ts'
import { smallMachine } from '../bench/small.ts'

/** `w` of 1 in all; `flicker` of it comes and goes. Kind 0 to 0 V, 1 to earth, 2 in a load; item of the runs or loads. */
export interface Place {
  readonly kind: 0 | 1 | 2
  readonly item: number
  readonly at?: number
  readonly atSd?: number
  readonly ohm?: number
  readonly ohmSd?: number
  readonly w: number
  readonly flicker?: number
}
const FAR = -80

export const placedIn = (branch: string, list: readonly Place[], machine: Machine = smallMachine, kit: Kit = {}): Belief => {
  const plant = plantOf(machine)
  const before = begin(plant, kit, 'all-dead')
  const column = (of: (p: Place) => number): Float64Array => Float64Array.from(list, of)
  const places: Places = {
    count: list.length,
    kind: Uint8Array.from(list, p => p.kind),
    item: Int32Array.from(list, p => p.item),
    at: column(p => p.at ?? 0),
    atSd: column(p => p.atSd ?? 0),
    ohm: column(p => p.ohm ?? 0.1),
    ohmSd: column(p => p.ohmSd ?? 0),
    prior: column(p => p.w),
  }
  const here = (own: OfBranch): OfBranch => ({
    ...own,
    places,
    chain: emptyChain(places.count, own.chain.dims, own.chain.spread, places.atSd, places.ohmSd),
    outside: column(p => Math.log(1 - (p.flicker ?? 0))),
    walked: new Float64Array(places.count),
    flicker: column(p => Math.log(p.flicker ?? 0)),
    tripped: -Infinity,
  })
  const away = (own: OfBranch): OfBranch => ({
    ...own,
    outside: own.outside.map(() => FAR),
    flicker: own.flicker.map(() => -Infinity),
    tripped: FAR,
  })
  return {
    ...before,
    suspected: before.suspected.map(() => FAR),
    supplyDead: FAR,
    noMains: FAR,
    other: FAR,
    branches: before.branches.map((own, b) => ({ ...(plant.branches[b]?.id === branch ? here(own) : away(own)), deviceOpen: FAR })),
  }
}

/** One place alone, well within its run so that a step to either side stays there; no belief about it. */
export const onePlace = (kind: number, item: number, at: number, ohm: number): Places => ({
  count: 1,
  kind: Uint8Array.of(kind),
  item: Int32Array.of(item),
  at: Float64Array.of(at),
  atSd: Float64Array.of(0.4),
  ohm: Float64Array.of(ohm),
  ohmSd: Float64Array.of(0.01),
  prior: Float64Array.of(1),
})
