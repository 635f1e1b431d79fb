// The planner as it is, followed through every state that a few answers of every kind lead to, under the eyes of the onlooker.
import { isDeepStrictEqual } from 'node:util'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import type { Request, Session, SessionEvent } from '../../web/flow/request.ts'
import { advance, begin, replay } from '../../web/flow/session.ts'
import { answersTo } from './answers.ts'
import { KITS } from './anyStep.ts'
import { atStart, away, leaves, takenBack, type Watched, watch, wrongWith } from './watch.ts'

export interface Setup {
  readonly name: string
  readonly machine: Machine
  readonly kit: Kit
  readonly symptom: Symptom
  /** Answers of the longest path. */
  readonly longest: number
  /** How often a path may leave the usual: refuse, take back, hand over, or answer with what an undisturbed hunt would not give. */
  readonly odd: number
  /** States after which the walk stops. */
  readonly most: number
}
interface Node {
  readonly session: Session
  readonly watched: Watched
  readonly before?: Node
  readonly odd: number
  readonly depth: number
}
export interface Followed {
  readonly states: number
  readonly transitions: number
  readonly resumed: number
  readonly whole: boolean
  readonly wrong: readonly string[]
  readonly stages: ReadonlySet<string>
  readonly results: ReadonlySet<string>
  readonly acts: ReadonlySet<string>
}

/** Every so many states the session is taken up again from its events over JSON, and must be the same. */
const RESUMED_EVERY = 25
const MOST_WRONG = 20

const bare = (request: Request): string => {
  if (request.say === 'confirm') return `confirm ${request.caution} ${JSON.stringify(request.acts)}`
  if (request.say !== 'step') return request.say === 'end' ? `end ${request.result}` : request.say
  const { step } = request
  return step.kind === 'finding' ? `finding ${step.finding.fault} ${step.finding.branch} ${step.finding.load}` : JSON.stringify(step)
}
/** States alike in all that the rules and the next request depend on, belief in quarters, count as one. */
const keyOf = ({ session, watched, odd }: Node): string =>
  JSON.stringify([
    odd,
    bare(session.request),
    session.stage,
    session.power,
    session.positions,
    session.energised,
    session.kit,
    session.belief.map(b => Math.round(4 * b.p)),
    { ...watched, live: Math.round(watched.live / 15) },
  ])

/** The answers that led to a state, to be read in a failure. */
export const trail = (events: readonly SessionEvent[]): string =>
  events.map(e => (e.type === 'answered' ? JSON.stringify(e.answer) : e.type)).join(' ')

/** The first few answers are what a hunt runs on: done, a low or a sound reading, every look, found or not found. */
const usual = (session: Session, i: number): boolean => {
  const { request } = session
  if (request.say !== 'step') return i === 0
  const { step } = request
  if (step.kind === 'look') return i < answersTo(session).length - 1
  if (step.kind === 'finding') return i < 2
  return step.kind === 'read' && (step.meter === 'ohm' || session.positions.injector !== undefined) ? i < 2 : i === 0
}

const successors = (node: Node): Node[] => {
  const { session, watched, before, odd, depth } = node
  const { request } = session
  const next: Node[] = answersTo(session).map((given, i) => ({
    session: advance(session, { type: 'answered', n: request.n, answer: given }),
    watched: watch(watched, request, given),
    odd: odd + (usual(session, i) ? 0 : 1),
    depth: depth + 1,
    before: node,
  }))
  if (request.say !== 'end') {
    const session = advance(node.session, { type: 'resumed' })
    next.push({ ...node, session, watched: away(watched), odd: odd + 1, depth: depth + 1 })
    for (const kit of KITS)
      next.push({ session: advance(node.session, { type: 'kit', kit }), watched, odd: odd + 1, depth: depth + 1, before: node })
    for (const type of ['handedOver', 'stopped'] as const)
      next.push({ session: advance(session, { type }), watched: leaves(watched), odd: odd + 1, depth: depth + 1, before: node })
  }
  if (before !== undefined)
    next.push({
      session: advance(session, { type: 'undone' }),
      watched: takenBack(watched, before.watched),
      odd: odd + 1,
      depth: depth + 1,
      ...(before.before === undefined ? {} : { before: before.before }),
    })
  return next
}

/** All that a screen shows of a session, as plain data. */
const shown = ({ request, kit, positions, power, stage, belief, seconds, entries, energised }: Session): unknown =>
  JSON.parse(JSON.stringify({ request, kit, positions, power, stage, belief, seconds, entries, energised }))
const resumes = (session: Session): boolean => {
  const events = JSON.parse(JSON.stringify(session.events)) as SessionEvent[]
  return isDeepStrictEqual(shown(replay(events)), shown(session))
}

export const follow = ({ machine, kit, symptom, longest, odd, most }: Setup): Followed => {
  const start: Node = { session: begin({ type: 'started', machine, kit, symptom }), watched: atStart, odd: 0, depth: 0 }
  const seen = new Set([keyOf(start)])
  const wrong: string[] = [],
    stages = new Set<string>(),
    results = new Set<string>(),
    acts = new Set<string>()
  const queue: Node[] = [start]
  let transitions = 0
  let resumed = 0
  let visited = 0
  // Breadth first, so that each state is met on its shortest path. The list grows while it is gone through.
  for (const node of queue) {
    if (wrong.length > MOST_WRONG || visited >= most) break
    const { session, watched, depth } = node
    const { request } = session
    visited++
    stages.add(session.stage)
    if (request.say === 'end') results.add(request.result)
    if (request.say === 'step' && request.step.kind === 'act') acts.add(request.step.act.act)
    for (const what of wrongWith(watched, request, machine, session.kit))
      wrong.push(`${what} at ${bare(request)} after ${trail(session.events)}`)
    if (visited % RESUMED_EVERY === 0) {
      resumed++
      if (!resumes(session)) wrong.push(`not the same session when taken up again, after ${trail(session.events)}`)
    }
    if (depth >= longest) continue
    const next = successors(node)
    transitions += next.length
    for (const one of next) {
      if (one.odd > odd) continue
      const key = keyOf(one)
      if (seen.has(key)) continue
      seen.add(key)
      queue.push(one)
    }
  }
  return { states: visited, transitions, resumed, whole: visited === queue.length, wrong, stages, results, acts }
}
