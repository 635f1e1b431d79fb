import type { Machine } from '../../engine/machine.ts'
import type { Act, Finding, Point, Step } from '../../engine/step.ts'

// What a step costs an average technician, in seconds.
export const LOOK = 5
export const DEVICE = 6
export const SUPPLY = 15
export const PROVE_DEAD = 40
export const ZERO_LEADS = 20
export const INJECT = 45
export const LOAD = 60
export const RUN = 90
export const BUS_OR_BOND = 60
export const READ_CABINET = 15
export const READ_OUTSIDE = 60
export const FINDING = 60
export const PER_METRE = 5

const actSeconds = (act: Act): number => {
  switch (act.act) {
    case 'supply':
      return SUPPLY
    case 'prove-dead':
      return PROVE_DEAD
    case 'zero-leads':
      return ZERO_LEADS
    case 'device':
      return DEVICE
    case 'load':
      return LOAD
    case 'run':
      return RUN
    case 'bus':
    case 'bond':
      return BUS_OR_BOND
    case 'inject':
      return INJECT
  }
}
const outside = (point: Point): boolean => point.includes('/')

export const wiringLength = (machine: Machine, branch: string): number =>
  (machine.branches.find(b => b.id === branch)?.wiring ?? []).reduce((sum, run) => sum + run.length, 0)

/** Going to look, and the metres of the interval named, or of the branch's whole wiring where none is. */
export const findingSeconds = (machine: Machine, finding: Finding): number => {
  const interval = finding.alongRun ?? finding.fromTerminals
  if (interval !== undefined) return FINDING + PER_METRE * Math.max(0, interval.high - interval.low)
  return FINDING + (finding.branch === undefined ? 0 : PER_METRE * wiringLength(machine, finding.branch))
}

/** `machine` is the real one: the walk is as long as the wiring is, known or not. */
export const stepSeconds = (machine: Machine, step: Step): number => {
  switch (step.kind) {
    case 'act':
      return actSeconds(step.act)
    case 'look':
      return LOOK
    case 'read':
      return step.meter === 'amp' || !(outside(step.red) || outside(step.black)) ? READ_CABINET : READ_OUTSIDE
    case 'finding':
      return findingSeconds(machine, step.finding)
  }
}
