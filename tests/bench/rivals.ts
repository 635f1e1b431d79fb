// What people do without a wizard, on the same machines with the same costs. Both see a bad reading for what it is.
import type { Branch } from '../../engine/machine.ts'
import { inOrder, live } from './circuit.ts'
import { DEVICE, FINDING, LOAD, LOOK, PER_METRE, PROVE_DEAD, READ_CABINET, SUPPLY } from './costs.ts'
import { opensAtOnce, Warmth } from './protection.ts'
import { foundState, type Short, type State, shortOf, type Truth } from './truth.ts'

export interface Search {
  readonly found: boolean
  /** Seconds until the place is found or the search is given up. */
  readonly seconds: number
  /** With the way back to a running machine. */
  readonly restored: number
}

/** Going to look at a branch's whole wiring, as the table of costs has it where no stretch is named. */
const walk = (branch: Branch): number => FINDING + inOrder(branch.wiring ?? []).reduce((sum, run) => sum + run.length, 0) * PER_METRE

/** The kindest reading of it: already out there, run by run from the cabinet, and stopping at the short circuit. */
const shortWalk = (branch: Branch, short: Short): number => {
  let metres = 0
  for (const run of inOrder(branch.wiring ?? [])) {
    if ('run' in short && short.run === run.id) return (metres + short.at) * PER_METRE
    metres += run.length
    if ('load' in short && branch.loads?.some(l => l.id === short.load && l.at === run.to)) return metres * PER_METRE
  }
  return metres * PER_METRE
}

/** Loads off one by one with a fresh reading after each, then the walk. The branch is dead and proved so. */
const searchBranch = (branch: Branch, short: Short, kindly = false): { seconds: number; unplugged: number; found: boolean } => {
  let seconds = 0
  let unplugged = 0
  for (const load of branch.loads ?? []) {
    if (load.pluggable === false) continue
    seconds += LOAD + READ_CABINET
    unplugged++
    if ('load' in short && short.load === load.id && short.branch === branch.id) return { seconds, unplugged, found: true }
  }
  return { seconds: seconds + (kindly ? shortWalk(branch, short) : walk(branch)), unplugged, found: short.branch === branch.id }
}

/** Mended, then: ohm check, plugs in, devices closed, supply on, lamp and voltage proved. */
const wayBack = (unplugged: number, opened: number): number =>
  READ_CABINET + unplugged * LOAD + opened * DEVICE + SUPPLY + LOOK + READ_CABINET

const theShort = (truth: Truth): Short => {
  const short = shortOf(truth.fault)
  if (short === undefined) throw new Error('both habits search for a short circuit')
  return short
}

/** Supply off, proved dead, all devices open, each branch read against 0 V and earth in order; then loads; then the walk, by the table or kindly. */
export const oneByOne = (truth: Truth, kindly = false): Search => {
  const short = theShort(truth)
  const { branches } = truth.machine
  let seconds = SUPPLY + PROVE_DEAD + branches.length * DEVICE
  for (const branch of branches) {
    seconds += 2 * READ_CABINET
    if (branch.id !== short.branch) continue
    const inside = searchBranch(branch, short, kindly)
    seconds += inside.seconds
    return { found: inside.found, seconds, restored: seconds + wayBack(inside.unplugged, branches.length) }
  }
  return { found: false, seconds, restored: seconds }
}

/**
 * Live: devices opened one at a time until the supply comes back, then that branch's loads and wiring, dead.
 * With enough load shed a supply may carry the short circuit, and the wrong branch is blamed.
 */
export const liveHabit = (truth: Truth): Search => {
  const short = theShort(truth)
  const { branches } = truth.machine
  const state: State = foundState(truth)
  const warmth = new Warmth(truth)
  const latches = truth.supply.mode === 'latch-off'
  // A lamp that stays steady under the limit tells nothing: such a supply is watched with a meter.
  const watch = truth.supply.mode === 'constant-current' && truth.lampUnderLimit === 'steady' ? READ_CABINET : LOOK
  let seconds = watch
  let opened = 0
  state.latched = latches
  const pass = (s: number): void => {
    seconds += s
    for (const id of warmth.pass(live(truth, state), state, s)) state.devices.set(id, 'tripped')
  }
  const isBack = (): boolean => {
    for (;;) {
      const now = live(truth, state)
      const opens = [...now.branch].filter(([id, ampere]) => opensAtOnce(truth, id, ampere))
      for (const [id] of opens) state.devices.set(id, 'tripped')
      if (opens.length === 0) return !now.supply.limited && !state.latched
    }
  }
  const inside = (branch: Branch, extra: number): Search => {
    seconds += extra + SUPPLY + PROVE_DEAD
    const search = searchBranch(branch, short)
    seconds += search.seconds
    return { found: search.found, seconds, restored: seconds + wayBack(search.unplugged, opened) }
  }
  for (const branch of branches) {
    if (state.devices.get(branch.id) === 'closed') {
      pass(DEVICE)
      state.devices.set(branch.id, 'open')
      opened++
    }
    if (latches) {
      // The mains off and on again, or it would stay off whatever is opened.
      state.supply = 'off'
      pass(SUPPLY)
      state.supply = 'on'
      state.latched = false
      seconds += SUPPLY
      state.latched = !isBack()
    }
    pass(watch)
    if (!isBack()) continue
    const tripped = branches.find(b => state.devices.get(b.id) === 'tripped')
    return inside(tripped ?? branch, tripped === undefined ? 0 : LOOK)
  }
  return { found: false, seconds, restored: seconds }
}
