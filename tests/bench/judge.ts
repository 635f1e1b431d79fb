import type { Branch, Machine } from '../../engine/machine.ts'
import type { Finding, Interval } from '../../engine/step.ts'
import { type Fault, type Short, shortOf } from './truth.ts'

/** The technician looks this far past each end of the interval, and at least `LEAST_LOOK` metres in all. */
export const PAST_END = 0.5
export const LEAST_LOOK = 1

export interface Verdict {
  /** Branch and load, or run and interval, hold the fault; or the branch, where no more can be known. */
  readonly right: boolean
  /** The fault is found by it, even if only after walking the branch's whole wiring. */
  readonly found: boolean
  /** Does the interval as stated, without the half metre, hold the fault? Absent where there is nothing to judge. */
  readonly covered?: boolean
  /** Does it name the very run of the fault? With `covered` only. */
  readonly ownRun?: boolean
}
const WRONG: Verdict = { right: false, found: false }
// A short circuit that comes and goes is one too, and a load that takes too much may have one inside.
const SHORT_KINDS: readonly string[] = ['short-to-zero', 'short-to-earth', 'load-short', 'short', 'intermittent', 'overload']

const OPEN_KINDS: readonly string[] = ['open-plus', 'open-zero', 'poor-joint']
/** Whoever looks at a load for one of these sees the others there too. */
const LOAD_KINDS: readonly string[] = ['load-short', 'overload', 'swapped', 'diode']

/** Metres of wiring from the terminals to a run's near end. */
export const runStart = (branch: Branch, runId: string): number => {
  const run = branch.wiring?.find(r => r.id === runId)
  const before = branch.wiring?.find(r => r.to === run?.from)
  return before === undefined ? 0 : runStart(branch, before.id) + before.length
}

const intervalOf = (branch: Branch, finding: Finding, run: string, length: number): Interval => {
  if (finding.alongRun !== undefined) return finding.alongRun
  if (finding.fromTerminals === undefined) return { best: length / 2, low: 0, high: length }
  const start = runStart(branch, run)
  const { best, low, high } = finding.fromTerminals
  return { best: best - start, low: low - start, high: high - start }
}

/** Where the short circuit lies as seen along the named run; undefined where it is too far from it. */
const seenAlong = (branch: Branch, short: Extract<Short, { run: string }>, named: string): number | undefined => {
  if (short.run === named) return short.at
  const own = branch.wiring?.find(r => r.id === short.run)
  const other = branch.wiring?.find(r => r.id === named)
  if (own === undefined || other === undefined) return undefined
  for (const [junction, away] of [
    [own.from, short.at],
    [own.to, own.length - short.at],
  ] as const) {
    if (away > PAST_END) continue
    if (other.from === junction) return -away
    if (other.to === junction) return other.length + away
  }
  return undefined
}

const judgeShort = (machine: Machine, short: Short, finding: Finding, wiringKnown: boolean): Verdict => {
  if (!SHORT_KINDS.includes(finding.fault) || finding.branch !== short.branch) return WRONG
  if (finding.run === undefined && finding.load === undefined) return { right: !wiringKnown, found: true }
  if (short.kind === 'load-short') return finding.load === short.load ? { right: true, found: true } : WRONG
  if (finding.run === undefined) return WRONG
  const branch = machine.branches.find(b => b.id === short.branch)
  const run = branch?.wiring?.find(r => r.id === finding.run)
  if (branch === undefined || run === undefined) return WRONG
  const { low, high } = intervalOf(branch, finding, run.id, run.length)
  const more = Math.max(PAST_END, (LEAST_LOOK - (high - low)) / 2)
  const at = seenAlong(branch, short, run.id)
  const right = at !== undefined && at >= low - more && at <= high + more
  // A hundredth of a metre is how fine a fault's place is drawn.
  const covered = short.run === run.id && short.at >= low - 0.005 && short.at <= high + 0.005
  return { right, found: right, covered, ownRun: short.run === run.id }
}

/** `wiringKnown`: did the wizard's machine file show this branch's wiring? */
export const judge = (machine: Machine, fault: Fault, finding: Finding, wiringKnown: boolean): Verdict => {
  const short = shortOf(fault)
  if (short !== undefined) return judgeShort(machine, short, finding, wiringKnown)
  if ('load' in fault) {
    const right = LOAD_KINDS.includes(finding.fault) && finding.branch === fault.branch && (finding.load === fault.load || !wiringKnown)
    return { right, found: right }
  }
  // Too much all together, or at once: whoever adds up the loads for one sees the other.
  if (fault.kind === 'in-rush' || fault.kind === 'overload') {
    const right = finding.branch === undefined && (finding.fault === 'in-rush' || finding.fault === 'overload')
    return { right, found: right }
  }
  // Whoever looks along a run for an open conductor sees which of the two it is, and a poor joint too.
  const same = OPEN_KINDS.includes(fault.kind) ? OPEN_KINDS.includes(finding.fault) : fault.kind === finding.fault
  const right =
    same &&
    ('branch' in fault ? fault.branch === finding.branch : fault.kind !== 'backfeed' || finding.branch === undefined) &&
    (!('run' in fault) || finding.run === undefined || finding.run === fault.run)
  return { right, found: right }
}
