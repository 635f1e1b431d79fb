import { type Belief, begin, shares } from '../../engine/belief.ts'
import { choose } from '../../engine/choose.ts'
import { COST, costOf } from '../../engine/cost.ts'
import type { Machine } from '../../engine/machine.ts'
import { observe } from '../../engine/observe.ts'
import type { Situation } from '../../engine/plan.ts'
import { plantOf } from '../../engine/plant.ts'
import { after, asFound, type Positions } from '../../engine/positions.ts'
import { soundOf, together } from '../../engine/sound.ts'
import type { ProbeRead } from '../../engine/step.ts'
import { keyOf } from '../../engine/way.ts'
import { invent } from './invent.ts'
import { chance, seedOf } from './random.ts'

// Which branch, on a dead circuit: every reading is put into one of two bins, 'a short circuit is seen' and 'none is', and the
// bin is never wrong. So a state is the set of devices opened and the set of branches still in question, and the least mean
// time until one branch is left can be had exactly by going through all of them.

/** Least mean seconds times the chance of the state; both sets as bits. */
export const optimum = (p: readonly number[]): number => {
  const n = p.length
  const all = 2 ** n - 1
  const weight = Array.from({ length: all + 1 }, (_, set) => p.reduce((sum, x, i) => sum + ((set >> i) & 1 ? x : 0), 0))
  const size = (set: number): number => [...set.toString(2)].filter(c => c === '1').length
  const known = new Map<number, number>()
  const best = (opened: number, left: number): number => {
    if (size(left) < 2) return 0
    const key = opened * (all + 1) + left
    const had = known.get(key)
    if (had !== undefined) return had
    let least = Infinity
    const consider = (cost: number, then: number, seen: number): void => {
      const [yes, no] = [left & seen, left & ~seen]
      if (yes === 0 || no === 0) return
      least = Math.min(least, cost * (weight[left] as number) + best(then, yes) + best(then, no))
    }
    for (let i = 0; i < n; i++) consider(COST.readInCabinet + ((opened >> i) & 1 ? 0 : COST.device), opened | (1 << i), 1 << i)
    // At the bus: any more devices opened, what stays closed is seen.
    for (let more = 0; more <= all; more++)
      if ((more & opened) === 0) consider(COST.readInCabinet + COST.device * size(more), opened | more, all & ~(opened | more))
    known.set(key, least)
    return least
  }
  return best(0, all)
}

/** As clear as the search wants a branch before it looks for the place in it. */
const CLEAR = 0.85
const SHORT_OHM = 0.7
/** The circuit stays dead: nothing is to be had from it under voltage here. */
const LIVE = new Set([keyOf({ kind: 'act', act: { act: 'supply', to: 'on' } })])

/** Seconds that the engine takes until one branch is clear, the short circuit being in branch `truth`. */
const led = (start: Belief, truth: number, supply: Positions): number => {
  const { plant } = start
  const shown = (read: ProbeRead, p: Positions): number | 'OL' => {
    const seen = plant.branches.filter(b => (read.red === 'bus.plus' ? p.devices[b.id] === 'closed' : read.red === `${b.id}.plus`))
    if (seen.some(b => b.index === truth)) return SHORT_OHM
    const sound = together(seen.map(b => soundOf(b, p)))
    return sound.openChance > 0.5 || sound.siemens === 0 ? 'OL' : Math.round(10 / sound.siemens) / 10
  }
  let belief = start
  let positions = supply
  let seconds = 0
  const taken = new Set<string>()
  for (let n = 0; n < 40 && Math.max(...shares(belief).short) < CLEAR; n++) {
    const s: Situation = { positions, power: 'provedDead', zeroed: true, found: supply, setAside: LIVE, taken }
    const steps = choose(belief, s)?.steps ?? []
    for (const step of steps) {
      seconds += costOf(plant, step)
      if (step.kind === 'act') positions = after(positions, step.act)
      else if (step.kind === 'read' && step.meter === 'ohm') {
        belief = observe(belief, { of: 'read', read: step, positions, zeroed: true, shown: shown(step, positions), unsteady: false })
        taken.add(keyOf(step))
      } else if (step.kind === 'look') {
        belief = observe(belief, { of: 'look', look: step, positions, seen: 'closed' })
        taken.add(keyOf(step))
      } else if (step.kind === 'finding') {
        // Looked in vain, and paid for: this search is for the branch alone.
        belief = observe(belief, { of: 'looked', finding: step.finding })
      } else throw new Error(`not a step of this search: ${JSON.stringify(step)}`)
    }
  }
  return seconds
}

/** Mean seconds to the branch on so many machines of 3 to 6 branches, led by the engine, and at the least. */
export const againstOptimum = (machines: number, seed: number): { engine: number; exact: number } => {
  const own = chance(seed)
  let engine = 0
  let exact = 0
  for (let i = 0; i < machines; i++) {
    const { machine: told } = invent(seedOf(seed, i), { branches: own.whole(3, 6) })
    // How the supply limits is not known, so that nothing is to be had from it while it is on.
    const machine: Machine = { ...told, supply: { ...told.supply, limit: { mode: 'unknown' } } }
    const plant = plantOf(machine)
    const found = asFound(machine.branches.map(b => b.id))
    const lamp = { kind: 'look', look: 'supply-lamp' } as const
    const supply: Positions = { ...found, supply: 'off' }
    const lit = observe(begin(plant, {}, 'all-dead'), { of: 'look', look: lamp, positions: found, seen: 'blinking' })
    const start = observe(lit, { of: 'proved', positions: supply, volts: 0 })
    const short = [...shares(start).short]
    const sum = short.reduce((a, b) => a + b, 0)
    const p = short.map(x => x / sum)
    exact += optimum(p)
    engine += p.reduce((mean, x, truth) => mean + x * led(start, truth, supply), 0)
  }
  return { engine: engine / machines, exact: exact / machines }
}
