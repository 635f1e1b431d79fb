// What would open at the far end: for whoever designs or changes the machine, never an instruction to refit now.
import type { Curve } from './breaker.ts'
import { AREAS, areaOf, capacityOf } from './capacity.ts'
import { deviceOf } from './device.ts'
import type { Branch, Load, Machine } from './machine.ts'
import { RATED } from './plant.ts'
import { type Assumed, currentAt, currentAtTerminals, type Extreme, limitsOf, lowest, USUAL } from './prospect.ts'
import { lasts, type Protected } from './protection.ts'
import type { Service } from './service.ts'
import { pathTo, TERMINALS, wiringOf } from './wiring.ts'

/** Ratings that breakers come in, A: from 6 A IEC 60898-1 (from memory); below that common practice. */
const RATINGS = [32, 25, 20, 16, 13, 10, 6, 4, 3, 2, 1] as const
/** Slowest first: the least trouble with in-rush. */
const CURVES: readonly Curve[] = ['D', 'C', 'B']

export interface Advice {
  readonly branch: string
  /** The largest rating, and of its characteristics the slowest, that opens at the far end and carries the load. */
  readonly breaker?: { readonly rating: number; readonly curve: Curve }
  /** The smallest conductor, mm², with which the present device opens at the far end. */
  readonly area?: number
  /** A that the supply must give for 0.1 s; undefined where the conductor alone lets too little through. */
  readonly supply?: number
  /** Set current of an electronic device, A: above the load, at most what conductor, supply and loop allow. */
  readonly electronic?: { readonly above: number; readonly most: number }
  /** Loads on two branches instead of one, each with this breaker, and whether both then open at their far ends. */
  readonly halves?: {
    readonly first: readonly string[]
    readonly second: readonly string[]
    readonly rating: number
    readonly curve: Curve
  }
}

/** What holds for every trial at one branch. */
interface Trial {
  readonly machine: Machine
  readonly assumed: Assumed
  /** Lowest currents, the supply's limit left out. */
  readonly x: Extreme
  readonly index: number
  /** The branch's own load and what all draw together, A; what the weakest conductor carries. */
  readonly load: number
  readonly all: number
  readonly carries: number
}

/** A branch as it might be, in the place of the one that is. */
const plannedAs = ({ x, index, machine, assumed }: Trial, branch: Branch) => {
  const alone = lowest({ ...machine, branches: [branch] }, Infinity, assumed).plant.branches[0]
  if (alone === undefined) throw new RangeError(`no branch ${branch.id}`)
  return { x, b: { ...alone, index } }
}

/** Would it certainly open at its farthest ends, with this much limit (that of the machine, if none is given)? */
const opens = (t: Trial, branch: Branch, limit?: number, others = t.x.others): boolean => {
  const { band, missing } = deviceOf(branch.protection, t.assumed.within)
  if (missing.length > 0 || band.opens === Infinity) return false
  const { x, b } = plannedAs(t, branch)
  const lasting = limit !== undefined || lasts(t.machine, band.seconds)
  const low: Extreme = { ...x, others, limit: limit ?? limitsOf(t.machine, band.seconds).low }
  const ends = b.wiring.runs.map(({ run }, i) => currentAt(low, b, i, run.length))
  return [currentAtTerminals(low, b), ...ends].every(c => c.ampere >= band.opens && (lasting || !c.limited))
}

const breakerFor = (t: Trial, b: Branch): Advice['breaker'] => {
  for (const rating of RATINGS) {
    if (rating < t.load || rating > t.carries) continue
    for (const curve of CURVES) if (opens(t, { ...b, protection: { kind: 'breaker', rating, curve } })) return { rating, curve }
  }
  return undefined
}

const areaFor = (t: Trial, b: Branch): number | undefined => {
  const most = Math.max(...(b.wiring ?? []).map(run => areaOf(run.conductor) ?? 0))
  const rewired = (area: number): Branch => ({ ...b, wiring: (b.wiring ?? []).map(run => ({ ...run, conductor: { area } })) })
  return AREAS.filter(area => area > most).find(area => opens(t, rewired(area)))
}

