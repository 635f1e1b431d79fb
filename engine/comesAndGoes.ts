// A short circuit that comes and goes as a cable moves: clean ohms at rest do not exclude it. So a branch is read a second time,
// the probes the other way round, while what moves of it is moved; and then its runs are walked, bent and watched.
import type { Belief, Shared } from './belief.ts'
import { costOf } from './cost.ts'
import { findingOf, spots } from './locate.ts'
import { type Plan, possible, type Situation } from './plan.ts'
import type { Finding, Read, Step } from './step.ts'
import { toCutOff } from './way.ts'

/** Chance that moving what can be moved shows it on the meter (common practice, no source). */
const SHOWS = 0.4
/** So often a branch is watched at most: what never shows when moved is not found by moving (common practice, no source). */
const MOST_WATCHES = 6
/** Branches and runs that hold less than this are left for later. */
const LEAST = 0.003
const RUNS_EACH = 6

const isAt = (branch: string, { meter, ...read }: Read): boolean =>
  meter === 'ohm' && 'red' in read && [read.red, read.black].sort().join() === `${branch}.plus,${branch}.zero`

/** The next reading or walk: whichever finds most for its seconds. */
export const comesAndGoes = (belief: Belief, shared: Shared, s: Situation): Plan | Finding | undefined => {
  const { plant } = belief
  const branches = plant.branches.filter(b => (shared.flicker[b.index] as number) > LEAST)
  const worth = (p: number, steps: readonly Step[]): number => p / steps.reduce((sum, x) => sum + costOf(plant, x), 0)
  const readings = branches.flatMap(b => {
    const plain: Read = { kind: 'read', meter: 'ohm', red: `${b.id}.plus`, black: `${b.id}.zero` }
    const times = s.ohms?.filter(x => isAt(b.id, x.read)).length ?? 0
    // Each time the other way round, so that no reading is the last one over again.
    const read: Read = times % 2 === 1 ? { ...plain, red: plain.black, black: plain.red } : plain
    const steps: Step[] = [...toCutOff(s, [b.id]), read]
    if (times >= MOST_WATCHES || !possible(s, steps)) return []
    const p = shared.flicker[b.index] as number
    const why = { key: 'watch-moving', facts: { branch: b.id, p: Math.round(100 * p) } }
    return [{ plan: { steps, expected: 0, why }, worth: worth(SHOWS * p, steps) }]
  })
  const walks = branches.flatMap(b => {
    if (b.wiring.unknown) {
      const f: Finding = { fault: 'intermittent', branch: b.id, probability: shared.flicker[b.index] as number }
      return [f]
    }
    return spots(belief, b.id)
      .slice(0, RUNS_EACH)
      .map(x => findingOf(x, true))
  })
  const walk = walks
    .filter(f => f.probability > LEAST && possible(s, [{ kind: 'finding', finding: f }]))
    .map(finding => ({ finding, worth: worth(finding.probability, [{ kind: 'finding', finding }]) }))
    .sort((a, b) => b.worth - a.worth)[0]
  const reading = readings.sort((a, b) => b.worth - a.worth)[0]
  if (reading !== undefined && reading.worth > (walk?.worth ?? 0)) return reading.plan
  return walk?.finding
}
