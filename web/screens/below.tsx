import type { RefObject } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { Icon } from '../drawing/icons.tsx'
import { words } from '../words.ts'

/** Less than this under the edge is no line of words, px. */
const LINE = 12
/** How far one tap goes: what stood lowest stays in sight. */
const SHARE = 0.7

/** Over the foot of what is cut there: the sign that more follows, and one tap shows it. Nothing where all is in sight. */
export const Below = ({ of }: { of?: RefObject<HTMLElement | null> }) => {
  const [more, setMore] = useState(false)
  useEffect(() => {
    const scroller = of?.current ?? document.documentElement
    const look = () => setMore(scroller.scrollHeight - scroller.clientHeight - scroller.scrollTop > LINE)
    look()
    const watch = new ResizeObserver(look)
    for (const part of of?.current ? [scroller, ...scroller.children] : [document.body]) watch.observe(part)
    const heard = of?.current ?? window
    heard.addEventListener('scroll', look, { passive: true })
    addEventListener('resize', look)
    return () => {
      watch.disconnect()
      heard.removeEventListener('scroll', look)
      removeEventListener('resize', look)
    }
  })
  const on = () => {
    const scroller = of?.current ?? document.documentElement
    scroller.scrollBy({ top: scroller.clientHeight * SHARE })
  }
  return more ? (
    <button type="button" class="below" aria-label={words().session.below} onClick={on}>
      <Icon name="below" />
    </button>
  ) : null
}
