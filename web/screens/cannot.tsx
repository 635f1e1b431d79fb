import { useState } from 'preact/hooks'
import { cannots } from '../../content/en-labels.ts'
import { Sheet } from './sheet.tsx'

interface CannotProps {
  readonly close: () => void
  readonly say: (why: string) => void
  readonly handOver: () => void
  readonly stop: () => void
}

/** A step that cannot be done is set aside with its reason, and another way is taken; or the job ends here. */
export const Cannot = ({ close, say, handOver, stop }: CannotProps) => {
  const [other, setOther] = useState('')
  return (
    <Sheet title="Can’t do it: why?" close={close}>
      {cannots.map(why => (
        <button key={why} type="button" class="answer" onClick={() => say(why)}>
          {why}
        </button>
      ))}
      <label class="field">
        Another reason
        <input type="text" maxLength={200} value={other} onInput={e => setOther(e.currentTarget.value)} />
      </label>
      {other.trim() !== '' && (
        <button type="button" class="primary" onClick={() => say(other.trim())}>
          Set it aside
        </button>
      )}
      <h3>Or end here</h3>
      <button type="button" class="answer" onClick={handOver}>
        Hand the job over
      </button>
      <button type="button" class="answer" onClick={stop}>
        Stop the session
      </button>
    </Sheet>
  )
}
