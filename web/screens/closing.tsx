import { useState } from 'preact/hooks'
import type { Session, SessionEvent } from '../flow/request.ts'
import { recordOf } from '../log/facts.ts'
import type { Log } from '../log/log.ts'
import { first, words } from '../words.ts'
import { notesOf, Photos } from './photos.tsx'
import { Title } from './title.tsx'

interface ClosingProps {
  readonly log: Log
  readonly id: string
  readonly session: Session
  /** What was ticked off before, as ids. */
  readonly checked?: readonly string[]
  readonly save: (closed: Extract<SessionEvent, { type: 'closed' }>) => void
  readonly back?: () => void
}

/** Which branch, what was wrong, a note, photos: what a later session can learn from. */
export const Closing = ({ log, id, session, checked = [], save, back }: ClosingProps) => {
  const [branch, setBranch] = useState(session.finding?.branch ?? '')
  const [wrong, setWrong] = useState('')
  const [note, setNote] = useState('')
  const { closing, end } = words().session
  const submit = async () => {
    const photos = await notesOf(log, id)
    save({ type: 'closed', branch, wrong, note: note.trim(), record: recordOf(session, photos, checked) })
  }
  return (
    <form
      class="form"
      onSubmit={e => {
        e.preventDefault()
        void submit()
      }}
    >
      <Title text={end.sayWrong} step="closing" />
      <label>
        {closing.branch}
        <select value={branch} onChange={e => setBranch(e.currentTarget.value)}>
          <option value="">{closing.noBranch}</option>
          {session.machine.branches.map(b => (
            <option key={b.id} value={b.id}>
              {b.name ? `${b.id}, ${b.name}` : b.id}
            </option>
          ))}
        </select>
      </label>
      <fieldset>
        <legend>{closing.wrong}</legend>
        {Object.entries(words().labels.wrongs).map(([id, name]) => (
          <label key={id} class="choice">
            <input type="radio" name="wrong" checked={wrong === id} onChange={() => setWrong(id)} />
            <span>{name}</span>
          </label>
        ))}
      </fieldset>
      <label>
        {closing.note}
        <textarea rows={3} maxLength={2000} value={note} onInput={e => setNote(e.currentTarget.value)} />
      </label>
      <Photos log={log} id={id} take />
      <div class="actions flow">
        <button type="submit" class="primary">
          {closing.save}
        </button>
        {back && (
          <button type="button" class="plain" onClick={back}>
            {first().back}
          </button>
        )}
      </div>
    </form>
  )
}
