import { useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import { TERMINALS } from '../../engine/wiring.ts'
import { TREE, Tree } from '../drawing/tree.tsx'
import { type Refusal, type Spot, without } from '../machines/edit.ts'
import type { Texts } from '../machines/fields.ts'
import { first, words } from '../words.ts'
import { MachineForm } from './machineForm.tsx'
import { Sure } from './sure.tsx'
import { Title } from './title.tsx'

/** Where in the description of a machine somebody is: the list of branches, one branch, or a form with what was typed so far. */
export interface Editing {
  readonly branch?: number | undefined
  readonly form?: { readonly spot: Spot; readonly texts?: Texts } | undefined
}
interface EditProps {
  readonly machine: Machine
  /** Where it was left when the app was closed. */
  readonly at: Editing
  /** Told after each step and each letter. */
  readonly moved: (now: Editing) => void
  /** Resolves once it is stored. */
  readonly save: (machine: Machine) => Promise<boolean>
  readonly back: () => void
}

/** The description of a machine: its branches, and of each its device, runs and loads; one thing at a time. */
export const MachineEdit = ({ machine, at: left, moved, save, back }: EditProps) => {
  const [at, setAt] = useState<Editing>(left)
  const [wrong, setWrong] = useState<readonly Refusal[]>([])
  const { machines: say } = words()
  const go = (now: Editing) => {
    setAt(now)
    moved(now)
    setWrong([])
  }
  const named = (place: string) => (place === TERMINALS ? say.choices.terminals : place)
  const form = (spot: Spot) => go({ ...at, form: { spot } })
  const listed = { branch: at.branch }
  if (at.form) {
    const { spot, texts } = at.form
    const added = spot.item === 'branch' && spot.branch === undefined
    return (
      <MachineForm
        machine={machine}
        spot={spot}
        typed={texts}
        keep={now => moved({ ...at, form: { spot, texts: now } })}
        save={changed => void save(changed).then(stored => stored && go(added ? { branch: machine.branches.length } : listed))}
        back={() => go(listed)}
      />
    )
  }
  const branch = at.branch === undefined ? undefined : machine.branches[at.branch]
  if (at.branch === undefined || branch === undefined)
    return (
      <main class="place">
        <Title text={say.describe(machine.name)} step="machine-edit" />
        <div class="rows">
          <button type="button" class="answer" onClick={() => form({ item: 'machine' })}>
            {say.change.machine}
          </button>
          <button type="button" class="answer" onClick={() => form({ item: 'supply' })}>
            {say.change.supply}
          </button>
          {machine.branches.map(({ id, name, wiring = [], loads = [] }, i) => (
            <button type="button" class="answer two" key={id} onClick={() => go({ branch: i })}>
              {name ? `${id} · ${name}` : id}
              <small>{say.holds(wiring.length, loads.length)}</small>
            </button>
          ))}
          <button type="button" class="answer" onClick={() => form({ item: 'branch' })}>
            {say.add.branch}
          </button>
        </div>
        <div class="actions">
          <button type="button" class="primary" onClick={back}>
            {say.described}
          </button>
        </div>
      </main>
    )
  const chosen = at.branch
  const takeOut = () => {
    const left = without(machine, { item: 'branch', branch: chosen })
    if (left.ok) void save(left.value).then(stored => stored && go({}))
    else setWrong(left.wrong)
  }
  return (
    <main class="place">
      <Title text={say.branch(branch.id, branch.name)} step={`branch-${branch.id}`} />
      {wrong.map(({ key, found, why }) => (
        <p key={key} role="alert" class="problem">
          {say.wrong[why](say.fields.id.name, found, '')}
        </p>
      ))}
      {branch.wiring && branch.wiring.length > 0 && (
        <Tree branch={branch} height={TREE.usual} alt={words().drawings.treeAlt(branch.id, branch.wiring, '')} />
      )}
      <div class="rows">
        <button type="button" class="answer" onClick={() => form({ item: 'branch', branch: chosen })}>
          {say.change.branch}
        </button>
        {branch.wiring?.map(({ id, from, to, length }, index) => (
          <button type="button" class="answer two" key={id} onClick={() => form({ item: 'run', branch: chosen, index })}>
            {say.run(id, first().figures.round(length, 2))}
            <small>{say.ends(named(from), to)}</small>
          </button>
        ))}
        <button type="button" class="answer" onClick={() => form({ item: 'run', branch: chosen })}>
          {say.add.run}
        </button>
        {branch.loads?.map(({ id, name, at: place }, index) => (
          <button type="button" class="answer two" key={id} onClick={() => form({ item: 'load', branch: chosen, index })}>
            {name && name !== id ? `${id} · ${name}` : id}
            <small>{say.hangsAt(named(place))}</small>
          </button>
        ))}
        <button type="button" class="answer" onClick={() => form({ item: 'load', branch: chosen })}>
          {say.add.load}
        </button>
      </div>
      <div class="actions">
        <button type="button" class="primary" onClick={() => go({})}>
          {say.allBranches}
        </button>
        <nav>
          <Sure label={say.takeBranchOut} title={say.sureOut(branch.id)} text={say.outForGood} go={takeOut} />
        </nav>
      </div>
    </main>
  )
}
