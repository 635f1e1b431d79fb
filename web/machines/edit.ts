// Changes of a machine, one thing at a time. A machine that would not read as a file does not come out of here.
import { readMachine } from '../../engine/check.ts'
import type { Branch, Machine } from '../../engine/machine.ts'
import { TERMINALS } from '../../engine/wiring.ts'
import { type Item, type Made, type Texts, type Things, textsOf, thingOf, type Wrong } from './fields.ts'
import { branchIdFor, junctionIdFor, loadIdFor, pointsOf, runIdFor } from './ids.ts'

/** Which thing of a machine is meant; without its number, a new one. */
export type Spot =
  | { readonly item: 'machine' }
  | { readonly item: 'supply' }
  | { readonly item: 'branch'; readonly branch?: number }
  | { readonly item: 'run' | 'load'; readonly branch: number; readonly index?: number }
/** `taken`: another has this id. `hangs`: no run leads there, or runs would form a loop. `last`: a machine has one branch at least. */
export type Refusal = Wrong | { readonly key: string; readonly found: string; readonly why: 'taken' | 'hangs' | 'last' }
export type Changed = { readonly ok: true; readonly value: Machine } | { readonly ok: false; readonly wrong: readonly Refusal[] }

const isNew = (spot: Spot): boolean => {
  if (spot.item === 'branch') return spot.branch === undefined
  return (spot.item === 'run' || spot.item === 'load') && spot.index === undefined
}
const branchAt = ({ branches }: Machine, spot: Spot): Branch | undefined =>
  'branch' in spot && spot.branch !== undefined ? branches[spot.branch] : undefined

const thingAt = (machine: Machine, spot: Spot): Partial<Things[Item]> => {
  if (spot.item === 'machine') return machine
  if (spot.item === 'supply') return machine.supply
  const branch = branchAt(machine, spot)
  if (spot.item === 'branch') return branch ?? {}
  return (spot.item === 'run' ? branch?.wiring : branch?.loads)?.[spot.index ?? -1] ?? {}
}

/** Ends of runs, the terminals first: where a run may begin and a load may hang. */
export const endsOf = (branch: Branch | undefined): readonly string[] => [TERMINALS, ...(branch?.wiring ?? []).map(({ to }) => to)]

/** What a form begins with: the thing as it is; for a new one, ids that nobody has to think up. */
export const textsAt = (machine: Machine, spot: Spot): Texts => {
  const branch = branchAt(machine, spot)
  if (!isNew(spot)) return textsOf(spot.item, thingAt(machine, spot) as Things[Item])
  if (spot.item === 'branch') return { id: branchIdFor(machine.branches) }
  const last = endsOf(branch).at(-1) ?? TERMINALS
  const points = pointsOf(machine)
  const id = branch?.id ?? ''
  if (spot.item === 'run') return { id: runIdFor(id, points), from: last, to: junctionIdFor(id, points) }
  return { id: loadIdFor(id, new Set((branch?.loads ?? []).map(load => load.id))), at: last }
}

const put = <T>(list: readonly T[] | undefined, at: number | undefined, thing: T): readonly T[] =>
  at === undefined ? [...(list ?? []), thing] : (list ?? []).map((old, i) => (i === at ? thing : old))
const inBranch = (machine: Machine, at: number, change: (branch: Branch) => Branch): Machine => ({
  ...machine,
  branches: machine.branches.map((branch, i) => (i === at ? change(branch) : branch)),
})
/** A junction under a new name: whatever hangs there hangs there still. */
const renamed = (branch: Branch, before: string, after: string): Branch => ({
  ...branch,
  ...(branch.wiring ? { wiring: branch.wiring.map(run => (run.from === before ? { ...run, from: after } : run)) } : {}),
  ...(branch.loads ? { loads: branch.loads.map(load => (load.at === before ? { ...load, at: after } : load)) } : {}),
})

