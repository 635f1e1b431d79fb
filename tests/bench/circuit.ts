import type { Load, Run } from '../../engine/machine.ts'
import type { Point } from '../../engine/step.ts'
import { type Draw, type Net, type Resistor, type Solved, type Source, solve } from './solver.ts'
import { type Fault, faultsOf, type State, shortsOf, type Truth } from './truth.ts'

/** Ohm per km at 20 °C of class 5 plain copper by area in mm²: IEC 60228 maxima (tables quoting it). */
const MAXIMUM: Readonly<Record<string, number>> = { '0.5': 39.0, '0.75': 26.0, '1': 19.5, '1.5': 13.3, '2.5': 7.98 }
/** Per kelvin, copper at 20 °C (IEC 60228 corrects with the same figure). */
const COPPER = 0.00393
// The small resistances of the cabinet, as the reference circuits have them.
const JOINT = 0.0005
const ZERO_RAIL = 0.003
const OUTPUT_LEAD = 0.002
const BOND = 0.02
const SUPPLY_OFF = 3300
const SUPPLY_INSIDE = 0.01
const OPEN = 1e9
/** What stands for a supply that a rush of current holds down, and for a diode that conducts: about 1 V of a supply's current, 0.9 V of an injector's. */
const RUSH = 0.3
const DIODE = { live: 0.1, injected: 0.9 } as const
/** Another supply that feeds a branch. */
const OTHER = { volts: 24, inside: 0.05, limit: 4 } as const
/** A conductor of no length still needs some resistance to be solved. */
const LEAST = 1e-7

/** One conductor of a run, ohm per metre. */
export const ohmPerMetre = (truth: Truth, run: Run): number => {
  const { conductor } = run
  if (conductor === undefined || !('area' in conductor)) throw new Error(`run ${run.id} has no area in mm²`)
  const maximum = MAXIMUM[String(conductor.area)]
  const scale = truth.scale[run.id]
  if (maximum === undefined || scale === undefined) throw new Error(`run ${run.id}: area ${conductor.area} or its scale is unknown`)
  return (maximum / 1000) * scale * (1 + COPPER * (truth.celsius - 20))
}

/** A junction's node; `terminals` are the branch's own. */
export const junctionNode = (branch: string, name: string, pole: 'plus' | 'zero'): string =>
  name === 'terminals' ? `${branch}.${pole}` : `${branch}/${name}.${pole}`
const nearNode = (branch: string, run: string, pole: 'plus' | 'zero'): string => `${branch}/${run}@near.${pole}`

/** Runs so that each comes after the one that feeds it. */
export const inOrder = (wiring: readonly Run[]): Run[] => {
  const out: Run[] = []
  const grow = (from: string): void => {
    for (const run of wiring)
      if (run.from === from) {
        out.push(run)
        grow(run.to)
      }
  }
  grow('terminals')
  return out
}

export interface Built {
  readonly net: Net
  readonly device: ReadonlyMap<string, Resistor>
  /** The short circuits, with their branches. */
  readonly shorts: readonly { readonly branch: string; readonly part: Resistor }[]
}

type InRun = Extract<Fault, { readonly run: string }>

/** Does the 24 V supply give anything? */
export const isAlive = (state: State): boolean =>
  state.supply === 'on' && !state.latched && faultsOf(state).every(({ kind }) => kind !== 'supply-dead' && kind !== 'no-mains')

