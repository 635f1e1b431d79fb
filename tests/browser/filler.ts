import { demo } from '../../content/demo.ts'
import { readMachine } from '../../engine/check.ts'
import type { Machine } from '../../engine/machine.ts'
import { inventDevice } from '../bench/protection.ts'
import { chance } from '../bench/random.ts'
import { smallTruth } from '../bench/small.ts'
import type { Fault, Truth } from '../bench/truth.ts'

const read = readMachine(demo)
if (!read.ok) throw new Error(read.message)
/** The demo machine. */
export const filler: Machine = read.value

/** The demo machine with a fault, its conductors and meter without error. */
export const truthOf = (fault: Fault): Truth =>
  smallTruth(fault, {
    machine: filler,
    scale: Object.fromEntries(filler.branches.flatMap(b => (b.wiring ?? []).map(r => [r.id, 1]))),
    devices: Object.fromEntries(filler.branches.map(b => [b.id, inventDevice(b, chance(3))])),
    supply: { volts: 24.2, limit: 12, mode: 'hiccup' },
    earthOhm: 0.1,
  })
/** A cable of the filling head worn through by its moving. */
export const wornThrough: Fault = { kind: 'short-to-zero', branch: 'B3', run: '3-W2', at: 1.7, ohm: 0.05 }
