import { useEffect, useState } from 'preact/hooks'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import { asksWhich, type Told } from '../flow/told.ts'
import type { Log } from '../log/log.ts'
import { first, onLanguage, problemWords, withWords } from '../words.ts'
import { BranchCount } from './branchCount.tsx'
import type * as HuntFile from './hunt.tsx'
import { KitScreen } from './kit.tsx'
import type * as MachinesFile from './machines.tsx'
import type * as PastFile from './past.tsx'
import type * as PhoneFile from './phone.tsx'
import type * as SettingsFile from './settings.tsx'
import { Start } from './start.tsx'
import { SymptomScreen } from './symptom.tsx'
import type * as TakeOverFile from './takeOver.tsx'
import type * as ToolFile from './tool.tsx'
import { useBack } from './useBack.ts'
import type { Opening } from './useSession.ts'
import { WhichScreen } from './which.tsx'

type View =
  | { at: 'phone'; file: typeof PhoneFile }
  | { at: 'start'; problem?: string }
  | { at: 'count' }
  | { at: 'symptom'; machine: Machine }
  | { at: 'which'; machine: Machine; symptom: Symptom; asks: 'branch' | 'load' }
  | { at: 'kit'; machine: Machine; symptom: Symptom; told: Told; problem?: string }
  | { at: 'hunt'; opening: Opening; file: typeof HuntFile }
  | { at: 'past'; log: Log; file: typeof PastFile }
  | { at: 'tool'; file: typeof ToolFile }
  | { at: 'settings'; file: typeof SettingsFile }
  | { at: 'takeOver'; file: typeof TakeOverFile }
  | { at: 'machines'; log: Log; file: typeof MachinesFile; twice?: Machine }

const missing = () => {
  throw new Error(first().notStored)
}
const huntFile = () => withWords(import('./hunt.tsx')).catch(missing)
const pastFile = () => withWords(import('./past.tsx')).catch(missing)
const toolFile = () => withWords(import('./tool.tsx')).catch(missing)
const machinesFile = () => withWords(import('./machines.tsx')).catch(missing)
const phoneFile = () => withWords(import('./phone.tsx')).catch(missing)
const settingsFile = () => withWords(import('./settings.tsx')).catch(missing)
const takeOverFile = () => withWords(import('./takeOver.tsx')).catch(missing)
const demoFile = () => import('../../content/demo.ts').catch(missing)
let opened: Promise<Log> | undefined
const theLog = (): Promise<Log> => {
  opened ??= import('../log/store.ts').then(({ openLog }) => openLog())
  // A failed opening is tried again the next time.
  opened.catch(() => {
    opened = undefined
  })
  return opened
}

/**
 * What a session needs is fetched while the start screen is painted and read. On a first visit that is everything, since the host may be
 * gone at any moment; once the worker is there, the other parts lie on the phone and need not be read before somebody asks for them.
 */
export const fetchAhead = (): void => {
  const stored = 'serviceWorker' in navigator && navigator.serviceWorker.controller !== null
  for (const part of [theLog, huntFile, ...(stored ? [] : [pastFile, demoFile])]) void part().catch(() => undefined)
}

