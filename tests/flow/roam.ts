// Steps of chance on large machines under a planner that knows nothing: the flow's own guards, answers, ways out, ways back and undos,
// with no search for a good step, so that a step costs little. What is believed is one of two beliefs at each step, by chance: with a
// short circuit suspected, or without. `wander.ts` walks the same machines with the planner as it is.
import { createHash } from 'node:crypto'
import type { Belief } from '../../engine/belief.ts'
import { emptyChain } from '../../engine/chain.ts'
import type { Machine } from '../../engine/machine.ts'
import type { Answer, Finding, Step } from '../../engine/step.ts'
import { answered } from '../../web/flow/answered.ts'
import { breach, decide, leaveAs } from '../../web/flow/decide.ts'
import { equipped, type Hunt, leftAlone, startOf } from '../../web/flow/hunt.ts'
import { keptOf } from '../../web/flow/session.ts'
import type { Chance } from '../bench/random.ts'
import { answersTo } from './answers.ts'
import { bare, byItself, isOnMains, KITS, MEND, settled, stepsOf, told } from './anyStep.ts'
import { atStart, away, leaves, takenBack, type Watched, watch, wrongWith } from './watch.ts'

export interface Roamed {
  readonly steps: number
  readonly undone: number
  readonly refused: number
  readonly requests: number
  readonly end: string | undefined
  readonly wrong: readonly string[]
}
interface Stand {
  readonly hunt: Hunt
  readonly watched: Watched
}

/** Shares of steps: the answer that brings a session on, taken back, handed over, left alone for long, other tools. */
const SHARES = { smooth: 0.7, back: 0.06, leave: 0.01, away: 0.02, tools: 0.02 } as const
/** So many requests are tried in a state; each is judged, and the first that is let through is answered. */
const TRIED = 4
/** Only as much of each branch as the rules see of it: a run and a load. Lengths and trees are for the planner, and cost time. */
const bareOf = (machine: Machine): Machine => ({
  ...machine,
  branches: machine.branches.map(({ wiring = [], loads = [], ...branch }) => {
    const run = wiring.find(({ from }) => from === 'terminals')
    if (run === undefined) return branch
    return { ...branch, wiring: [{ ...run, length: 2 }], loads: loads.slice(0, 1).map(load => ({ ...load, at: run.to })) }
  }),
})

/** Places a branch keeps in the beliefs here: what is weighed is thrown away. */
const FEW = 2

const thin = (belief: Belief, other: number): Belief => ({
  ...belief,
  other,
  suspicions: belief.suspicions.slice(0, FEW),
  suspected: belief.suspected.slice(0, FEW),
  branches: belief.branches.map(({ places, chain, outside, walked, flicker, ...own }) => {
    const { at, atSd, ohm, ohmSd, prior, kind, item } = places
    const count = Math.min(FEW, places.count)
    const cut = <T extends Float64Array | Int32Array | Uint8Array>(of: T): T => of.slice(0, count) as T
    return {
      ...own,
      places: {
        count,
        at: cut(at),
        atSd: cut(atSd),
        ohm: cut(ohm),
        ohmSd: cut(ohmSd),
        prior: cut(prior),
        kind: cut(kind),
        item: cut(item),
      },
      chain: emptyChain(count, chain.dims, chain.spread, cut(chain.atSd), cut(chain.ohmSd)),
      outside: cut(outside),
      walked: cut(walked),
      flicker: cut(flicker),
    }
  }),
})
/** Of each branch a finding of its wiring, its load and its device; and those of the supply's side. */
const findingsOf = ({ branches }: Machine): Finding[] => [
  ...branches.flatMap(({ id: branch, wiring = [], loads = [] }): Finding[] => [
    { fault: 'short', branch, probability: 0.9 },
    { fault: 'device-open', branch, probability: 0.9 },
    ...wiring.slice(0, 1).map(({ id: run }): Finding => ({ fault: 'open-plus', branch, run, probability: 0.9 })),
    ...loads.slice(0, 1).map(({ id: load }): Finding => ({ fault: 'load-short', branch, load, probability: 0.9 })),
  ]),
  { fault: 'supply-dead', probability: 0.9 },
  { fault: 'no-mains', probability: 0.9 },
]

/** What is asked for at random: a bare step, one with its confirmation, or the mend. */
const tried = (h: Hunt, vocabulary: readonly Step[], luck: Chance): Hunt => {
  if (luck.yes(0.05)) return { ...h, request: MEND }
  const step = luck.pick(vocabulary)
  return luck.yes(0.5) ? bare(h, step) : decide({ ...h, ahead: luck.yes(0.3) ? [step, luck.pick(vocabulary)] : [step] })
}

/** What the sessions on one machine have in common. */
export interface Ground {
  readonly start: Hunt
  readonly beliefs: readonly Belief[]
  readonly vocabulary: readonly Step[]
}
export const groundOf = (whole: Machine): Ground => {
  const machine = bareOf(whole)
  const start = startOf(machine, {}, 'all-dead')
  const { belief } = start
  return {
    start,
    beliefs: [thin(belief, belief.other), thin(belief, 1000)],
    vocabulary: stepsOf(machine, () => true, findingsOf(machine)),
  }
}

