import type { Names } from '../../content/shared/types.ts'
import type { Branch, Load } from '../../engine/machine.ts'
import type { Step } from '../../engine/step.ts'
import type { Session } from '../flow/request.ts'

export const branchOf = (session: Session, id: string | undefined): Branch | undefined => session.machine.branches.find(b => b.id === id)
export const loadName = (load: Load | undefined): string | undefined => load?.name ?? load?.id

const pointBranch = (point: string): string | undefined => {
  const place = point.slice(0, Math.max(0, point.lastIndexOf('.'))).split('/')[0] ?? ''
  return ['', 'supply', 'bus'].includes(place) ? undefined : place
}
/** The junction or run that a point names, if it lies past the cabinet. */
export const pointNode = (point: string): string | undefined => point.slice(0, Math.max(0, point.lastIndexOf('.'))).split('/')[1]

/** The branch where the hands are in this step. */
export const workingBranch = (step: Step | undefined): string | undefined => {
  if (!step) return undefined
  if (step.kind === 'finding') return step.finding.branch
  if (step.kind === 'act') return 'branch' in step.act ? step.act.branch : undefined
  if (step.kind === 'look') return step.look === 'device' ? step.branch : undefined
  return step.meter === 'amp' ? step.branch : (pointBranch(step.red) ?? pointBranch(step.black))
}

/** What the machine file says of the things a step names. */
export const namesFor = (session: Session, step: Step): Names => {
  const branch = branchOf(session, workingBranch(step))
  const runs = branch?.wiring ?? []
  const run =
    step.kind === 'act' && step.act.act === 'run'
      ? step.act.run
      : step.kind === 'read' && step.meter !== 'amp'
        ? pointNode(step.red)
        : undefined
  const near = runs.find(r => r.id === run)?.from
  const load = step.kind === 'act' && step.act.act === 'load' ? step.act.load : undefined
  const named = loadName(branch?.loads?.find(l => l.id === load))
  return {
    runs: runs.map(r => r.id),
    series: session.positions.injector !== undefined,
    ...(branch?.protection ? { device: branch.protection.kind } : {}),
    ...(near === undefined ? {} : { near }),
    ...(named === undefined ? {} : { load: named }),
  }
}
