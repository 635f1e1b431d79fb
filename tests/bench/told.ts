import type { Branch } from '../../engine/machine.ts'
import type { Truth } from './truth.ts'

/** What a technician can name who sees one branch or load out of service. */
export interface Told {
  readonly branch?: string
  readonly load?: string
}

/** Junctions from one on outwards. */
const beyond = (branch: Branch, junction: string): readonly string[] => [
  junction,
  ...(branch.wiring ?? []).filter(({ from }) => from === junction).flatMap(({ to }) => beyond(branch, to)),
]

/** The branch at fault; and where single loads are out, the first of those behind the faulty run. */
export const toldOf = ({ machine, fault, symptom }: Truth): Told => {
  if (!('branch' in fault) || !['one-branch-dead', 'one-load-dead', 'trips-again'].includes(symptom)) return {}
  if ('load' in fault && symptom === 'one-load-dead') return { branch: fault.branch, load: fault.load }
  const branch = machine.branches.find(({ id }) => id === fault.branch)
  const run = 'run' in fault ? branch?.wiring?.find(({ id }) => id === fault.run) : undefined
  if (branch === undefined || run === undefined || symptom !== 'one-load-dead') return { branch: fault.branch }
  const out = beyond(branch, run.to)
  const load = branch.loads?.find(({ at }) => out.includes(at))
  return { branch: branch.id, ...(load === undefined ? {} : { load: load.id }) }
}
