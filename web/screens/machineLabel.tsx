import { useEffect, useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import { codesOf } from '../machines/code.ts'
import type { Code } from '../qr/draw.ts'
import { first, problemWords, words } from '../words.ts'
import { Title } from './title.tsx'

/** The label for the cabinet's door: the machine itself as codes, its name in plain letters, and what to do with it. */
export const MachineLabel = ({ machine, back }: { machine: Machine; back: () => void }) => {
  const [codes, setCodes] = useState<readonly Code[]>([])
  const [problem, setProblem] = useState('')
  const { machines: say } = words()
  useEffect(() => {
    Promise.all([codesOf(machine), import('../qr/draw.ts')]).then(
      ([texts, { codeOf }]) => setCodes(texts.map(codeOf)),
      e => setProblem(problemWords(e)),
    )
  }, [machine])
  return (
    <main class="place labels">
      <Title text={say.label.title} step="label" />
      <p class="noprint">{say.label.lead(codes.length)}</p>
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      {codes.map(({ size, path }, i) => (
        <section class="label" key={path}>
          <h2>{machine.name}</h2>
          <p>{[machine.place, machine.id].filter(Boolean).join(' · ')}</p>
          <svg viewBox={`0 0 ${size} ${size}`} role="img" aria-label={say.label.code(i + 1, codes.length)} shape-rendering="crispEdges">
            <rect width={size} height={size} fill="#fff" />
            <path d={path} fill="#000" />
          </svg>
          {codes.length > 1 && <p class="number">{say.label.number(i + 1, codes.length)}</p>}
          <p>{say.label.scan(codes.length)}</p>
        </section>
      ))}
      <div class="actions">
        <button type="button" class="primary" disabled={codes.length === 0} onClick={() => print()}>
          {say.label.print}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
