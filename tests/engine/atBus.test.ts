import { expect, test } from 'vitest'
import { type AtBus, ohmsAtBus, voltsAtLimit } from '../../engine/atBus.ts'
import { IN_LOAD, type Places, TO_EARTH, TO_ZERO } from '../../engine/place.ts'
import { branchOf, type Figures, plantOf } from '../../engine/plant.ts'
import { asFound } from '../../engine/positions.ts'
import { celsius } from '../../engine/quantities.ts'
import { AT, FAULT_OHM, FIRST_RUN, OHM_GAIN, OHM_OFFSET, type Row, ZEROING } from '../../engine/reading.ts'
import { inService, soundOf, together } from '../../engine/sound.ts'
import { live, ohmsBetween, voltsBetween } from '../bench/circuit.ts'
import { invent } from '../bench/invent.ts'
import { seedOf } from '../bench/random.ts'
import { foundState, type Short, shortOf, type Truth } from '../bench/truth.ts'

const SEED = 41

const figuresOf = (truth: Truth): Figures => ({
  scale: run => truth.scale[run] ?? 1,
  temperature: celsius(truth.celsius),
  earthOhm: truth.earthOhm,
  electronicOhm: truth.electronicOhm,
  deviceOhm: branch => truth.devices[branch]?.ohm ?? Number.NaN,
})
/** The true place alone, `moved` metres on and `more` Ω up. */
const atBus = (truth: Truth, short: Short, moved = 0, more = 0, loads = soundOf): AtBus => {
  const plant = plantOf(truth.machine, figuresOf(truth))
  const branch = branchOf(plant, short.branch)
  const inLoad = short.kind === 'load-short'
  const item = inLoad
    ? branch.loads.findIndex(l => l.load.id === short.load)
    : branch.wiring.runs.findIndex(r => r.run.id === ('run' in short ? short.run : ''))
  const places: Places = {
    count: 1,
    kind: Uint8Array.of(inLoad ? IN_LOAD : short.kind === 'short-to-earth' ? TO_EARTH : TO_ZERO),
    item: Int32Array.of(item),
    at: Float64Array.of('at' in short ? short.at + moved : 0),
    atSd: Float64Array.of(0.4),
    ohm: Float64Array.of(short.ohm + more),
    ohmSd: Float64Array.of(0.01),
    prior: Float64Array.of(1),
  }
  const positions = asFound(truth.machine.branches.map(b => b.id))
  const others = together(plant.branches.filter(b => b !== branch).map(b => loads(b, positions)))
  return { plant, kit: {}, branch, places, positions, others }
}
const machines = Array.from({ length: 60 }, (_, i) => invent(seedOf(SEED, i)))
const shorts = machines.map(truth => ({ truth, short: shortOf(truth.fault) as Short }))
const mean = (row: Row): number => row.mean[0] ?? Number.NaN

test(`60 machines (seed ${SEED}), all devices closed: Ω at the bus are what a circuit of every node gives, within three of the row’s own standard deviations`, () => {
  for (const { truth, short } of shorts) {
    const state = { ...foundState(truth), supply: 'off' as const }
    const whole = ohmsBetween(truth, state, 'bus.plus', 'bus.zero')
    const row = ohmsAtBus(atBus(truth, short), 0, true)
    // Lamps and motors at rest are known by their kind alone, and lie beside the fault.
    expect(Math.abs(mean(row) - whole), `machine ${truth.seed}`).toBeLessThan(3 * Math.sqrt(row.fresh[0] as number) + 0.002)
    expect(row.hidden[0]).toBe(0)
  }
})

test(`supplies of constant current (seed ${SEED}): V at the bus are what the circuit gives under the limit, within 6 %`, () => {
  const held = shorts.filter(({ truth }) => truth.supply.mode === 'constant-current')
  expect(held.length).toBeGreaterThan(10)
  for (const { truth, short } of held) {
    const state = foundState(truth)
    const volts = voltsBetween(truth, state, live(truth, state), 'bus.plus', 'bus.zero')
    const row = voltsAtLimit(atBus(truth, short, 0, 0, inService), 0, truth.supply.limit)
    expect(Math.abs(mean(row) - volts), `machine ${truth.seed}`).toBeLessThan(0.06 * volts + 0.01)
  }
})

test('every slope is what a small change makes of the reading', () => {
  const STEP = 1e-3
  for (const { truth, short } of shorts.slice(0, 20)) {
    if (!('run' in short) || short.at < 2 * STEP) continue
    for (const row of [(x: AtBus) => ohmsAtBus(x, 0, true), (x: AtBus) => voltsAtLimit(x, 0, 5)]) {
      const here = row(atBus(truth, short))
      const by = (moved: number, more: number): number => mean(row(atBus(truth, short, moved, more)))
      const along = (by(STEP, 0) - by(-STEP, 0)) / (2 * STEP)
      const ohm = (by(0, STEP) - by(0, -STEP)) / (2 * STEP)
      expect(here.slope[AT]).toBeCloseTo(along, 4)
      expect(here.slope[FAULT_OHM]).toBeCloseTo(ohm, 3)
    }
  }
})

test('an ohm row shares the meter’s offset, gain and zeroing with every other ohm reading', () => {
  const { truth, short } = shorts[0] as (typeof shorts)[number]
  const row = ohmsAtBus(atBus(truth, short), 0, true)
  expect([row.slope[ZEROING], row.slope[OHM_OFFSET]]).toEqual([1, 1])
  expect(row.slope[OHM_GAIN]).toBe(row.mean[0])
  expect(row.slope.length).toBe(FIRST_RUN + branchOf(plantOf(truth.machine), short.branch).wiring.runs.length)
})
