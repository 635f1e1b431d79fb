import { useState } from 'preact/hooks'
import { Title } from './title.tsx'

const MOST = 40

/** A machine of which nothing is known but how many branches leave its cabinet. */
export const unknownMachine = (count: number) => ({
  format: 'ohmward.machine',
  version: 1,
  id: `unknown-${count}`,
  name: 'Unknown machine',
  supply: {},
  branches: Array.from({ length: count }, (_, i) => ({ id: `B${i + 1}` })),
})

/** How many branches: 1 to 40, by steps of one and of five. */
export const BranchCount = ({ back, go }: { back: () => void; go: (machine: unknown) => void }) => {
  const [count, setCount] = useState(8)
  const step = (by: number) => (
    <button
      type="button"
      class="key"
      aria-label={`${by > 0 ? 'add' : 'take away'} ${Math.abs(by)}`}
      onClick={() => setCount(c => Math.max(1, Math.min(MOST, c + by)))}
    >
      {by > 0 ? `+${by}` : `−${-by}`}
    </button>
  )
  return (
    <main class="place">
      <Title text="Count the branches" step="count" />
      <p>Each device in the cabinet that feeds 24 V to the machine is one branch: a breaker, a fuse, an electronic device.</p>
      <output class="count" aria-live="polite" aria-label="branches">
        <strong>{count}</strong>
      </output>
      <div class="keys">
        {step(-5)}
        {step(-1)}
        {step(1)}
        {step(5)}
      </div>
      <p>They are called B1 to B{count}, from left to right.</p>
      <div class="actions">
        <button type="button" class="primary" onClick={() => go(unknownMachine(count))}>
          {count === 1 ? 'It has 1 branch' : `It has ${count} branches`}
        </button>
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </div>
    </main>
  )
}
