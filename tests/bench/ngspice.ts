import { Simulation } from 'eecircuit-engine'
import type { Point } from '../../engine/step.ts'
import { build, nodeOf, probed } from './circuit.ts'
import { DRAW_FROM, DRAW_FULL, type Net, type Solved, solve } from './solver.ts'
import type { State, Truth } from './truth.ts'

/**
 * The netlist of a circuit whose two-faced parts stand as the slow twin found them: a source at its voltage or its limit,
 * a draw off, on its slope, or full. So the circuit is linear, and the simulator's answer is exact to its own arithmetic.
 */
export const spiceNetlist = (net: Net, solved: Solved): string => {
  const numbers = new Map(solved.nodes.map((node, i) => [node, i + 1]))
  const n = (node: string): number => {
    const number = numbers.get(node)
    if (number === undefined) throw new Error(`no such node: ${node}`)
    return number
  }
  const lines: string[] = []
  const put = (kind: string, a: number | string, b: number | string, value: number): void => {
    lines.push(`${kind}${lines.length} ${a} ${b} ${value.toExponential(15)}`)
  }
  // A current source of the simulator takes from its first node and gives to its second.
  const feed = (into: string, outOf: string, ampere: number): void => put('I', n(outOf), n(into), ampere)
  for (const r of net.resistors) put('R', n(r.a), n(r.b), r.ohm)
  for (const [k, s] of net.sources.entries()) {
    if (solved.sources[k]?.limited) {
      feed(s.plus, s.minus, s.limit)
      continue
    }
    put('V', `s${k}`, n(s.minus), s.volts)
    put('R', `s${k}`, n(s.plus), s.inside)
  }
  for (const [k, d] of net.draws.entries()) {
    const slope = d.ampere / (DRAW_FULL - DRAW_FROM)
    if (solved.draws[k] === 'full') feed(d.minus, d.plus, d.ampere)
    if (solved.draws[k] === 'ramp') {
      put('R', n(d.plus), n(d.minus), 1 / slope)
      feed(d.plus, d.minus, slope * DRAW_FROM)
    }
  }
  for (const f of net.feeds) feed(f.into, f.outOf, f.ampere)
  // Nothing flows between islands, so tying one node of each to ground changes nothing within.
  for (const first of solved.firsts) put('R', n(first), 0, 1)
  const options = '.options reltol=1e-9 abstol=1e-18 vntol=1e-15 gmin=1e-21'
  return ['ohmward', ...lines, options, '.op', '.end'].join('\n')
}

let simulation: Promise<Simulation> | undefined
const started = (): Promise<Simulation> => {
  simulation ??= (async () => {
    const one = new Simulation()
    await one.start()
    return one
  })()
  return simulation
}

/** Volt at every node, by ngspice. */
export const spiceVolts = async (net: Net, solved: Solved): Promise<Map<string, number>> => {
  const one = await started()
  one.setNetList(spiceNetlist(net, solved))
  const result = await one.runSim()
  if (result.dataType !== 'real') throw new Error('an operating point is made of real numbers')
  const volts = new Map<string, number>()
  for (const [i, node] of solved.nodes.entries()) {
    const found = result.data.find(({ name }) => name.toLowerCase() === `v(${i + 1})`)?.values[0]
    if (found === undefined) throw new Error(`ngspice gives no voltage for ${node}: ${one.getError().join(' ')}`)
    volts.set(node, found)
  }
  return volts
}

/** What a perfect meter shows from red to black, by ngspice: volt with the machine's own sources, or ohm by 1 mA. */
export const spiceReading = async (truth: Truth, state: State, meter: 'volt' | 'ohm', red: Point, black: Point): Promise<number> => {
  const [a, b] = [nodeOf(truth, state, red), nodeOf(truth, state, black)]
  const net = meter === 'ohm' ? probed(truth, state, a, b) : build(truth, state).net
  const solved = solve(net)
  if (!solved.joined(a, b)) return meter === 'ohm' ? Number.POSITIVE_INFINITY : 0
  const volts = await spiceVolts(net, solved)
  const across = (volts.get(a) ?? Number.NaN) - (volts.get(b) ?? Number.NaN)
  return meter === 'ohm' ? across / 0.001 : across
}
