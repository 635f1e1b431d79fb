// The engine's plant, positions and fault for a machine of the bench, whose truth is known.
import type { Fault } from '../../engine/fault.ts'
import { type Plant, plantOf } from '../../engine/plant.ts'
import type { Positions } from '../../engine/positions.ts'
import { celsius } from '../../engine/quantities.ts'
import type { Fault as BenchFault, State, Truth } from '../bench/truth.ts'

export const plantFrom = (truth: Truth): Plant =>
  plantOf(truth.machine, {
    scale: run => truth.scale[run] ?? Number.NaN,
    temperature: celsius(truth.celsius),
    earthOhm: truth.earthOhm,
    electronicOhm: truth.electronicOhm,
    deviceOhm: branch => truth.devices[branch]?.ohm ?? Number.NaN,
  })

/** The branch of each run, for the engine names an opened run with its branch. */
export const positionsFrom = (truth: Truth, state: State): Positions => ({
  supply: state.supply,
  bus: state.bus,
  bond: state.bond,
  devices: Object.fromEntries(state.devices),
  unplugged: [...state.unplugged],
  openedRuns: truth.machine.branches.flatMap(b => (b.wiring ?? []).filter(run => state.opened.has(run.id)).map(run => `${b.id}/${run.id}`)),
  ...(state.injector === undefined ? {} : { injector: state.injector }),
})

/** The bench's own words for a fault are the engine's. */
export const faultFrom = (fault: BenchFault): Fault => {
  if (fault.kind === 'none') throw new RangeError('nothing is wrong: no fault to put into a circuit')
  return { ...fault }
}
