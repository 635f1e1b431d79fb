import type { ComponentChildren } from 'preact'
import { useRef, useState } from 'preact/hooks'
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
  const mark = tick ?? setOwn
  const [missing, setMissing] = useState(false)
  const list = useRef<HTMLUListElement>(null)
  // What comes after the line that was ticked comes into sight by itself: a glove taps, it does not drag.
  const follow = (i: number) => {
    const next = list.current?.children[i + 1]
    const after = next ?? list.current?.parentElement?.querySelector('.primary')
    after?.scrollIntoView({ block: 'nearest' })
  }
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
      <ul ref={list} class="checks">
        {points.map((point, i) => (
          <li key={point}>
            <label>
              <input
                type="checkbox"
                checked={ticked[i] ?? false}
                onChange={e => {
                  mark(points.map((_, k) => (k === i ? e.currentTarget.checked : (ticked[k] ?? false))))
                  if (e.currentTarget.checked) follow(i)
                }}
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
