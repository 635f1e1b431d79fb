import type { ComponentChildren } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import { Icon } from '../drawing/icons.tsx'
import { words } from '../words.ts'
import { Sheet } from './sheet.tsx'

/** The sheet's share of the screen's height, and what a drawing on a phone on its side is enlarged by at least, though it scrolls. */
const [SHEET, LEAST] = [0.92, 1.25]

/** A drawing as large as the screen takes it: on an upright phone it lies on its side, so that its length gets the screen's. */
const Large = ({ children, close }: { children: ComponentChildren; close: () => void }) => {
  const frame = useRef<HTMLDivElement>(null)
  const [said, setSaid] = useState('')
  useEffect(() => {
    const box = frame.current
    const drawing = box?.querySelector('svg')
    if (!box || !drawing) return
    const { width, height } = drawing.viewBox.baseVal
    const [sheet, body] = [box.closest('dialog'), box.closest('section')]
    setSaid(drawing.getAttribute('aria-label') ?? '')
    const enlarge = () => {
      const upright = innerHeight > innerWidth
      // All of the drawing at once: under the sheet's title and over its button.
      const beside = (sheet?.offsetHeight ?? 0) - (body?.offsetHeight ?? 0) + 8
      const room = { width: box.clientWidth, height: Math.floor(innerHeight * SHEET) - beside }
      const scale = upright
        ? Math.min(room.height / width, room.width / height)
        : Math.min(room.width / width, Math.max(LEAST, room.height / height))
      box.style.height = `${(upright ? width : height) * scale}px`
      drawing.style.transform = upright
        ? `translateX(${(room.width + height * scale) / 2}px) rotate(90deg) scale(${scale})`
        : `scale(${scale})`
    }
    enlarge()
    addEventListener('resize', enlarge)
    return () => removeEventListener('resize', enlarge)
  }, [])
  return (
    <Sheet title={words().phone.larger} close={close}>
      <div ref={frame} class="large">
        {children}
      </div>
      <p>{said}</p>
    </Sheet>
  )
}

/** The button that shows a drawing large; one tap, no pinching. */
export const Larger = ({ children }: { children: () => ComponentChildren }) => {
  const [open, setOpen] = useState(false)
  const { larger } = words().phone
  return (
    <>
      <button type="button" class="larger" aria-label={larger} onClick={() => setOpen(true)}>
        <Icon name="larger" />
      </button>
      {open && <Large close={() => setOpen(false)}>{children()}</Large>}
    </>
  )
}
