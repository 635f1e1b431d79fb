// The direct-current circuit of the machine in the state that the acts have put it in, with one fault in it.
import type { Fault } from './fault.ts'
import { gather, type Ladder, ladder, type Port, solve, through } from './ladder.ts'
import { CABINET, isBonded, limitOf, type Plant, type PlantBranch, voltsOf } from './plant.ts'
import type { Positions } from './positions.ts'
import type { Point } from './step.ts'

/** Nodes ahead of the branches: the bus is the root, the supply's output hangs on it. */
export const BUS = 0
export const SUPPLY = 1
const FIRST = 2
/** Nodes of one run, after the branch's terminals: its near end, the place of a fault in it, its far end. */
const PER_RUN = 3
export const nearEnd = (base: number, run: number): number => base + 1 + PER_RUN * run
export const within = (base: number, run: number): number => nearEnd(base, run) + 1
export const farEnd = (base: number, run: number): number => (run < 0 ? base : nearEnd(base, run) + 2)

export interface Circuit {
  readonly plant: Plant
  readonly ladder: Ladder
  readonly positions: Positions
  /** By branch index, the node of its terminals; undefined for a branch that is lumped at the bus. */
  readonly base: readonly (number | undefined)[]
}

const hangBranch = (l: Ladder, b: PlantBranch, base: number, p: Positions): void => {
  l.parent[base] = BUS
  l.plusOhm[base] = p.devices[b.id] === 'closed' ? b.deviceOhm : CABINET.open
  l.zeroOhm[base] = CABINET.zeroLink
  b.wiring.runs.forEach(({ parent, run }, k) => {
    const near = nearEnd(base, k)
    const ohm = (b.runOhm[k] as number) / 2
    const joint = p.openedRuns.includes(`${b.id}/${run.id}`) ? CABINET.open : CABINET.joint
    l.parent[near] = farEnd(base, parent)
    l.plusOhm[near] = l.zeroOhm[near] = joint
    l.parent[near + 1] = near
    l.parent[near + 2] = near + 1
    l.plusOhm[near + 1] = l.zeroOhm[near + 1] = l.plusOhm[near + 2] = l.zeroOhm[near + 2] = ohm
  })
  for (const { load, run, siemens } of b.loads) {
    if (p.unplugged.includes(`${b.id}/${load.id}`)) continue
    const node = farEnd(base, run)
    l.across[node] = (l.across[node] as number) + siemens
  }
}

const rootShunts = (l: Ladder, plant: Plant, p: Positions): void => {
  l.plusEarth[BUS] = l.zeroEarth[BUS] = 1 / CABINET.insulation
  if (isBonded(plant) && p.bond === 'joined') l.zeroEarth[BUS] = 1 / CABINET.bond
  l.parent[SUPPLY] = BUS
  l.plusOhm[SUPPLY] = p.bus === 'joined' ? CABINET.supplyLead : CABINET.open
  l.zeroOhm[SUPPLY] = CABINET.supplyLead
  l.across[SUPPLY] = 1 / CABINET.supplyOff
}

const addPort = (l: Ladder, node: number, port: Port): void => {
  l.across[node] = (l.across[node] as number) + port.across
  l.plusEarth[node] = (l.plusEarth[node] as number) + port.plusEarth
  l.zeroEarth[node] = (l.zeroEarth[node] as number) + port.zeroEarth
}

const nodesOf = (b: PlantBranch): number => 1 + PER_RUN * b.wiring.runs.length

/** One branch alone, its terminals as the root: what `portOf` reduces and what is reckoned once a place. */
export const branchAlone = (b: PlantBranch, p: Positions): Ladder => {
  const l = ladder(FIRST + nodesOf(b))
  // The nodes of bus and supply stay empty, so that a node's number is the same as in a circuit of this branch in detail.
  hangBranch(l, b, FIRST, p)
  l.plusOhm[FIRST] = l.zeroOhm[FIRST] = 0
  return l
}

/** A sound branch as the bus sees it, through its device. */
export const portAtBus = (b: PlantBranch, p: Positions, atTerminals: Port = gather(branchAlone(b, p))): Port =>
  through(atTerminals, p.devices[b.id] === 'closed' ? b.deviceOhm : CABINET.open, CABINET.zeroLink)

/** The circuit, supply off and nothing fed in. `detail`: the branch to keep node by node (all, if none is named); others are lumped. */
export const circuitOf = (plant: Plant, p: Positions, detail?: number): Circuit => {
  const kept = detail === undefined ? plant.branches : plant.branches.filter(b => b.index === detail)
  const base: (number | undefined)[] = plant.branches.map(() => undefined)
  let size = FIRST
  for (const b of kept) {
    base[b.index] = size
    size += nodesOf(b)
  }
  const l = ladder(size)
  rootShunts(l, plant, p)
  for (const b of plant.branches) {
    const at = base[b.index]
    if (at === undefined) addPort(l, BUS, portAtBus(b, p))
    else hangBranch(l, b, at, p)
  }
  return { plant, ladder: l, positions: p, base }
}

