// Time lines of switching on, beside the transient analysis of a general circuit simulator.
import { Simulation } from 'eecircuit-engine'
import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { readMachine } from '../../engine/check.ts'
import { type Closing, type Moment, peakOf, timeLine } from '../../engine/inrush.ts'
import type { Load, Machine } from '../../engine/machine.ts'
import { CABINET, plantOf, USUAL_FIGURES } from '../../engine/plant.ts'
import { powerUp } from '../../engine/powerup.ts'
import { ohmPerMetre } from '../bench/circuit.ts'
import { invent } from '../bench/invent.ts'

const WITHIN = 0.05
const SOURCE = CABINET.supplyInside + 2 * CABINET.supplyLead

/** A load as the simulator gets it: the in-rush figures of the table written out again, by kind. */
const LOADS = { lamp: [10, 0.1], motor: [6, 0.2], electronic: [20, 0.001] } as const
const loadLines = (load: Load, n: number, plus: string, zero: string): string[] => {
  const rated = (load.watts ?? Number.NaN) / 24
  if (load.kind === 'coil') return [`R${n} ${plus} ${zero} ${24 / rated}`]
  const [times, tau] = LOADS[load.kind]
  const series = 24 / (times * rated)
  const inner = `x${n}`
  const head = `R${n}s ${plus} ${inner} ${series}`
  if (load.kind === 'electronic') {
    const draw = `B${n} ${inner} ${zero} I={${rated}*min(1,max(0,V(${inner},${zero})-15))}`
    return [head, `C${n} ${inner} ${zero} ${tau / series} IC=0`, draw]
  }
  const rest = 24 / rated - series
  return [head, `R${n}p ${inner} ${zero} ${rest}`, `C${n} ${inner} ${zero} ${(tau * (series + rest)) / (series * rest)} IC=0`]
}

const netlist = (machine: Machine, closings: readonly Closing[], seconds: number, limit: number): string => {
  const scale = USUAL_FIGURES.scale('')
  const bench = { ...invent(1), celsius: 20, scale: new Proxy({}, { get: () => scale }) }
  const volts = machine.supply.setVoltage ?? 24
  const lines = [`Bs 0 bus I={min(${limit},(${volts}-V(bus))/${SOURCE})}`]
  for (const [i, b] of machine.branches.entries()) {
    const ohm = 0.25 / (b.protection?.rating ?? 6) + 0.005
    const at = closings.find(c => c.branch === b.id)?.at ?? seconds * 2
    const node = (junction: string, pole: string) => `${junction === 'terminals' ? 't' : junction.replaceAll('-', '_')}${i}${pole}`
    lines.push(`Vc${i} c${i} 0 PWL(0 ${at === 0 ? 1 : 0} ${at + 1e-7} ${at === 0 ? 1 : 0} ${at + 2e-7} 1)`)
    lines.push(`S${i} bus ${node('terminals', 'p')} c${i} 0 device${i}`, `.model device${i} SW(Ron=${ohm} Roff=1e9 Vt=0.5 Vh=0)`)
    lines.push(`Rz${i} ${node('terminals', 'z')} 0 ${CABINET.zeroLink}`)
    for (const [k, run] of (b.wiring ?? []).entries()) {
      for (const pole of ['p', 'z'])
        lines.push(
          `Rw${i}_${k}${pole} ${node(run.from, pole)} ${node(run.to, pole)} ${ohmPerMetre(bench, run) * run.length + CABINET.joint}`,
        )
    }
    for (const [k, load] of (b.loads ?? []).entries())
      lines.push(...loadLines(load, 1000 * i + k + 1, node(load.at, 'p'), node(load.at, 'z')))
  }
  return ['switching on', ...lines, '.options reltol=1e-4', `.tran 50u ${seconds} 0 50u uic`, '.end'].join('\n')
}

let started: Promise<Simulation> | undefined
const spice = async (text: string): Promise<{ seconds: readonly number[]; volts: readonly number[] }> => {
  started ??= (async () => {
    const one = new Simulation()
    await one.start()
    return one
  })()
  const one = await started
  one.setNetList(text)
  const result = await one.runSim()
  if (result.dataType !== 'real') throw new Error('a transient is made of real numbers')
  const values = (name: string) => {
    const found = result.data.find(d => d.name.toLowerCase() === name)
    if (found === undefined) throw new Error(`ngspice gives no ${name}: ${one.getError().join(' ')}`)
    return found.values
  }
  return { seconds: values('time'), volts: values('v(bus)') }
}

const between = (seconds: readonly number[], values: readonly number[], at: number): number => {
  const k = seconds.findIndex(t => t >= at)
  const [t0, t1] = [seconds[k - 1] ?? 0, seconds[k] ?? 0]
  const [a, b] = [values[k - 1] ?? Number.NaN, values[k] ?? Number.NaN]
  return a + ((b - a) * (at - t0)) / (t1 - t0)
}

const one = (kind: Load['kind'], watts: number, limit: number, metres: number, told: Partial<Load> = {}): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'one',
  name: 'one load',
  supply: { setVoltage: 24, ratedCurrent: limit, limit: { mode: 'constant-current', current: limit } },
  branches: [
    {
      id: 'B1',
      protection: { kind: 'breaker', rating: 6, curve: 'C' },
      wiring: [{ id: 'W1', from: 'terminals', to: 'J1', length: metres, conductor: { area: 1.5, class: 5 } }],
      loads: [{ id: 'L1', at: 'J1', kind, watts, ...told }],
    },
  ],
})
const read = readMachine(demo)
if (!read.ok) throw new Error(read.message)
const demoMachine = read.value
const mixed = invent(7, { branches: 5 }).machine

