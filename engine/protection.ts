// Would the device open on a short circuit in its branch: everywhere, up to so many metres, nowhere, or is it not known?
import { AT_ONCE, thermal } from './breaker.ts'
import { type Device, deviceOf, type Missing } from './device.ts'
import type { Band } from './gate.ts'
import type { Machine } from './machine.ts'
import type { PlantBranch } from './plant.ts'
import { type Assumed, type Current, currentAt, currentAtTerminals, type Extreme, highest, limitsOf, lowest, USUAL } from './prospect.ts'

/** Metres along the wiring from the cabinet's terminals. */
export interface Verdict {
  /** 'perhaps': in the stretch that the standard leaves open, wherever the short is. */
  readonly opens: 'always' | 'up to' | 'never' | 'perhaps' | 'not known'
  /** Nearer than this it certainly opens, on every way outwards. */
  readonly upTo: number
  /** The run in which that ends, if it ends. */
  readonly endsIn?: string
  /** Farther than this it certainly stays closed; the farthest end where there is no such place. */
  readonly neverPast: number
  /** The figures that decide, A: lowest current at the terminals and at the end that gets least, highest at the terminals. */
  readonly figures: { readonly lowNear: number; readonly lowFar: number; readonly highNear: number }
  readonly band: Band
  readonly missing: readonly Missing[]
  /** What the answer would be if figures from memory were right. */
  readonly fromMemory?: Verdict['opens']
  readonly seconds: number
}
export interface Protected {
  readonly branch: string
  readonly atOnce: Verdict
  readonly inTime: Verdict
  /** What a breaker's thermal part does at the far end, should the current last. */
  readonly later: ReturnType<typeof thermal> | 'supply does not last'
  /** Metres from the terminals to the farthest end. */
  readonly length: number
}

interface Walk {
  readonly at: (run: number, metres: number) => number
  readonly terminals: number
}
const CLOSE_ENOUGH = 1e-3

/** Where along a run a falling current passes `ampere`; the ends are known to lie on either side. */
const crossing = (walk: Walk, run: number, length: number, stays: (ampere: number) => boolean): number => {
  let [low, high] = [0, length]
  while (high - low > CLOSE_ENOUGH) {
    const middle = (low + high) / 2
    if (stays(walk.at(run, middle))) low = middle
    else high = middle
  }
  return low
}

interface Reach {
  readonly run: string
  readonly to: number
  readonly whole: boolean
}
/** For each run that begins within: how far within it goes, metres from the terminals, and whether that is the whole run. */
const reach = (b: PlantBranch, walk: Walk, stays: (ampere: number) => boolean): readonly Reach[] => {
  const whole: boolean[] = []
  const reached: Reach[] = []
  for (const [i, { run, parent, startsAt, endsAt }] of b.wiring.runs.entries()) {
    const begins = parent < 0 ? stays(walk.terminals) : whole[parent] === true
    whole[i] = begins && stays(walk.at(i, run.length))
    if (!begins) continue
    const to = whole[i] ? endsAt : startsAt + crossing(walk, i, run.length, stays)
    reached.push({ run: run.id, to, whole: whole[i] })
  }
  return reached
}

/** The supply's limit ends a current sooner than the device does, unless it is known to last that long. */
export const lasts = ({ supply }: Machine, seconds: number): boolean =>
  supply.limit?.mode === 'constant-current' ||
  (supply.holds ?? 0) >= seconds ||
  (supply.reserve !== undefined && supply.reserve.seconds >= seconds)

const certain = (current: Current, lasting: boolean): number => (current.limited && !lasting ? 0 : current.ampere)
const walkOf = (x: Extreme, b: PlantBranch, lasting: boolean): Walk => ({
  at: (run, metres) => certain(currentAt(x, b, run, metres), lasting),
  terminals: certain(currentAtTerminals(x, b), lasting),
})

const wordFor = (low: Walk, high: Walk, all: boolean, { holds, opens }: Band): Verdict['opens'] => {
  if (high.terminals <= holds) return 'never'
  if (opens === Infinity) return 'not known'
  if (low.terminals < opens) return 'perhaps'
  return all ? 'always' : 'up to'
}