/** A node and the conductor that a probe touches there. */
export interface Probe {
  readonly node: number
  readonly conductor: 'plus' | 'zero' | 'earth'
}

export const branchOfPoint = (point: Point): string | undefined => {
  const name = point.split(/[./]/)[0] as string
  return name === 'supply' || name === 'bus' || name === 'earth' ? undefined : name
}

/** The run at whose far side a point of a branch is, −1 at the terminals: beyond an opened run its loose end is, too. */
export const runAt = (b: PlantBranch, p: Positions, point: Point): number => {
  const where = point.split('.')[0]?.split('/')[1]
  if (where === undefined) return -1
  const arriving = b.wiring.arriving.get(where)
  if (arriving !== undefined) return arriving
  const run = b.wiring.runs.findIndex(r => r.run.id === where)
  if (run < 0) throw new RangeError(`no such point in this circuit: ${point}`)
  return p.openedRuns.includes(`${b.id}/${where}`) ? run : (b.wiring.runs[run]?.parent ?? -1)
}

/** Where a point is in the circuit. A run's near end is the junction while joined, the loose end once opened. */
export const probeAt = (c: Circuit, p: Positions, point: Point): Probe => {
  if (point === 'earth') return { node: BUS, conductor: 'earth' }
  const [place, conductor] = point.split('.')
  if (place === undefined || (conductor !== 'plus' && conductor !== 'zero')) throw new RangeError(`not a point: ${point}`)
  if (place === 'bus') return { node: BUS, conductor }
  if (place === 'supply') return { node: SUPPLY, conductor }
  const [id, where] = place.split('/')
  const b = c.plant.branches[c.plant.indexOf.get(id ?? '') ?? -1]
  const base = b === undefined ? undefined : c.base[b.index]
  if (b === undefined || base === undefined) throw new RangeError(`no such point in this circuit: ${point}`)
  if (where === undefined) return { node: base, conductor }
  const run = runAt(b, p, point)
  const loose = where === b.wiring.runs[run]?.run.id && !b.wiring.arriving.has(where)
  return { node: loose ? nearEnd(base, run) : farEnd(base, run), conductor }
}

/** Puts a fault into a branch whose terminals are node `base` of the ladder. The run's two halves meet at the fault. */
export const putFault = (l: Ladder, plant: Plant, b: PlantBranch, base: number, f: Fault, p: Positions): void => {
  if (f.load !== undefined) {
    const load = b.loads.find(x => x.load.id === f.load)
    if (load === undefined) throw new RangeError(`no load ${f.load} in branch ${b.id}`)
    // Unplugged, it takes its short circuit with it.
    if (p.unplugged.includes(`${b.id}/${f.load}`)) return
    const node = farEnd(base, load.run)
    l.across[node] = (l.across[node] as number) - load.siemens + 1 / (f.ohm ?? 0.1)
    return
  }
  const k = b.wiring.runs.findIndex(r => r.run.id === f.run)
  const run = b.wiring.runs[k]
  if (run === undefined) throw new RangeError(`no run ${f.run} in branch ${b.id}`)
  const node = within(base, k)
  const perMetre = (b.runOhm[k] as number) / run.run.length
  const near = perMetre * (f.at ?? 0)
  l.plusOhm[node] = l.zeroOhm[node] = near
  l.plusOhm[node + 1] = l.zeroOhm[node + 1] = (b.runOhm[k] as number) - near
  switch (f.kind) {
    case 'short-to-zero':
      l.across[node] = 1 / (f.ohm ?? 0.01)
      break
    case 'short-to-earth':
      l.plusEarth[node] = 1 / ((f.ohm ?? 0.01) + plant.figures.earthOhm)
      break
    case 'open-plus':
      l.plusOhm[node] = CABINET.broken
      break
    case 'open-zero':
      l.zeroOhm[node] = CABINET.broken
      break
    case 'poor-joint':
      l.plusOhm[node] = near + (f.ohm ?? 0)
      break
    default:
      throw new RangeError(`no circuit for ${f.kind} in a run`)
  }
}

export const faulty = (c: Circuit, f: Fault): Circuit => {
  const b = c.plant.branches[c.plant.indexOf.get(f.branch ?? '') ?? -1]
  const base = b === undefined ? undefined : c.base[b.index]
  if (b === undefined || base === undefined) throw new RangeError(`branch ${f.branch} is not in this circuit`)
  putFault(c.ladder, c.plant, b, base, f, c.positions)
  return c
}

