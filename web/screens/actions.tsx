import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { Cannot } from './cannot.tsx'
import type { Hunt } from './useSession.ts'
import { Why } from './why.tsx'

/** The answer buttons in the thumb's reach, and under them 'Why this?', 'Undo' and 'Can't do it'. `flow`: after what must be read first, not over it. */
export const Actions = ({ hunt, children, flow = false }: { hunt: Hunt; children: ComponentChildren; flow?: boolean }) => {
  const [sheet, setSheet] = useState<'why' | 'cannot' | undefined>()
  const { session, send, answer } = hunt
  const close = () => setSheet(undefined)
  return (
    <div class={flow ? 'actions flow' : 'actions'}>
      {children}
      <nav>
        <button type="button" class="link" onClick={() => setSheet('why')}>
          Why this?
        </button>
        <button type="button" class="link" disabled={session.entries.length === 0} onClick={() => send({ type: 'undone' })}>
          Undo
        </button>
        <button type="button" class="link" onClick={() => setSheet('cannot')}>
          Can’t do it
        </button>
      </nav>
      {sheet === 'why' && <Why session={session} close={close} />}
      {sheet === 'cannot' && (
        <Cannot
          close={close}
          say={why => answer({ cannot: why })}
          handOver={() => send({ type: 'handedOver' })}
          stop={() => send({ type: 'stopped' })}
        />
      )}
    </div>
  )
}
