// The machine at full load: what each branch draws, what is left at its last load, and whether device or supply protects the conductor.
import { ADIABATIC, areaOf, bears, capacityOf } from './capacity.ts'
import { farEnd } from './circuit.ts'
import { gather, through } from './ladder.ts'
import type { Machine, Protection } from './machine.ts'
import { CABINET, voltsOf } from './plant.ts'
import { type Assumed, type Extreme, FIRST, hold, inService, lowest, meet, USUAL } from './prospect.ts'
import type { Protected } from './protection.ts'

/** 24 V less 15 %, V: IEC 61131-2:2007 5.1.1. */
export const LEAST_VOLTS = 20.4
/** Of the rated voltage, from the supply to the load: IEC 60364-5-52 Table G.52.1; IEC 60204-1 12.5 has the same figure (from memory). */
export const MOST_DROP = 0.05

export interface Served {
  readonly branch: string
  /** Through the device, A, with every load on. */
  readonly ampere: number
  /** The load that gets least, the volts that it gets, and what is lost on the way from the supply's output. */
  readonly last?: { readonly load: string; readonly volts: number; readonly drop: number }
  /** False: wiring, conductor or a load's power is not told, so the figures rest on stand-ins. */
  readonly told: boolean
}
export interface Service {
  readonly branches: readonly Served[]
  /** All together, A, and whether that is more than the supply gives. */
  readonly ampere: number
  readonly overloaded: boolean
}

/** Every load on, as in `x`. */
export const fullLoad = (machine: Machine, x: Extreme): Service => {
  const ports = x.plant.branches.map(b => through(gather(inService(x.plant, b)), b.deviceOhm, CABINET.zeroLink))
  const [g, j] = [ports.reduce((sum, p) => sum + p.across, 0), ports.reduce((sum, p) => sum - p.plus, 0)]
  const { volts, limited } = meet(x.volts, x.limit, g, j)
  const branches = x.plant.branches.map((b, i): Served => {
    const port = ports[i]
    const ampere = port === undefined ? 0 : port.across * volts - port.plus
    const l = inService(x.plant, b)
    hold(l, volts - ampere * (b.deviceOhm + CABINET.zeroLink), ampere)
    const fed = b.loads.map(({ load, run }) => {
      const node = farEnd(FIRST, run)
      return { load: load.id, volts: (l.plus[node] as number) - (l.zero[node] as number) }
    })
    const last = fed.sort((a, z) => a.volts - z.volts)[0]
    const branch = machine.branches[i]
    const told =
      !b.wiring.unknown &&
      (branch?.wiring ?? []).every(r => r.conductor !== undefined) &&
      (branch?.loads ?? []).every(l => l.watts !== undefined)
    return { branch: b.id, ampere, told, ...(last === undefined ? {} : { last: { ...last, drop: voltsOf(machine) - last.volts } }) }
  })
  return { branches, ampere: branches.reduce((sum, b) => sum + b.ampere, 0), overloaded: limited }
}
/** At full load with conductors at their hottest and highest resistance; the supply's limit left out, so that its overload shows. */
export const serviceOf = (machine: Machine, assumed: Assumed = USUAL): Service => {
  const limit = machine.supply.limit?.current ?? machine.supply.ratedCurrent ?? Infinity
  const found = fullLoad(machine, lowest(machine, Infinity, assumed))
  return { ...found, overloaded: found.ampere > limit }
}

export interface Guarded {
  readonly branch: string
  /** Whether the weakest conductor is protected, and by what. */
  readonly is: 'by the device' | 'by the supply' | 'no' | 'not known'
  readonly run?: string
  readonly area?: number
  /** A that it carries for good. */
  readonly carries?: number
  /** Largest current of a short circuit, A, and the seconds for which the conductor bears it; more than 5 s counts as 5. */
  readonly short?: { readonly ampere: number; readonly bears: number; readonly opensIn: number }
}

/** Times the rating at which a device opens by its conventional time: IEC 60898-1 Table 7, IEC 60947-2 Table 6, IEC 60127-2, UL 248-14. */
const conventional = (protection: Protection): number | undefined => {
  if (protection.kind === 'breaker') return protection.standard === 'IEC 60947-2' ? 1.3 : protection.curve === 'Z' ? undefined : 1.45
  if (protection.kind === 'fuse') return protection.fuse === 'F' ? 2.1 : protection.fuse === 'UL' ? 1.35 : undefined
  return undefined
}

/** Overload: rating ≤ capacity, and 1.45 × capacity opens it (IEC 60364-4-43 433.1, number from memory). */
const byDevice = (protection: Protection, carries: number): boolean | undefined => {
  const { rating, dataSheet } = protection
  if (dataSheet !== undefined) return dataSheet.carries <= carries && dataSheet.opens <= 1.45 * carries
  if (protection.kind === 'none') return false
  if (rating === undefined) return undefined
  if (rating > carries) return false
  const times = conventional(protection)
  return times === undefined ? undefined : times * rating <= 1.45 * carries
}

/** Device, conductor and supply together, branch by branch. */
export const guardOf = (machine: Machine, shielded: readonly Protected[], assumed: Assumed = USUAL): readonly Guarded[] =>
  machine.branches.map(({ id, wiring = [], protection }, i): Guarded => {
    const conductors = wiring.map(run => ({ run: run.id, area: areaOf(run.conductor) }))
    const unknown = conductors.length === 0 || conductors.some(c => c.area === undefined)
    const weakest = conductors.sort((a, z) => (a.area ?? 0) - (z.area ?? 0))[0]
    const carries = weakest?.area === undefined ? undefined : capacityOf(weakest.area, assumed.ambient)
    const limit = machine.supply.limit?.current
    if (unknown || weakest?.area === undefined || carries === undefined)
      return { branch: id, is: 'not known', ...(weakest && { run: weakest.run }) }
    const verdict = shielded[i]?.atOnce
    const ampere = verdict?.figures.highNear ?? Infinity
    const opensIn = verdict?.opens === 'always' ? verdict.seconds : Infinity
    const common = {
      branch: id,
      run: weakest.run,
      area: weakest.area,
      carries,
      short: { ampere, bears: Math.min(ADIABATIC, bears(weakest.area, ampere)), opensIn },
    }
    const device = protection === undefined ? undefined : byDevice(protection, carries)
    if (device) return { ...common, is: 'by the device' }
    // A supply that can give no more than the conductor carries protects it (IEC 60364-4-43 436, number from memory).
    if (limit !== undefined && limit <= carries) return { ...common, is: 'by the supply' }
    return { ...common, is: device === false && limit !== undefined ? 'no' : 'not known' }
  })
