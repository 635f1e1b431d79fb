// While a short circuit holds the supply down, its own device may open by heat at last: the longer it lasts, the likelier.
// So a hunt under voltage is a race: what was true of the device at one reading need not be at the next.
import type { Belief, OfBranch } from './belief.ts'
import { COST } from './cost.ts'
import type { Protection } from './machine.ts'
import type { Positions } from './positions.ts'

/** Opens after k/(m² − hold²) s at m times its rating, m above `hold`; k lies evenly in the logarithm between `least` and `most`. */
interface Heat {
  readonly hold: number
  readonly least: number
  readonly most: number
}
/** IEC 60898-1:2015 Table 7: not within an hour at 1.13 times, and between 1 s and 60 s at 2.55 times, which is 5.2 above in squares. */
const BREAKER: Heat = { hold: 1.13, least: 5.2, most: 312 }
/** Common practice, no source. */
const FUSE: Heat = { hold: 1.4, least: 3, most: 100 }
const ELECTRONIC: Heat = { hold: 1.1, least: 0.5, most: 5 }

/** What pulses heat as a steady current of this share would: the root of a tenth of the time on (common practice, no source). */
const PULSED = Math.sqrt(0.1)
/** Seconds since the supply was last switched before the hunt began, as people try that first (common practice, no source). */
const BEFORE = 1

/** Chance that the device has opened by itself within so many seconds at this current, A. */
export const opensWithin = (p: Protection | undefined, ampere: number, seconds: number): number => {
  if (p?.rating === undefined || p.kind === 'none') return 0
  const { hold, least, most } = p.kind === 'fuse' ? FUSE : p.kind === 'electronic' ? ELECTRONIC : BREAKER
  const above = (ampere / p.rating) ** 2 - hold ** 2
  if (above <= 0) return 0
  return Math.min(1, Math.max(0, Math.log((seconds * above) / least) / Math.log(most / least)))
}

/** The current that keeps heating the faulty branch's device, A; undefined where the supply gives none, or nobody has told. */
const heating = ({ plant }: Belief): number | undefined => {
  const { limit } = plant.machine.supply
  if (limit?.current === undefined) return undefined
  if (limit.mode === 'constant-current') return limit.current
  return limit.mode === 'hiccup' ? limit.current * PULSED : undefined
}

/** Seconds under voltage move short circuits whose device was closed to those whose device has opened by itself. */
export const heldFor = (belief: Belief, p: Positions, seconds: number): Belief => {
  const ampere = heating(belief)
  if (ampere === undefined || p.supply !== 'on' || p.injector !== undefined) return belief
  const from = BEFORE + belief.held
  const opened = (own: OfBranch, k: number): OfBranch => {
    const device = belief.plant.machine.branches[k]
    if (device === undefined || p.devices[device.id] !== 'closed') return own
    const before = opensWithin(device.protection, ampere, from)
    const now = opensWithin(device.protection, ampere, from + seconds) - before
    if (now <= 0 || before >= 1) return own
    // Which share of those still closed has opened now, and what all of them together weigh.
    const share = Math.min(now / (1 - before), 0.999)
    const weight = own.places.prior.map((v, j) => v * Math.exp((own.chain.log[j] as number) + (own.walked[j] as number)))
    const mass = weight.reduce((sum, v) => sum + v, 0)
    if (!(mass > 0)) return own
    const closed = weight.reduce((sum, v, j) => sum + v * Math.exp(own.outside[j] as number), 0) / mass
    return {
      ...own,
      tripped: Math.log(Math.exp(own.tripped) + share * closed),
      outside: own.outside.map(v => v + Math.log(1 - share)),
    }
  }
  return { ...belief, held: belief.held + seconds, branches: belief.branches.map(opened) }
}

/** Seconds that a look or reading takes, wherever it is taken. */
export const secondsOf = (of: 'look' | 'read'): number => (of === 'look' ? COST.look : COST.readInCabinet)
