import type { Branch, Kit, Machine, Protection } from '../../engine/machine.ts'

const branch = (n: number, protection: Protection): Branch => ({
  id: `B${n}`,
  protection,
  wiring: [{ id: `W${n}`, from: 'terminals', to: `J${n}`, length: 6 + 4 * n, conductor: { area: 0.75, class: 5 }, moving: n === 2 }],
  loads: [{ id: `K${n}`, at: `J${n}`, kind: 'coil', watts: 12, pluggable: n === 2 }],
})
const machine = (branches: readonly Branch[]): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'family',
  name: 'A small machine',
  supply: { ratedVoltage: 24, ratedCurrent: 5, limit: { mode: 'hiccup' }, zeroVoltBonded: true },
  branches,
})
/** A branch of several runs: one ohm reading leaves open which. */
const tree = (n: number, protection: Protection): Branch => {
  const run = (id: string, from: string, to: string, length: number) => ({
    id: `W${n}${id}`,
    from,
    to,
    length,
    conductor: { area: 0.75, class: 5 as const },
  })
  return {
    id: `B${n}`,
    protection,
    wiring: [run('a', 'terminals', `J${n}`, 17), run('b', `J${n}`, `X${n}`, 5), run('c', `J${n}`, `Y${n}`, 6)],
    loads: [{ id: `K${n}`, at: `X${n}`, kind: 'coil', watts: 12, pluggable: true }],
  }
}
const breaker: Protection = { kind: 'breaker', rating: 6, curve: 'C' }
const fuse: Protection = { kind: 'fuse', rating: 4 }

export const one = (kind: 'breaker' | 'fuse'): Machine =>
  machine(
    [{ ...branch(2, kind === 'fuse' ? fuse : breaker), id: 'B1' }].map(b => ({
      ...b,
      wiring: branch(1, breaker).wiring ?? [],
      loads: [{ id: 'K1', at: 'J1', kind: 'coil' as const, watts: 12, pluggable: true }],
    })),
  )
export const known = machine([branch(1, breaker), branch(2, fuse)])
export const trees = machine([tree(1, breaker), tree(2, fuse)])
export const three = machine([branch(1, breaker), branch(2, fuse), branch(3, breaker)])
export const unknown = machine([{ id: 'B1' }, { id: 'B2' }, { id: 'B3' }])
export const METER: Kit = {}
export const INJECTOR: Kit = { injector: { ampere: 1, volts: 24 } }
