// Miniature circuit-breakers: their test points and magnetic bands, and what direct current does to them.
import type { Gate } from './gate.ts'
import type { Protection } from './machine.ts'

export type BreakerStandard = NonNullable<Protection['standard']>
export type Curve = NonNullable<Protection['curve']>

/**
 * Direct current has no peaks above its mean, so a magnetic release set for alternating current needs up to 1.5 times the
 * current: trade texts give 1.4 to 1.5 (common practice, no standard). The lower edge is left as it is, which is the safe side
 * for 'stays closed'. The thermal part does not change.
 */
export const DIRECT_CURRENT = 1.5
const BY_PRACTICE = 'd.c. factor 1.5: common practice, no standard'

const TEST_POINTS = 'IEC 60898-1:2015 Table 7 (clause numbers from memory)'
/** From a cold start at 30 °C. In-between currents are decided by no standard. */
const THERMAL: readonly Gate[] = [
  { times: 1.13, notBefore: 3600, ratings: [0, 63], source: TEST_POINTS, confirmed: true },
  { times: 1.45, within: 3600, ratings: [0, 63], source: TEST_POINTS, confirmed: true },
  { times: 2.55, notBefore: 1, within: 60, ratings: [0, 32], source: TEST_POINTS, confirmed: true },
]
/** The longest time in which the magnetic part opens, s: IEC 60898-1:2015 Table 7. */
export const AT_ONCE = 0.1
const magnetic = (low: number, high: number, source: string, confirmed: boolean, direct = DIRECT_CURRENT): readonly Gate[] => [
  { times: low, notBefore: AT_ONCE, source, confirmed },
  { times: high * direct, within: AT_ONCE, source: direct === 1 ? source : `${source}; ${BY_PRACTICE}`, confirmed },
]
const TYPES = 'IEC 60898-1:2015 Tables 2 and 7 (clause numbers from memory)'
const OWN_DIRECT = 'IEC 60898-2 (from memory)'

const instantaneous = (curve: Curve, standard: BreakerStandard): readonly Gate[] => {
  if (standard === 'IEC 60898-2') {
    if (curve === 'B') return magnetic(4, 7, OWN_DIRECT, false, 1)
    return curve === 'C' ? magnetic(7, 15, OWN_DIRECT, false, 1) : []
  }
  // The declared value of the magnetic release, which no letter tells.
  if (standard === 'IEC 60947-2') return []
  switch (curve) {
    case 'B':
      return magnetic(3, 5, TYPES, true)
    case 'C':
      return magnetic(5, 10, TYPES, true)
    case 'D':
      return magnetic(10, 20, TYPES, true)
    case 'Z':
      return magnetic(2, 3, 'no standard has type Z; 2 to 3 times the rating from memory', false)
  }
}

const INDUSTRIAL: readonly Gate[] = [
  { times: 1.3, within: 3600, ratings: [0, 63], source: 'IEC 60947-2 Table 6 (number from memory)', confirmed: true },
  { times: 1.3, within: 7200, ratings: [63.001, Infinity], source: 'IEC 60947-2 Table 6 (number from memory)', confirmed: true },
]

/** What holds for a breaker of any kind. */
const CARRIES: Gate = { times: 1, notBefore: Infinity, source: 'meaning of a breaker’s rating', confirmed: true }

/** All that is promised of a breaker. Type Z, or none known, may open below the test points of B, C and D. */
export const breakerGates = (curve: Curve | undefined, standard: BreakerStandard = 'IEC 60898-1'): readonly Gate[] => {
  if (curve === undefined) return [CARRIES]
  const points = standard === 'IEC 60947-2' ? INDUSTRIAL : curve === 'Z' ? [] : THERMAL
  return [CARRIES, ...points, ...instantaneous(curve, standard)]
}

/** What the thermal part does at a current that lasts, by the test points alone. `times`: in ratings. */
export const thermal = (times: number, rating: number): 'within a minute' | 'within an hour' | 'not in an hour' | 'not known' => {
  if (rating > 63) return 'not known'
  if (times >= 2.55 && rating <= 32) return 'within a minute'
  if (times >= 1.45) return 'within an hour'
  return times <= 1.13 ? 'not in an hour' : 'not known'
}
