import { stepHow } from '../../content/en.ts'
import { cabinetAlt, supplyAlt, tipsAlt, treeAlt } from '../../content/en-drawings.ts'
import type { Branch } from '../../engine/machine.ts'
import type { Step } from '../../engine/step.ts'
import { Cabinet } from '../drawing/cabinet.tsx'
import { SupplyDrawing } from '../drawing/supply.tsx'
import { Tips } from '../drawing/tips.tsx'
import { Tree, type TreeProps } from '../drawing/tree.tsx'
import type { Session } from '../flow/request.ts'
import { branchOf, namesFor, pointNode, workingBranch } from './names.ts'

type Shown = Exclude<Step, { kind: 'finding' }>
const core = (point: string, node: string) =>
  (pointNode(point) === node ? (point.endsWith('.plus') ? 'plus' : 'zero') : undefined) as 'plus' | 'zero' | undefined

/** What the drawing of a step in the field adds to the branch's tree; nothing if the step is in the cabinet. */
const inField = (step: Shown): Partial<TreeProps> | undefined => {
  if (step.kind === 'act' && step.act.act === 'load') return { ringLoad: step.act.load }
  if (step.kind === 'act' && step.act.act === 'run') return { ringRun: step.act.run }
  if (step.kind !== 'read' || step.meter === 'amp') return undefined
  const node = pointNode(step.red) ?? pointNode(step.black)
  return node === undefined ? undefined : { probe: { node, red: core(step.red, node), black: core(step.black, node) } }
}
const fieldState = (session: Session, branch: Branch, step: Shown) => {
  const keys = (list: readonly string[]) => list.filter(k => k.startsWith(`${branch.id}/`)).map(k => k.slice(branch.id.length + 1))
  const opened = keys(session.positions.openedRuns)
  const unplugged = keys(session.positions.unplugged)
  if (step.kind === 'act' && step.act.act === 'run' && step.act.to === 'opened') opened.push(step.act.run)
  if (step.kind === 'act' && step.act.act === 'load' && step.act.to === 'unplugged') unplugged.push(step.act.load)
  return { openedRuns: opened, unplugged }
}

/** The drawing of a step: the supply, the cabinet, or the branch's wiring to scale. */
export const Scene = ({ session, step }: { session: Session; step: Shown }) => {
  const how = stepHow(step, namesFor(session, step))
  const { positions } = session
  if (step.kind === 'look' && step.look !== 'device')
    return <SupplyDrawing alt={supplyAlt(how)} on={positions.supply === 'on'} ring={step.look === 'supply-lamp' ? 'lamp' : 'mains'} />
  const act = step.kind === 'act' ? step.act : undefined
  if (act?.act === 'supply') return <SupplyDrawing alt={supplyAlt(how)} on={act.to === 'on'} lamp={act.to === 'on'} ring="switch" />
  if (act?.act === 'zero-leads') return <Tips alt={tipsAlt(how)} />
  const working = workingBranch(step)
  const branch = branchOf(session, working)
  const field = inField(step)
  if (field && branch?.wiring?.length)
    return <Tree alt={treeAlt(branch.id, branch.wiring, how)} branch={branch} {...fieldState(session, branch, step)} {...field} />
  const devices = { ...positions.devices }
  if (act?.act === 'device') devices[act.branch] = act.to
  const injecting =
    act?.act === 'inject' ? (act.into ?? 'zero') : step.kind === 'read' && step.meter === 'amp' ? positions.injector?.into : undefined
  const amp = step.kind === 'read' && step.meter === 'amp'
  const probes = step.kind === 'read' && step.meter !== 'amp' ? { red: step.red, black: step.black } : undefined
  return (
    <Cabinet
      alt={cabinetAlt(how)}
      branches={session.machine.branches.map(b => b.id)}
      working={working}
      devices={devices}
      fuses={session.machine.branches.filter(b => b.protection?.kind === 'fuse').map(b => b.id)}
      bus={act?.act === 'bus' ? act.to : positions.bus}
      bond={act?.act === 'bond' ? act.to : positions.bond}
      mode={step.kind === 'read' ? step.meter : undefined}
      red={probes?.red}
      black={probes?.black}
      source={injecting}
      clamp={amp && injecting === undefined}
      crop={step.kind === 'look'}
      three={act?.act === 'prove-dead'}
      ring={
        act?.act === 'device' || step.kind === 'look' ? 'device' : act?.act === 'bus' ? 'bus' : act?.act === 'bond' ? 'bond' : undefined
      }
    />
  )
}
