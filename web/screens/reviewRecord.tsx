import { useState } from 'preact/hooks'
import { wrongs } from '../../content/en-labels.ts'
import { causes, likelyMechanism, likelyMode, mechanisms, modes, type Terms } from '../../content/en-record.ts'
import type { FaultRecord, SessionEvent } from '../flow/request.ts'
import { closedForm } from '../log/closing.ts'
import { foundIn, marksOf } from '../log/facts.ts'
import type { People } from '../log/sheet.ts'
import { localIso } from '../log/stamp.ts'
import type { Opened } from './reviewSession.tsx'
import { Title } from './title.tsx'

type Closed = Extract<SessionEvent, { type: 'closed' }>
const LONGEST = 300

const Choice = ({ terms, value, set }: { terms: Terms; value: string; set: (value: string) => void }) => (
  <label>
    {terms.name}
    <small>
      {terms.meaning} {terms.source}
    </small>
    <select value={value} onChange={e => set(e.currentTarget.value)}>
      <option value="">not known</option>
      {terms.terms.map(({ id, word }) => (
        <option key={id} value={id}>
          {word}
        </option>
      ))}
    </select>
  </label>
)
const Line = ({ name, value, set, note }: { name: string; value: string; set: (value: string) => void; note?: string }) => (
  <label>
    {name}
    {note && <small>{note}</small>}
    <input type="text" maxLength={LONGEST} value={value} autocomplete="off" onInput={e => set(e.currentTarget.value)} />
  </label>
)

interface RecordProps {
  readonly opened: Opened
  readonly save: (event: Closed, person: People[number] | undefined) => Promise<void>
  readonly back: () => void
}

/** What maintenance keeps of the fault. Each saving is one more event; the latest counts, none is lost. */
export const ReviewRecord = ({ opened, save, back }: RecordProps) => {
  const { events, session, facts, people } = opened
  const closed = closedForm(events)
  const kept = closed?.record
  const started = events[0]?.event
  const machine = started?.type === 'started' ? started.machine : undefined
  const [branch, setBranch] = useState(closed?.branch ?? facts.found?.branch ?? '')
  const [wrong, setWrong] = useState(closed?.wrong ?? '')
  const [note, setNote] = useState(closed?.note ?? '')
  const [mode, setMode] = useState(kept?.mode ?? (started?.type === 'started' ? (likelyMode[started.symptom] ?? '') : ''))
  const [mechanism, setMechanism] = useState(kept?.mechanism ?? likelyMechanism[facts.found?.fault ?? ''] ?? '')
  const [cause, setCause] = useState(kept?.cause ?? '')
  const [mended, setMended] = useState(kept?.mended ?? '')
  const [material, setMaterial] = useState(kept?.material ?? '')
  const [who, setWho] = useState(kept?.who ?? '')
  const [name, setName] = useState(people.find(({ code }) => code === kept?.who)?.name ?? '')
  const [since, setSince] = useState(kept?.downSince?.slice(0, 16) ?? '')
  const [problem, setProblem] = useState('')

  const recordNow = (): FaultRecord => {
    const found = kept?.found ?? (session && foundIn(session))
    const down = since === '' ? undefined : new Date(since)
    const texts = { mode, mechanism, cause, mended: mended.trim(), material: material.trim(), who: who.trim() }
    return {
      ...Object.fromEntries(Object.entries(texts).filter(([, text]) => text !== '')),
      // Unchanged, it keeps the offset of the place where it was typed.
      ...(down === undefined ? {} : { downSince: kept?.downSince?.slice(0, 16) === since ? kept.downSince : localIso(down) }),
      ...(found === undefined ? {} : { found }),
      ...(session ? marksAlone(marksOf(session, events)) : marksAlone(kept ?? {})),
    }
  }
  const submit = () => {
    const person = who.trim() !== '' && name.trim() !== '' ? { code: who.trim(), name: name.trim() } : undefined
    save({ type: 'closed', branch, wrong, note: note.trim(), record: recordNow() }, person).catch(reason =>
      setProblem(reason instanceof Error ? reason.message : String(reason)),
    )
  }
  return (
    <main class="place review">
      <form
        class="form"
        onSubmit={e => {
          e.preventDefault()
          submit()
        }}
      >
        <Title text="Fill in the record" step="record" />
        {problem && (
          <p role="alert" class="problem">
            {problem}
          </p>
        )}
        <label>
          Branch
          <select value={branch} onChange={e => setBranch(e.currentTarget.value)}>
            <option value="">supply, bus, or not known</option>
            {machine?.branches.map(b => (
              <option key={b.id} value={b.id}>
                {b.name ? `${b.id}, ${b.name}` : b.id}
              </option>
            ))}
          </select>
        </label>
        <label>
          What was wrong
          <select value={wrong} onChange={e => setWrong(e.currentTarget.value)}>
            <option value="">not known</option>
            {[...new Set([...wrongs, ...(wrong === '' ? [] : [wrong])])].map(word => (
              <option key={word} value={word}>
                {word}
              </option>
            ))}
          </select>
        </label>
        <Choice terms={modes} value={mode} set={setMode} />
        <Choice terms={mechanisms} value={mechanism} set={setMechanism} />
        <Choice terms={causes} value={cause} set={setCause} />
        <Line name="Mended by" value={mended} set={setMended} />
        <Line name="With which part or material" value={material} set={setMaterial} />
        <Line name="Technician’s code" value={who} set={setWho} />
        <Line name="Name for this code" value={name} set={setName} note="Stays on this phone. It leaves only where an export says so." />
        <label>
          Down since
          <small>If somebody knows. Else down time counts from the session’s start.</small>
          <input type="datetime-local" value={since} onInput={e => setSince(e.currentTarget.value)} />
        </label>
        <label>
          Note
          <textarea rows={3} maxLength={2000} value={note} onInput={e => setNote(e.currentTarget.value)} />
        </label>
        <div class="actions flow">
          <button type="submit" class="primary">
            Save the record
          </button>
          <button type="button" class="plain" onClick={back}>
            Back to the session
          </button>
        </div>
      </form>
    </main>
  )
}

const marksAlone = ({ located, corrected, restored }: FaultRecord): Pick<FaultRecord, 'located' | 'corrected' | 'restored'> => ({
  ...(located === undefined ? {} : { located }),
  ...(corrected === undefined ? {} : { corrected }),
  ...(restored === undefined ? {} : { restored }),
})