/** Feeds `ampere` into one probe and takes it out at the other. Earth needs no entry: it is the reference. */
export const feed = (l: Ladder, into: Probe, outOf: Probe, ampere: number): void => {
  const put = ({ node, conductor }: Probe, i: number) => {
    if (conductor === 'plus') l.intoPlus[node] = (l.intoPlus[node] as number) + i
    if (conductor === 'zero') l.intoZero[node] = (l.intoZero[node] as number) + i
  }
  put(into, ampere)
  put(outOf, -ampere)
}

export const voltageAt = (l: Ladder, { node, conductor }: Probe): number =>
  conductor === 'earth' ? 0 : ((conductor === 'plus' ? l.plus[node] : l.zero[node]) as number)

/** Ω that a perfect ohmmeter shows between two points of the dead circuit. */
export const ohmBetween = (c: Circuit, red: Probe, black: Probe): number => {
  feed(c.ladder, red, black, 1)
  solve(c.ladder)
  feed(c.ladder, red, black, -1)
  return voltageAt(c.ladder, red) - voltageAt(c.ladder, black)
}

/** Solves with a current-limited source of `ampere` and `volts` at a branch's terminals, returning to its 0 V or to earth. */
export const inject = (c: Circuit, terminals: number, into: 'zero' | 'earth', ampere: number, volts: number): void => {
  const from: Probe = { node: terminals, conductor: 'plus' }
  const to: Probe = into === 'zero' ? { node: terminals, conductor: 'zero' } : { node: BUS, conductor: 'earth' }
  feed(c.ladder, from, to, ampere)
  solve(c.ladder)
  feed(c.ladder, from, to, -ampere)
  const across = voltageAt(c.ladder, from) - voltageAt(c.ladder, to)
  if (across <= volts) return
  for (let i = 0; i < c.ladder.size; i++) {
    c.ladder.plus[i] = (c.ladder.plus[i] as number) * (volts / across)
    c.ladder.zero[i] = (c.ladder.zero[i] as number) * (volts / across)
  }
}

/** Below this an electronic load draws little (IEC 61131-2 lets it down to 20.4 V; common practice, no source, for the figure). */
const DROP_OUT = 16

/**
 * Solves with the supply on: its set voltage up to its limit, past it the limit's current.
 * Returns whether the supply is at its limit, which a pulsing or latching supply shows by being off most of the time.
 */
export const energise = (c: Circuit, p: Positions): 'holds' | 'at its limit' => {
  const { ladder: l, plant } = c
  const source = voltsOf(plant.machine)
  const most = limitOf(plant.machine) ?? Infinity
  const loads = plant.branches.flatMap(b =>
    b.loads
      .filter(x => c.base[b.index] !== undefined && !p.unplugged.includes(`${b.id}/${x.load.id}`))
      .map(x => ({ ...x, node: farEnd(c.base[b.index] as number, x.run), drawn: 0, starved: false })),
  )
  const plus: Probe = { node: SUPPLY, conductor: 'plus' },
    zero: Probe = { node: SUPPLY, conductor: 'zero' }
  l.across[SUPPLY] = 0
  // What a load shows to an ohmmeter says little of what it draws in service: lamps get hot, motors turn, converters start.
  for (const x of loads) l.across[x.node] = (l.across[x.node] as number) - x.siemens + x.liveSiemens
  let limited = false
  for (let round = 0; round < 60; round++) {
    const conductance = limited ? 0 : 1 / CABINET.supplyInside
    const current = limited ? most : source * conductance
    l.across[SUPPLY] = conductance
    feed(l, plus, zero, current)
    solve(l)
    feed(l, plus, zero, -current)
    l.across[SUPPLY] = 0
    const out = (source - (voltageAt(l, plus) - voltageAt(l, zero))) / CABINET.supplyInside
    let moved = false
    if (!limited && out > most) limited = moved = true
    for (const x of loads) {
      if (x.liveAmpere === 0) continue
      // A load whose own current pulls it below stays off: behind an open conductor there is no steady state in between.
      const fed = (l.plus[x.node] as number) - (l.zero[x.node] as number) > DROP_OUT
      if (!fed && x.drawn > 0) x.starved = true
      const wanted = fed && !x.starved ? x.liveAmpere : 0
      if (wanted === x.drawn) continue
      l.intoPlus[x.node] = (l.intoPlus[x.node] as number) - (wanted - x.drawn)
      l.intoZero[x.node] = (l.intoZero[x.node] as number) + (wanted - x.drawn)
      x.drawn = wanted
      moved = true
    }
    if (!moved) break
  }
  return limited ? 'at its limit' : 'holds'
}
