import { expect, test } from 'vitest'
import { circuitOf, faulty, inject, ohmBetween, probeAt, voltageAt } from '../../engine/circuit.ts'
import type { Fault } from '../../engine/fault.ts'
import { CABINET, type Plant } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import { invent } from '../bench/invent.ts'
import { spiceVolts } from '../bench/ngspice.ts'
import { type Chance, chance } from '../bench/random.ts'
import type { Net, Solved } from '../bench/solver.ts'
import type { Truth } from '../bench/truth.ts'
import { islandsOf, nodeAt, resistorsOf } from './netlist.ts'
import { plantFrom } from './twin.ts'

const CIRCUITS = 500
/** Past this every ohmmeter shows OL. */
const OL = 40e6
/**
 * What a difference is measured against at least, in V and Ω. A millionth of it, 10 nV, is what doubles leave of 24 V behind a
 * broken conductor of 1e9 Ω, and 10,000 times finer than the finest display.
 */
const FLOOR = 0.01

const KINDS = ['short-to-zero', 'short-to-earth', 'load-short', 'open-plus', 'open-zero', 'poor-joint'] as const

const someFault = (truth: Truth, kind: (typeof KINDS)[number], own: Chance): Fault => {
  const branch = own.pick(truth.machine.branches)
  if (kind === 'load-short') return { kind, branch: branch.id, load: own.pick(branch.loads ?? []).id, ohm: own.logBetween(0.005, 0.5) }
  const run = own.pick(branch.wiring ?? [])
  const ohm = kind === 'poor-joint' ? own.logBetween(0.1, 300) : own.logBetween(0.005, 0.3)
  return { kind, branch: branch.id, run: run.id, at: own.between(0.01, 0.99) * run.length, ohm }
}

const somePositions = (truth: Truth, fault: Fault, own: Chance): Positions => {
  const { branches } = truth.machine
  const devices = Object.fromEntries(branches.map(b => [b.id, own.yes(0.6) ? ('open' as const) : ('closed' as const)]))
  const open = branches.filter(b => devices[b.id] === 'open')
  const fed = open.find(b => b.id === fault.branch) ?? open[0]
  return {
    supply: 'off',
    bus: own.yes(0.15) ? 'opened' : 'joined',
    bond: own.yes(0.15) ? 'opened' : 'joined',
    devices,
    unplugged: branches.flatMap(b =>
      // A load that is shorted stays plugged here; pulling it is a case of its own.
      (b.loads ?? []).filter(l => l.id !== fault.load && own.yes(0.15)).map(l => `${b.id}/${l.id}`),
    ),
    openedRuns: branches.flatMap(b => (b.wiring ?? []).filter(() => own.yes(0.07)).map(run => `${b.id}/${run.id}`)),
    ...(fed !== undefined && own.yes(0.5) ? { injector: { branch: fed.id, into: own.yes(0.5) ? 'zero' : 'earth' } } : {}),
  }
}

/** Points of the branch in question, of another, and of the cabinet. */
const somePoint = (truth: Truth, fault: Fault, own: Chance, detail: boolean): string => {
  const branch = truth.machine.branches.find(b => b.id === fault.branch && (detail || own.yes(0.6))) ?? own.pick(truth.machine.branches)
  const far = (branch.wiring ?? []).flatMap(r => [`${branch.id}/${r.to}`, `${branch.id}/${r.id}`])
  const place = own.yes(0.2) ? own.pick(['bus', 'supply']) : own.yes(0.25) ? branch.id : own.pick(far)
  return own.yes(0.1) ? 'earth' : `${place}.${own.yes(0.6) ? 'plus' : 'zero'}`
}

interface Simulated {
  readonly at: (node: string) => number
  /** Joined by something better than a broken conductor, so that the simulator's digits suffice; a source at its voltage joins too. */
  readonly joined: (a: string, b: string) => boolean
}
/** The simulator needs no slow twin before it: which parts hang together is all that has to be known. */
const simulate = async (net: Net, limited: boolean): Promise<Simulated> => {
  const bridges = limited ? [] : net.sources.map(s => ({ a: s.plus, b: s.minus, ohm: 0 }))
  const parts = [...net.resistors, ...bridges]
  const ends = [...net.sources.flatMap(s => [s.plus, s.minus]), ...net.feeds.flatMap(f => [f.into, f.outOf])]
  const nodes = [...new Set(['earth', ...ends, ...net.resistors.flatMap(r => [r.a, r.b])])]
  const all = islandsOf(nodes, parts)
  const sound = islandsOf(nodes, parts, CABINET.broken)
  const solved: Solved = {
    at: () => Number.NaN,
    joined: () => true,
    sources: net.sources.map(s => ({ ampere: s.limit, limited })),
    draws: [],
    nodes,
    firsts: nodes.filter(node => all(node) === node),
  }
  const volts = await spiceVolts(net, solved)
  return { at: node => volts.get(node) ?? Number.NaN, joined: (a, b) => sound(a) === sound(b) }
}

