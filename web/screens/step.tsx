import { useState } from 'preact/hooks'
import { actDone, pointShort, stepTitle, stepUnder } from '../../content/en.ts'
import { seen } from '../../content/en-labels.ts'
import { whySentence } from '../../content/en-whys.ts'
import type { Step } from '../../engine/step.ts'
import type { Request } from '../flow/request.ts'
import { Actions } from './actions.tsx'
import { Frame } from './frame.tsx'
import { Keypad, type Quantity, rawValue, type Typed, untyped } from './keypad.tsx'
import { namesFor } from './names.ts'
import { Notice } from './notice.tsx'
import { Scene } from './scene.tsx'
import { SeenSign } from './seenSign.tsx'
import { Title } from './title.tsx'
import type { Hunt } from './useSession.ts'
import { useTight } from './useTight.ts'
import { whole } from './whole.ts'

type Asked = Extract<Request, { say: 'step' }> & { step: Exclude<Step, { kind: 'finding' }> }
const units = { volt: 'V', ohm: 'Ω', amp: 'A' } as const

/** What the keypad asks for in this step; nothing if the step is answered by a button alone. */
const typing = (step: Asked['step']): { quantity: Quantity; title: string; points: string } | undefined => {
  if (step.kind === 'read') {
    if (step.meter === 'amp') return { quantity: 'A', title: `Amperes in ${step.branch}`, points: 'round or in the + conductor' }
    return {
      quantity: units[step.meter],
      title: step.meter === 'ohm' ? 'Ohms' : 'Volts',
      points: `red ${pointShort(step.red)} · black ${pointShort(step.black)}`,
    }
  }
  if (step.kind !== 'act') return undefined
  if (step.act.act === 'prove-dead') return { quantity: 'V', title: 'Not dead: volts', points: 'the highest of the three' }
  if (step.act.act === 'zero-leads') return { quantity: 'Ω', title: 'Ohms of the leads', points: 'tips held together' }
  return undefined
}
interface Draft extends Typed {
  readonly n: number
}
const draftFor = (text: string, n: number): Typed | undefined => {
  try {
    const draft = JSON.parse(text) as Partial<Draft>
    return draft.n === n && typeof draft.text === 'string' ? { ...untyped, ...draft } : undefined
  } catch {
    return undefined
  }
}

/** One step: first where hands and probes go, then, for a reading, what the display shows. */
export const StepScreen = ({ hunt, request }: { hunt: Hunt; request: Asked }) => {
  const { session, since, error, answer } = hunt
  const { step, n } = request
  const draft = draftFor(hunt.draft, n)
  const [entering, setEntering] = useState(draft !== undefined)
  const typed = draft ?? untyped
  const names = namesFor(session, step)
  const tight = useTight()
  const ask = typing(step)
  if (ask && entering) {
    const dead = step.kind === 'act' && step.act.act === 'prove-dead'
    const enter = (t: Typed) => answer(dead ? { ...rawValue(t), value: undefined, volts: rawValue(t).value } : rawValue(t))
    return (
      <Frame session={session} since={since} moment="enter">
        <Keypad
          {...ask}
          typed={typed}
          error={error}
          enter={enter}
          change={t => hunt.saveDraft(JSON.stringify({ ...t, n }))}
          back={() => {
            hunt.saveDraft('')
            setEntering(false)
          }}
        />
      </Frame>
    )
  }
  const open = () => setEntering(true)
  const done = () => answer({ done: true })
  return (
    <Frame session={session} since={since}>
      <Title text={stepTitle(step, names)} step={n} />
      <Notice hunt={hunt} />
      <Scene session={session} step={step} />
      <p>{whole(stepUnder(step, names))}</p>
      {tight === 0 && <p class="why">{whole(whySentence(request.why))}</p>}
      <Actions hunt={hunt} flow={tight === 2}>
        {step.kind === 'read' && (
          <button type="button" class="primary" onClick={open}>
            Enter the reading
          </button>
        )}
        {step.kind === 'act' && (
          <button type="button" class="primary" onClick={done}>
            {actDone(step.act, names)}
          </button>
        )}
        {step.kind === 'act' && ask && (
          <button type="button" class="answer" onClick={open}>
            {step.act.act === 'prove-dead' ? 'It shows volts' : 'It shows another value'}
          </button>
        )}
        {step.kind === 'look' &&
          Object.entries(seen[step.look] ?? {}).map(([value, words]) => (
            <button key={value} type="button" class="answer look" onClick={() => answer({ seen: value })}>
              <SeenSign look={step.look} value={value} />
              {words}
            </button>
          ))}
      </Actions>
    </Frame>
  )
}
