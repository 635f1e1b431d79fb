// Another supply that feeds a branch: what proving dead says of it, and voltages with the machine's own supply off.
import { type Belief, shares } from './belief.ts'
import type { PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import type { Read } from './step.ts'
import { type Suspicion, touched } from './suspicion.ts'
import { closed, mixed, normal, weigh } from './weigh.ts'

/** Chance that a capacitor's charge still shows at a reading; and that what feeds the bus is a buffer that has run empty by then (common practice, no source). */
const LEFT = 0.02
const EMPTY = 0.2

/** Does another supply that feeds this branch, or the bus itself where none is named, keep the bus up? */
const feedsBus = (belief: Belief, p: Positions, branch: number | undefined): boolean =>
  branch === undefined || closed(p, belief.plant.branches[branch] as PlantBranch)

/** A voltage with the supply off and nothing injected: there is none, but for another supply where it reaches. */
export const readOff = (
  belief: Belief,
  e: { readonly read: Read; readonly positions: Positions; readonly shown: number | 'OL' },
): Belief => {
  const p = e.positions
  const at = touched(belief.plant, e.read)
  const v = e.shown === 'OL' ? 0 : e.shown
  // From a volt that a short circuit leaves to a full supply, evenly.
  const some = v > 0.5 && v < 30 ? 1 / 30 : 0.001
  const nil = normal(v, 0, 0.1)
  const none = mixed((1 - LEFT) * nil + LEFT * some, v)
  const fed = mixed(some, v)
  const buffered = mixed((1 - EMPTY) * some + EMPTY * nil, v)
  const reaches = ({ branch }: Suspicion): boolean =>
    at?.index === branch || (feedsBus(belief, p, branch) && (at === undefined || closed(p, at)))
  const before = v > 0.5 ? besides(belief, (was, anew, x) => (reaches(x) ? Math.max(was, anew) : was)) : belief
  return allBut(before, none, x => (x.fault === 'backfeed' && reaches(x) ? (x.branch === undefined ? buffered : fed) : none))
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
/**
 * Another supply feeds a branch, or not, whatever else is wrong: what was read of the rest says nothing against it, nor do the
 * voltages that it gave speak against the rest once they are gone. `as` takes its weight and what the rest would give it anew.
 */
const besides = (belief: Belief, as: (v: number, anew: number, x: Suspicion) => number): Belief => {
  const isOther = (i: number): boolean => belief.suspicions[i]?.fault === 'backfeed'
  const without = { ...belief, suspected: belief.suspected.map((v, i) => (isOther(i) ? -Infinity : v)) }
  const first = belief.suspicions.reduce((sum, x) => sum - (x.fault === 'backfeed' ? x.prior : 0), 1)
  const rest = shares(without).evidence - belief.branches.reduce((sum, x) => sum + x.sound, 0) - Math.log(first)
  const at = (v: number, i: number): number => {
    const x = belief.suspicions[i] as Suspicion
    return isOther(i) ? as(v, rest + Math.log(x.prior), x) : v
  }
  return { ...belief, suspected: belief.suspected.map(at) }
}
/** The other supply is found: its voltages are explained, and that there is one more is as likely as it was before them. */
export const otherFound = (belief: Belief): Belief => besides(belief, (v, anew) => Math.min(v, anew))
/** Proving dead has found `volts`, 0 where it is dead. */
export const proved = (belief: Belief, e: { readonly positions: Positions; readonly volts: number }): Belief => {
  const stays = e.volts > 0
  const log = Math.log(stays ? CHARGED : 1)
  const reaches = (x: Suspicion): boolean => feedsBus(belief, e.positions, x.branch)
  const before = besides(belief, (v, anew, x) => (stays ? Math.max(v, anew) : reaches(x) ? Math.min(v, anew) : v))
  return allBut(before, log, x => (x.fault === 'backfeed' && reaches(x) ? Math.log(stays ? 1 - UNSEEN : UNSEEN) : log))
}
