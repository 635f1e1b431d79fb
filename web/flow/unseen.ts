// Behind which devices may a second short circuit sit that nobody has seen? One that held the supply down as well opens its device
// as soon as the first is mended, if not before, and then lamp and voltage are right though a branch is dead.
import { type Belief, shares } from '../../engine/belief.ts'
import { branchOfPoint } from '../../engine/circuit.ts'
import { deviceOf } from '../../engine/device.ts'
import type { Machine } from '../../engine/machine.ts'
import { type Evidence, observe } from '../../engine/observe.ts'
import { after, asFound, type Positions } from '../../engine/positions.ts'
import type { DeviceSeen, Symptom } from '../../engine/step.ts'
import { atStart, type Hunt } from './hunt.ts'
import type { Entry } from './request.ts'
import { energises } from './safety.ts'

/** With these one branch or load is out and all others were seen to run: nothing else has opened its device. */
const OTHERS_RUN: readonly Symptom[] = ['one-branch-dead', 'one-load-dead', 'trips-again']

/** A supply gives this much more than its data sheet says at most (common practice, no source). */
const MORE = 1.1
/** A device that stays closed for this many seconds does so for as long as a session sees (a bar of the project's own). */
const LONG = 3600
/** May a branch's device open on the most that the supply gives, for all that its standard or data sheet promises? */
const mayOpen = ({ supply, branches }: Machine, branch: string): boolean => {
  const { limit, reserve } = supply
  const most = MORE * Math.max(limit?.current ?? Infinity, reserve?.current ?? 0)
  return deviceOf(branches.find(({ id }) => id === branch)?.protection, LONG).band.holds < most
}

/** Odds of a short circuit that a reading has left, of 1: from here down it counts as excluded (a bar of the project's own). */
const EXCLUDED = 0.1
const excluded = new WeakMap<Entry, ReadonlySet<string>>()
/** Branches in which an ohm reading leaves no short circuit, if their devices stand as they are said to. */
const excludedBy = ({ plant, kit }: Hunt, entry: Entry, evidence: Evidence): ReadonlySet<string> => {
  const known = excluded.get(entry)
  if (known !== undefined) return known
  const start = atStart(plant, kit, 'all-dead')
  // A reading tells a branch whose device has opened by itself from a sound one only past that device.
  const odds = (belief: Belief): Float64Array => {
    const { short, tripped, other } = shares(belief)
    return short.map((p, b) => (p - (tripped[b] as number)) / other)
  }
  const [then, now] = [odds(start), odds(observe(start, evidence))]
  const left = (b: number): number => (now[b] as number) / (then[b] as number)
  const list = new Set(plant.branches.filter(({ index }) => left(index) < EXCLUDED).map(({ id }) => id))
  excluded.set(entry, list)
  return list
}

/** Branches whose device may have opened by itself, for all that was read and seen, once everything was switched on in the end. */
export const unseen = (h: Hunt): readonly string[] => {
  if (OTHERS_RUN.includes(h.belief.symptom)) return []
  const branches = h.machine.branches.map(({ id }) => id)
  let positions: Positions = asFound(branches)
  let zeroed = false
  /** Devices that stand as they were put or seen in a dead circuit since it was last live; and branches without a short circuit. */
  const known = new Set<string>()
  const sound = new Set<string>()
  const wentLive = (): void => {
    for (const b of known) if (!sound.has(b)) known.delete(b)
  }
  for (const entry of h.entries) {
    const { request, answer } = entry
    if (request.say === 'mend') sound.delete(request.finding.branch ?? '')
    if (request.say !== 'step') continue
    const { step } = request
    if (step.kind === 'act' && !('cannot' in answer || 'volts' in answer)) {
      const { act } = step
      if (energises(positions, act)) wentLive()
      positions = after(positions, act)
      zeroed ||= act.act === 'zero-leads'
      if (act.act === 'device' && positions.supply === 'off') known.add(act.branch)
    }
    if (step.kind === 'look' && step.look === 'device' && 'seen' in answer) {
      positions = { ...positions, devices: { ...positions.devices, [step.branch]: answer.seen as DeviceSeen } }
      if (positions.supply === 'off') known.add(step.branch)
    }
    if (step.kind === 'read' && step.meter === 'ohm' && 'value' in answer) {
      const { value: shown, unsteady = false } = answer
      const past = branchOfPoint(step.red)
      const without = excludedBy(h, entry, { of: 'read', read: step, positions, zeroed, shown, unsteady })
      const seen = (b: string): boolean => (past === undefined ? positions.devices[b] === 'closed' && known.has(b) : b === past)
      for (const b of without) if (seen(b)) sound.add(b)
    }
  }
  const mended = h.repair?.finding.branch
  const may = (b: string): boolean => b !== mended && !(sound.has(b) && known.has(b)) && mayOpen(h.machine, b)
  return branches.filter(b => h.positions.devices[b] === 'closed' && may(b))
}
