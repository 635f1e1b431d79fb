// A branch's wiring as a tree, prepared once: how far out each run starts, what it hangs on and which loads sit where.
import type { Branch, Load, Run } from './machine.ts'
import { type Metre, metre } from './quantities.ts'

/** The branch's outgoing terminals in the cabinet: the root of every tree. */
export const TERMINALS = 'terminals'

/** A run at its place in the tree. */
export interface Placed {
  readonly run: Run
  /** Where in `Wiring.runs` the run is that this one hangs on; -1 where it starts at the terminals. */
  readonly parent: number
  /** The junction nearer to the terminals, and the farther one. */
  readonly near: string
  readonly far: string
  /** Metres along the wiring from the terminals to the near and to the far end. */
  readonly startsAt: Metre
  readonly endsAt: Metre
}
export interface Wiring {
  /** Nobody has told the wiring: `runs` holds a stand-in, which must not be named to the technician. */
  readonly unknown: boolean
  /** Parent before child. */
  readonly runs: readonly Placed[]
  /** Loads by junction; a junction without loads is missing. */
  readonly loads: ReadonlyMap<string, readonly Load[]>
  /** All runs together. */
  readonly length: Metre
  /** By junction, where in `runs` the run is that ends there. */
  readonly arriving: ReadonlyMap<string, number>
}

const STAND_IN_END = 'END'
/** Stands in where no wiring is told: 40 m to one load (common practice, no source). */
const STAND_IN_RUN: Run = { id: '?', from: TERMINALS, to: STAND_IN_END, length: 40 }
const STAND_IN_LOAD: Load = { id: '?', at: STAND_IN_END, kind: 'electronic' }

/** `Map.groupBy`, which the phones in use do not all have. */
const grouped = <T>(items: readonly T[], key: (item: T) => string): Map<string, T[]> => {
  const groups = new Map<string, T[]>()
  for (const item of items) {
    const group = groups.get(key(item))
    if (group === undefined) groups.set(key(item), [item])
    else group.push(item)
  }
  return groups
}

/** The runs that hang on the terminals, parent before child. Runs that hang on nothing are left out; of a ring none is in it. */
export const outwards = (runs: readonly Run[]): readonly Run[] => {
  const leaving = grouped(runs, ({ from }) => from)
  const ordered = [...(leaving.get(TERMINALS) ?? [])]
  leaving.delete(TERMINALS)
  // The list grows while it is walked: each run brings those that leave its far end, once.
  for (const { to } of ordered) {
    ordered.push(...(leaving.get(to) ?? []))
    leaving.delete(to)
  }
  return ordered
}

const told = ({ wiring = [], loads = [] }: Branch): { unknown: boolean; runs: readonly Run[]; loads: readonly Load[] } => {
  if (wiring.length > 0) return { unknown: false, runs: wiring, loads }
  const atEnd = loads.map(load => (load.at === TERMINALS ? load : { ...load, at: STAND_IN_END }))
  return { unknown: true, runs: [STAND_IN_RUN], loads: atEnd.length > 0 ? atEnd : [STAND_IN_LOAD] }
}

/** Prepares a checked branch. A loop, or a run that does not hang on the terminals, cannot come from a checked file and throws. */
export const wiringOf = (branch: Branch): Wiring => {
  const { unknown, runs, loads } = told(branch)
  const ordered = outwards(runs)
  const hanging = new Set(ordered)
  const lost = runs.find(run => !hanging.has(run))
  if (lost !== undefined) throw new RangeError(`run ${lost.id} of branch ${branch.id} does not hang on the terminals`)
  const arriving = new Map(ordered.map(({ to }, i) => [to, i]))
  if (arriving.size < ordered.length || arriving.has(TERMINALS)) throw new RangeError(`the runs of branch ${branch.id} form a loop`)
  const placed: Placed[] = []
  for (const run of ordered) {
    const parent = arriving.get(run.from) ?? -1
    const startsAt = placed[parent]?.endsAt ?? metre(0)
    placed.push({ run, parent, near: run.from, far: run.to, startsAt, endsAt: metre(startsAt + run.length) })
  }
  const length = metre(ordered.reduce((sum, run) => sum + run.length, 0))
  return { unknown, runs: placed, loads: grouped(loads, ({ at }) => at), length, arriving }
}

/** Every junction, the terminals first, then outwards. */
export const junctions = (wiring: Wiring): readonly string[] => [TERMINALS, ...wiring.runs.map(({ far }) => far)]

/** The runs from the terminals to a junction, in the order in which the current takes them; none for the terminals. */
export const pathTo = (wiring: Wiring, junction: string): readonly Placed[] => {
  const path: Placed[] = []
  for (let at = wiring.arriving.get(junction) ?? -1; at >= 0; ) {
    const here = wiring.runs[at]
    if (here === undefined) throw new RangeError(`no run ${at} on the way to ${junction}`)
    path.push(here)
    at = here.parent
  }
  if (path.length === 0 && junction !== TERMINALS) throw new RangeError(`no junction ${junction} in this wiring`)
  return path.reverse()
}
