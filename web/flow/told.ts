// What the technician can name at the start: the branch or the load that is out of service.
import { checked, fieldOf, oneOf, refuse } from '../../engine/fields.ts'
import type { Checked, Machine } from '../../engine/machine.ts'
import type { Known } from '../../engine/prior.ts'
import type { Symptom } from '../../engine/step.ts'

export type Told = Pick<Known, 'branch' | 'load'>

/** Where the symptom has one branch or load of its own, which of the two it asks for. */
export const asksWhich = (symptom: Symptom): 'branch' | 'load' | undefined => {
  if (symptom === 'one-load-dead') return 'load'
  return symptom === 'one-branch-dead' || symptom === 'trips-again' ? 'branch' : undefined
}

/**
 * Reads the optional fields `branch` and `load` of a start; an id that the machine does not have is refused by field and value,
 * and so is a name where the symptom has none. A load brings its branch along, unless several branches have one of that id.
 */
export const readTold = (machine: Machine, symptom: Symptom, start: unknown): Checked<Told> =>
  checked<Told>(() => {
    const [branch, load] = [fieldOf(start, 'branch'), fieldOf(start, 'load')]
    const asks = asksWhich(symptom)
    if (branch !== undefined && asks === undefined) refuse('start.branch', branch, `left out where the symptom is ${symptom}`)
    if (load !== undefined && asks !== 'load') refuse('start.load', load, `left out where the symptom is ${symptom}`)
    const named = branch === undefined ? undefined : oneOf(...machine.branches.map(({ id }) => id))(branch, 'start.branch')
    if (load === undefined) return named === undefined ? {} : { branch: named }
    const among = machine.branches.filter(({ id }) => named === undefined || id === named)
    const loads = among.flatMap(({ loads = [] }) => loads.map(({ id }) => id))
    const one =
      loads.find(id => id === load) ??
      refuse('start.load', load, loads.length === 0 ? 'left out: no load is known' : `one of ${loads.join(', ')}`)
    const [its, ...others] = among.filter(({ loads = [] }) => loads.some(({ id }) => id === one)).map(({ id }) => id)
    if (its === undefined || others.length > 0)
      return refuse('start.branch', branch, `one of ${[its, ...others].join(', ')}: each has a load ${one}`)
    return { branch: its, load: one }
  }, start)
