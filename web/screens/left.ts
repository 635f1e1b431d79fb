import { COST } from '../../engine/cost.ts'
import type { Session } from '../flow/request.ts'

/** What is left to search: the likeliest places that hold this share of the belief together. */
const HELD = 0.95

export interface Left {
  /** Metres of wiring, whole ones; nothing where a branch that is still suspect has no wiring known. */
  readonly metres?: number
  readonly branches: number
  readonly minutes: number
}

/**
 * How far the hunt has come: the fewest places that hold 95 of 100 of what is suspected in the branches, their metres, and the
 * minutes it takes if nothing but going along half of it helped (seconds of the step table); readings shorten it. Nothing outside the hunt.
 */
export const leftOf = (session: Session): Left | undefined => {
  const { request, suspects, finding } = session
  if (finding || request.say !== 'step' || suspects.length === 0) return undefined
  const all = suspects.reduce((sum, { p }) => sum + p, 0)
  let held = 0
  let metres = 0
  let unknown = 0
  const branches = new Set<string>()
  for (const { branch, run, load, alongRun, p } of suspects) {
    if (held > HELD * all) break
    held += p
    branches.add(branch)
    const { wiring } = session.machine.branches.find(({ id }) => id === branch) ?? {}
    const whole = wiring?.find(({ id }) => id === run)?.length ?? 0
    if (alongRun) metres += Math.min(alongRun.high - alongRun.low, whole)
    else if (run !== undefined) metres += whole
    else if (load === undefined && !wiring?.length) unknown += 1
  }
  const inCabinet = unknown * (COST.device + COST.readInCabinet)
  const seconds = request.seconds + COST.goAndLook + (metres * COST.metre + inCabinet) / 2
  const rounded = Math.max(1, Math.round(metres))
  return { ...(unknown > 0 ? {} : { metres: rounded }), branches: branches.size, minutes: Math.max(1, Math.round(seconds / 60)) }
}
