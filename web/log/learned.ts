// What earlier sessions at a machine found, as the start of a new one keeps it.
import type { Learned } from '../../engine/history.ts'
import { digest } from './digest.ts'
import { findingsOf } from './facts.ts'
import type { Log } from './log.ts'
import { MOST_LEARNED } from './shape.ts'

/** A machine of which only the branches were counted has an id of its count alone: two of them need not be the same machine. */
const COUNTED = /^unknown-\d+$/

/** Nobody waits longer than this for sessions that were never looked at, in milliseconds; what is not taken by then counts the next time. */
const PATIENCE = 1500

/** Confirmed findings at a machine, own and imported, alike ones together and the most frequent first; none where nothing was found. */
export const learnedOf = async (log: Log, machine: string): Promise<readonly Learned[]> => {
  if (COUNTED.test(machine)) return []
  const here = (await log.sessions()).filter(({ machineId }) => machineId === machine)
  const from = performance.now()
  await digest(log, here, () => performance.now() - from < PATIENCE)
  const times = new Map<string, Learned>()
  for (const { machine: _, ...finding } of findingsOf((await log.sessions()).filter(({ machineId }) => machineId === machine))) {
    const key = JSON.stringify([finding.fault, finding.branch, finding.run, finding.load])
    times.set(key, { ...finding, times: (times.get(key)?.times ?? 0) + 1 })
  }
  return [...times.values()].sort((a, b) => b.times - a.times).slice(0, MOST_LEARNED)
}
