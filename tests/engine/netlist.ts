// The machine in a state as a plain list of resistors and one source, with the engine's own small figures: for a general simulator.
import type { Fault } from '../../engine/fault.ts'
import { CABINET, type Plant } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import type { Point } from '../../engine/step.ts'
import { ohmPerMetre } from '../bench/circuit.ts'
import type { Resistor } from '../bench/solver.ts'
import type { Truth } from '../bench/truth.ts'

const RATED = 24
/** To an ohmmeter a lamp is six times, a motor four times its conductance in service. */
const COLD = { coil: 1, lamp: 6, motor: 4 } as const

const node = (branch: string, name: string, pole: 'plus' | 'zero'): string =>
  name === 'terminals' ? `${branch}.${pole}` : `${branch}/${name}.${pole}`

/**
 * Resistors of the machine, supply off. Conductors by the bench's own table, small figures as the engine's cabinet has them.
 * What the engine has as 1e11 Ω and more, insulation and open contacts, is left out: beside 2000 S of a joint it is beyond
 * the digits of a general simulator, and beside the 40 kΩ of a load it counts for less than a millionth.
 */
export const resistorsOf = (truth: Truth, plant: Plant, p: Positions, fault: Fault): Resistor[] => {
  const out: Resistor[] = []
  const put = (a: string, b: string, ohm: number): void => {
    if (ohm < CABINET.insulation) out.push({ a, b, ohm })
  }
  put('bus.zero', 'earth', truth.machine.supply.zeroVoltBonded && p.bond === 'joined' ? CABINET.bond : CABINET.insulation)
  put('supply.plus', 'bus.plus', p.bus === 'joined' ? CABINET.supplyLead : CABINET.open)
  // Opening the bus opens plus only.
  put('supply.zero', 'bus.zero', CABINET.supplyLead)
  put('supply.plus', 'supply.zero', CABINET.supplyOff)
  for (const branch of truth.machine.branches) {
    put('bus.plus', `${branch.id}.plus`, p.devices[branch.id] === 'closed' ? (truth.devices[branch.id]?.ohm ?? Number.NaN) : CABINET.open)
    put('bus.zero', `${branch.id}.zero`, CABINET.zeroLink)
    for (const run of branch.wiring ?? []) {
      const hit = fault.branch === branch.id && fault.run === run.id ? fault : undefined
      const at = hit?.at ?? run.length / 2
      for (const pole of ['plus', 'zero'] as const) {
        const [near, middle] = [`${branch.id}/${run.id}@near.${pole}`, `${branch.id}/${run.id}@middle.${pole}`]
        put(node(branch.id, run.from, pole), near, p.openedRuns.includes(`${branch.id}/${run.id}`) ? CABINET.open : CABINET.joint)
        const first = ohmPerMetre(truth, run) * at
        const broken = hit?.kind === (pole === 'plus' ? 'open-plus' : 'open-zero')
        const poor = hit?.kind === 'poor-joint' && pole === 'plus' ? (hit.ohm ?? 0) : 0
        put(near, middle, broken ? CABINET.broken : first + poor)
        put(middle, node(branch.id, run.to, pole), ohmPerMetre(truth, run) * (run.length - at))
      }
      const middle = `${branch.id}/${run.id}@middle`
      if (hit?.kind === 'short-to-zero') put(`${middle}.plus`, `${middle}.zero`, hit.ohm ?? Number.NaN)
      if (hit?.kind === 'short-to-earth') put(`${middle}.plus`, 'earth', (hit.ohm ?? Number.NaN) + truth.earthOhm)
    }
    for (const load of branch.loads ?? []) {
      if (p.unplugged.includes(`${branch.id}/${load.id}`)) continue
      const shorted = fault.branch === branch.id && fault.load === load.id ? fault.ohm : undefined
      const sound = load.kind === 'electronic' ? plant.figures.electronicOhm : (RATED * RATED) / (load.watts ?? 5) / COLD[load.kind]
      put(node(branch.id, load.at, 'plus'), node(branch.id, load.at, 'zero'), shorted ?? sound)
    }
  }
  return out
}

/** For each node the first node of its island: what resistors of less than `below` Ω join. */
export const islandsOf = (nodes: readonly string[], resistors: readonly Resistor[], below = Infinity): ((node: string) => string) => {
  const up = new Map<string, string>()
  const first = (x: string): string => {
    let at = x
    for (let next = up.get(at); next !== undefined; next = up.get(at)) at = next
    return at
  }
  const order = new Map(nodes.map((x, i) => [x, i]))
  for (const { a, b, ohm } of resistors) {
    const [x, y] = [first(a), first(b)]
    if (ohm >= below || x === y) continue
    if ((order.get(x) ?? 0) < (order.get(y) ?? 0)) up.set(y, x)
    else up.set(x, y)
  }
  return first
}

/** The node behind a point: a run's near end is the junction itself while joined, the loose end once opened. */
export const nodeAt = (truth: Truth, p: Positions, point: Point): string => {
  const [, branch = '', name = '', pole = ''] = /^([^/.]+)\/([^/.]+)\.(plus|zero)$/.exec(point) ?? []
  const run = truth.machine.branches.find(b => b.id === branch)?.wiring?.find(r => r.id === name)
  if (run === undefined) return point
  const end = pole === 'plus' ? 'plus' : 'zero'
  return p.openedRuns.includes(`${branch}/${name}`) ? `${branch}/${name}@near.${end}` : node(branch, run.from, end)
}
