import { symptoms } from '../../content/en-labels.ts'
import type { Machine } from '../../engine/machine.ts'
import type { Symptom } from '../../engine/step.ts'
import { useDesigner } from './designerLink.tsx'
import { Title } from './title.tsx'

/** What the technician sees at the machine, in their own words. */
export const SymptomScreen = ({ machine, back, go }: { machine: Machine; back: () => void; go: (symptom: Symptom) => void }) => {
  const designer = useDesigner()
  if (designer.file) return <designer.file.Designer machine={machine} back={designer.back} />
  return (
    <main class="place">
      <header>
        <span>
          {machine.name} · {machine.branches.length} {machine.branches.length === 1 ? 'branch' : 'branches'}
        </span>
      </header>
      <Title text="Say what the machine does" step="symptom" />
      <div class="actions list">
        {Object.entries(symptoms).map(([id, words]) => (
          <button key={id} type="button" class="answer" onClick={() => go(id as Symptom)}>
            {words}
          </button>
        ))}
        {designer.link()}
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </div>
    </main>
  )
}
