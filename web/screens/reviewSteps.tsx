import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Believed, Session } from '../flow/request.ts'
import { closedForm } from '../log/closing.ts'
import type { StoredEvent } from '../log/log.ts'
import { moved, type Step, stepsOf } from '../log/steps.ts'
import { elapsed } from '../log/times.ts'
import { first, words } from '../words.ts'
import { Scene } from './scene.tsx'
import { answered, asked } from './told.ts'

/** Replaying: one step in this time, in ms. */
const PACE = 1500
const percent = (p: number) => `${Math.round(p * 100)}`

/** As the record tells it, where it does: this version may reckon otherwise than the one that led the session. */
const Belief = ({ step, told }: { step: Step<StoredEvent>; told: readonly Believed[] }) => {
  const rows = told.find(({ seq }) => seq === step.stored.seq)?.branches ?? moved(step)
  const { steps: say } = words().review
  return (
    <table>
      <thead>
        <tr>
          <th>{say.branch}</th>
          <th>{say.before}</th>
          <th>{say.afterwards}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ branch, before, after }) => (
          <tr key={branch}>
            <td>{branch}</td>
            <td>{percent(before)}</td>
            <td>{percent(after)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** The session step by step, or let run; behind it the whole list. */
export const ReviewSteps = ({ events, session }: { events: readonly StoredEvent[]; session: Session | undefined }) => {
  const steps = useMemo(() => (session ? stepsOf(session, events) : []), [events, session])
  const seconds = useMemo(() => elapsed(events).seconds, [events])
  const [at, setAt] = useState(0)
  const [runs, setRuns] = useState(false)
  const last = steps.length - 1
  const { labels, review } = words()
  const { steps: say } = review
  useEffect(() => {
    if (!runs) return undefined
    if (at >= last) {
      setRuns(false)
      return undefined
    }
    const next = setTimeout(() => setAt(at + 1), PACE)
    return () => clearTimeout(next)
  }, [runs, at, last])
  const undone = events.filter(({ event }) => event.type === 'undone').length
  const step = steps[Math.min(at, last)]
  if (!step)
    return (
      <section>
        <h2>{say.title}</h2>
        <p>{session ? say.none : say.otherVersion}</p>
      </section>
    )
  const { request } = step.entry
  const shown = request.say === 'step' && request.step.kind !== 'finding' ? request.step : undefined
  const go = (to: number) => {
    setRuns(false)
    setAt(Math.max(0, Math.min(last, to)))
  }
  return (
    <section class="stepper" aria-label={say.title}>
      <h2>{say.of(at + 1, steps.length)}</h2>
      <p>
        {step.stored.wall.slice(11, 19)} · {say.after(first().figures.duration(seconds[step.stored.seq - 1] ?? 0))} ·{' '}
        {labels.powers[step.before.power].word}
      </p>
      <p>{asked(step.before, request)}</p>
      {shown && <Scene session={step.before} step={shown} />}
      <p>
        <strong>{answered(step.entry)}</strong>
      </p>
      <Belief step={step} told={closedForm(events)?.record?.believed ?? []} />
      <nav>
        <button type="button" class="answer" onClick={() => go(at - 1)} disabled={at === 0}>
          {say.back}
        </button>
        <button type="button" class="answer" onClick={() => go(at + 1)} disabled={at >= last}>
          {say.next}
        </button>
        <button type="button" class="plain" onClick={() => go(0)}>
          {say.first}
        </button>
        <button
          type="button"
          class="plain"
          onClick={() => {
            if (at >= last) setAt(0)
            setRuns(!runs)
          }}
        >
          {runs ? say.stop : say.run}
        </button>
      </nav>
      <details>
        <summary>{say.all(steps.length)}</summary>
        {undone > 0 && <p>{say.undone(undone)}</p>}
        <ol class="timeline">
          {steps.map((one, i) => (
            <li key={one.stored.seq}>
              <time>{one.stored.wall.slice(11, 16)}</time>
              <span>
                {i + 1}. {asked(one.before, one.entry.request)} <strong>{answered(one.entry)}</strong>
              </span>
            </li>
          ))}
        </ol>
      </details>
    </section>
  )
}
