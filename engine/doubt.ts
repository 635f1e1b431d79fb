// Was a device really opened that was said to be? A look settles it, once somebody has gone to look in vain. With the device closed
// its terminals show what another branch has, and a short circuit behind it keeps the bus low whatever else is opened.
import { type Belief, shares } from './belief.ts'
import { COST } from './cost.ts'
import { type Plan, possible, type Situation } from './plan.ts'
import type { Look } from './step.ts'
import { keyOf } from './way.ts'

/** So many walks in vain, and every device that was opened is looked at: seconds each, where the next walk costs a minute or more (a bar of the project's own). */
const IN_VAIN = 2
/** Less than this at the bus is a short circuit rather than loads side by side, Ω (a bar of the project's own). */
const LOW = 2
/** Chance of a short circuit that stays, from which on a device left closed may be the reason (a bar of the project's own). */
const STILL = 0.5

/** A look at a device that counts as open: that of a branch read past it and walked in vain, and then those of all others. */
export const doubtedDevice = (belief: Belief, s: Situation): Plan | undefined => {
  // What was not found of a short circuit that stays; one that comes and goes is missed sooner than a device is left closed, unless
  // the bus was low when it was last read: a short circuit that was there then stayed behind a device that was left closed, or has gone.
  const atBus = s.ohms?.findLast(({ read }) => read.meter === 'ohm' && read.red === 'bus.plus')?.shown
  const low = atBus !== undefined && atBus !== 'OL' && atBus < LOW
  const short = low ? /^\{"kind":"finding".*"fault":"(short|load-short|intermittent)/ : /^\{"kind":"finding".*"fault":"(short|load-short)/
  const vain = [...s.setAside].filter(key => short.test(key)).length
  if (vain === 0) return undefined
  const lookAt = (branch: string): Look => ({ kind: 'look', look: 'device', branch })
  const opened = belief.plant.branches
    .filter(({ id }) => s.positions.devices[id] === 'open' && !s.taken.has(keyOf(lookAt(id))) && possible(s, [lookAt(id)]))
    .map(({ id, index }) => {
      const own = belief.branches[index]
      return {
        id,
        doubted: own !== undefined && own.chain.rows.length > 0 && own.walked.some(v => v < 0),
        prior: own?.places.prior.reduce((sum, p) => sum + p, 0) ?? 0,
      }
    })
    .sort((a, b) => b.prior - a.prior)
  // Ohms that speak for no short circuit any more leave no device in doubt.
  const shared = shares(belief)
  const still = shared.short.reduce((sum, p, b) => sum + p - (low ? 0 : (shared.flicker[b] as number)), 0)
  const next = opened.find(x => x.doubted) ?? (vain >= IN_VAIN && still > STILL ? opened[0] : undefined)
  if (next === undefined) return undefined
  return { steps: [lookAt(next.id)], expected: COST.look, why: { key: 'device-open', facts: { branch: next.id } } }
}
