// A long random walk through sessions on large invented machines: the planner as it is, answers of every kind, under the onlooker's eyes.
import type { Kit } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import type { Session } from '../../web/flow/request.ts'
import { advance, begin } from '../../web/flow/session.ts'
import { invent } from '../bench/invent.ts'
import { chance, seedOf } from '../bench/random.ts'
import { answersTo } from './answers.ts'
import { trail } from './follow.ts'
import { atStart, away, leaves, takenBack, type Watched, watch, wrongWith } from './watch.ts'

export interface Wandered {
  readonly steps: number
  readonly sessions: number
  readonly ends: Readonly<Record<string, number>>
  readonly undone: number
  readonly wrong: readonly string[]
}

const KITS: readonly Kit[] = [
  {},
  { clamp: true },
  { injector: { ampere: 1, volts: 24 } },
  { clamp: true, injector: { ampere: 4, volts: 24 } },
]
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
/** Taken up again after a long while. */
const AWAY = 0.02

interface Stand {
  readonly session: Session
  readonly watched: Watched
}

/** `steps` events, each on a session of one of `branches.low` to `branches.high` branches. The seed decides everything. */
export const wander = (steps: number, seed: number, branches: { readonly low: number; readonly high: number }): Wandered => {
  const ends: Record<string, number> = {}
  const wrong: string[] = []
  let taken = 0,
    sessions = 0,
    undone = 0
  while (taken < steps && wrong.length < 10) {
    const own = seedOf(seed, sessions++)
    const luck = chance(own)
    const { machine } = invent(own, {
      branches: luck.whole(branches.low, branches.high),
      fault: luck.pick(['short', 'open', 'other'] as const),
    })
    const kit = luck.pick(KITS)
    const stack: Stand[] = [{ session: begin({ type: 'started', machine, kit, symptom: luck.pick(SYMPTOMS) }), watched: atStart }]
    for (let length = 0; length < LONGEST && taken < steps; length++) {
      const { session, watched } = stack.at(-1) as Stand
      const { request } = session
      for (const what of wrongWith(watched, request, machine, kit)) wrong.push(`seed ${own}: ${what} after ${trail(session.events)}`)
      taken++
      const back = luck.yes(BACK) ? stack.at(-2) : undefined
      if (back !== undefined) {
        stack.splice(-2, 2, { session: advance(session, { type: 'undone' }), watched: takenBack(watched, back.watched) })
        undone++
      } else if (request.say === 'end') {
        ends[request.result] = (ends[request.result] ?? 0) + 1
        break
      } else if (luck.yes(AWAY)) {
        stack.splice(-1, 1, { session: advance(session, { type: 'resumed' }), watched: away(watched) })
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
  }
  return { steps: taken, sessions, ends, undone, wrong }
}
