import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { first } from '../words.ts'
import { Title } from './title.tsx'

const MOST = 40

/** A machine of which nothing is known but how many branches leave its cabinet. */
export const unknownMachine = (count: number) => ({
  format: 'ohmward.machine',
  version: 1,
  id: `unknown-${count}`,
  name: first().count.machine,
  supply: {},
  branches: Array.from({ length: count }, (_, i) => ({ id: `B${i + 1}` })),
})

interface CountProps {
  readonly back: () => void
  readonly go: (machine: ReturnType<typeof unknownMachine>) => void
  /** Asked before the count. */
  readonly above?: ComponentChildren
}
/** How many branches: 1 to 40, by steps of one and of five. */
export const BranchCount = ({ back, go, above }: CountProps) => {
  const [count, setCount] = useState(8)
  const say = first().count
  const step = (by: number) => (
    <button type="button" class="key" aria-label={say.add(by)} onClick={() => setCount(c => Math.max(1, Math.min(MOST, c + by)))}>
      {by > 0 ? `+${by}` : `−${-by}`}
    </button>
  )
  return (
    <main class="place">
      <Title text={say.title} step="count" />
      {above}
      <p>{say.lead}</p>
      <output class="count" aria-live="polite" aria-label={say.branches}>
        <strong>{count}</strong>
      </output>
      <div class="keys">
        {step(-5)}
        {step(-1)}
        {step(1)}
        {step(5)}
      </div>
      <p>{say.called(`B${count}`)}</p>
      <div class="actions">
        <button type="button" class="primary" onClick={() => go(unknownMachine(count))}>
          {say.has(count)}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
