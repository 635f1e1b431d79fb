import type { Branch, Load, Machine, Protection, Run } from '../../engine/machine.ts'
import { build, live } from './circuit.ts'
import { afflicted, type Kind } from './kinds.ts'
import { inventMeter } from './meter.ts'
import { inventDevice, opensAtOnce } from './protection.ts'
import { type Chance, chance as chanceOf, seedOf } from './random.ts'
import { solve } from './solver.ts'
import { type Fault, foundState, type Short, shortOf, type Truth } from './truth.ts'

export interface InventOptions {
  readonly branches?: number
  /** Runs of a branch's trunk, each with up to three spurs. Default 1 to 3. */
  readonly trunks?: number
  readonly bonded?: boolean
  /** 'short': a short circuit holds the supply down. 'other': dead supply, no mains, or one device open. 'open': a conductor open or badly
   *  joined. Default 'short'. */
  readonly fault?: 'short' | 'other' | 'open' | Kind
  /** Share of machines with a second short circuit in another branch, and of short circuits along a cable that come and go. */
  readonly second?: number
  readonly intermittent?: number
  /** Machines outside what the engine takes for granted: conductors at 0.90 of the maximum, 25 K off, short circuits of up to 2 Ω. */
  readonly outside?: boolean
}

const AREAS = [0.75, 1, 1.5, 2.5]
const WATTS: Readonly<Record<Load['kind'], readonly number[]>> = {
  coil: [2.5, 4.8, 8, 11],
  electronic: [0.7, 1.2, 2.4, 6],
  lamp: [2, 5],
  motor: [6, 12],
}
const RATED = [2.5, 5, 10, 20]
/** For machines larger than most. */
const LARGE = [40, 80]
const wattsOf = (loads: readonly Load[]): number => loads.reduce((sum, load) => sum + (load.watts ?? 0), 0)
const tenth = (x: number): number => Math.round(x * 10) / 10
/** Below this all is dead: contactors have let go and converters have stopped (common practice, no source). */
const DEAD_BELOW = 12

/** A device carries its branch's own load with room to spare (common practice, no source). */
const SPARE = 1.3
const inventProtection = (loads: readonly Load[], chance: Chance): Protection => {
  const rating = chance.pick([2, 4, 6, 10].filter(rated => rated >= (SPARE * wattsOf(loads)) / 24))
  const kind = chance.weighted([60, 30, 10])
  if (kind === 1) return { kind: 'fuse', rating }
  return kind === 2 ? { kind: 'electronic', rating } : { kind: 'breaker', rating, curve: chance.pick(['B', 'B', 'C']) }
}

const inventBranch = (n: number, options: InventOptions, chance: Chance): Branch => {
  const id = `B${n}`
  const wiring: Run[] = []
  const loads: Load[] = []
  const area = chance.pick(AREAS)
  const load = (name: string, at: string): void => {
    const kind = chance.pick(['coil', 'electronic', 'lamp', 'motor'] as const)
    const kept = kind === 'lamp' || kind === 'motor' ? (chance.yes(0.1) ? kind : 'coil') : kind
    loads.push({ id: `${id}${name}`, name: `${id}${name}`, at, kind: kept, watts: chance.pick(WATTS[kept]), pluggable: !chance.yes(0.05) })
  }
  const run = (name: string, from: string, to: string, length: number, mm2: number, moving: boolean): void => {
    wiring.push({ id: `${id}${name}`, from, to, length: tenth(length), conductor: { area: mm2, class: 5 }, moving })
  }
  const trunks = options.trunks ?? chance.whole(1, 3)
  for (let j = 1; j <= trunks; j++) {
    run(`W${j}`, j === 1 ? 'terminals' : `J${j - 1}`, `J${j}`, chance.between(3, 30), area, chance.yes(0.2))
    const spurs = chance.whole(0, 3)
    for (let k = 0; k < spurs; k++) {
      run(`W${j}${k}`, `J${j}`, `X${j}${k}`, chance.between(1, 8), 0.5, chance.yes(0.1))
      load(`L${j}${k}`, `X${j}${k}`)
    }
  }
  if (loads.length === 0 || chance.yes(0.25)) load('L9', `J${trunks}`)
  return { id, name: `Branch ${n}`, protection: inventProtection(loads, chance), wiring, loads }
}

