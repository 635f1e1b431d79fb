// A long random walk through sessions on large invented machines: answers of every kind, under the onlooker's eyes. Most sessions have a
// planner that knows nothing (`roam.ts`), a share of them the planner as it is, whose steps take hundreds of times as long.
import type { Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import type { Session } from '../../web/flow/request.ts'
import { advance, begin } from '../../web/flow/session.ts'
import { invent } from '../bench/invent.ts'
import { type Chance, chance, seedOf } from '../bench/random.ts'
import { answersTo } from './answers.ts'
import { KITS } from './anyStep.ts'
import { trail } from './follow.ts'
import { type Ground, groundOf, type Roamed, roam } from './roam.ts'
import { atStart, away, leaves, takenBack, type Watched, watch, wrongWith } from './watch.ts'

export interface Wandered {
  readonly steps: number
  readonly sessions: number
  /** Steps and sessions of them with the planner as it is. */
  readonly planned: { readonly steps: number; readonly sessions: number }
  /** States that differ in what the rules and the onlooker see. */
  readonly states: number
  readonly requests: number
  readonly refused: number
  readonly ends: Readonly<Record<string, number>>
  readonly undone: number
  readonly wrong: readonly string[]
}
export interface Wandering {
  readonly low: number
  readonly high: number
  /** One in so many sessions has the planner as it is. */
  readonly every: number
}

const SYMPTOMS: readonly Symptom[] = [
  'all-dead',
  'all-low',
  'one-branch-dead',
  'one-load-dead',
  'trips-again',
  'dead-at-start',
  'comes-and-goes',
]
/** Longer sessions than this are left where they are. */
const LONGEST = 150
/** Shares of steps: the answer that brings a session on, taken back, handed over or stopped; the rest is any answer at all. */
const SMOOTH = 0.7
const BACK = 0.06
const LEAVE = 0.01
/** So many sessions are on the same machine where the planner knows nothing. */
const SAME = 20
/** Taken up again after a long while; other tools at hand. */
const AWAY = 0.02
const TOOLS = 0.02

interface Stand {
  readonly session: Session
  readonly watched: Watched
}

/** One session with the planner as it is, of at most `longest` events. */
const planned = (machine: Machine, luck: Chance, longest: number): Roamed => {
  const wrong: string[] = []
  let [steps, undone] = [0, 0]
  const first = begin({ type: 'started', machine, kit: luck.pick(KITS), symptom: luck.pick(SYMPTOMS) })
  const stack: Stand[] = [{ session: first, watched: atStart }]
  for (; steps < longest; steps++) {
    const { session, watched } = stack.at(-1) as Stand
    const { request } = session
    for (const what of wrongWith(watched, request, machine, session.kit)) wrong.push(`${what} after ${trail(session.events)}`)
    const back = luck.yes(BACK) ? stack.at(-2) : undefined
    if (back !== undefined) {
      stack.splice(-2, 2, { session: advance(session, { type: 'undone' }), watched: takenBack(watched, back.watched) })
      undone++
    } else if (request.say === 'end') {
      return { steps: steps + 1, undone, refused: 0, requests: steps + 1, end: request.result, wrong }
    } else if (luck.yes(AWAY)) {
      stack.splice(-1, 1, { session: advance(session, { type: 'resumed' }), watched: away(watched) })
    } else if (luck.yes(TOOLS)) {
      stack.push({ session: advance(session, { type: 'kit', kit: luck.pick(KITS) }), watched })
    } else if (luck.yes(LEAVE)) {
      const type = luck.pick(['handedOver', 'stopped'] as const)
      stack.push({ session: advance(session, { type }), watched: leaves(watched) })
    } else {
      const answers = answersTo(session)
      const answer = luck.yes(SMOOTH) ? answers[0] : luck.pick(answers)
      if (answer === undefined) throw new Error(`nothing to answer to ${request.say}`)
      stack.push({ session: advance(session, { type: 'answered', n: request.n, answer }), watched: watch(watched, request, answer) })
    }
  }
  return { steps, undone, refused: 0, requests: steps, end: undefined, wrong }
}

/** `steps` events, each on a session of one of `low` to `high` branches. The seed decides everything. */
export const wander = (
  steps: number,
  seed: number,
  { low, high, every }: Wandering,
  tell: (steps: number) => void = () => {},
): Wandered => {
  const ends: Record<string, number> = {}
  const wrong: string[] = []
  const seen = new Set<string>()
  const own = { steps: 0, sessions: 0 }
  let ground: Ground | undefined
  let [taken, sessions, undone, requests, refused] = [0, 0, 0, 0, 0]
  while (taken < steps && wrong.length < 10) {
    const one = seedOf(seed, sessions++)
    const luck = chance(one)
    const invented = (): Machine =>
      invent(one, { branches: luck.whole(low, high), fault: luck.pick(['short', 'open', 'other'] as const) }).machine
    const longest = Math.min(LONGEST, steps - taken)
    if (ground === undefined || sessions % SAME === 1) ground = groundOf(invented())
    const hasPlan = sessions % every === 0
    const walked = hasPlan ? planned(invented(), luck, longest) : roam(ground, luck, longest, seen)
    if (hasPlan) own.sessions++
    if (hasPlan) own.steps += walked.steps
    taken += walked.steps
    undone += walked.undone
    requests += walked.requests
    refused += walked.refused
    const end = walked.end ?? 'left open'
    ends[end] = (ends[end] ?? 0) + 1
    wrong.push(...walked.wrong.map(what => `seed ${one}: ${what}`))
    tell(taken)
  }
  return { steps: taken, sessions, planned: own, states: seen.size, requests, refused, ends, undone, wrong }
}