/** Opening current at the far end, and on top what all other branches draw. */
const supplyFor = (t: Trial, b: Branch): number | undefined => {
  const { band } = deviceOf(b.protection, t.assumed.within)
  const needed = Math.ceil(band.opens + t.all - t.load)
  return band.opens < Infinity && opens(t, b, needed) ? needed : undefined
}

/** Above the load, and below what conductor, supply and the loop to the farthest end allow. */
const electronicFor = (t: Trial, b: Branch): Advice['electronic'] => {
  const limit = t.machine.supply.limit?.current ?? t.machine.supply.ratedCurrent
  if (limit === undefined) return undefined
  const here = plannedAs(t, b)
  const far = here.b.wiring.runs.map(({ run }, i) => currentAt(here.x, here.b, i, run.length).ampere)
  const most = Math.min(t.carries, limit - (t.all - t.load), ...far)
  return most > t.load ? { above: t.load, most } : undefined
}

/** Only the wiring that these loads need. */
const partOf = (b: Branch, loads: readonly Load[]): Branch => {
  const wiring = wiringOf(b)
  const needed = new Set(loads.flatMap(l => (l.at === TERMINALS ? [] : pathTo(wiring, l.at).map(p => p.run.id))))
  return { ...b, loads, wiring: (b.wiring ?? []).filter(run => needed.has(run.id)) }
}
const halvesFor = (t: Trial, b: Branch): Advice['halves'] => {
  const loads = [...(b.loads ?? [])].sort((x, y) => (y.watts ?? 0) - (x.watts ?? 0))
  if (loads.length < 2 || b.protection?.kind !== 'breaker') return undefined
  const ampere = (of: readonly Load[]) => of.reduce((sum, l) => sum + (l.watts ?? 0), 0) / RATED
  const [first, second]: [Load[], Load[]] = [[], []]
  for (const load of loads) (ampere(first) <= ampere(second) ? first : second).push(load)
  const rating = RATINGS.findLast(r => r >= Math.max(ampere(first), ampere(second)) && r <= t.carries)
  const [one, other] = [partOf(b, first), partOf(b, second)]
  if (rating === undefined || one.wiring?.length === 0 || other.wiring?.length === 0) return undefined
  const beside = (half: readonly Load[]) => [...t.x.others, { siemens: ampere(half) / RATED, ampere: 0 }]
  const curve = CURVES.find(curve => {
    const protection = { kind: 'breaker', rating, curve } as const
    return opens(t, { ...one, protection }, undefined, beside(second)) && opens(t, { ...other, protection }, undefined, beside(first))
  })
  return curve && { first: first.map(l => l.id), second: second.map(l => l.id), rating, curve }
}

/** For each branch whose device does not certainly open everywhere. Only what is found; nothing where figures are missing. */
export const advise = (machine: Machine, shielded: readonly Protected[], service: Service, assumed: Assumed = USUAL): readonly Advice[] => {
  const x = lowest(machine, Infinity, assumed)
  return machine.branches.map((b, index): Advice => {
    const [served, verdict] = [service.branches[index], shielded[index]?.inTime]
    const areas = (b.wiring ?? []).map(run => areaOf(run.conductor) ?? Number.NaN)
    const carries = areas.length === 0 ? undefined : capacityOf(Math.min(...areas), assumed.ambient)
    if (verdict === undefined || verdict.opens === 'always' || carries === undefined || !served?.told) return { branch: b.id }
    const t: Trial = { machine, assumed, x, index, load: served.ampere, all: service.ampere, carries }
    const found = {
      breaker: breakerFor(t, b),
      area: areaFor(t, b),
      supply: supplyFor(t, b),
      electronic: electronicFor(t, b),
      halves: halvesFor(t, b),
    }
    return { branch: b.id, ...Object.fromEntries(Object.entries(found).filter(([, one]) => one !== undefined)) }
  })
}