/** One session of at most `longest` steps. `seen` collects a mark of each state that was met. */
export const roam = ({ start, beliefs, vocabulary }: Ground, luck: Chance, longest: number, seen: Set<string>): Roamed => {
  const { machine } = start
  const wrong: string[] = []
  let [steps, undone, refused, requests] = [0, 0, 0, 0]
  const trail: string[] = []
  const stack: Stand[] = [{ hunt: decide(equipped(start, luck.pick(KITS))), watched: atStart }]
  const judge = ({ watched }: Stand, h: Hunt): void => {
    requests++
    for (const what of wrongWith(watched, h.request, machine, h.kit)) wrong.push(`${what} after ${trail.join(' ')}`)
  }
  /** The request that is answered. On the way back the procedure goes on by itself, whatever else is tried there. */
  const asked = (at: Stand): Hunt => {
    const { hunt } = at
    const own = byItself(hunt)
    const follows = own !== undefined && (hunt.repair !== undefined || hunt.leaving !== undefined || !hunt.briefed || luck.yes(0.8))
    let next = follows ? settled(own) : undefined
    for (let i = 0; i < TRIED && hunt.briefed && hunt.leaving === undefined; i++) {
      const one = tried(hunt, vocabulary, luck)
      if (breach(one) !== undefined) refused++
      const way = settled(one)
      if (way === 'stuck') wrong.push(`no way out of ${told(one.request)} after ${trail.join(' ')}`)
      else if (way !== undefined) {
        judge(at, way)
        const onMains = way.request.say === 'step' && isOnMains(way.request.step)
        if (hunt.repair === undefined && !onMains && way.request.say !== 'mend') next ??= way
      }
    }
    return next === undefined || next === 'stuck' ? decide({ ...hunt, ahead: [{ kind: 'look', look: 'supply-lamp' }] }) : next
  }
  /** Readings are weighed by the flow; here all that counts is whether they are taken, refused or dangerous. */
  const answerFor = (h: Hunt): Answer => {
    const answers = answersTo(h)
    const [first] = answers
    if (first === undefined) throw new Error(`nothing to answer to ${h.request.say}`)
    return luck.yes(SHARES.smooth) ? first : luck.pick(answers)
  }
  for (; steps < longest && wrong.length === 0; steps++) {
    const top = stack.at(-1) as Stand
    const at: Stand = { ...top, hunt: { ...top.hunt, belief: luck.pick(top.hunt.pulses ? beliefs.slice(0, 1) : beliefs) } }
    const before = luck.yes(SHARES.back) ? stack.at(-2) : undefined
    const add = (hunt: Hunt, watched: Watched): void => void stack.push({ hunt, watched })
    if (before !== undefined) {
      undone++
      trail.push('undone')
      stack.splice(-2, 2, {
        hunt: { ...before.hunt, ...keptOf(at.hunt, before.hunt) },
        watched: takenBack(at.watched, before.watched),
      })
    } else if (luck.yes(SHARES.away)) {
      trail.push('resumed')
      stack.splice(-1, 1, { hunt: leftAlone(at.hunt), watched: away(at.watched) })
    } else if (luck.yes(SHARES.tools)) {
      trail.push('kit')
      add(equipped(at.hunt, luck.pick(KITS)), at.watched)
    } else if (luck.yes(SHARES.leave)) {
      trail.push('left')
      add(leaveAs(at.hunt, 'handed-over'), leaves(at.watched))
    } else {
      const hunt = asked(at)
      judge(at, hunt)
      const given = hunt.request.say === 'end' ? undefined : answerFor(hunt)
      if (given === undefined) return { steps: steps + 1, undone, refused, requests, end: hunt.result, wrong }
      trail.push(`${told(hunt.request)} ${JSON.stringify(given)}`)
      add(answered(hunt, given), watch(at.watched, hunt.request, given))
    }
    seen.add(markOf(stack.at(-1) as Stand))
    const { hunt: now, watched } = stack.at(-1) as Stand
    if (now.result !== undefined) {
      judge({ hunt: now, watched }, decide(now))
      return { steps: steps + 1, undone, refused, requests, end: now.result, wrong }
    }
  }
  return { steps, undone, refused, requests, end: undefined, wrong }
}

/** States alike in what the rules and the onlooker see have one mark. */
const markOf = ({ hunt: h, watched }: Stand): string =>
  createHash('sha1')
    .update(
      JSON.stringify([
        h.machine.id,
        h.machine.branches.length,
        h.positions,
        [h.provedDead, h.energised, h.liveSeconds, h.pulses, h.briefed, h.leaving, h.insists, h.still],
        [...h.unsure],
        [...h.covered],
        h.repair === undefined ? 0 : [h.repair.mended, h.repair.finding, [...h.repair.checked]],
        watched,
      ]),
    )
    .digest('base64')
    .slice(0, 12)
