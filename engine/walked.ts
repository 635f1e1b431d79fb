// What having gone and looked in vain leaves of a belief: of a place, of a load, of what lies at the supply.
import type { Belief, OfBranch } from './belief.ts'
import { IN_LOAD } from './place.ts'
import type { PlantBranch } from './plant.ts'
import type { Finding } from './step.ts'
import { runId, type Suspicion } from './suspicion.ts'

/** What is left of a place that somebody has gone to and looked at without finding it (common practice, no source). */
const MISSED = Math.log(0.02)
/** A branch's whole cable, much of it out of sight, is easier missed (common practice, no source). */
const MISSED_SOMEWHERE = Math.log(0.15)
/** Metres past each end of a named interval that a technician looks at as well. */
const BESIDE = 0.5

/** Whoever looks at a load for one of its faults sees the others, and who adds up the loads sees what is too much at once. */
const seesAlong = (belief: Belief, { fault, branch, load }: Finding): ((x: Suspicion) => boolean) => {
  const b = belief.plant.indexOf.get(branch ?? '')
  if (fault === 'backfeed') return x => x.fault === fault && x.branch === b
  if (b === undefined) return x => x.branch === undefined && (x.fault === 'overload' || x.fault === 'in-rush')
  return x => x.branch === b && x.load !== undefined && (load === undefined || belief.plant.branches[b]?.loads[x.load]?.load.id === load)
}
const passed = (belief: Belief, past: (x: Suspicion) => boolean): Belief => ({
  ...belief,
  suspected: belief.suspected.map((v, i) => v + (past(belief.suspicions[i] as Suspicion) ? MISSED : 0)),
})

/** The belief after a finding that was not confirmed. */
export const walkedPast = (before: Belief, finding: Finding): Belief => {
  const { fault, branch, run, load, alongRun } = finding
  const inLoad = fault === 'load-short' || fault === 'overload'
  const belief = inLoad && load !== undefined ? passed(before, seesAlong(before, finding)) : before
  const b = belief.plant.indexOf.get(branch ?? '')
  if (fault === 'swapped' || fault === 'diode' || fault === 'in-rush' || fault === 'backfeed' || (fault === 'overload' && b === undefined))
    return passed(belief, seesAlong(belief, finding))
  if (fault === 'supply-dead') return { ...belief, supplyDead: belief.supplyDead + MISSED }
  if (fault === 'supply-low' || fault === 'open-plus' || fault === 'open-zero' || fault === 'poor-joint') {
    // Whoever looks along a run for one sees the others there too.
    const past = (x: Suspicion): boolean =>
      fault === 'supply-low' ? x.fault === fault : x.branch === b && (run === undefined || runId(belief.plant, x) === run)
    return { ...belief, suspected: belief.suspected.map((v, i) => v + (past(belief.suspicions[i] as Suspicion) ? MISSED : 0)) }
  }
  if (fault === 'no-mains') return { ...belief, noMains: belief.noMains + MISSED }
  if (b === undefined) return belief
  const own = belief.branches[b] as OfBranch
  if (fault === 'device-open')
    return { ...belief, branches: belief.branches.map((x, k) => (k === b ? { ...x, deviceOpen: x.deviceOpen + MISSED } : x)) }
  const { wiring, loads } = belief.plant.branches[b] as PlantBranch
  const missed = run === undefined && load === undefined ? MISSED_SOMEWHERE : MISSED
  const hit = (j: number): boolean => {
    const item = own.places.item[j] as number
    const inLoad = own.places.kind[j] === IN_LOAD
    if (load !== undefined) return inLoad && loads[item]?.load.id === load
    if (run === undefined || alongRun === undefined) return true
    if (inLoad || wiring.runs[item]?.run.id !== run) return false
    const at = own.places.at[j] as number
    return at > alongRun.low - BESIDE && at < alongRun.high + BESIDE
  }
  return {
    ...belief,
    branches: belief.branches.map((x, k) => (k === b ? { ...x, walked: x.walked.map((v, j) => v + (hit(j) ? missed : 0)) } : x)),
  }
}