const inventMachine = (options: InventOptions, chance: Chance): { machine: Machine; supply: Truth['supply'] } => {
  const count = options.branches ?? chance.whole(3, 24)
  const branches = Array.from({ length: count }, (_, i) => inventBranch(i + 1, options, chance))
  const drawn = wattsOf(branches.flatMap(b => b.loads ?? [])) / 24
  const enough = (count > 24 || options.trunks !== undefined ? [...RATED, ...LARGE] : RATED).filter(rated => rated * 0.85 >= drawn)
  if (enough.length === 0) return inventMachine(options, chance)
  const rated = enough[Math.min(chance.weighted([6, 3, 1]), enough.length - 1)] ?? 20
  const mode = chance.pick(['constant-current', 'hiccup', 'latch-off'] as const)
  const limit = Math.round(rated * chance.pick([1.1, 1.15, 1.3, 1.5]) * 100) / 100
  const volts = tenth(chance.between(23.8, 24.6))
  const machine: Machine = {
    format: 'ohmward.machine',
    version: 1,
    id: `bench-${chance.whole(0, 0xffffff).toString(16).padStart(6, '0')}`,
    name: 'Bench machine',
    supply: {
      ratedVoltage: 24,
      setVoltage: volts,
      ratedCurrent: rated,
      limit: chance.yes(0.85) ? { mode, current: limit } : { mode: 'unknown' },
      zeroVoltBonded: options.bonded ?? chance.yes(0.8),
    },
    branches,
  }
  return { machine, supply: { volts, limit, mode } }
}

/** Per metre of run, six times as often on a moving one. */
const inventSpot = (machine: Machine, chance: Chance): { branch: string; run: string; at: number } => {
  const all = machine.branches.flatMap(b => (b.wiring ?? []).map(run => ({ branch: b.id, run })))
  const one = all[chance.weighted(all.map(({ run }) => run.length * (run.moving ? 6 : 1)))]
  if (one === undefined) throw new Error('a machine without a run has no place for a short circuit')
  return { branch: one.branch, run: one.run.id, at: Math.round(chance.between(0, one.run.length) * 100) / 100 }
}
/** 11 to 0 V, 3 to earth, 3 inside a load; to earth only where 0 V is bonded to it. */
const inventKind = (machine: Machine, chance: Chance): Short['kind'] =>
  (['short-to-zero', 'load-short', 'short-to-earth'] as const)[chance.weighted(machine.supply.zeroVoltBonded ? [11, 3, 3] : [11, 3, 0])] ??
  'short-to-zero'
const inventShort = (machine: Machine, kind: Short['kind'], chance: Chance, most = 0.3): Short => {
  if (kind !== 'load-short') return { kind, ...inventSpot(machine, chance), ohm: chance.logBetween(0.005, most) }
  const one = chance.pick(machine.branches.flatMap(b => (b.loads ?? []).map(load => ({ branch: b.id, load: load.id }))))
  return { kind, ...one, ohm: chance.logBetween(0.02, 0.5) }
}

/** The supply is at its limit, every branch is dead by it, and no device opens at once. */
export const holdsDown = (truth: Truth): boolean => {
  const state = foundState(truth)
  const now = live(truth, state)
  const volts = now.solved.at('bus.plus') - now.solved.at('bus.zero')
  return now.supply.limited && volts < DEAD_BELOW && truth.machine.branches.every(b => !opensAtOnce(truth, b.id, now.branch.get(b.id) ?? 0))
}
/** With the device closed on this short, would it open by its current, at once or after a while? */
const trips = (truth: Truth, branch: string): boolean => {
  const state = foundState({ ...truth, fault: shortOf(truth.fault) ?? { kind: 'none' } })
  const { net, device } = build(truth, state)
  const part = device.get(branch)
  const own = truth.devices[branch]
  if (part === undefined || own === undefined) return false
  const solved = solve(net)
  const ampere = (solved.at(part.a) - solved.at(part.b)) / part.ohm
  return ampere > own.hold * (truth.machine.branches.find(b => b.id === branch)?.protection?.rating ?? 6) * 1.2
}

/** Whether a junction has a load, or leads to one. */
const fedBy = (branch: Branch, junction: string): boolean =>
  (branch.loads ?? []).some(l => l.at === junction) || (branch.wiring ?? []).some(run => run.from === junction && fedBy(branch, run.to))

