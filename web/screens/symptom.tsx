import type { Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import type { Log } from '../log/log.ts'
import { first } from '../words.ts'
import { useDesigner } from './designerLink.tsx'
import { Title } from './title.tsx'

/** What the technician sees at the machine, in their own words. */
export const SymptomScreen = ({
  machine,
  log,
  change,
  back,
  go,
}: {
  machine: Machine
  log: () => Promise<Log>
  change: (machine: Machine) => void
  back: () => void
  go: (symptom: Symptom) => void
}) => {
  const designer = useDesigner()
  const { symptom: say, symptoms, back: backWord } = first()
  if (designer.file) return <designer.file.Designer machine={machine} keep={change} log={log} back={designer.back} />
  return (
    <main class="place">
      <header>
        <span>
          {machine.name} · {say.branches(machine.branches.length)}
        </span>
      </header>
      <Title text={say.title} step="symptom" />
      <div class="actions list">
        {Object.entries(symptoms).map(([id, name]) => (
          <button key={id} type="button" class="answer" onClick={() => go(id as Symptom)}>
            {name}
          </button>
        ))}
        {designer.link()}
        <button type="button" class="plain" onClick={back}>
          {backWord}
        </button>
      </div>
    </main>
  )
}
