// The engine's answer beside what the simulated machine's devices do: within a metre of where the answer changes.
import { expect, test } from 'vitest'
import type { Branch, Machine } from '../../engine/machine.ts'
import { USUAL } from '../../engine/prospect.ts'
import { type Verdict, verdictFor } from '../../engine/protection.ts'
import { celsius } from '../../engine/quantities.ts'
import { wiringOf } from '../../engine/wiring.ts'
import { live } from '../bench/circuit.ts'
import { invent } from '../bench/invent.ts'
import { opensAtOnce } from '../bench/protection.ts'
import { chance } from '../bench/random.ts'
import { foundState, type Truth } from '../bench/truth.ts'

const MACHINES = 200
const BRANCHES_EACH = 4
/** Of the bench: its coldest and hottest conductor, and how far under the maximum its conductors lie. */
const CLIMATE = { hot: 30, cold: 10 } as const
/** The bench's bands in times the rating: what its devices are drawn from. */
const EDGES = { B: [3, 7.5], C: [5, 15], fuse: [8, 15], electronic: [1.25, 2] } as const

/** A device carries its lower edge itself; the first to open does so just above. */
const JUST_ABOVE = 1 + 1e-9

const edgesOf = ({ protection }: Branch): readonly [number, number] =>
  protection?.kind === 'breaker' ? EDGES[protection.curve === 'C' ? 'C' : 'B'] : EDGES[protection?.kind === 'fuse' ? 'fuse' : 'electronic']

/** Breakers by the standard; of a fuse or an electronic device the bench's own figures stand in for its data sheet. */
const told = ({ machine }: Truth): Machine => ({
  ...machine,
  supply: { ...machine.supply, holds: 0.1 },
  branches: machine.branches.map(b => {
    if (b.protection === undefined || b.protection.kind === 'breaker') return b
    const [carries = Number.NaN, opens = Number.NaN] = edgesOf(b).map(times => times * (b.protection?.rating ?? Number.NaN))
    return { ...b, protection: { ...b.protection, dataSheet: { carries, opens, seconds: 0.1 } } }
  }),
})

/** The machine at one edge of what it can be, or as it was drawn. */
const atEdge = (truth: Truth, branch: Branch, edge: 'low' | 'high' | 'drawn'): Truth => {
  if (edge === 'drawn') return truth
  const own = truth.devices[branch.id]
  if (own === undefined) throw new Error(`no device for ${branch.id}`)
  const [lower, upper] = edgesOf(branch)
  const { limit, ratedCurrent = Number.NaN } = truth.machine.supply
  // With no limit stated the supply gives its rated current at least, and may give anything.
  const given = limit?.current ?? (edge === 'low' ? ratedCurrent : 1e6)
  return {
    ...truth,
    supply: { ...truth.supply, limit: given },
    celsius: edge === 'low' ? CLIMATE.hot : CLIMATE.cold,
    scale: Object.fromEntries(Object.keys(truth.scale).map(run => [run, edge === 'low' ? 1 : 0.92])),
    devices: { ...truth.devices, [branch.id]: { ...own, instant: edge === 'low' ? upper : lower * JUST_ABOVE } },
  }
}

/** The same machine on a supply that can open its devices: the places where the answer changes then lie along the wiring. */
const stronger = (truth: Truth): Truth => {
  const limit = 6 * truth.supply.limit
  const supply = { ...truth.machine.supply, limit: { mode: 'constant-current', current: limit } } as const
  return { ...truth, supply: { ...truth.supply, limit, mode: 'constant-current' }, machine: { ...truth.machine, supply } }
}

/** Does the bench's device open at once, at every place, or at any place, so many metres from the terminals? */
const benchOpens = (truth: Truth, branch: Branch, edge: 'low' | 'high' | 'drawn', metres: number, inRun?: string): boolean[] => {
  const at = atEdge(truth, branch, edge)
  const loadsOf = (b: Branch) => (b.loads ?? []).map(load => `${b.id}/${load.id}`)
  const others = truth.machine.branches.filter(b => b.id !== branch.id)
  const unplugged = new Set(edge === 'low' ? loadsOf(branch) : edge === 'high' ? others.flatMap(loadsOf) : [])
  return wiringOf(branch)
    .runs.filter(r => r.startsAt <= metres && metres <= r.endsAt && (inRun ?? r.run.id) === r.run.id)
    .map(({ run, startsAt }) => {
      const fault = { kind: 'short-to-zero', branch: branch.id, run: run.id, at: metres - startsAt, ohm: 1e-6 } as const
      const state = { ...foundState({ ...at, fault }), unplugged }
      return opensAtOnce(at, branch.id, live(at, state).branch.get(branch.id) ?? 0)
    })
}

test(`${MACHINES} random machines, seeds 1 to ${MACHINES}: 'opens up to N metres' is what the bench's devices do at N − 1 and N + 1 m`, () => {
  const words: Record<Verdict['opens'], number> = { always: 0, 'up to': 0, never: 0, perhaps: 0, 'not known': 0 }
  const compared = { certainBefore: 0, notCertainAfter: 0, possibleBefore: 0, neverAfter: 0 }
  const assumed = { ...USUAL, hot: celsius(CLIMATE.hot), cold: celsius(CLIMATE.cold) }
  for (let seed = 1; seed <= MACHINES; seed++) {
    const truth = seed % 2 === 0 ? stronger(invent(seed)) : invent(seed)
    const own = chance(seed)
    for (let i = 0; i < BRANCHES_EACH; i++) {
      const branch = own.pick(truth.machine.branches)
      const v = verdictFor(told(truth), branch.id, assumed, 0.1)
      words[v.opens]++
      const what = `seed ${seed}, ${branch.id}, ${v.opens}, certain to ${v.upTo} m, never past ${v.neverPast} m`
      if (v.upTo > 1 && (v.opens === 'always' || v.opens === 'up to')) {
        for (const edge of ['low', 'drawn'] as const) expect(benchOpens(truth, branch, edge, v.upTo - 1), what).not.toContain(false)
        compared.certainBefore++
      }
      if (v.opens === 'up to') {
        // Where the run has no metre left the place is its end, if that is half a metre past N.
        const end = wiringOf(branch).runs.find(r => r.run.id === v.endsIn)?.endsAt ?? Number.NaN
        if (end - v.upTo < 0.5) continue
        expect(benchOpens(truth, branch, 'low', Math.min(v.upTo + 1, end), v.endsIn), what).toEqual([false])
        compared.notCertainAfter++
      }
      if (v.neverPast > 1) {
        expect(benchOpens(truth, branch, 'high', v.neverPast - 1), what).toContain(true)
        compared.possibleBefore++
      }
      for (const edge of ['high', 'drawn'] as const) {
        const after = benchOpens(truth, branch, edge, v.neverPast + 1)
        expect(after, what).not.toContain(true)
        compared.neverAfter += after.length
      }
    }
  }
  console.info(JSON.stringify({ words, compared }))
  expect(Math.min(...Object.values(compared)), JSON.stringify(compared)).toBeGreaterThan(50)
  expect(words.always + words['up to']).toBeGreaterThan(100)
}, 120_000)
