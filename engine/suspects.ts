// What is suspected now, place by place and whatever the fault: for whoever asks why, and how much is left.
import { type Belief, shares } from './belief.ts'
import { spots } from './locate.ts'
import type { Interval } from './step.ts'
import { runId } from './suspicion.ts'

/** A stretch of wiring, a load, or a branch that is still suspect: `p` of 1, metres from the run's near end. */
export interface Suspect {
  readonly branch: string
  readonly run?: string
  readonly load?: string
  readonly alongRun?: Interval
  readonly p: number
}

/** Branches that hold less than this of a short circuit are not looked into; places of less than this are left out. */
const LEAST = { branch: 0.02, place: 1e-4 } as const

const shorts = (belief: Belief, of: Float64Array): Suspect[] =>
  belief.plant.branches
    .filter(({ index }) => (of[index] as number) > LEAST.branch)
    .flatMap((b): Suspect[] => {
      if (b.wiring.unknown) return [{ branch: b.id, p: of[b.index] as number }]
      return spots(belief, b.id, 0.01).map(({ branch, run, load, alongRun, p }) => ({
        branch,
        p,
        ...(run === undefined ? {} : { run }),
        ...(load === undefined ? {} : { load }),
        ...(alongRun === undefined ? {} : { alongRun }),
      }))
    })

/** What is no short circuit: a run for what is open or badly joined, a load for what lies in it, a branch for its device or another supply. */
const others = (belief: Belief, suspected: Float64Array, deviceOpen: Float64Array): Suspect[] => [
  ...belief.suspicions.flatMap((x, i): Suspect[] => {
    const b = belief.plant.branches[x.branch ?? -1]
    if (b === undefined) return []
    const run = b.wiring.unknown ? undefined : runId(belief.plant, x)
    const load = b.wiring.unknown ? undefined : b.loads[x.load ?? -1]?.load.id
    return [{ branch: b.id, p: suspected[i] as number, ...(run === undefined ? {} : { run }), ...(load === undefined ? {} : { load }) }]
  }),
  ...belief.plant.branches.map((b): Suspect => ({ branch: b.id, p: deviceOpen[b.index] as number })),
]

/**
 * Places in the branches, likeliest first, each once: where it may be one thing or another, `p` is of all of them together and the
 * metres are those of the short circuit, unless something that may be anywhere in the run is likelier.
 */
export const suspectsOf = (belief: Belief): readonly Suspect[] => {
  const { short, suspected, deviceOpen } = shares(belief)
  const places = new Map<string, Suspect>()
  for (const x of [...shorts(belief, short), ...others(belief, suspected, deviceOpen)]) {
    const key = `${x.branch} ${x.run} ${x.load}`
    const before = places.get(key)
    const likelier = before !== undefined && before.p > x.p ? before : x
    places.set(key, { ...likelier, p: (before?.p ?? 0) + x.p })
  }
  return [...places.values()].filter(({ p }) => p > LEAST.place).sort((a, b) => b.p - a.p)
}
