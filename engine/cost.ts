// What a step costs an average technician, in seconds (common practice, no source).
import { branchOfPoint } from './circuit.ts'
import { branchOf, type Plant } from './plant.ts'
import type { Act, Finding, Point, Step } from './step.ts'

export const COST = {
  look: 5,
  device: 6,
  supply: 15,
  proveDead: 40,
  zeroLeads: 20,
  inject: 45,
  load: 60,
  run: 90,
  busOrBond: 60,
  readInCabinet: 15,
  readOutside: 60,
  goAndLook: 60,
  metre: 5,
} as const

const ofAct = (a: Act): number => {
  switch (a.act) {
    case 'supply':
      return COST.supply
    case 'prove-dead':
      return COST.proveDead
    case 'zero-leads':
      return COST.zeroLeads
    case 'device':
      return COST.device
    case 'load':
      return COST.load
    case 'run':
      return COST.run
    case 'bus':
    case 'bond':
      return COST.busOrBond
    case 'inject':
      return COST.inject
  }
}

/** A junction or a run's end lies out on the machine; all else that a probe touches is in the cabinet. */
export const outside = (point: Point): boolean => branchOfPoint(point) !== undefined && point.includes('/')

/** Metres to walk along for a finding: the interval named, or the branch's whole wiring where none is. */
export const metresOf = (plant: Plant, f: Finding): number => {
  if (f.branch === undefined) return 0
  const named = f.alongRun ?? f.fromTerminals
  return named === undefined ? branchOf(plant, f.branch).wiring.length : named.high - named.low
}

/** Seconds of a step. */
export const costOf = (plant: Plant, step: Step): number => {
  switch (step.kind) {
    case 'act':
      return ofAct(step.act)
    case 'look':
      return COST.look
    case 'read':
      return step.meter !== 'amp' && (outside(step.red) || outside(step.black)) ? COST.readOutside : COST.readInCabinet
    case 'finding':
      // Intervals are given to the centimetre.
      return Math.round(100 * (COST.goAndLook + COST.metre * metresOf(plant, step.finding))) / 100
  }
}
