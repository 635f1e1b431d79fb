import { useEffect, useState } from 'preact/hooks'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import type { Log } from '../log/log.ts'
import { BranchCount } from './branchCount.tsx'
import type * as HuntFile from './hunt.tsx'
import { KitScreen } from './kit.tsx'
import type * as PastFile from './past.tsx'
import { Start } from './start.tsx'
import { SymptomScreen } from './symptom.tsx'
import type { Opening } from './useSession.ts'

type View =
  | { at: 'start'; problem?: string }
  | { at: 'count' }
  | { at: 'symptom'; machine: Machine }
  | { at: 'kit'; machine: Machine; symptom: Symptom; problem?: string }
  | { at: 'hunt'; opening: Opening; file: typeof HuntFile }
  | { at: 'past'; log: Log; file: typeof PastFile }

const missing = () => {
  throw new Error('A part of this app is not stored yet. Open it once with a network.')
}
const huntFile = () => import('./hunt.tsx').catch(missing)
const pastFile = () => import('./past.tsx').catch(missing)
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
const sentence = (problem: unknown) => (problem instanceof Error ? problem.message : String(problem))

/** Which screen is on: from the start to a session and back. */
export const App = () => {
  const [view, setView] = useState<View>({ at: 'start' })
  const home = () => setView({ at: 'start' })
  useEffect(() => {
    // Everything a session needs is fetched while the start screen is read: after a first visit the host may be gone at any moment.
    void huntFile().catch(() => undefined)
    void pastFile().catch(() => undefined)
    void demoFile().catch(() => undefined)
  }, [])
  const orSay = (work: () => Promise<View>) => work().then(setView, problem => setView({ at: 'start', problem: sentence(problem) }))
  const take = (json: () => Promise<unknown>) =>
    orSay(async () => {
      const { readMachine } = await huntFile()
      const read = readMachine(await json())
      return read.ok ? { at: 'symptom', machine: read.value } : { at: 'start', problem: read.message }
    })
  const go = (machine: Machine, symptom: Symptom, kit: Kit) =>
    Promise.all([huntFile(), theLog()])
      .then(async ([file, log]) =>
        setView({ at: 'hunt', file, opening: await file.start(log, { type: 'started', machine, kit, symptom }) }),
      )
      .catch(problem => setView({ at: 'kit', machine, symptom, problem: sentence(problem) }))
  const resume = (id: string) =>
    orSay(async () => {
      const [file, log] = await Promise.all([huntFile(), theLog()])
      return { at: 'hunt', file, opening: await file.resume(log, id) }
    })
  const past = () => orSay(async () => ({ at: 'past', file: await pastFile(), log: await theLog() }))

  switch (view.at) {
    case 'start':
      return (
        <Start
          log={theLog}
          problem={view.problem}
          take={take}
          demo={() => take(() => demoFile().then(m => m.demo))}
          unknown={() => setView({ at: 'count' })}
          resume={resume}
          past={past}
        />
      )
    case 'count':
      return <BranchCount back={home} go={machine => take(async () => machine)} />
    case 'symptom':
      return <SymptomScreen machine={view.machine} back={home} go={symptom => setView({ at: 'kit', machine: view.machine, symptom })} />
    case 'kit':
      return (
        <KitScreen
          problem={view.problem}
          back={() => setView({ at: 'symptom', machine: view.machine })}
          go={kit => go(view.machine, view.symptom, kit)}
        />
      )
    case 'hunt':
      return <view.file.HuntScreen opening={view.opening} leave={home} />
    case 'past':
      return <view.file.Past log={view.log} leave={home} resume={resume} />
  }
}
