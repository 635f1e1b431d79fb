import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { words } from '../words.ts'
import { Sheet } from './sheet.tsx'

interface CannotProps {
  readonly close: () => void
  readonly children: ComponentChildren
  readonly say: (why: string) => void
}

/** A step that cannot be done is set aside with its reason, and another way is taken. */
export const Cannot = ({ close, say, children }: CannotProps) => {
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
    </Sheet>
  )
}
