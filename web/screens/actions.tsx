import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { Icon } from '../drawing/icons.tsx'
import { words } from '../words.ts'
import { Below } from './below.tsx'
import { Cannot } from './cannot.tsx'
import { Ending } from './ending.tsx'
import { typedOf } from './keypad.tsx'
import { Tools } from './tools.tsx'
import type { Hunt } from './useSession.ts'
import { Why } from './why.tsx'

/** The answer buttons in the thumb's reach, and under them 'Why this?', 'Undo', 'Can't do it' and the ways to end. `flow`: after what must be read first, not over it. */
export const Actions = ({ hunt, children, flow = false }: { hunt: Hunt; children: ComponentChildren; flow?: boolean }) => {
  const [sheet, setSheet] = useState<'why' | 'cannot' | 'end' | undefined>()
  const { session, send, answer } = hunt
  const close = () => setSheet(undefined)
  // A reading that is taken back stands in the keypad again, to be mended where one figure of it was wrong.
  const undo = async () => {
    const last = session.entries.at(-1)
    await send({ type: 'undone' })
    if (last && 'value' in last.answer) hunt.saveDraft(JSON.stringify({ ...typedOf(last.answer), n: last.request.n }))
  }
  const { actions } = words().session
  return (
    <div class={flow ? 'actions flow' : 'actions'}>
      {!flow && <Below />}
      {children}
      <nav>
        <button type="button" class="link" onClick={() => setSheet('why')}>
          <Icon name="why" />
          {actions.why}
        </button>
        <button type="button" class="link" disabled={session.entries.length === 0} onClick={undo}>
          <Icon name="undo" />
          {actions.undo}
        </button>
        <button type="button" class="link" onClick={() => setSheet('cannot')}>
          <Icon name="cannot" />
          {actions.cannot}
        </button>
        <button type="button" class="link" onClick={() => setSheet('end')}>
          <Icon name="end" />
          {actions.end}
        </button>
      </nav>
      {sheet === 'why' && <Why session={session} close={close} />}
      {sheet === 'cannot' && (
        <Cannot close={close} say={why => answer({ cannot: why })}>
          <Tools hunt={hunt} close={close} />
        </Cannot>
      )}
      {sheet === 'end' && <Ending close={close} handOver={() => send({ type: 'handedOver' })} stop={() => send({ type: 'stopped' })} />}
    </div>
  )
}
