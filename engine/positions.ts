// In which position every switch, plug and terminal of the machine stands, as the acts so far have left it.
import type { Act } from './step.ts'

/** Keys of `devices`: branch id; entries of `unplugged`: `branch/load`; of `openedRuns`: `branch/run`. */
export interface Positions {
  readonly supply: 'on' | 'off'
  readonly bus: 'joined' | 'opened'
  readonly bond: 'joined' | 'opened'
  readonly devices: Readonly<Record<string, 'closed' | 'open' | 'tripped'>>
  readonly unplugged: readonly string[]
  readonly openedRuns: readonly string[]
  readonly injector?: { readonly branch: string; readonly into: 'zero' | 'earth' }
}

export const asFound = (branches: readonly string[]): Positions => ({
  supply: 'on',
  bus: 'joined',
  bond: 'joined',
  devices: Object.fromEntries(branches.map(b => [b, 'closed' as const])),
  unplugged: [],
  openedRuns: [],
})

const put = (list: readonly string[], key: string, present: boolean): readonly string[] =>
  present ? (list.includes(key) ? list : [...list, key]) : list.filter(k => k !== key)

/** The positions after an act was done. Proving dead and zeroing the leads move nothing. */
export const after = (p: Positions, a: Act): Positions => {
  switch (a.act) {
    case 'supply':
      return { ...p, supply: a.to }
    case 'device':
      return { ...p, devices: { ...p.devices, [a.branch]: a.to } }
    case 'load':
      return { ...p, unplugged: put(p.unplugged, `${a.branch}/${a.load}`, a.to === 'unplugged') }
    case 'run':
      return { ...p, openedRuns: put(p.openedRuns, `${a.branch}/${a.run}`, a.to === 'opened') }
    case 'bus':
      return { ...p, bus: a.to }
    case 'bond':
      return { ...p, bond: a.to }
    case 'inject': {
      const { injector: _, ...rest } = p
      return a.to === 'on' ? { ...rest, injector: { branch: a.branch, into: a.into ?? 'zero' } } : rest
    }
    case 'prove-dead':
    case 'zero-leads':
      return p
  }
}
