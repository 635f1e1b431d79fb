import type { Branch } from '../../engine/machine.ts'
import type { Step } from '../../engine/step.ts'
import { CABINET, Cabinet, FED } from '../drawing/cabinet.tsx'
import { GROUP, Group } from '../drawing/group.tsx'
import { shortIds } from '../drawing/strip.tsx'
import { SUPPLY, SupplyDrawing } from '../drawing/supply.tsx'
import { TIPS, Tips } from '../drawing/tips.tsx'
import { TREE, Tree, type TreeProps } from '../drawing/tree.tsx'
import type { Session } from '../flow/request.ts'
import { words } from '../words.ts'
import { branchOf, namesFor, pointNode, workingBranch } from './names.ts'
import { Picture } from './picture.tsx'

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

/** The drawing of a step: the supply, the cabinet, all devices at the buses, or the branch's wiring to scale. */
export const Scene = ({ session, step }: { session: Session; step: Shown }) => {
  const { drawings, steps } = words()
  const how = steps.stepHow(step, namesFor(session, step))
  const { positions, machine } = session
  if (step.kind === 'look' && step.look !== 'device')
    return (
      <Picture least={SUPPLY.least} most={SUPPLY.most}>
        {height => (
          <SupplyDrawing
            alt={drawings.supplyAlt(how)}
            on={positions.supply === 'on'}
            ring={step.look === 'supply-lamp' ? 'lamp' : 'mains'}
            height={height}
          />
        )}
      </Picture>
    )
  const act = step.kind === 'act' ? step.act : undefined
  if (act?.act === 'supply')
    return (
      <Picture least={act.to === 'on' ? SUPPLY.least : SUPPLY.locked} most={SUPPLY.most}>
        {height => (
          <SupplyDrawing alt={drawings.supplyAlt(how)} on={act.to === 'on'} lamp={act.to === 'on'} ring="switch" height={height} />
        )}
      </Picture>
    )
  if (act?.act === 'zero-leads')
    return (
      <Picture least={TIPS} most={TIPS}>
        {() => <Tips alt={drawings.tipsAlt(how)} />}
      </Picture>
    )
  const working = workingBranch(step)
  const branch = branchOf(session, working)
  const field = inField(step)
  if (field && branch?.wiring?.length)
    return (
      <Picture least={TREE.least} most={TREE.most}>
        {height => (
          <Tree
            alt={drawings.treeAlt(branch.id, branch.wiring ?? [], how)}
            branch={branch}
            height={height}
            {...fieldState(session, branch, step)}
            {...field}
          />
        )}
      </Picture>
    )
  const ids = machine.branches.map(b => b.id)
  const probes = step.kind === 'read' && step.meter !== 'amp' ? { red: step.red, black: step.black } : undefined
  if (step.kind === 'read' && step.meter !== 'amp' && probes?.red === 'bus.plus' && probes.black === 'bus.zero') {
    const names = shortIds(ids)
    const states = ids.map(id => positions.devices[id] ?? 'closed')
    const closed = ids.filter((_, i) => states[i] === 'closed')
    return (
      <Picture least={GROUP.least} most={GROUP.most}>
        {height => (
          <Group
            alt={drawings.groupAlt(how, closed, ids.length)}
            names={names}
            states={states}
            height={height}
            mode={step.meter}
            words={drawings.closedWords(ids.length)}
          />
        )}
      </Picture>
    )
  }
  const devices = { ...positions.devices }
  if (act?.act === 'device') devices[act.branch] = act.to
  const amp = step.kind === 'read' && step.meter === 'amp'
  const injecting = act?.act === 'inject' ? (act.into ?? 'zero') : amp ? positions.injector?.into : undefined
  const ring = act?.act === 'device' || step.kind === 'look' ? 'device' : act?.act === 'bus' || act?.act === 'bond' ? act.act : undefined
  const crop = step.kind === 'look'
  return (
    <Picture least={crop ? CABINET.crop : amp && injecting ? FED : CABINET.least} most={crop ? CABINET.crop : CABINET.most}>
      {height => (
        <Cabinet
          alt={drawings.cabinetAlt(how)}
          height={height}
          branches={ids}
          working={working}
          devices={devices}
          fuses={machine.branches.filter(b => b.protection?.kind === 'fuse').map(b => b.id)}
          bus={act?.act === 'bus' ? act.to : positions.bus}
          bond={act?.act === 'bond' ? act.to : positions.bond}
          mode={step.kind === 'read' ? step.meter : undefined}
          red={probes?.red}
          black={probes?.black}
          source={injecting}
          clamp={amp && injecting === undefined}
          crop={crop}
          three={act?.act === 'prove-dead'}
          ring={ring}
        />
      )}
    </Picture>
  )
}
