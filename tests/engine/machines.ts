// Machines for the belief: round numbers, every branch alike, so that a sum in the head is enough.
import type { Kit, Machine } from '../../engine/machine.ts'
import { asFound, type Positions } from '../../engine/positions.ts'

export const INJECTOR: Kit = { injector: { ampere: 1, volts: 24 } }
/** A coil of 24²/9.29 = 62 Ω. */
const COIL_WATTS = 24 ** 2 / 62

/** Branches B1 to Bn of one run of 12 m, 0.75 mm², to one coil of 62 Ω, or to one electronic load. */
export const rowOfBranches = (count: number, kind: 'coil' | 'electronic' = 'coil'): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'row',
  name: 'A row of branches',
  supply: { ratedVoltage: 24, setVoltage: 24, ratedCurrent: 10, zeroVoltBonded: true },
  branches: Array.from({ length: count }, (_, i) => ({
    id: `B${i + 1}`,
    protection: { kind: 'breaker', rating: 6, curve: 'C' } as const,
    wiring: [{ id: `W${i + 1}`, from: 'terminals', to: 'J1', length: 12, conductor: { area: 0.75, class: 5 } as const }],
    loads: [{ id: `K${i + 1}`, at: 'J1', kind, watts: kind === 'coil' ? COIL_WATTS : 2.4 }],
  })),
})
export const found = (machine: Machine): Positions => asFound(machine.branches.map(b => b.id))
/** Supply off and these devices open; all of them if none is named. */
export const dead = (machine: Machine, open: readonly string[] = machine.branches.map(b => b.id)): Positions => ({
  ...found(machine),
  supply: 'off',
  devices: Object.fromEntries(machine.branches.map(b => [b.id, open.includes(b.id) ? ('open' as const) : ('closed' as const)])),
})