/** Which screen is on: from the start to a session and back. */
export const App = () => {
  const [view, setView] = useState<View>({ at: 'start' })
  const [, again] = useState(0)
  const home = useBack(view.at !== 'start', () => setView({ at: 'start' }))
  // Another language: everything below is drawn anew.
  useEffect(() => onLanguage(() => again(n => n + 1)), [])
  const orSay = (work: () => Promise<View>) => work().then(setView, problem => setView({ at: 'start', problem: problemWords(problem) }))
  /** A machine or a session as JSON. A machine that somebody brought is kept on the phone; an example and a mere count are not. */
  const take = (json: () => Promise<unknown>, keep = false) =>
    orSay(async () => {
      const file = await huntFile()
      const given = await json()
      if (file.isSession(given)) return { at: 'hunt', file, opening: await file.takeOver(await theLog(), JSON.stringify(given)) }
      const read = file.readMachine(given)
      if (!read.ok) return { at: 'start', problem: problemWords(read.message) }
      const machine = read.value
      const symptom: View = { at: 'symptom', machine }
      if (!keep) return symptom
      const log = await theLog()
      return (await file.keep(log, machine)) ? symptom : { at: 'machines', file: await machinesFile(), log, twice: machine }
    })
  const go = (machine: Machine, symptom: Symptom, told: Told, kit: Kit) =>
    Promise.all([huntFile(), theLog()])
      .then(async ([file, log]) =>
        setView({ at: 'hunt', file, opening: await file.start(log, { type: 'started', machine, kit, symptom, ...told }) }),
      )
      .catch(problem => setView({ at: 'kit', machine, symptom, told, problem: problemWords(problem) }))
  const resume = (id: string) =>
    orSay(async () => {
      const [file, log] = await Promise.all([huntFile(), theLog()])
      return { at: 'hunt', file, opening: await file.resume(log, id) }
    })
  // What goes wrong here comes up again, and with words, when it is asked for.
  const ahead = (id: string) =>
    void Promise.all([huntFile(), theLog()])
      .then(([file, log]) => file.replayAhead(log, id))
      .catch(() => undefined)
  const takenOver = (text: string) =>
    orSay(async () => {
      const [file, log] = await Promise.all([huntFile(), theLog()])
      return { at: 'hunt', file, opening: await file.takeOver(log, text) }
    })
  const past = () => orSay(async () => ({ at: 'past', file: await pastFile(), log: await theLog() }))

  const toKit = (machine: Machine, symptom: Symptom) => {
    const asks = machine.branches.length > 1 ? asksWhich(symptom) : undefined
    setView(asks === undefined ? { at: 'kit', machine, symptom, told: {} } : { at: 'which', machine, symptom, asks })
  }

  switch (view.at) {
    case 'start':
      return (
        <Start
          log={theLog}
          problem={view.problem}
          take={json => take(json, true)}
          demo={() => take(() => demoFile().then(m => m.demo))}
          unknown={() => setView({ at: 'count' })}
          resume={resume}
          ahead={ahead}
          past={past}
          takeOver={() => orSay(async () => ({ at: 'takeOver', file: await takeOverFile() }))}
          settings={() => orSay(async () => ({ at: 'settings', file: await settingsFile() }))}
          check={() => orSay(async () => ({ at: 'phone', file: await phoneFile() }))}
          machines={() => orSay(async () => ({ at: 'machines', file: await machinesFile(), log: await theLog() }))}
          tool={() => orSay(async () => ({ at: 'tool', file: await toolFile() }))}
        />
      )
    case 'phone':
      return <view.file.Phone log={theLog} leave={home} />
    case 'count':
      return <BranchCount back={home} go={machine => take(async () => machine)} />
    case 'symptom':
      return (
        <SymptomScreen
          machine={view.machine}
          log={theLog}
          change={machine => setView({ at: 'symptom', machine })}
          back={home}
          go={symptom => toKit(view.machine, symptom)}
        />
      )
    case 'which':
      return (
        <WhichScreen
          machine={view.machine}
          asks={view.asks}
          back={() => setView({ at: 'symptom', machine: view.machine })}
          go={told => setView({ at: 'kit', machine: view.machine, symptom: view.symptom, told })}
        />
      )
    case 'kit':
      return (
        <KitScreen
          problem={view.problem}
          back={() => setView({ at: 'symptom', machine: view.machine })}
          go={kit => go(view.machine, view.symptom, view.told, kit)}
        />
      )
    case 'hunt':
      return <view.file.HuntScreen opening={view.opening} leave={home} />
    case 'past':
      return <view.file.Past log={view.log} leave={home} resume={resume} />
    case 'machines':
      return (
        <view.file.Machines
          log={view.log}
          twice={view.twice}
          leave={home}
          go={machine => setView({ at: 'symptom', machine })}
          resume={resume}
        />
      )
    case 'settings':
      return <view.file.SettingsScreen leave={home} />
    case 'takeOver':
      return <view.file.TakeOver back={home} done={takenOver} />
    case 'tool':
      return <view.file.Tool leave={home} />
  }
}
