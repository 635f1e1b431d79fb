import { useState } from 'preact/hooks'
import { wrongs } from '../../content/en-labels.ts'
import type { Session } from '../flow/request.ts'
import { Title } from './title.tsx'

interface ClosingProps {
  readonly session: Session
  readonly save: (branch: string, wrong: string, note: string) => void
  readonly back?: () => void
}

/** Which branch, what was wrong, a note: what a later session can learn from. */
export const Closing = ({ session, save, back }: ClosingProps) => {
  const [branch, setBranch] = useState(session.finding?.branch ?? '')
  const [wrong, setWrong] = useState('')
  const [note, setNote] = useState('')
  return (
    <form
      class="form"
      onSubmit={e => {
        e.preventDefault()
        save(branch, wrong, note.trim())
      }}
    >
      <Title text="Say what was wrong" step="closing" />
      <label>
        Branch
        <select value={branch} onChange={e => setBranch(e.currentTarget.value)}>
          <option value="">supply, bus, or not known</option>
          {session.machine.branches.map(b => (
            <option key={b.id} value={b.id}>
              {b.name ? `${b.id}, ${b.name}` : b.id}
            </option>
          ))}
        </select>
      </label>
      <fieldset>
        <legend>What was wrong</legend>
        {wrongs.map(w => (
          <label key={w} class="choice">
            <input type="radio" name="wrong" checked={wrong === w} onChange={() => setWrong(w)} />
            <span>{w}</span>
          </label>
        ))}
      </fieldset>
      <label>
        Note for the next time
        <textarea rows={3} maxLength={2000} value={note} onInput={e => setNote(e.currentTarget.value)} />
      </label>
      <div class="actions">
        <button type="submit" class="primary">
          Save and close
        </button>
        {back && (
          <button type="button" class="plain" onClick={back}>
            Back
          </button>
        )}
      </div>
    </form>
  )
}
