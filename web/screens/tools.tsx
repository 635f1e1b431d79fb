import type { Kit } from '../../engine/machine.ts'
import { words } from '../words.ts'
import type { Hunt } from './useSession.ts'

/** What is at hand may change in the middle of a session: a battery is empty, a clamp is fetched. From here on nothing else is asked for. */
export const Tools = ({ hunt, close }: { readonly hunt: Hunt; readonly close: () => void }) => {
  const { session, send } = hunt
  const { meter: _meter, injector, clamp = false, ...others } = session.kit
  const [started] = session.events
  // A source that comes back is the one that was there at the start: which current it gives was said then.
  const known = started?.type === 'started' ? started.kit.injector : undefined
  const { cannot } = words().session
  // In few words: a button has two lines.
  const { drawings, report } = words()
  // The list goes when it is written: a second change before that would be one tap too many.
  const change = (changed: Pick<Kit, 'clamp' | 'injector'>) => void send({ type: 'kit', kit: { ...others, ...changed } }).then(close)
  const source = (has: boolean) => (has && known !== undefined ? { injector: known } : {})
  const offers = [
    { tool: report.clamp, has: clamp, kit: { clamp: !clamp, ...source(injector !== undefined) } },
    ...(known === undefined
      ? []
      : [{ tool: drawings.source, has: injector !== undefined, kit: { clamp, ...source(injector === undefined) } }]),
  ]
  return (
    <>
      <h3>{cannot.tools}</h3>
      {offers.map(({ tool, has, kit }) => (
        <button key={tool} type="button" class="answer" onClick={() => change(kit)}>
          {has ? cannot.without(tool) : cannot.nowAtHand(tool)}
        </button>
      ))}
    </>
  )
}