/** The netlist of the machine in a state. With `still`, no converter runs: what an ohmmeter's small current meets. */
export const build = (truth: Truth, state: State, still = false): Built => {
  const resistors: Resistor[] = []
  const draws: Draw[] = []
  const sources: Source[] = []
  const device = new Map<string, Resistor>()
  const parts: { branch: string; part: Resistor }[] = []
  const faults = faultsOf(state)
  const shorts = shortsOf(state)
  const inRuns = [...shorts, ...faults.filter(f => !f.kind.startsWith('short'))].filter((f): f is InRun => 'run' in f)
  const put = (a: string, b: string, ohm: number): Resistor => {
    const part = { a, b, ohm: Math.max(ohm, LEAST) }
    resistors.push(part)
    return part
  }
  const alive = isAlive(state)
  const { volts } = truth.supply
  const limit = faults.reduce((least, f) => (f.kind === 'overload' && 'limit' in f ? f.limit : least), truth.supply.limit)
  if (alive) sources.push({ plus: 'supply.plus', minus: 'supply.zero', volts, inside: SUPPLY_INSIDE, limit })
  else put('supply.plus', 'supply.zero', SUPPLY_OFF)
  if (state.bus === 'joined') {
    put('bus.plus', 'supply.plus', OUTPUT_LEAD)
    put('bus.zero', 'supply.zero', OUTPUT_LEAD)
  }
  if (alive && state.rush) put('supply.plus', 'supply.zero', RUSH)
  if (truth.machine.supply.zeroVoltBonded && state.bond === 'joined') put('bus.zero', 'earth', BOND)
  if (truth.sharedZero !== undefined) put(...truth.sharedZero, JOINT)
  if (truth.screen !== undefined) put(truth.screen.node, 'earth', truth.screen.ohm)

  const load = (branch: string, item: Load): void => {
    if (state.unplugged.has(`${branch}/${item.id}`)) return
    const [plus, zero] = [junctionNode(branch, item.at, 'plus'), junctionNode(branch, item.at, 'zero')]
    const here = (f: Fault): boolean => 'load' in f && f.branch === branch && f.load === item.id
    const short = shorts.find(here)
    if (short !== undefined) {
      parts.push({ branch, part: put(plus, zero, short.ohm) })
      return
    }
    const own = faults.find(here)
    if (own?.kind === 'overload' && 'ohm' in own && (own.atRest || !still)) {
      put(plus, zero, own.ohm)
      return
    }
    if ((own?.kind === 'swapped' || own?.kind === 'diode') && !still && own.conducts) {
      put(plus, zero, state.supply === 'on' ? DIODE.live : DIODE.injected)
      return
    }
    if (own?.kind === 'swapped' && item.kind === 'electronic') {
      put(plus, zero, OPEN)
      return
    }
    const watts = item.watts ?? 5
    const rest = state.supply === 'off' ? truth.coldShare : 1
    if (item.kind === 'electronic') {
      // With the supply on the converter's law stands alone; the trace of conductance only keeps the sum solvable.
      put(plus, zero, state.supply === 'on' && !still ? 1e8 : truth.electronicOhm)
      if (!still) draws.push({ plus, minus: zero, ampere: watts / 24 })
    } else put(plus, zero, ((24 * 24) / watts) * (item.kind === 'coil' ? 1 : rest))
  }
  const cable = (branch: string, run: Run): void => {
    const perMetre = ohmPerMetre(truth, run)
    for (const pole of ['plus', 'zero'] as const) {
      const near = nearNode(branch, run.id, pole)
      const far = junctionNode(branch, run.to, pole)
      if (!state.opened.has(run.id)) put(junctionNode(branch, run.from, pole), near, JOINT)
      const spot = inRuns.find(f => f.run === run.id)
      if (spot === undefined) {
        put(near, far, perMetre * run.length)
        continue
      }
      const middle = `${branch}/${run.id}@fault.${pole}`
      const past = `${branch}/${run.id}@past.${pole}`
      put(near, middle, perMetre * spot.at)
      const broken = (spot.kind === 'open-plus' && pole === 'plus') || (spot.kind === 'open-zero' && pole === 'zero')
      if (broken) put(middle, past, OPEN)
      else if (spot.kind === 'poor-joint' && pole === 'plus') put(middle, past, spot.ohm)
      const cut = broken || (spot.kind === 'poor-joint' && pole === 'plus')
      put(cut ? past : middle, far, perMetre * (run.length - spot.at))
    }
    for (const short of shorts) {
      if (!('run' in short) || short.run !== run.id) continue
      const middle = `${branch}/${run.id}@fault`
      const toEarth = short.kind === 'short-to-earth'
      const part = put(`${middle}.plus`, toEarth ? 'earth' : `${middle}.zero`, short.ohm + (toEarth ? truth.earthOhm : 0))
      parts.push({ branch, part })
    }
  }
  for (const branch of truth.machine.branches) {
    const own = truth.devices[branch.id]
    if (own === undefined) throw new Error(`no device known for ${branch.id}`)
    put('bus.zero', `${branch.id}.zero`, ZERO_RAIL)
    const shut = truth.shutsOff === branch.id && shorts.some(x => x.branch === branch.id)
    if (state.devices.get(branch.id) === 'closed' && !shut) device.set(branch.id, put('bus.plus', `${branch.id}.plus`, own.ohm))
    for (const run of inOrder(branch.wiring ?? [])) cable(branch.id, run)
    for (const item of branch.loads ?? []) load(branch.id, item)
  }
  for (const fault of faults) {
    // Beside a supply that is up the other one gives nothing.
    if (fault.kind !== 'backfeed' || still || state.otherOff) continue
    const at = 'branch' in fault ? fault : undefined
    if (alive && (at === undefined || state.devices.get(at.branch) === 'closed')) continue
    const node = (pole: 'plus' | 'zero'): string => (at === undefined ? `bus.${pole}` : junctionNode(at.branch, at.junction, pole))
    sources.push({ plus: node('plus'), minus: node('zero'), ...OTHER })
  }
  if (truth.buffer !== undefined && !still && !alive && !state.drained) sources.push({ plus: 'bus.plus', minus: 'bus.zero', ...OTHER })
  if (state.injector !== undefined) {
    const { branch, into } = state.injector
    const minus = into === 'earth' ? 'earth' : `${branch}.zero`
    sources.push({ plus: `${branch}.plus`, minus, volts: 24, inside: SUPPLY_INSIDE, limit: truth.injectorAmpere })
  }
  return { net: { resistors, sources, draws, feeds: [] }, device, shorts: parts }
}

