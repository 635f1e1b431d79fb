import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { words } from '../words.ts'
import { Sheet } from './sheet.tsx'

interface CannotProps {
  readonly close: () => void
  readonly children: ComponentChildren
  readonly say: (why: string) => void
  readonly handOver: () => void
  readonly stop: () => void
}

/** A step that cannot be done is set aside with its reason, and another way is taken; or the job ends here. */
export const Cannot = ({ close, say, handOver, stop, children }: CannotProps) => {
  const [other, setOther] = useState('')
  const { cannot } = words().session
  return (
    <Sheet title={cannot.title} close={close}>
      {Object.entries(words().labels.cannots).map(([why, reason]) => (
        <button key={why} type="button" class="answer" onClick={() => say(why)}>
          {reason}
        </button>
      ))}
      <label class="field">
        {cannot.other}
        <input type="text" maxLength={200} value={other} onInput={e => setOther(e.currentTarget.value)} />
      </label>
      {other.trim() !== '' && (
        <button type="button" class="primary" onClick={() => say(other.trim())}>
          {cannot.aside}
        </button>
      )}
      {children}
      <h3>{cannot.orEnd}</h3>
      <button type="button" class="answer" onClick={handOver}>
        {cannot.handOver}
      </button>
      <button type="button" class="answer" onClick={stop}>
        {cannot.stop}
      </button>
    </Sheet>
  )
}