const TRIES = 60
/** The kind is drawn once; the place is drawn again until the machine really behaves so. */
const withFault = (base: Truth, wanted: 'short' | 'other' | 'open' | Kind, chance: Chance, most?: number): Truth | undefined => {
  const { machine } = base
  if (wanted === 'short') {
    const kind = inventKind(machine, chance)
    for (let i = 0; i < TRIES; i++) {
      const truth: Truth = { ...base, fault: inventShort(machine, kind, chance, most), symptom: 'all-dead' }
      if (holdsDown(truth)) return truth
    }
    return undefined
  }
  if (wanted === 'open') {
    // A conductor with loads behind it: who is out of service is what the technician sees.
    const all = machine.branches.flatMap(b => (b.wiring ?? []).filter(run => fedBy(b, run.to)).map(run => ({ b, run })))
    const one = all[chance.weighted(all.map(({ run }) => 5 + run.length * (run.moving ? 6 : 1)))]
    if (one === undefined) return undefined
    const spot = { branch: one.b.id, run: one.run.id, at: tenth(chance.between(0, one.run.length)) }
    const kind = (['open-plus', 'open-zero', 'poor-joint'] as const)[chance.weighted([2, 2, 1])] ?? 'open-plus'
    const fault: Fault = kind === 'poor-joint' ? { kind, ...spot, ohm: chance.logBetween(5, 60) } : { kind, ...spot }
    return { ...base, fault, symptom: one.run.from === 'terminals' && kind !== 'poor-joint' ? 'one-branch-dead' : 'one-load-dead' }
  }
  if (wanted !== 'other') return afflicted(base, wanted, inventSpot, () => withFault(base, 'short', chance), chance)
  const which = chance.weighted([1, 1, 1, 1])
  if (which < 2) return { ...base, fault: { kind: which === 0 ? 'supply-dead' : 'no-mains' }, symptom: 'all-dead' }
  const protectedOnes = machine.branches.filter(b => b.protection?.kind !== 'none')
  if (which === 2) {
    const fault: Fault = { kind: 'device-open', branch: chance.pick(protectedOnes).id, seen: chance.yes(0.5) ? 'open' : 'tripped' }
    return { ...base, fault, symptom: 'one-branch-dead' }
  }
  const kind = inventKind(machine, chance)
  for (let i = 0; i < TRIES; i++) {
    const behind = inventShort(machine, kind, chance)
    const truth: Truth = {
      ...base,
      fault: { kind: 'device-open', branch: behind.branch, seen: 'tripped', behind },
      symptom: 'one-branch-dead',
    }
    if (trips(truth, behind.branch)) return truth
  }
  return undefined
}

/** A machine, its hidden truth and its fault: the same seed gives the same ones. */
export const invent = (seed: number, options: InventOptions = {}): Truth => {
  const chance = chanceOf(seed)
  for (;;) {
    const { machine, supply } = inventMachine(options, chance)
    const runs = machine.branches.flatMap(b => b.wiring ?? [])
    const base: Truth = {
      machine,
      supply,
      fault: { kind: 'none' },
      symptom: 'all-dead',
      scale: Object.fromEntries(runs.map(r => [r.id, options.outside ? 0.9 : chance.between(0.92, 1)])),
      celsius: options.outside ? chance.pick([-5, 45]) : chance.between(10, 30),
      earthOhm: chance.between(0.02, 0.1),
      electronicOhm: chance.between(5e3, 40e3),
      coldShare: chance.between(0.1, 1),
      devices: Object.fromEntries(machine.branches.map(b => [b.id, inventDevice(b, chance)])),
      lampUnderLimit: chance.pick(['steady', 'off', 'blinking']),
      injectorAmpere: chance.between(0.85, 1.15),
      meter: inventMeter(chance),
      seed: chance.whole(0, 0xffffffff),
    }
    const truth = withFault(base, options.fault ?? 'short', chance, options.outside ? 2 : undefined)
    if (truth !== undefined) return withMore(truth, options, chanceOf(seedOf(seed, MORE)))
  }
}

/** A stream of chance of its own, so that the machine is the same with and without. */
const MORE = 7001
const withMore = (truth: Truth, { second = 0, intermittent = 0 }: InventOptions, chance: Chance): Truth => {
  const [twice, comes, present] = [chance.yes(second), chance.yes(intermittent), chance.between(0.3, 0.8)]
  const { fault } = truth
  const moved = comes && fault.kind === 'short-to-zero' ? { ...truth, fault: { ...fault, present } } : truth
  if (!twice || !('branch' in fault)) return moved
  for (let i = 0; i < TRIES; i++) {
    const other = inventShort(truth.machine, inventKind(truth.machine, chance), chance)
    if (other.branch !== fault.branch) return { ...moved, second: other }
  }
  return moved
}