const whyAt = (field: string): 'taken' | 'hangs' | 'value' => {
  const key = /\w+$/.exec(field)?.[0]
  return key === 'id' ? 'taken' : key === 'from' || key === 'to' || key === 'at' ? 'hangs' : 'value'
}
/** The reader of files speaks of the whole file; the form is told the field that it has. */
const checkedWhole = (machine: Machine, item: Item): Changed => {
  const read = readMachine(machine)
  if (read.ok) return { ok: true, value: read.value }
  const key = /\w+$/.exec(read.field)?.[0] ?? ''
  const known: Readonly<Record<string, string>> =
    item === 'supply' ? { current: 'limitCurrent' } : { kind: item === 'load' ? 'load' : 'device' }
  return { ok: false, wrong: [{ key: known[key] ?? key, found: read.found.replaceAll('"', ''), why: whyAt(read.field) }] }
}

/** The machine with what a form says at a spot. */
export const withTexts = (machine: Machine, spot: Spot, texts: Texts): Changed => {
  const before = thingAt(machine, spot)
  const made = <I extends Item>(item: I): Made<Things[I]> => thingOf(item, texts, before)
  const then = <T>(read: Made<T>, change: (thing: T) => Machine): Changed => (read.ok ? checkedWhole(change(read.value), spot.item) : read)
  switch (spot.item) {
    case 'machine':
      return then(made('machine'), thing => ({ ...machine, ...thing }))
    case 'supply':
      return then(made('supply'), supply => ({ ...machine, supply }))
    case 'branch':
      return then(made('branch'), branch => ({ ...machine, branches: put(machine.branches, spot.branch, branch) }))
    case 'run':
      return then(made('run'), run =>
        inBranch(machine, spot.branch, branch => {
          const old = branch.wiring?.[spot.index ?? -1]
          const moved = old && old.to !== run.to ? renamed(branch, old.to, run.to) : branch
          return { ...moved, wiring: put(moved.wiring, spot.index, run) }
        }),
      )
    case 'load':
      return then(made('load'), load =>
        inBranch(machine, spot.branch, branch => ({ ...branch, loads: put(branch.loads, spot.index, load) })),
      )
  }
}

/** The machine without a branch, a run or a load. A run that something hangs on stays. */
export const without = (machine: Machine, spot: Extract<Spot, { branch?: number }>): Changed => {
  const at = spot.branch ?? -1
  if (spot.item === 'branch') {
    if (machine.branches.length === 1) return { ok: false, wrong: [{ key: 'id', found: machine.branches[0]?.id ?? '', why: 'last' }] }
    return checkedWhole({ ...machine, branches: machine.branches.filter((_, i) => i !== at) }, 'branch')
  }
  const branch = machine.branches[at]
  if (spot.item === 'load') {
    const loads = (branch?.loads ?? []).filter((_, i) => i !== spot.index)
    return checkedWhole(
      inBranch(machine, at, b => ({ ...b, loads })),
      'load',
    )
  }
  const end = branch?.wiring?.[spot.index ?? -1]?.to ?? ''
  if (branch?.wiring?.some(run => run.from === end) || branch?.loads?.some(load => load.at === end))
    return { ok: false, wrong: [{ key: 'to', found: end, why: 'hangs' }] }
  return checkedWhole(
    inBranch(machine, at, b => ({ ...b, wiring: (b.wiring ?? []).filter((_, i) => i !== spot.index) })),
    'run',
  )
}

/** The same machine under another id, to be changed on its own. */
export const copyOf = (machine: Machine, id: string, name: string): Machine => ({ ...machine, id, name: name.slice(0, 500) })
/** A machine of which nothing is known but its name and how many branches leave its cabinet. */
export const countedMachine = (id: string, name: string, count: number): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id,
  name,
  supply: {},
  branches: Array.from({ length: count }, (_, i) => ({ id: `B${i + 1}` })),
})
