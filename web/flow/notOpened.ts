// A device that was said to be opened and is seen closed: what was read since then was read of another circuit than was thought.
import { branchOfPoint } from '../../engine/circuit.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import { after, asFound, type Positions } from '../../engine/positions.ts'
import type { DeviceSeen, MainsLamp, Step, SupplyLamp } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { atStart, type Hunt, type ReadEvidence } from './hunt.ts'

interface Mistake {
  readonly branch: string
  /** Numbers of the entries between which its device was said to be open, and was closed. */
  readonly since: number
  readonly until: number
}
/** Every device that was seen closed though the act before said that it was opened. */
const mistakes = ({ entries }: Hunt): Mistake[] => {
  const opened = new Map<string, number>()
  return entries.flatMap(({ request, answer }, i): Mistake[] => {
    if (request.say !== 'step') return []
    const { step } = request
    if (step.kind === 'act' && step.act.act === 'device' && 'done' in answer) {
      if (step.act.to === 'open') opened.set(step.act.branch, i)
      else opened.delete(step.act.branch)
    }
    if (step.kind !== 'look' || step.look !== 'device' || !('seen' in answer)) return []
    const since = opened.get(step.branch)
    opened.delete(step.branch)
    return answer.seen === 'closed' && since !== undefined ? [{ branch: step.branch, since, until: i }] : []
  })
}

/** All that was answered in the search, each with the devices as they really stood. */
const recalled = (h: Hunt): Evidence[] => {
  const wrong = mistakes(h)
  let said: Positions = asFound(h.machine.branches.map(({ id }) => id))
  let zeroed = false
  return h.entries.flatMap(({ request, answer }, i): Evidence[] => {
    if (request.say !== 'step') return []
    const { step } = request
    const closed = wrong.filter(({ since, until }) => i > since && i <= until).map(({ branch }) => [branch, 'closed'] as const)
    const positions: Positions = { ...said, devices: { ...said.devices, ...Object.fromEntries(closed) } }
    if (step.kind === 'finding') return 'confirmed' in answer && !answer.confirmed ? [{ of: 'looked', finding: step.finding }] : []
    if (step.kind === 'act') {
      const proves = step.act.act === 'prove-dead'
      if (proves && 'volts' in answer) return [{ of: 'proved', positions, volts: Math.abs(answer.volts) }]
      if (!('done' in answer || 'value' in answer)) return []
      said = after(said, step.act)
      zeroed ||= step.act.act === 'zero-leads'
      return proves ? [{ of: 'proved', positions, volts: 0 }] : []
    }
    if (step.kind === 'look' && 'seen' in answer) {
      const seen = answer.seen as SupplyLamp | MainsLamp | DeviceSeen
      if (step.look === 'device') said = { ...said, devices: { ...said.devices, [step.branch]: answer.seen as DeviceSeen } }
      return [{ of: 'look', look: step, positions, seen }]
    }
    if (step.kind !== 'read' || !('value' in answer) || ('ac' in answer && answer.ac === true)) return []
    return [{ of: 'read', read: step, positions, zeroed, shown: answer.value, unsteady: answer.unsteady === true }]
  })
}

/** The hunt once a device was seen closed: what was read in its branch was not that branch, and may be read again. */
export const notOpened = (h: Hunt, branch: string): Hunt => {
  const inBranch = (key: string): boolean => {
    const step = JSON.parse(key) as Step
    return step.kind === 'read' && (step.meter === 'amp' ? step.branch : branchOfPoint(step.red)) === branch
  }
  const positions: Positions = { ...h.positions, devices: { ...h.positions.devices, [branch]: 'closed' } }
  // After a mend only what still holds of the readings before it counts, and that was read past devices seen to work.
  const evidence = h.mends.length > 0 ? h.readings.filter(({ read }) => !inBranch(keyOf(read))) : recalled(h)
  return {
    ...h,
    positions,
    belief: evidence.reduce(observe, atStart(h.plant, h.kit, h.belief.symptom, h.known)),
    readings: evidence.filter((e): e is ReadEvidence => e.of === 'read' && e.read.meter === 'ohm' && !inBranch(keyOf(e.read))),
    taken: new Set([...h.taken].filter(key => !inBranch(key))),
    ahead: [],
  }
}
