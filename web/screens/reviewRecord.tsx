import { useState } from 'preact/hooks'
import { idOf, likelyMechanism, likelyMode } from '../../content/shared/ids.ts'
import type { Terms } from '../../content/shared/types.ts'
import type { FaultRecord, PhotoNote, SessionEvent } from '../flow/request.ts'
import { closedForm } from '../log/closing.ts'
import { foundIn, marksOf } from '../log/facts.ts'
import type { Log } from '../log/log.ts'
import { MOST_PHOTOS } from '../log/photo.ts'
import type { People } from '../log/sheet.ts'
import { localIso } from '../log/stamp.ts'
import { believedIn } from '../log/steps.ts'
import { problemWords, words, wrongWord } from '../words.ts'
import { notesOf, Photos } from './photos.tsx'
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
      <option value="">{words().review.notKnown}</option>
      {Object.entries(terms.terms).map(([id, word]) => (
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
  readonly log: Log
  readonly opened: Opened
  readonly save: (event: Closed, person: People[number] | undefined) => Promise<void>
  readonly back: () => void
}

/** What maintenance keeps of the fault. Each saving is one more event; the latest counts, none is lost. */
export const ReviewRecord = ({ log, opened, save, back }: RecordProps) => {
  const { events, session, facts, people } = opened
  const closed = closedForm(events)
  const kept = closed?.record
  const started = events[0]?.event
  const machine = started?.type === 'started' ? started.machine : undefined
  const [branch, setBranch] = useState(closed?.branch ?? facts.found?.branch ?? '')
  const [wrong, setWrong] = useState(idOf(closed?.wrong ?? ''))
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
  const { labels, record: terms, review, session: sessionWords } = words()
  const { record: say } = review

  const recordNow = (here: readonly PhotoNote[]): FaultRecord => {
    // What was named once stays named, on this phone or not.
    const photos = [...new Map([...(kept?.photos ?? []), ...here].map(note => [note.hash, note])).values()].slice(0, MOST_PHOTOS)
    const found = kept?.found ?? (session && foundIn(session))
    const believed = kept?.believed ?? (session ? believedIn(session, events) : [])
    const down = since === '' ? undefined : new Date(since)
    const texts = { mode, mechanism, cause, mended: mended.trim(), material: material.trim(), who: who.trim() }
    return {
      ...Object.fromEntries(Object.entries(texts).filter(([, text]) => text !== '')),
      // Unchanged, it keeps the offset of the place where it was typed.
      ...(down === undefined ? {} : { downSince: kept?.downSince?.slice(0, 16) === since ? kept.downSince : localIso(down) }),
      ...(found === undefined ? {} : { found }),
      ...(photos.length === 0 ? {} : { photos }),
      ...(kept?.checked === undefined ? {} : { checked: kept.checked }),
      ...(believed.length === 0 ? {} : { believed }),
      ...(session ? marksAlone(marksOf(session, events)) : marksAlone(kept ?? {})),
    }
  }
  const submit = async () => {
    const person = who.trim() !== '' && name.trim() !== '' ? { code: who.trim(), name: name.trim() } : undefined
    await save({ type: 'closed', branch, wrong, note: note.trim(), record: recordNow(await notesOf(log, opened.summary.id)) }, person)
  }
  return (
    <main class="place review">
      <form
        class="form"
        onSubmit={e => {
          e.preventDefault()
          submit().catch(reason => setProblem(problemWords(reason)))
        }}
      >
        <Title text={say.title} step="record" />
        {problem && (
          <p role="alert" class="problem">
            {problem}
          </p>
        )}
        <label>
          {sessionWords.closing.branch}
          <select value={branch} onChange={e => setBranch(e.currentTarget.value)}>
            <option value="">{sessionWords.closing.noBranch}</option>
            {machine?.branches.map(b => (
              <option key={b.id} value={b.id}>
                {b.name ? `${b.id}, ${b.name}` : b.id}
              </option>
            ))}
          </select>
        </label>
        <label>
          {terms.wrong}
          <select value={wrong} onChange={e => setWrong(e.currentTarget.value)}>
            <option value="">{review.notKnown}</option>
            {[...new Set([...Object.keys(labels.wrongs), ...(wrong === '' ? [] : [wrong])])].map(id => (
              <option key={id} value={id}>
                {wrongWord(id)}
              </option>
            ))}
          </select>
        </label>
        <Choice terms={terms.modes} value={mode} set={setMode} />
        <Choice terms={terms.mechanisms} value={mechanism} set={setMechanism} />
        <Choice terms={terms.causes} value={cause} set={setCause} />
        <Line name={say.mended} value={mended} set={setMended} />
        <Line name={say.material} value={material} set={setMaterial} />
        <Line name={say.who} value={who} set={setWho} />
        <Line name={say.name} value={name} set={setName} note={say.nameNote} />
        <label>
          {say.since}
          <small>{say.sinceNote}</small>
          <input type="datetime-local" value={since} onInput={e => setSince(e.currentTarget.value)} />
        </label>
        <label>
          {say.note}
          <textarea rows={3} maxLength={2000} value={note} onInput={e => setNote(e.currentTarget.value)} />
        </label>
        <Photos log={log} id={opened.summary.id} named={kept?.photos} take />
        <div class="actions flow">
          <button type="submit" class="primary">
            {say.save}
          </button>
          <button type="button" class="plain" onClick={back}>
            {review.toSession}
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
