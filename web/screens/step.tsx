import { useState } from 'preact/hooks'
import type { Step } from '../../engine/step.ts'
import { ranges } from '../drawing/ranges.ts'
import type { Request } from '../flow/request.ts'
import { whyWords, words } from '../words.ts'
import { Actions } from './actions.tsx'
import { careOf } from './care.ts'
import { Frame } from './frame.tsx'
import { Keypad, type Quantity, rawValue, type Typed, untyped } from './keypad.tsx'
import { namesFor } from './names.ts'
import { Notice } from './notice.tsx'
import { rowOf } from './row.ts'
import { RowAnswers } from './rowAnswers.tsx'
import { otherScale } from './scale.ts'
import { ScaleSheet } from './scaleSheet.tsx'
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
  const { reading: say } = words().session
  const { pointShort } = words().steps
  if (step.kind === 'read') {
    if (step.meter === 'amp') return { quantity: 'A', title: say.ampsIn(step.branch), points: say.round }
    return {
      quantity: units[step.meter],
      title: step.meter === 'ohm' ? say.ohm : say.volt,
      points: say.probes(pointShort(step.red), pointShort(step.black)),
    }
  }
  if (step.kind !== 'act') return undefined
  if (step.act.act === 'prove-dead') return { quantity: 'V', title: say.notDead, points: say.highest }
  if (step.act.act === 'zero-leads') return { quantity: 'Ω', title: say.leads, points: say.tips }
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
  const [chosen, setEntering] = useState<boolean | undefined>()
  // A value that is kept, or comes back by taking an answer back, stands in the keypad.
  const entering = chosen ?? draft !== undefined
  const typed = draft ?? untyped
  const [other, setOther] = useState<Typed | undefined>()
  const names = namesFor(session, step)
  const tight = useTight()
  const row = step.kind === 'look' && step.look === 'device' ? rowOf(session) : []
  const ids = session.machine.branches.map(b => b.id)
  const ask = typing(step)
  const { labels, session: say, steps } = words()
  const { atStep } = words().care
  const care = careOf(step, session.power)
  if (ask && entering) {
    const dead = step.kind === 'act' && step.act.act === 'prove-dead'
    const send = (t: Typed) => answer(dead ? { ...rawValue(t), value: undefined, volts: rawValue(t).value } : rawValue(t))
    const enter = (t: Typed) => {
      const scaled = otherScale(session, t)
      if (scaled) setOther(scaled)
      else send(t)
    }
    return (
      <Frame session={session} since={since} moment="enter">
        {other && <ScaleSheet quantity={ask.quantity} typed={typed} other={other} send={send} close={() => setOther(undefined)} />}
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
      <Title text={steps.stepTitle(step, names)} step={n} />
      <Notice hunt={hunt} />
      <Scene session={session} step={step} />
      {/* Where not all fits, care comes before the drawing: it must be read before hands move. */}
      {care && <p class={tight === 2 ? 'care first' : 'care'}>{whole(atStep[care])}</p>}
      <p>{whole(steps.stepUnder(step, names))}</p>
      {row.length > 1 && (
        <p>
          {say.row.take(
            ranges(
              ids,
              row.map(id => ids.indexOf(id)),
              Infinity,
            ) ?? '',
          )}
        </p>
      )}
      {tight === 0 && row.length < 2 && <p class="why">{whole(whyWords(request.why))}</p>}
      <Actions hunt={hunt}>
        {step.kind === 'read' && (
          <button type="button" class="primary" onClick={open}>
            {say.reading.enter}
          </button>
        )}
        {step.kind === 'act' && (
          <div class={tight === 2 && ask ? 'duo' : 'looks'}>
            <button type="button" class="primary" onClick={done}>
              {steps.actDone(step.act, names)}
            </button>
            {ask && (
              <button type="button" class="answer" onClick={open}>
                {step.act.act === 'prove-dead' ? say.reading.volts : say.reading.other}
              </button>
            )}
          </div>
        )}
        {row.length > 1 && <RowAnswers hunt={hunt} row={row} />}
        {step.kind === 'look' && (
          <div class={tight === 2 || row.length > 1 ? 'looks abreast' : 'looks'}>
            {Object.entries(labels.seen[step.look]).map(([value, name]) => (
              <button key={value} type="button" class="answer look" onClick={() => answer({ seen: value })}>
                <SeenSign look={step.look} value={value} />
                {name}
              </button>
            ))}
          </div>
        )}
      </Actions>
    </Frame>
  )
}
