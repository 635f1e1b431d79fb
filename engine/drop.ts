// While a short circuit holds the supply down, its current drops millivolts across its own branch's device and across no other.
// Volts between two outgoing plus terminals so tell two branches from all others, by their sign, with every device left closed.
import type { Supply } from './machine.ts'
import { limitOf, type Plant, type PlantBranch } from './plant.ts'
import type { Positions } from './positions.ts'
import type { Read } from './step.ts'

/** Red and black stand on outgoing plus terminals of these branches. */
export interface Pair {
  readonly red: PlantBranch
  readonly black: PlantBranch
}
const PLUS = /^([^/.]+)\.plus$/
const branchAt = (plant: Plant, point: string): PlantBranch | undefined =>
  plant.branches[plant.indexOf.get(PLUS.exec(point)?.[1] ?? '') ?? -1]

/** The two branches that such a reading compares; undefined for any other reading. */
export const pairOf = (plant: Plant, read: Read): Pair | undefined => {
  if (read.meter !== 'volt') return undefined
  const red = branchAt(plant, read.red),
    black = branchAt(plant, read.black)
  return red === undefined || black === undefined || red === black ? undefined : { red, black }
}

/** How the supply limits decides what is left of the drop: all of it, or the small mean of its pulses, as shares (common practice, no source). */
const LEFT: Readonly<Record<NonNullable<Supply['limit']>['mode'], readonly [number, number] | undefined>> = {
  'constant-current': [0.5, 1.5],
  hiccup: [0.005, 0.5],
  // It may be off, and then drops nothing: seeing nothing clears no branch.
  unknown: undefined,
  'latch-off': undefined,
}
/** A limit that nobody has told is taken for this many A, give or take a factor of three. */
const UNTOLD = 6
const WIDER = 3
/** Most of the supply's voltage that is left for sound loads while everything is dead, V. */
const LEFT_OVER = 12
/** What a display shows of nothing, V. */
const NOTHING = 0.0008
/** Milliohms of cabinet wiring between two devices, that carry the same current (common practice, no source). */
const BAR = 0.001

/** Least and most V across the device of a faulty branch; undefined where the reading would tell nothing. */
const dropOf = (plant: Plant, b: PlantBranch): readonly [number, number] | undefined => {
  const left = LEFT[plant.machine.supply.limit?.mode ?? 'unknown']
  const device = plant.machine.branches[b.index]?.protection
  if (left === undefined || device?.kind === 'none') return undefined
  const current = limitOf(plant.machine)
  const wider = current === undefined || device?.rating === undefined ? WIDER : 1
  const volts = b.deviceOhm * (current ?? UNTOLD)
  return [(volts * left[0]) / wider, volts * left[1] * wider]
}

/** What a pair shows that the fault is not behind, V: one standard deviation. Sound loads drop a little, cabinet wiring too. */
const elsewhere = (plant: Plant, { red, black }: Pair): number => {
  const share = plant.machine.supply.limit?.mode === 'constant-current' ? 1 : 0.1
  const loads = (b: PlantBranch): number => 0.5 * LEFT_OVER * share * b.deviceOhm * b.loads.reduce((sum, x) => sum + x.siemens, 0)
  return Math.hypot(NOTHING, BAR * share * (limitOf(plant.machine) ?? UNTOLD), loads(red), loads(black))
}

/** Whether such a reading can tell these two branches from the rest: both devices closed, and either's drop well above what sound loads drop. */
export const tells = (plant: Plant, pair: Pair, p: Positions): boolean =>
  [pair.red, pair.black].every(b => {
    const drop = dropOf(plant, b)
    return p.devices[b.id] === 'closed' && drop !== undefined && Math.sqrt(drop[0] * drop[1]) > 4 * elsewhere(plant, pair)
  })

const normal = (x: number, mean: number, sd: number): number => Math.exp(-((x - mean) ** 2) / (2 * sd * sd)) / (sd * Math.sqrt(2 * Math.PI))

/** Density per V of a shown value if the short circuit is in branch `at`, whose device is closed. */
export const dropDensity = (plant: Plant, pair: Pair, at: PlantBranch, shown: number): number => {
  const spread = elsewhere(plant, pair)
  const drop = at === pair.red || at === pair.black ? dropOf(plant, at) : undefined
  if (drop === undefined) return normal(shown, 0, spread)
  // Even in its logarithm between least and most, blurred at the ends by what else there is; red's own drop shows as minus.
  const value = at === pair.red ? -shown : shown
  const [least, most] = drop
  if (value <= 0) return 0.02 * normal(shown, 0, spread)
  const blur = Math.min(1, value / least) ** 2 * Math.min(1, most / value) ** 4
  return blur / (value * (Math.log(most / least) + 0.75))
}

/** Density with the supply whole again, a device of `open` opened by itself: that terminal is dead, the other has the full voltage. */
export const openDensity = (pair: Pair, open: PlantBranch | undefined, shown: number, volts: number): number => {
  const mean = open === pair.red ? -volts : open === pair.black ? volts : 0
  return normal(shown, mean, mean === 0 ? 0.1 : 1)
}
