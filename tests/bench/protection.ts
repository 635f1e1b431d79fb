import type { Branch } from '../../engine/machine.ts'
import type { Live } from './circuit.ts'
import type { Chance } from './random.ts'
import type { DeviceTruth, State, Truth } from './truth.ts'

/** Instantaneous bands in times the rating, a.c. (from memory: IEC 60898-1 for B and C; Z: common practice, no source). */
const BAND: Readonly<Record<string, readonly [number, number]>> = { B: [3, 5], C: [5, 10], D: [10, 20], Z: [2, 3] }
/** Direct current widens the band upward: common practice, no source. */
const DIRECT = 1.5
/** A warm device forgets in minutes: common practice, no source. */
const COOLS = 300
/** Heating share of a supply that pulses, against its limit held: root of a tenth. */
const PULSED = Math.sqrt(0.1)

/** Draws one device within its band. What a fuse or an electronic device does: common practice, no source. */
export const inventDevice = (branch: Branch, chance: Chance): DeviceTruth => {
  const { kind = 'breaker', rating = 6, curve = 'B' } = branch.protection ?? {}
  const ohm = 0.25 / rating + 0.005
  const warm = chance.between(0, 0.5)
  if (kind === 'none') return { ohm: 0.005, instant: Infinity, hold: Infinity, heat: Infinity, warm: 0 }
  if (kind === 'electronic') return { ohm, instant: chance.between(1.25, 2), hold: 1.1, heat: chance.logBetween(1, 5), warm }
  if (kind === 'fuse') return { ohm, instant: chance.between(8, 15), hold: 1.4, heat: chance.logBetween(5, 100), warm }
  const [low, high] = BAND[curve] ?? [3, 5]
  return { ohm, instant: chance.between(low, high * DIRECT), hold: 1.2, heat: chance.logBetween(20, 200), warm }
}

const ratingOf = (truth: Truth, branch: string): number => truth.machine.branches.find(b => b.id === branch)?.protection?.rating ?? 6

/** Would the device open at once on this current? */
export const opensAtOnce = (truth: Truth, branch: string, ampere: number): boolean =>
  Math.abs(ampere) >= (truth.devices[branch]?.instant ?? Infinity) * ratingOf(truth, branch)

/** The devices' warmth: 1 opens. */
export class Warmth {
  private readonly truth: Truth
  private readonly of = new Map<string, number>()
  constructor(truth: Truth) {
    this.truth = truth
    for (const [id, device] of Object.entries(truth.devices)) this.of.set(id, device.warm)
  }
  /** Seconds pass in this state; gives back the devices that open in them. */
  pass(now: Live, state: State, seconds: number): string[] {
    const opened: string[] = []
    const pulsed = now.supply.limited && this.truth.supply.mode === 'hiccup' ? PULSED : 1
    for (const [id, device] of Object.entries(this.truth.devices)) {
      const m = (Math.abs(now.branch.get(id) ?? 0) * pulsed) / ratingOf(this.truth, id)
      const before = this.of.get(id) ?? 0
      const after =
        m > device.hold ? before + (seconds * (m * m - device.hold * device.hold)) / device.heat : before * Math.exp(-seconds / COOLS)
      this.of.set(id, after)
      if (after >= 1 && state.devices.get(id) === 'closed') {
        opened.push(id)
        this.of.set(id, 0.5)
      }
    }
    return opened
  }
}