const CASES: readonly { what: string; machine: Machine; closings: readonly Closing[]; seconds: number; limit: number }[] = [
  { what: 'a lamp, supply with room', machine: one('lamp', 24, 20, 20), closings: [{ branch: 'B1', at: 0 }], seconds: 0.4, limit: 20 },
  { what: 'a motor, supply at its limit', machine: one('motor', 60, 8, 10), closings: [{ branch: 'B1', at: 0 }], seconds: 0.6, limit: 8 },
  {
    what: 'an input capacitor, supply at its limit',
    machine: one('electronic', 60, 5, 5),
    closings: [{ branch: 'B1', at: 0 }],
    seconds: 0.05,
    limit: 5,
  },
  {
    what: 'five branches one after the other',
    machine: mixed,
    closings: mixed.branches.map((b, i) => ({ branch: b.id, at: 0.05 * i })),
    seconds: 0.4,
    limit: 10,
  },
  { what: 'the demo machine in its own order', machine: demoMachine, closings: powerUp(demoMachine).steps, seconds: 2, limit: 12 },
]

test.each(CASES)('$what: current and voltage follow ngspice within 5 %', async ({ machine, closings, seconds, limit }) => {
  const ours = timeLine(plantOf(machine), closings, seconds, limit)
  const theirs = await spice(netlist(machine, closings, seconds, limit))
  const of = (pick: (m: Moment) => number, at: number) =>
    between(
      ours.map(m => m.seconds),
      ours.map(pick),
      at,
    )
  const volts = machine.supply.setVoltage ?? 24
  const peak = Math.max(...ours.map(m => m.ampere))
  let compared = 0
  let worst = 0
  for (let k = 1; k < 400; k++) {
    const at = (seconds * k) / 400
    // Within a hair of a closing the two may stand on either side of it.
    if (closings.some(c => Math.abs(at - c.at) < 2e-4)) continue
    const bus = between(theirs.seconds, theirs.volts, at)
    const ampere = Math.min(limit, (volts - bus) / SOURCE)
    expect(Math.abs(of(m => m.ampere, at) - ampere), `${at} s: A`).toBeLessThan(WITHIN * Math.max(ampere, 0.02 * peak))
    expect(Math.abs(of(m => m.volts, at) - bus), `${at} s: V`).toBeLessThan(WITHIN * Math.max(bus, 1))
    worst = Math.max(worst, Math.abs(of(m => m.ampere, at) - ampere) / Math.max(ampere, 0.02 * peak))
    compared++
  }
  console.info(`worst ${(100 * worst).toFixed(2)} % of ${compared} moments`)
  expect(compared).toBeGreaterThan(300)
  // A simulator that returned what it was given would differ by nothing.
  expect(worst).toBeGreaterThan(0)
})

test('the peak is the rated current times its in-rush, less what cable, device and supply take', () => {
  // 24 W at 24 V is 1 A; ten times that is 10 A, so 2.4 Ω cold. Device 0.25/6 + 0.005 = 0.0467, 0 V link 0.003, supply and its
  // leads 0.014, joints 2 × 0.0005 = 0.001, cable 2 × 20 m × 0.0133 Ω/m × 0.96 = 0.5107: in all 2.9754 Ω, 24/2.9754 = 8.066 A.
  expect(peakOf(plantOf(one('lamp', 24, 20, 20)), 'B1')).toBeCloseTo(8.066, 2)
  // A data sheet's peak goes before the usual one: 4 A at 24 V is 6 Ω, 24/(6 + 0.5754) = 3.650 A.
  const told = one('lamp', 24, 20, 20, { inRush: { peak: 4, seconds: 0.05 } })
  expect(peakOf(plantOf(told), 'B1')).toBeCloseTo(3.65, 2)
})

test('an input capacitance of 10 mF takes its charge, 10 mF × 24 V, over the time that its series resistance asks for', () => {
  // 24 W: 1 A; 20 times that is 20 A, so 1.2 Ω in series. With 0.0647 Ω of supply, device and 0 V link (no cable) 1.2647 Ω in all.
  const bare = { ...one('electronic', 24, 50, 20, { at: 'terminals', capacitance: 0.01 }) }
  const line = timeLine(
    plantOf({ ...bare, branches: bare.branches.map(({ wiring: _, ...b }) => b) }),
    [{ branch: 'B1', at: 0 }],
    0.2,
    Infinity,
  )
  const first = line[0]
  // 24 / 1.2647 = 18.98 A at first; after one time constant, 1.2647 × 0.01 = 12.6 ms, 18.98 / e = 6.98 A: below 15 V it draws nothing else.
  expect(first?.ampere).toBeCloseTo(18.98, 1)
  const [t, tau] = [line.map(m => m.seconds), 0.012647]
  expect(
    between(
      t,
      line.map(m => m.ampere),
      0.5 * tau,
    ),
  ).toBeCloseTo(18.98 * Math.exp(-0.5), 1)
  // In the end its rated 1 A; what was asked above that is the charge, 0.01 F × (24 − 1.2647 × 1 V) = 0.227 A·s, less what it already drew for itself.
  expect(line.at(-1)?.ampere).toBeCloseTo(1, 3)
})
