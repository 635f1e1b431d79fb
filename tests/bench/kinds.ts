// Machines with the rarer faults: each is drawn once, and again at another place until the machine really behaves so.
import type { Branch, Load, Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import { junctionNode, live } from './circuit.ts'
import type { Chance } from './random.ts'
import { type Fault, foundState, type Truth } from './truth.ts'

/** The rows of `--only faults`. */
export const KINDS = [
  'overload at rest',
  'overload live',
  'overload of all',
  'in-rush',
  'diode',
  'swapped',
  'swapped, load dead',
  'intermittent',
  'intermittent, tripped',
  'backfeed',
  'backfeed and short',
  'second supply',
  'buffer',
  'shared 0 V',
  'screen',
  'output shuts off',
] as const
export type Kind = (typeof KINDS)[number]

/** Below this all is dead (common practice, no source). */
const DEAD_BELOW = 12
/** From here on everything works, and nobody calls (-15 % of 24 V: IEC 61131-2). */
const WORKS_FROM = 20.4
const TRIES = 80
/** V that show when a circuit is proved dead. */
const NOTICED = 1.2

/** Under voltage as found: what the technician is called for; undefined where nobody would call. */
const symptomOf = (truth: Truth, branch: string): { symptom: Symptom; tripped?: string } | undefined => {
  const now = live(truth, foundState(truth))
  const device = truth.devices[branch]
  const rating = truth.machine.branches.find(b => b.id === branch)?.protection?.rating ?? 6
  if (device !== undefined && (now.branch.get(branch) ?? 0) > 1.1 * device.hold * rating) return { symptom: 'trips-again', tripped: branch }
  if (!now.supply.limited) return undefined
  const volts = now.solved.at('bus.plus') - now.solved.at('bus.zero')
  if (volts >= WORKS_FROM && truth.supply.mode === 'constant-current') return undefined
  return { symptom: volts < DEAD_BELOW || truth.supply.mode !== 'constant-current' ? 'all-dead' : 'all-low' }
}

const pickLoad = (machine: Machine, kinds: readonly Load['kind'][], chance: Chance): { branch: string; load: string } | undefined => {
  const all = machine.branches.flatMap(b => (b.loads ?? []).filter(l => kinds.includes(l.kind)).map(l => ({ branch: b.id, load: l.id })))
  return all.length === 0 ? undefined : chance.pick(all)
}

const atLoad = (
  base: Truth,
  kinds: readonly Load['kind'][],
  chance: Chance,
  make: (at: { branch: string; load: string }) => Fault,
): Truth | undefined => {
  for (let i = 0; i < TRIES; i++) {
    const at = pickLoad(base.machine, kinds, chance)
    if (at === undefined) return undefined
    const truth: Truth = { ...base, fault: make(at) }
    const as = symptomOf(truth, at.branch)
    if (as !== undefined) return { ...truth, ...as }
  }
  return undefined
}

/** A supply whose limit is less than what all loads take; the file tells its rating as it is. */
const tooSmall = (base: Truth, chance: Chance): Truth | undefined => {
  const whole = { ...base, supply: { ...base.supply, limit: 1e4 } }
  const drawn = live(whole, foundState(whole)).supply.ampere
  const limit = Math.round(100 * drawn * chance.between(0.6, 0.9)) / 100
  const { supply } = base.machine
  const told = supply.limit?.current === undefined ? supply.limit : { ...supply.limit, current: limit }
  const machine: Machine = {
    ...base.machine,
    supply: { ...supply, ratedCurrent: Math.round((100 * limit) / 1.15) / 100, ...(told === undefined ? {} : { limit: told }) },
  }
  const truth: Truth = { ...base, machine, supply: { ...base.supply, limit: 2 * drawn }, fault: { kind: 'overload', limit } }
  const as = symptomOf(truth, '')
  return as === undefined ? undefined : { ...truth, ...as }
}

const comesAndGoes = (base: Truth, chance: Chance, spot: Spot, isTripped: boolean): Truth | undefined => {
  const present = chance.between(0.2, 0.6)
  for (let i = 0; i < TRIES; i++) {
    const fault: Fault = { kind: 'short-to-zero', ...spot(base.machine, chance), ohm: chance.logBetween(0.005, 0.3), present }
    const truth: Truth = { ...base, fault, symptom: 'comes-and-goes' }
    if (!isTripped) return truth
    const as = symptomOf(truth, fault.branch)
    if (as?.tripped !== undefined) return { ...truth, ...as }
  }
  return undefined
}

const fedElsewhere = (base: Truth, chance: Chance): Fault => {
  const branch = chance.pick(base.machine.branches)
  return { kind: 'backfeed', branch: branch.id, junction: chance.pick(branch.wiring ?? []).to }
}
/** A short circuit may hold the other supply down so far that nothing is left to be noticed by whoever proves dead. */
const isNoticed = (truth: Truth): boolean => {
  const now = live(truth, { ...foundState(truth), supply: 'off' })
  return now.solved.at('bus.plus') - now.solved.at('bus.zero') > NOTICED
}

/** A file and a truth whose 0 V is not bonded at the supply. */
const floating = (base: Truth): Truth => ({
  ...base,
  machine: { ...base.machine, supply: { ...base.machine.supply, zeroVoltBonded: false } },
})
/** 0 V at a junction of one of these branches. */
const zeroNode = (branches: readonly Branch[], chance: Chance): string => {
  const branch = chance.pick(branches)
  return junctionNode(branch.id, chance.pick(branch.wiring ?? []).to, 'zero')
}
const branchOf = ({ fault }: Truth): string => ('branch' in fault ? fault.branch : '')

/** Where a short circuit of a conductor lies. */
export type Spot = (machine: Machine, chance: Chance) => { branch: string; run: string; at: number }

/** The machine with a fault of this kind; undefined where it can have none. */
export const afflicted = (base: Truth, kind: Kind, spot: Spot, short: () => Truth | undefined, chance: Chance): Truth | undefined => {
  switch (kind) {
    case 'overload at rest': {
      const ohm = chance.logBetween(1, 10)
      return atLoad(base, ['coil', 'lamp', 'motor'], chance, at => ({ kind: 'overload', ...at, ohm, atRest: true }))
    }
    case 'overload live': {
      const ohm = chance.logBetween(1, 8)
      return atLoad(base, ['motor', 'electronic'], chance, at => ({ kind: 'overload', ...at, ohm, atRest: false }))
    }
    case 'overload of all':
      return tooSmall(base, chance)
    case 'in-rush':
      return { ...base, fault: { kind: 'in-rush', share: chance.between(0.6, 0.9) }, symptom: 'dead-at-start' }
    case 'diode':
    case 'swapped':
      return atLoad(base, ['coil'], chance, at => ({ kind, ...at, conducts: true }))
    case 'swapped, load dead': {
      const at = pickLoad(base.machine, ['electronic'], chance)
      return at === undefined ? undefined : { ...base, fault: { kind: 'swapped', ...at, conducts: false }, symptom: 'one-load-dead' }
    }
    case 'intermittent':
    case 'intermittent, tripped':
      return comesAndGoes(base, chance, spot, kind !== 'intermittent')
    case 'backfeed':
      return { ...base, fault: fedElsewhere(base, chance), symptom: 'comes-and-goes' }
    case 'backfeed and short': {
      for (let i = 0; i < TRIES; i++) {
        const dead = short()
        const truth = dead === undefined ? undefined : { ...dead, second: fedElsewhere(base, chance) }
        if (truth !== undefined && isNoticed(truth)) return truth
      }
      return undefined
    }
    case 'second supply':
    case 'buffer': {
      const dead = afflicted(base, 'overload at rest', spot, short, chance)
      if (dead === undefined) return undefined
      return kind === 'buffer' ? { ...dead, buffer: chance.between(40, 300) } : { ...dead, second: { kind: 'backfeed' } }
    }
    case 'shared 0 V': {
      const dead = short()
      if (dead === undefined) return undefined
      const [own, others] = [true, false].map(is => dead.machine.branches.filter(b => (b.id === branchOf(dead)) === is))
      return { ...dead, sharedZero: [zeroNode(own ?? [], chance), zeroNode(others ?? [], chance)] }
    }
    case 'screen':
      for (let i = 0; i < TRIES; i++) {
        const screen = { node: zeroNode(base.machine.branches, chance), ohm: chance.logBetween(0.02, 0.3) }
        const fault: Fault = { kind: 'short-to-earth', ...spot(base.machine, chance), ohm: chance.logBetween(0.005, 0.3) }
        const truth: Truth = { ...floating(base), screen, fault }
        const as = symptomOf(truth, fault.branch)
        if (as !== undefined) return { ...truth, ...as }
      }
      return undefined
    case 'output shuts off': {
      const fault: Fault = { kind: 'short-to-zero', ...spot(base.machine, chance), ohm: chance.logBetween(0.005, 0.3) }
      const { branch } = fault
      const branches = base.machine.branches.map(b =>
        b.id === branch ? { ...b, protection: { ...b.protection, kind: 'electronic' as const } } : b,
      )
      return { ...base, machine: { ...base.machine, branches }, fault, shutsOff: branch, symptom: 'one-branch-dead' }
    }
  }
}
