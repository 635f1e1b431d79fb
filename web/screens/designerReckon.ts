// Everything that the designer's page shows, reckoned once from the machine.
import { type Advice, advise } from '../../engine/advice.ts'
import { type Along, along } from '../../engine/along.ts'
import type { Branch, Machine } from '../../engine/machine.ts'
import { type PowerStep, type PowerUp, powerUp } from '../../engine/powerup.ts'
import { type Protected, protectionOf } from '../../engine/protection.ts'
import { type Guarded, guardOf, type Served, type Service, serviceOf } from '../../engine/service.ts'
import type { Entry } from '../flow/request.ts'
import { words } from '../words.ts'

export interface Row {
  readonly branch: Branch
  readonly found: Protected
  readonly served: Served
  readonly guarded: Guarded
  readonly advice: Advice
  readonly way?: Along
  readonly closes: PowerStep
}
export interface Reckoned {
  readonly rows: readonly Row[]
  readonly service: Service
  readonly up: PowerUp
}

export const reckon = (machine: Machine): Reckoned => {
  const shielded = protectionOf(machine)
  const service = serviceOf(machine)
  const guards = guardOf(machine, shielded)
  const advices = advise(machine, shielded, service)
  const up = powerUp(machine)
  const rows = machine.branches.flatMap((branch, i): Row[] => {
    const [found, served, guarded, advice] = [shielded[i], service.branches[i], guards[i], advices[i]]
    const step = up.steps.find(s => s.branch === branch.id)
    if (!found || !served || !guarded || !advice || !step) return []
    const way = along(machine, branch.id)
    return [{ branch, found, served, guarded, advice, closes: step, ...(way && { way }) }]
  })
  return { rows, service, up }
}

const RAILS = { plus: ['supply.plus', 'bus.plus'], zero: ['supply.zero', 'bus.zero'] } as const
/** The latest reading of the supply while it stood: a sound supply has 20.4 to 28.8 V (IEC 61131-2:2007 5.1.1). */
export const measuredVolts = (entries: readonly Entry[]): number | undefined =>
  entries
    .flatMap(({ request, answer }) => {
      if (request.say !== 'step' || request.step.kind !== 'read' || request.step.meter !== 'volt' || !('value' in answer)) return []
      const { red, black } = request.step
      const rails = RAILS.plus.some(p => p === red) && RAILS.zero.some(z => z === black)
      const { value } = answer
      return rails && typeof value === 'number' && value >= 20.4 && value <= 28.8 ? [value] : []
    })
    .at(-1)

/** What would open, in sentences; nothing where the device opens everywhere. */
export const changesOf = ({ found, advice }: Row): readonly string[] => {
  if (found.inTime.opens === 'always') return []
  const { adviceWords, noAdvice } = words().protection
  const ways = adviceWords(advice)
  return ways.length > 0 ? ways : [noAdvice]
}

const tidy = (x: number | undefined): number | undefined => (x === undefined || !Number.isFinite(x) ? undefined : Number(x.toPrecision(4)))

/** The same as a table, one row a branch, in the order of `columns`. */
export const csvRows = ({ rows }: Reckoned): readonly (readonly (string | number | undefined)[])[] =>
  rows.map(row => {
    const { deviceWords, guardWords, missingWords, verdictWords } = words().protection
    const { branch, found, served, guarded, closes } = row
    const { atOnce, inTime, length } = found
    const certain = atOnce.opens === 'always' || atOnce.opens === 'up to' ? atOnce.upTo : undefined
    // A farthest end that is reached is no place past which it stays closed.
    const never = atOnce.opens === 'not known' || atOnce.neverPast >= length - 0.01 ? undefined : atOnce.neverPast
    return [
      branch.id,
      deviceWords(branch.protection),
      served.told || (branch.wiring ?? []).length > 0 ? tidy(length) : undefined,
      verdictWords(atOnce, length),
      tidy(certain),
      tidy(never),
      verdictWords(inTime, length),
      tidy(atOnce.band.holds === 0 ? undefined : atOnce.band.holds),
      tidy(inTime.band.opens),
      tidy(atOnce.figures.lowFar),
      tidy(atOnce.figures.highNear),
      [missingWords(atOnce), missingWords(inTime)].filter((text, i, all) => text !== '' && all.indexOf(text) === i).join(' '),
      served.told ? tidy(served.ampere) : undefined,
      served.last?.load,
      served.told ? tidy(served.last?.volts) : undefined,
      served.told ? tidy(served.last?.drop) : undefined,
      guardWords(guarded),
      tidy(guarded.carries),
      changesOf(row).join(' '),
      closes.group + 1,
      tidy(closes.wait),
      tidy(closes.peak),
    ]
  })