/** The node behind a point: a run's near end is the junction itself while joined, the loose end once opened. */
export const nodeOf = (truth: Truth, state: State, point: Point): string => {
  const found = /^([^/.]+)\/([^/.]+)\.(plus|zero)$/.exec(point)
  if (found === null) return point
  const [, branchId = '', name = '', pole] = found
  const run = truth.machine.branches.find(b => b.id === branchId)?.wiring?.find(r => r.id === name)
  if (run === undefined) return point
  const end = pole === 'plus' ? 'plus' : 'zero'
  return state.opened.has(name) ? nearNode(branchId, name, end) : junctionNode(branchId, run.from, end)
}

export interface Live {
  readonly solved: Solved
  /** The 24 V supply: ampere given, and whether its limit holds it. */
  readonly supply: { readonly ampere: number; readonly limited: boolean }
  readonly injector: { readonly ampere: number; readonly limited: boolean }
  /** Ampere through each closed device. */
  readonly branch: ReadonlyMap<string, number>
  /** Ampere through the short circuits themselves, and their branches. */
  readonly shorts: readonly { readonly branch: string; readonly ampere: number }[]
}

const flow = (solved: Solved, part: Resistor): number => (solved.at(part.a) - solved.at(part.b)) / part.ohm
const NOTHING = { ampere: 0, limited: false }

/** The circuit as it stands, its own sources only. */
export const live = (truth: Truth, state: State): Live => {
  const { net, device, shorts } = build(truth, state)
  const solved = solve(net)
  const fed = net.sources.map((s, k) => ({ plus: s.plus, ...(solved.sources[k] ?? NOTHING) }))
  return {
    solved,
    supply: fed.find(s => s.plus === 'supply.plus') ?? NOTHING,
    injector: (state.injector === undefined ? undefined : fed.at(-1)) ?? NOTHING,
    branch: new Map([...device].map(([id, part]) => [id, flow(solved, part)])),
    shorts: shorts.map(({ branch, part }) => ({ branch, ampere: Math.abs(flow(solved, part)) })),
  }
}

/** Volt from red to black. Two points that nothing joins show nothing. */
export const voltsBetween = (truth: Truth, state: State, now: Live, red: Point, black: Point): number => {
  const [a, b] = [nodeOf(truth, state, red), nodeOf(truth, state, black)]
  return now.solved.joined(a, b) ? now.solved.at(a) - now.solved.at(b) : 0
}

/** The circuit with an ohmmeter's milliampere into one node and out of another. */
export const probed = (truth: Truth, state: State, into: string, outOf: string): Net => ({
  ...build(truth, state, true).net,
  feeds: [{ into, outOf, ampere: 0.001 }],
})

/** Ohm from red to black by a small test current; Infinity where nothing joins them. */
export const ohmsBetween = (truth: Truth, state: State, red: Point, black: Point): number => {
  const [a, b] = [nodeOf(truth, state, red), nodeOf(truth, state, black)]
  if (a === b) return 0
  const solved = solve(probed(truth, state, a, b))
  return solved.joined(a, b) ? (solved.at(a) - solved.at(b)) / 0.001 : Number.POSITIVE_INFINITY
}
