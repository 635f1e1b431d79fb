// A voltage stays though the supply is off: which branch does another supply feed? Voltages only, the supply off all the time.
import type { Belief, Shared } from './belief.ts'
import { costOf } from './cost.ts'
import { type Plan, possible, type Situation } from './plan.ts'
import type { Finding, Read, Step } from './step.ts'
import { keyOf, toDead } from './way.ts'

/** From here on another supply is looked for before anything else; and from here on its branch counts as known (bars of the project's own). */
const LOOKED_FOR = 0.05
/** Once the reading branch by branch has begun it is not left off before each is read that may still be fed (a bar of the project's own). */
const BEGUN = 0.005
const KNOWN = 0.75

const volts = (place: string): Read => ({ kind: 'read', meter: 'volt', red: `${place}.plus`, black: `${place}.zero` })

/** Of the other supply: the branch that it feeds, or the bus itself. */
interface Fed {
  readonly id: string | undefined
  readonly w: number
}

/**
 * Devices are opened in groups of the square root of their number, the bus read after each: of n branches that costs least where
 * opening a device is a few seconds and a reading twice that. Past an opened device the branches of the last group are read.
 */
export const otherSupply = (belief: Belief, shared: Shared, s: Situation): Plan | Finding | undefined => {
  if (s.positions.supply !== 'off' || s.positions.injector !== undefined) return undefined
  const fed = belief.suspicions.flatMap(({ fault, branch }, i): Fed[] =>
    fault === 'backfeed' ? [{ id: belief.plant.branches[branch ?? -1]?.id, w: shared.suspected[i] as number }] : [],
  )
  const total = fed.reduce((sum, x) => sum + x.w, 0)
  const begun = fed.some(({ id }) => id !== undefined && s.positions.devices[id] !== 'closed' && s.taken.has(keyOf(volts(id))))
  const proved = s.power === 'provedDead'
  if (total < (begun || proved ? BEGUN : LOOKED_FOR)) return undefined
  const list = fed.map(({ id, w }) => ({ id, w: w / total })).sort((x, y) => y.w - x.w)
  const plan = (steps: readonly Step[], key: string, facts: Plan['why']['facts']): Plan => ({
    steps,
    expected: steps.reduce((sum, x) => sum + costOf(belief.plant, x), 0),
    why: { key, facts },
  })
  const [first] = list
  const at = first?.id === undefined ? {} : { branch: first.id }
  const finding: Finding = { fault: 'backfeed', ...at, probability: (first?.w ?? 0) * total }
  if (first !== undefined && first.w > KNOWN && total > (proved ? LOOKED_FOR : 0) && possible(s, [{ kind: 'finding', finding }]))
    return finding
  const inBranch = list.flatMap(({ id, w }) => (id === undefined || w <= 1e-3 ? [] : [{ id, w }]))
  const isClosed = ({ id }: { readonly id: string }): boolean => s.positions.devices[id] === 'closed'
  const shut = inBranch.filter(isClosed)
  const open = inBranch.filter(x => !isClosed(x))
  const atBus = list.some(({ id, w }) => id === undefined && w > 1e-3)
  const single = open.map(x => volts(x.id)).find(read => !s.taken.has(keyOf(read)) && possible(s, [read]))
  const sum = (of: readonly { readonly w: number }[]): number => of.reduce((all, x) => all + x.w, 0)
  // Proved at the bus, a branch is not proved dead whose device was open then.
  if (proved) return single === undefined || total * sum(open) < BEGUN ? undefined : plan([single], 'other-supply-branch', {})
  if (single !== undefined && sum(open) > sum(shut)) return plan([single], 'other-supply-branch', {})
  // The last one too where the bus may be fed without any.
  if (shut.length > (atBus ? 0 : 1)) {
    const group = shut.slice(0, Math.ceil(Math.sqrt(shut.length)))
    const acts = group.map(({ id }): Step => ({ kind: 'act', act: { act: 'device', branch: id, to: 'open' } }))
    const steps: Step[] = [...acts, volts('bus')]
    if (possible(s, steps)) return plan(steps, 'other-supply', { count: group.length })
  }
  if (single !== undefined) return plan([single], 'other-supply-branch', {})
  // Whatever it was may have run empty meanwhile.
  return total > LOOKED_FOR && possible(s, toDead(s)) ? plan(toDead(s), 'prove-dead-again', {}) : undefined
}
