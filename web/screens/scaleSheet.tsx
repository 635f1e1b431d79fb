import { first, words } from '../words.ts'
import type { Quantity, Typed } from './keypad.tsx'
import { Sheet } from './sheet.tsx'

interface ScaleProps {
  readonly quantity: Quantity
  readonly typed: Typed
  /** The same figures, 1000 times as much or as little. */
  readonly other: Typed
  readonly send: (typed: Typed) => void
  readonly close: () => void
}

/** A value that fits nothing while 1000 times as much or as little would: which of the two did the display show? */
export const ScaleSheet = ({ quantity, typed, other, send, close }: ScaleProps) => {
  const { scale: say } = words().phone
  const shown = ({ text, prefix }: Typed) => `${first().figures.written(text).replace('-', '−')} ${prefix}${quantity}`
  return (
    <Sheet title={say.ask(shown(typed))} close={close}>
      {[other, typed].map(value => (
        <button
          key={value.prefix}
          type="button"
          class={value === other ? 'primary' : 'answer'}
          onClick={() => {
            close()
            send(value)
          }}
        >
          {say.pick(shown(value))}
        </button>
      ))}
    </Sheet>
  )
}
