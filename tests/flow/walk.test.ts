// Every state of a session of a few small machines that a few answers of every kind can lead to, under the eyes of an onlooker.
import { expect, test } from 'vitest'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { advance, begin } from '../../web/flow/session.ts'
import { answersTo } from './answers.ts'
import { INJECTOR, known, METER, three, trees, unknown } from './machines.ts'
import { atStart, takenBack, type Watched, watch, wrongWith } from './watch.ts'

/** How often a path may leave the usual: refuse, take back, or answer with what an undisturbed hunt would not give. */
const ODD = 1 + Number(process.env['WALK_ODD'] ?? 0)
/** Answers beyond the table's own length of path, for a walk that may take minutes: `WALK_DEEPER=20 WALK_ODD=1`. */
const DEEPER = Number(process.env['WALK_DEEPER'] ?? 0)

interface Node {
  readonly session: Session
  readonly watched: Watched
  readonly before?: Node
  readonly odd: number
  readonly depth: number
}

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
    session.belief.map(b => Math.round(4 * b.p)),
    { ...watched, live: Math.round(watched.live / 15) },
  ])

const undone = (node: Node, { watched, before }: Node): Node => ({
  session: advance(node.session, { type: 'undone' }),
  watched: takenBack(node.watched, watched),
  odd: node.odd + 1,
  depth: node.depth + 1,
  ...(before === undefined ? {} : { before }),
})
/** The answers that led to a state, to be read in a failure. */
const trail = ({ session }: Node): string => session.events.map(e => (e.type === 'answered' ? JSON.stringify(e.answer) : e.type)).join(' ')

interface Walk {
  readonly states: number
  readonly transitions: number
  readonly wrong: readonly string[]
  readonly stages: ReadonlySet<string>
  readonly results: ReadonlySet<string>
  readonly acts: ReadonlySet<string>
}
const walk = (machine: Machine, kit: Kit, symptom: Symptom, longest: number): Walk => {
  const start: Node = { session: begin({ type: 'started', machine, kit, symptom }), watched: atStart, odd: 0, depth: 0 }
  const seen = new Set([keyOf(start)])
  const wrong: string[] = [],
    stages = new Set<string>(),
    results = new Set<string>(),
    acts = new Set<string>()
  const queue: Node[] = [start]
  let transitions = 0
  // Breadth first, so that each state is met on its shortest path. The list grows while it is gone through.
  for (const node of queue) {
    const { session, watched, depth } = node
    const { request } = session
    stages.add(session.stage)
    if (request.say === 'end') results.add(request.result)
    if (request.say === 'step' && request.step.kind === 'act') acts.add(request.step.act.act)
    for (const what of wrongWith(watched, request, machine, kit)) wrong.push(`${what} at ${bare(request)} after ${trail(node)}`)
    if (depth >= longest || wrong.length > 20) continue
    const answers = answersTo(session)
    const next: Node[] = answers.map((given, i) => ({
      session: advance(session, { type: 'answered', n: request.n, answer: given }),
      watched: watch(watched, request, given),
      // The first few are what a hunt runs on: done, a low or a sound reading, every look, found or not found.
      odd: node.odd + (usual(session, i) ? 0 : 1),
      depth: depth + 1,
      before: node,
    }))
    if (node.before !== undefined) next.push(undone(node, node.before))
    transitions += next.length
    for (const one of next) {
      if (one.odd > ODD) continue
      const key = keyOf(one)
      if (seen.has(key)) continue
      seen.add(key)
      queue.push(one)
    }
  }
  return { states: seen.size, transitions, wrong, stages, results, acts }
}
const usual = (session: Session, i: number): boolean => {
  const { request } = session
  if (request.say !== 'step') return i === 0
  const { step } = request
  if (step.kind === 'look') return i < answersTo(session).length - 1
  if (step.kind === 'finding') return i < 2
  return step.kind === 'read' && (step.meter === 'ohm' || session.positions.injector !== undefined) ? i < 2 : i === 0
}

// No path is followed past `longest` answers: that is one hunt to its end, with a refusal, an answer taken back or an odd one on the way.
test.each([
  { name: 'two branched branches, injector', machine: trees, kit: INJECTOR, symptom: 'all-dead', longest: 17 },
  { name: 'two branches, wiring known, one trips', machine: known, kit: METER, symptom: 'trips-again', longest: 14 },
  { name: 'three branches, wiring known', machine: three, kit: METER, symptom: 'all-dead', longest: 16 },
  { name: 'three branches, wiring unknown', machine: unknown, kit: METER, symptom: 'all-dead', longest: 18 },
] as const)(
  'no reachable state breaks a rule: $name',
  ({ name, machine, kit, symptom, longest }) => {
    const { states, transitions, wrong, stages, results, acts } = walk(machine, kit, symptom, longest + DEEPER)
    process.stdout.write(`${name}: ${states} states, ${transitions} transitions within ${longest + DEEPER} answers, ${ODD} of them odd\n`)
    expect(wrong).toEqual([])
    expect([...results].sort()).toEqual(['handed-over', 'restored', 'stopped'])
    if (kit.injector !== undefined) expect(acts).toContain('inject')
    expect([...stages].sort()).toEqual(
      ['briefing', 'checking', 'checkingSupply', 'closing', 'locating', 'mending', 'narrowing', 'provingDead', 'restoring'].sort(),
    )
  },
  90_000,
)
