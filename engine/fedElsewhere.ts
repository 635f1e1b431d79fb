// Another supply that feeds a branch: what proving dead says of it, and voltages with the machine's own supply off.
import { type Belief, shares } from './belief.ts'
import type { PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import type { Read } from './step.ts'
import { type Suspicion, touched } from './suspicion.ts'
import { closed, mixed, normal, weigh } from './weigh.ts'

/** A voltage with the supply off and nothing injected: there is none, but for another supply where it reaches. */
export const readOff = (
  belief: Belief,
  e: { readonly read: Read; readonly positions: Positions; readonly shown: number | 'OL' },
): Belief => {
  const p = e.positions
  const at = touched(belief.plant, e.read)
  const v = e.shown === 'OL' ? 0 : e.shown
  const none = mixed(normal(v, 0, 0.1), v)
  // From a volt that a short circuit leaves to a full supply, evenly.
  const fed = mixed(v > 0.5 && v < 30 ? 1 / 30 : 0.001, v)
  const reaches = (x: Suspicion): boolean => {
    const own = closed(p, belief.plant.branches[x.branch ?? 0] as PlantBranch)
    return at?.index === x.branch || (own && (at === undefined || closed(p, at)))
  }
  return allBut(belief, none, x => (x.fault === 'backfeed' && reaches(x) ? fed : none))
}
/** The same for everything but some suspicions. */
const allBut = (belief: Belief, log: number, suspicion: (x: Suspicion) => number): Belief =>
  weigh(belief, {
    short: () => log,
    tripped: () => log,
    deviceOpen: () => log,
    supplyDead: log,
    noMains: log,
    other: log,
    away: () => log,
    suspicion,
  })

/** Chance that a voltage stays though no other supply feeds: a capacitor that discharges slowly (common practice, no source). */
const CHARGED = 0.005
/** Chance that proving dead shows nothing though another supply feeds a branch (common practice, no source). */
const UNSEEN = 0.03
/** Another supply feeds a branch, or not, whatever else is wrong: what was read of the rest says nothing against it. */
const besides = (belief: Belief): Belief => {
  const rest = shares(belief).evidence - belief.branches.reduce((sum, x) => sum + x.sound, 0)
  const at = (v: number, i: number): number => {
    const { fault, prior } = belief.suspicions[i] as Suspicion
    return fault === 'backfeed' ? Math.max(v, rest + Math.log(prior)) : v
  }
  return { ...belief, suspected: belief.suspected.map(at) }
}
/** Proving dead has found `volts`, 0 where it is dead. */
export const proved = (belief: Belief, e: { readonly positions: Positions; readonly volts: number }): Belief => {
  const stays = e.volts > 0
  const log = Math.log(stays ? CHARGED : 1)
  const reaches = (x: Suspicion): boolean => closed(e.positions, belief.plant.branches[x.branch ?? 0] as PlantBranch)
  return allBut(stays ? besides(belief) : belief, log, x =>
    x.fault === 'backfeed' && reaches(x) ? Math.log(stays ? 1 - UNSEEN : UNSEEN) : log,
  )
}
