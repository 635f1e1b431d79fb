import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { words } from '../words.ts'
import { whole } from './whole.ts'

/** Points to tick off one by one, and the button that is true once all are. */
export const Checklist = ({
  points,
  done,
  go,
  children,
  ticked: given,
  tick,
}: {
  points: readonly string[]
  done: string
  go: () => void
  /** Which are ticked, where somebody else keeps it. */
  ticked?: readonly boolean[]
  tick?: (ticked: readonly boolean[]) => void
  children?: (button: ComponentChildren) => ComponentChildren
}) => {
  const [own, setOwn] = useState<readonly boolean[]>([])
  const ticked = given ?? own
  const [missing, setMissing] = useState(false)
  const left = points.filter((_, i) => !ticked[i]).length
  const button = (
    <>
      <p role="alert" class="problem">
        {missing && left > 0 ? words().session.tickFirst(left) : ''}
      </p>
      <button type="button" class={left > 0 ? 'primary waiting' : 'primary'} onClick={() => (left > 0 ? setMissing(true) : go())}>
        {done}
      </button>
    </>
  )
  return (
    <>
      <ul class="checks">
        {points.map((point, i) => (
          <li key={point}>
            <label>
              <input
                type="checkbox"
                checked={ticked[i] ?? false}
                onChange={e => (tick ?? setOwn)(points.map((_, k) => (k === i ? e.currentTarget.checked : (ticked[k] ?? false))))}
              />
              <span>{whole(point)}</span>
            </label>
          </li>
        ))}
      </ul>
      {children ? children(button) : button}
    </>
  )
}
