// What is known before anything is read, beyond the symptom: the machine's own log of findings, and which branch or load is out.
import type { Shares } from './fault.ts'
import {
  type Cell,
  countsOf,
  deviceCells,
  groupOf,
  type Learned,
  learned,
  shareFromLog,
  shortCells,
  suspicionCells,
  WORTH,
} from './history.ts'
import { IN_LOAD, isOverload, type Places, TO_EARTH } from './place.ts'
import type { Plant } from './plant.ts'
import type { FaultKind } from './step.ts'
import type { Suspicion } from './suspicion.ts'
import { pathTo } from './wiring.ts'

/** Ids as in the machine file; a load stands with its branch. */
export interface Known {
  readonly learned?: readonly Learned[]
  readonly branch?: string
  readonly load?: string
}

/** What of the prior came from the log. */
export interface FromLog {
  /** Confirmed findings that count in this search. */
  readonly findings: number
  /** 0 to 1. */
  readonly share: number
}

/** The prior's parts with what is known worked in. Every kind of fault keeps the weight that the symptom gives it. */
export interface Leaning {
  readonly suspicions: readonly Suspicion[]
  readonly places: (b: number, of: Places) => Places
  /** Share of 1 over all branches: that it is this one's device that is open. */
  readonly deviceOpen: (b: number) => number
  readonly fromLog: FromLog
}

/** The branch or load that a technician names is the one that is out, 97 times of 100: labels and drawings err (common practice, no source). */
const TOLD_RIGHT = 0.97

/** May this cell's fault be what puts the named branch or load out of service? */
const putsOut = (plant: Plant, { branch, load }: Known): ((cell: Cell) => boolean) => {
  const b = plant.branches[plant.indexOf.get(branch ?? '') ?? -1]
  if (b === undefined) return () => true
  const index = b.loads.findIndex(x => x.load.id === load)
  const at = b.loads[index]?.load.at
  const path = new Set(at === undefined ? [] : pathTo(b.wiring, at).map(({ run }) => run.id))
  return cell => {
    // Another supply puts nothing out of service, wherever it feeds.
    if (cell.kind === 'backfeed') return true
    if (cell.branch !== b.index) return false
    // A short circuit anywhere in the branch opens the device, and then this load is out like the others.
    if (index < 0 || groupOf(cell.kind) === 'short') return true
    if (cell.load !== undefined) return cell.load === index
    return cell.run === undefined || path.has(b.wiring.runs[cell.run]?.run.id ?? '')
  }
}

const sum = (of: readonly number[]): number => of.reduce((total, x) => total + x, 0)

/** How many times as likely each cell of a group has become. */
const factors = (plant: Plant, cells: readonly Cell[], known: Known): { readonly of: readonly number[]; readonly findings: number } => {
  const prior = cells.map(cell => cell.prior)
  const { cells: counts } = countsOf(plant, cells, known.learned ?? [])
  const findings = sum(counts)
  const total = sum(prior)
  const shares = findings === 0 ? prior.map(p => p / total) : learned(prior, counts, WORTH)
  const fits = cells.map(putsOut(plant, known))
  const right = sum(shares.filter((_, k) => fits[k]))
  // Nothing is told apart where the name fits every cell, or none.
  const isTold = right > 0 && fits.includes(false)
  const times = (k: number): number => (!isTold ? 1 : fits[k] ? TOLD_RIGHT / right : (1 - TOLD_RIGHT) / (1 - right))
  const of = prior.map((p, k) => ((findings === 0 && !isTold) || p === 0 ? 1 : ((shares[k] ?? 0) * times(k) * total) / p))
  return { of, findings: Math.round(findings) }
}

const key = (branch: number, kind: FaultKind, item = -1): string => `${branch} ${kind} ${item}`

export const leaningOf = (plant: Plant, shares: Shares, suspicions: readonly Suspicion[], known: Known): Leaning => {
  const { learned: log = [], branch: told } = known
  if (log.length === 0 && told === undefined) {
    const even = 1 / plant.branches.length
    return { suspicions, places: (_, of) => of, deviceOpen: () => even, fromLog: { findings: 0, share: 0 } }
  }
  const all: readonly Cell[] = [...shortCells(plant), ...deviceCells(plant), ...suspicionCells(plant, suspicions)]
  const mass = (group: string): number => {
    if (group === 'short') return shares.short + shares.shortTripped + shares.flicker
    return group === 'device-open' ? shares.deviceOpen : sum(suspicions.filter(s => groupOf(s.fault) === group).map(s => s.prior))
  }
  const times = new Map<string, number>()
  let [findings, share] = [0, 0]
  for (const group of new Set(all.map(cell => groupOf(cell.kind)))) {
    const cells = all.filter(cell => groupOf(cell.kind) === group)
    const { of, findings: own } = factors(plant, cells, known)
    cells.forEach(({ branch, kind, run, load }, k) => {
      times.set(key(branch, kind, run ?? load), of[k] ?? 1)
    })
    findings += own
    share += mass(group) * shareFromLog([own], WORTH)
  }
  const factor = (branch: number, kind: FaultKind, item?: number): number => times.get(key(branch, kind, item)) ?? 1
  return {
    fromLog: { findings, share },
    suspicions: suspicions.map(s => (s.branch === undefined ? s : { ...s, prior: s.prior * factor(s.branch, s.fault, s.run ?? s.load) })),
    places: (b, of) => ({
      ...of,
      prior: of.prior.map((p, j) => {
        const kind = isOverload(of, j)
          ? 'overload'
          : of.kind[j] === IN_LOAD
            ? 'load-short'
            : of.kind[j] === TO_EARTH
              ? 'short-to-earth'
              : 'short-to-zero'
        return p * factor(b, kind, of.item[j])
      }),
    }),
    deviceOpen: b => factor(b, 'device-open') / plant.branches.length,
  }
}
