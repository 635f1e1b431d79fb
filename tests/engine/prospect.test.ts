// Current along 300 random branches, and what is left at their loads, beside a general circuit simulator.
import { expect, test } from 'vitest'
import { currentAt, exact } from '../../engine/prospect.ts'
import { fullLoad } from '../../engine/service.ts'
import { build, junctionNode } from '../bench/circuit.ts'
import { invent } from '../bench/invent.ts'
import { spiceVolts } from '../bench/ngspice.ts'
import { chance } from '../bench/random.ts'
import { solve } from '../bench/solver.ts'
import { foundState, type Truth } from '../bench/truth.ts'
import { plantFrom } from './twin.ts'

const BRANCHES = 300
const WITHIN = 1e-4

/** The bench's netlist of the machine with this fault, solved by the simulator. */
const simulated = async (truth: Truth, fault: Truth['fault']) => {
  const { net, device } = build(truth, foundState({ ...truth, fault }))
  const solved = solve(net)
  const volts = await spiceVolts(net, solved)
  return { at: (node: string) => volts.get(node) ?? Number.NaN, device, limited: solved.sources[0]?.limited, faces: new Set(solved.draws) }
}

test(`${BRANCHES} random branches, from seed 1 on: current and drop agree with ngspice within 1e-4`, async () => {
  const worst = { current: 0, drop: 0 }
  const seen = { limited: 0, free: 0, skipped: 0, loads: 0 }
  for (let seed = 1; seen.limited + seen.free < BRANCHES; seed++) {
    const truth = invent(seed, { branches: 3 + (seed % 5) })
    const own = chance(seed)
    const plant = plantFrom(truth)
    const branch = own.pick(truth.machine.branches)
    const b = plant.branches.find(x => x.id === branch.id)
    if (b === undefined) throw new Error('every branch of the machine is in its plant')
    const run = own.whole(0, b.wiring.runs.length - 1)
    const placed = b.wiring.runs[run]?.run
    const at = own.between(0.01, 0.99) * (placed?.length ?? 0)
    const ohm = own.logBetween(0.005, 0.3)
    const limit = seed % 3 === 0 ? 10 * truth.supply.limit : truth.supply.limit
    const supplied = { ...truth, supply: { ...truth.supply, limit } }
    const spice = await simulated(supplied, { kind: 'short-to-zero', branch: branch.id, run: placed?.id ?? '', at, ohm })
    const engine = currentAt(exact(plant, truth.supply.volts, limit, ohm), b, run, at)
    // Loads just then on their way between on and off: the bench draws its line at each load, the engine at the bus. Another branch.
    if (spice.faces.has('ramp') || engine.between) {
      seen.skipped++
      continue
    }
    const part = spice.device.get(branch.id)
    if (part === undefined) throw new Error('the device is closed')
    const theirs = (spice.at(part.a) - spice.at(part.b)) / part.ohm
    const off = Math.abs(engine.ampere / theirs - 1)
    expect(off, `seed ${seed}, ${branch.id}: ${engine.ampere} A for ${theirs} A`).toBeLessThan(WITHIN)
    worst.current = Math.max(worst.current, off)
    expect(engine.limited).toBe(spice.limited)
    seen[engine.limited ? 'limited' : 'free']++

    const sound = await simulated(truth, { kind: 'none' })
    const x = exact(plant, truth.supply.volts, truth.supply.limit, 0)
    const last = fullLoad(truth.machine, x).branches.find(s => s.branch === branch.id)?.last
    const load = branch.loads?.find(l => l.id === last?.load)
    const [plus, zero] = [junctionNode(branch.id, load?.at ?? '', 'plus'), junctionNode(branch.id, load?.at ?? '', 'zero')]
    const left = sound.at(plus) - sound.at(zero)
    const drop = truth.supply.volts - left
    expect(Math.abs((last?.volts ?? Number.NaN) / left - 1), `seed ${seed}: volts at ${last?.load}`).toBeLessThan(WITHIN)
    const gone = Math.abs((last?.drop ?? Number.NaN) / drop - 1)
    expect(gone, `seed ${seed}: drop to ${last?.load}, ${last?.drop} V for ${drop} V`).toBeLessThan(WITHIN)
    worst.drop = Math.max(worst.drop, gone)
    // No load of the branch gets less than the one named.
    for (const other of branch.loads ?? []) {
      const at = (pole: 'plus' | 'zero') => sound.at(junctionNode(branch.id, other.at, pole))
      expect(at('plus') - at('zero')).toBeGreaterThan(left - 1e-6)
      seen.loads++
    }
  }
  console.info(JSON.stringify({ worst, seen }))
  expect(seen.skipped).toBeLessThan(BRANCHES / 10)
  expect(Math.min(seen.limited, seen.free)).toBeGreaterThan(50)
  // A simulator that returned what it was given would differ by nothing.
  expect(worst.current).toBeGreaterThan(0)
}, 120_000)
