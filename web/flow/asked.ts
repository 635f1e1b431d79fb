// The question as the log keeps it, and back.
import { branchOfPoint } from '../../engine/circuit.ts'
import { costOf } from '../../engine/cost.ts'
import { branchOf } from '../../engine/plant.ts'
import type { Answer, Finding, Point, Step } from '../../engine/step.ts'
import type { Hunt } from './hunt.ts'
import type { Asked, Request, Session, SessionEvent } from './request.ts'

const askedOf = (request: Request): Asked | undefined => {
  switch (request.say) {
    case 'step':
      return request.step
    case 'confirm':
      return { kind: 'confirm', caution: request.caution, acts: request.acts }
    case 'mend':
      return { kind: 'mend', finding: request.finding }
    case 'end':
      return undefined
  }
}

/** The event that an answer to the session's request makes. */
export const answerTo = ({ request }: Session, answer: Answer): SessionEvent => {
  const asked = askedOf(request)
  return { type: 'answered', n: request.n, answer, ...(asked === undefined ? {} : { asked }) }
}

type Named = Pick<Finding, 'branch' | 'run' | 'load'>
const needBranch = ({ plant }: Hunt, { branch, run, load }: Named): void => {
  if (branch === undefined) return
  const b = branchOf(plant, branch)
  if (run !== undefined && !b.wiring.runs.some(r => r.run.id === run)) throw new RangeError(`no run ${run} in branch ${branch}`)
  if (load !== undefined && !b.loads.some(l => l.load.id === load)) throw new RangeError(`no load ${load} in branch ${branch}`)
}
const needPoint = ({ plant }: Hunt, point: Point): void => {
  const branch = branchOfPoint(point)
  const [, where, core] = /^[^/]*?(?:\/(.*))?\.(plus|zero)$/.exec(point) ?? []
  if (point === 'earth') return
  if (core === undefined) throw new RangeError(`not a point: ${point}`)
  const wiring = branch === undefined ? undefined : branchOf(plant, branch).wiring
  if (where !== undefined && !wiring?.arriving.has(where) && !wiring?.runs.some(r => r.run.id === where))
    throw new RangeError(`no such point in branch ${branch}: ${point}`)
}
/** Throws where the machine has no such branch, run, load or point: a log of this machine never asked about it. */
const need = (h: Hunt, asked: Asked | Step): void => {
  switch (asked.kind) {
    case 'confirm':
      for (const act of asked.acts) need(h, act)
      return
    case 'finding':
    case 'mend':
      needBranch(h, asked.finding)
      return
    case 'act':
      needBranch(h, asked.act as Named)
      return
    case 'look':
      needBranch(h, asked as Named)
      return
    case 'read':
      if (asked.meter === 'amp') needBranch(h, asked)
      else for (const point of [asked.red, asked.black]) needPoint(h, point)
  }
}

const requestOf = (h: Hunt, asked: Asked): Request => {
  const { n } = h.request
  need(h, asked)
  switch (asked.kind) {
    case 'confirm':
      return { say: 'confirm', n, caution: asked.caution, acts: asked.acts }
    case 'mend':
      return { say: 'mend', n, finding: asked.finding }
    default:
      return { say: 'step', n, seconds: costOf(h.plant, asked), step: asked, why: { key: 'recorded', facts: {} } }
  }
}

const sorted = (_: string, x: unknown): unknown =>
  typeof x === 'object' && x !== null && !Array.isArray(x) ? Object.fromEntries(Object.entries(x).sort(([a], [b]) => (a < b ? -1 : 1))) : x
/** Fields that were in a file may stand in another order. */
const textOf = (asked: Asked | undefined): string => JSON.stringify(asked, sorted) ?? ''

/**
 * The hunt as it was when this was asked. Mostly that is what stands there now; where this version would ask for something else, the
 * log is right, and what was planned is dropped. Throws where the machine has not what was asked about.
 */
export const asAsked = (h: Hunt, asked: Asked | undefined): Hunt =>
  asked === undefined || textOf(askedOf(h.request)) === textOf(asked) ? h : { ...h, request: requestOf(h, asked), ahead: [] }