const compare = (ours: number, theirs: number, what: string, floor = FLOOR): number => {
  const off = Math.abs(ours - theirs) / Math.max(Math.abs(theirs), floor)
  expect(off, `${what}: ${ours} for ${theirs}`).toBeLessThan(1e-6)
  return off
}

const circuitFor = (plant: Plant, p: Positions, fault: Fault, detail: boolean) =>
  faulty(circuitOf(plant, p, detail ? plant.indexOf.get(fault.branch ?? '') : undefined), fault)

test(`${CIRCUITS} random faulty circuits, seeds 1 to ${CIRCUITS}: the circuit agrees with ngspice within 1e-6`, async () => {
  const seen = { ohm: 0, overload: 0, zero: 0, earth: 0, spent: 0, apart: 0 }
  const kinds = new Set<string>()
  let worst = 0
  for (let seed = 1; seed <= CIRCUITS; seed++) {
    const own = chance(seed)
    const truth = invent(seed, { branches: own.whole(3, 5) })
    const plant = plantFrom(truth)
    const fault = someFault(truth, KINDS[seed % KINDS.length] ?? 'short-to-zero', own)
    const p = somePositions(truth, fault, own)
    kinds.add(fault.kind)
    // Every other circuit with the other branches lumped at the bus, as the engine does it where only one branch matters.
    const detail = seed % 2 === 0 && (p.injector === undefined || p.injector.branch === fault.branch)
    const circuit = circuitFor(plant, p, fault, detail)
    const resistors = resistorsOf(truth, plant, p, fault)
    const pairs = Array.from({ length: 3 }, () => [somePoint(truth, fault, own, detail), somePoint(truth, fault, own, detail)] as const)
    if (p.injector === undefined) {
      for (const [red, black] of pairs) {
        const what = `seed ${seed}, ${fault.kind}: ohm ${red} to ${black}`
        const ours = ohmBetween(circuit, probeAt(circuit, p, red), probeAt(circuit, p, black))
        const [into, outOf] = [nodeAt(truth, p, red), nodeAt(truth, p, black)]
        const { at, joined } = await simulate({ resistors, sources: [], draws: [], feeds: [{ into, outOf, ampere: 1 }] }, true)
        if (!joined(into, outOf)) {
          expect(ours, what).toBeGreaterThan(OL)
          seen.overload++
          continue
        }
        worst = Math.max(worst, compare(ours, at(into) - at(outOf), what))
        seen.ohm++
      }
      continue
    }
    const { branch, into } = p.injector
    const ampere = own.between(0.85, 1.15)
    inject(circuit, circuit.base[plant.indexOf.get(branch) ?? -1] ?? Number.NaN, into, ampere, 24)
    const [plus, minus] = [`${branch}.plus`, into === 'earth' ? 'earth' : `${branch}.zero`]
    const net: Net = { resistors, sources: [{ plus, minus, volts: 24, inside: 1e-9, limit: ampere }], draws: [], feeds: [] }
    let simulated = await simulate(net, true)
    // Where its ampere would need more than its voltage, or finds no way at all, the source is one of 24 V.
    if (!simulated.joined(plus, minus) || simulated.at(plus) - simulated.at(minus) > 24) {
      simulated = await simulate(net, false)
      seen.spent++
    }
    // Leakage through open contacts and insulation, which the netlist does not have, goes with the source's voltage.
    const source = simulated.at(plus) - simulated.at(minus)
    for (const [red, black] of [[plus, minus] as const, ...pairs]) {
      const [a, b] = [nodeAt(truth, p, red), nodeAt(truth, p, black)]
      if (!simulated.joined(a, b)) {
        seen.apart++
        continue
      }
      const ours = voltageAt(circuit.ladder, probeAt(circuit, p, red)) - voltageAt(circuit.ladder, probeAt(circuit, p, black))
      const theirs = simulated.at(a) - simulated.at(b)
      worst = Math.max(
        worst,
        compare(ours, theirs, `seed ${seed}, ${fault.kind}, into ${into}: volt ${red} to ${black}`, Math.max(FLOOR, source)),
      )
      seen[into]++
    }
  }
  expect(kinds.size).toBe(KINDS.length)
  expect(Math.min(...Object.values(seen)), JSON.stringify(seen)).toBeGreaterThan(20)
  // A simulator that returned what it was given would differ by nothing.
  expect(worst).toBeGreaterThan(0)
})
