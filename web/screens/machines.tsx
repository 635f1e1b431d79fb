import './machines.css'
import { useEffect, useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import type { KeptMachine, Log } from '../log/log.ts'
import { machineOf } from '../machines/code.ts'
import { copyOf, countedMachine } from '../machines/edit.ts'
import { machineIdFor } from '../machines/ids.ts'
import { isOther, plain } from '../machines/keep.ts'
import type { Table } from '../machines/table.ts'
import { problemWords, words } from '../words.ts'
import { type Editing, MachineEdit } from './machineEdit.tsx'
import { MachineLabel } from './machineLabel.tsx'
import { MachineList, type Opened } from './machineList.tsx'
import { MachineNew } from './machineNew.tsx'
import { MachineOne } from './machineOne.tsx'
import { Scan } from './machineScan.tsx'
import { MachineTable } from './machineTable.tsx'
import { MachineTwice } from './machineTwice.tsx'

interface MachinesProps {
  readonly log: Log
  readonly leave: () => void
  /** Starts a session at a machine. */
  readonly go: (machine: Machine) => void
  readonly resume: (id: string) => void
  /** A machine that came in and differs from the one kept under its id. */
  readonly twice?: Machine | undefined
}
type View =
  | { at: 'list'; problem?: string }
  | { at: 'new' }
  | { at: 'scan'; problem?: string }
  | { at: 'table'; table: Table; name: string }
  | { at: 'twice'; machine: Machine }
  | { at: 'one' | 'label'; id: string }
  | { at: 'edit'; id: string; editing: Editing }

/** Where the log keeps what is half-typed here; sessions have ids of another form. */
const DRAFT = 'machines'
/** Only what this screen wrote itself comes back; anything else is no draft. */
const editingFrom = (text: string): { id: string; editing: Editing } | undefined => {
  try {
    const { id, editing } = JSON.parse(text) as { id?: unknown; editing?: Editing }
    return typeof id === 'string' && editing?.form !== undefined ? { id, editing } : undefined
  } catch {
    return undefined
  }
}
/** The machines on this phone: to start from, describe, hand on. */
export const Machines = ({ log, leave, go, resume, twice }: MachinesProps) => {
  const [kept, setKept] = useState<readonly KeptMachine[] | undefined>()
  const [view, setView] = useState<View>(twice ? { at: 'twice', machine: twice } : { at: 'list' })
  const [problem, setProblem] = useState('')
  const { machines: say } = words()
  const load = async () => {
    const all = await log.machines()
    setKept(all.toSorted((a, b) => a.name.localeCompare(b.name)))
    return all
  }
  useEffect(() => {
    Promise.all([load(), log.draft(DRAFT)]).then(
      ([all, draft]) => {
        const left = editingFrom(draft)
        if (!twice && left && all.some(({ id }) => id === left.id)) setView({ at: 'edit', ...left })
      },
      e => setProblem(problemWords(e)),
    )
  }, [log])
  const list = (told?: string) => setView({ at: 'list', ...(told === undefined ? {} : { problem: told }) })
  const ids = (kept ?? []).map(({ id }) => id)
  /** Says so, and gives false, where the phone refused it: nothing is shown as stored that is not. */
  const store = async (machine: KeptMachine): Promise<boolean> => {
    try {
      await log.saveMachine(machine)
      await load()
      setProblem('')
      return true
    } catch (e) {
      setProblem(problemWords(e))
      return false
    }
  }
  const storeAndShow = (machine: Machine) => void store(machine).then(stored => stored && setView({ at: 'one', id: machine.id }))
  /** A machine from outside: what is here under the same id is never replaced unasked. */
  const takeIn = (machine: Machine) => {
    if (isOther(kept ?? [], machine)) setView({ at: 'twice', machine })
    else storeAndShow(machine)
  }
  const opened = (file: Opened) => {
    if ('problem' in file) list(file.problem)
    else if ('table' in file) setView({ at: 'table', ...file })
    else takeIn(file.machine)
  }
  const byHand = (text: string) => {
    const wanted = text.trim().toLowerCase()
    const found = kept?.find(({ id, name }) => id.toLowerCase() === wanted || name.toLowerCase() === wanted)
    setView(found ? { at: 'one', id: found.id } : { at: 'scan', problem: say.notHere(text) })
  }
  const draft = (id: string, editing: Editing) => {
    log.saveDraft(DRAFT, editing.form ? JSON.stringify({ id, editing }) : '').catch(e => setProblem(problemWords(e)))
  }
  const told = problem && (
    <p role="alert" class="problem">
      {problem}
    </p>
  )
  const of = 'id' in view ? kept?.find(({ id }) => id === view.id) : undefined
  const screen = () => {
    switch (view.at) {
      case 'new':
        return <MachineNew back={list} go={(name, count) => storeAndShow(countedMachine(machineIdFor(name, ids), name, count))} />
      case 'scan':
        return (
          <>
            {view.problem && (
              <p role="alert" class="problem">
                {view.problem}
              </p>
            )}
            <Scan
              kind="machine"
              back={list}
              byHand={byHand}
              done={bytes => void machineOf(bytes).then(read => (read.ok ? takeIn(read.value) : list(problemWords(read.message))))}
            />
          </>
        )
      case 'table':
        return <MachineTable table={view.table} name={view.name} take={takeIn} back={list} />
      case 'twice':
        return (
          <MachineTwice
            machine={view.machine}
            replace={() => storeAndShow(view.machine)}
            both={() => storeAndShow(copyOf(view.machine, machineIdFor(view.machine.id, ids), say.copyOf(view.machine.name)))}
            back={list}
          />
        )
      case 'list':
        return (
          <MachineList
            kept={kept ?? []}
            problem={view.problem}
            open={id => setView({ at: 'one', id })}
            make={() => setView({ at: 'new' })}
            scan={() => setView({ at: 'scan' })}
            opened={opened}
            leave={leave}
          />
        )
      case 'one': {
        if (!of) return null
        const machine = plain(of)
        return (
          <MachineOne
            log={log}
            machine={machine}
            retired={of.retired === true}
            start={() => go(machine)}
            resume={resume}
            describe={() => setView({ at: 'edit', id: of.id, editing: {} })}
            label={() => setView({ at: 'label', id: of.id })}
            copy={() => storeAndShow(copyOf(machine, machineIdFor(machine.name, ids), say.copyOf(machine.name)))}
            retire={retired => void store(retired ? { ...machine, retired } : machine).then(stored => stored && retired && list())}
            back={list}
          />
        )
      }
      case 'label':
        return of ? <MachineLabel machine={plain(of)} back={() => setView({ at: 'one', id: of.id })} /> : null
      case 'edit':
        return of ? (
          <MachineEdit
            machine={plain(of)}
            at={view.editing}
            moved={editing => draft(of.id, editing)}
            save={machine => store(of.retired ? { ...machine, retired: true } : machine)}
            back={() => setView({ at: 'one', id: of.id })}
          />
        ) : null
    }
  }
  return (
    <>
      {told}
      {screen()}
    </>
  )
}