/** Between two extremes, for a device that is known so far. */
export const verdictOf = (
  low: Extreme,
  high: Extreme,
  b: PlantBranch,
  device: Device,
  missing: readonly Missing[],
  lasting = true,
): Verdict => {
  const { band } = device
  const [under, over] = [walkOf(low, b, lasting), walkOf(high, high.plant.branches[b.index] ?? b, true)]
  const opening = reach(b, under, ampere => ampere >= band.opens)
  const all = under.terminals >= band.opens && opening.every(r => r.whole)
  const first = opening.filter(r => !r.whole).sort((x, y) => x.to - y.to)[0]
  const open = reach(b, over, ampere => ampere > band.holds)
  const ends = b.wiring.runs.map((_, i) => i).filter(i => !b.wiring.runs.some(r => r.parent === i))
  const word = wordFor(under, over, all, band)
  // How long the supply lasts decides only where it would be enough if it did.
  const held = lasting ? under : walkOf(low, b, true)
  const short = under.terminals < band.opens && held.terminals >= band.opens
  const lack: Missing[] = [...missing, ...device.missing, ...(short ? (['supply behaviour'] as const) : [])]
  // What is never so whatever the missing figures are stays known.
  const unknown = word !== 'never' && lack.length > 0
  const memory = wordFor(under, over, all, device.fromMemory)
  return {
    opens: unknown ? 'not known' : word,
    upTo: unknown || word === 'never' || word === 'perhaps' ? 0 : (first?.to ?? farthest(b)),
    ...(word === 'up to' && !unknown && first !== undefined ? { endsIn: first.run } : {}),
    neverPast: word === 'never' ? 0 : Math.max(0, ...open.map(r => r.to)),
    figures: {
      lowNear: held.terminals,
      lowFar: Math.min(...ends.map(i => held.at(i, b.wiring.runs[i]?.run.length ?? 0))),
      highNear: over.terminals,
    },
    band,
    missing: unknown ? [...new Set(lack)] : [],
    ...(unknown && device.missing.includes('confirmed figure') ? { fromMemory: memory } : {}),
    seconds: band.seconds,
  }
}

export const farthest = (b: PlantBranch): number => Math.max(...b.wiring.runs.map(r => r.endsAt))

/** What is not known of the branch itself and of what shares the supply with it. */
const missingOf = (machine: Machine, b: PlantBranch, low: Extreme): Missing[] => {
  const branch = machine.branches[b.index]
  return [
    ...(b.wiring.unknown ? (['wiring'] as const) : []),
    ...(!b.wiring.unknown && (branch?.wiring ?? []).some(r => r.conductor === undefined) ? (['conductor'] as const) : []),
    ...(Number.isFinite(low.limit) && low.others.some((d, i) => d === undefined && i !== b.index)
      ? (['load of other branches'] as const)
      : []),
  ]
}

/** The two extremes of a machine for an answer within `seconds`. */
export const extremesOf = (machine: Machine, assumed: Assumed, seconds: number): { low: Extreme; high: Extreme } => {
  const limits = limitsOf(machine, seconds)
  return { low: lowest(machine, limits.low, assumed), high: highest(machine, limits.high, assumed) }
}

export const verdictFor = (machine: Machine, branch: string, assumed: Assumed, seconds: number): Verdict => {
  const device = deviceOf(machine.branches.find(b => b.id === branch)?.protection, seconds)
  const needed = Math.min(device.band.seconds, seconds)
  const { low, high } = extremesOf(machine, assumed, needed)
  const b = low.plant.branches.find(one => one.id === branch)
  if (b === undefined) throw new RangeError(`no branch ${branch} in machine ${machine.id}`)
  const lacking = missingOf(machine, b, low)
  const lasting = lasts(machine, needed)
  const verdict = verdictOf(low, high, b, device, lacking, lasting)
  if (machine.supply.limit?.current !== undefined || verdict.opens === 'never' || verdict.opens === 'not known') return verdict
  // With no limit stated the supply certainly gives its rated current. Where more of it would open more, the limit decides.
  const unlimited = verdictOf({ ...low, limit: Infinity }, high, b, device, lacking, lasting)
  const same = unlimited.opens === verdict.opens && Math.abs(unlimited.upTo - verdict.upTo) < 0.01
  return same ? verdict : { ...verdict, opens: 'not known', upTo: 0, missing: ['supply limit'] }
}

/** Every branch: at once (0.1 s, the time of the magnetic test points of IEC 60898-1) and within the time that counts. */
export const protectionOf = (machine: Machine, assumed: Assumed = USUAL): readonly Protected[] =>
  machine.branches.map(({ id, protection }) => {
    const atOnce = verdictFor(machine, id, assumed, AT_ONCE)
    const inTime = verdictFor(machine, id, assumed, assumed.within)
    const rating = protection?.kind === 'breaker' ? protection.rating : undefined
    const times = rating === undefined ? 0 : atOnce.figures.lowFar / rating
    const b = lowest(machine, Infinity, assumed).plant.branches.find(one => one.id === id)
    return {
      branch: id,
      atOnce,
      inTime,
      later:
        machine.supply.limit?.mode !== 'constant-current'
          ? 'supply does not last'
          : rating === undefined
            ? 'not known'
            : thermal(times, rating),
      length: b === undefined ? 0 : farthest(b),
    }
  })
