import type { ComponentChildren } from 'preact'
import { useEffect, useRef } from 'preact/hooks'

/** A sheet over the screen. The browser keeps the focus in it and closes it with Escape. */
export const Sheet = ({ title, close, children }: { title: string; close: () => void; children: ComponentChildren }) => {
  const sheet = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    sheet.current?.showModal()
  }, [])
  return (
    <dialog ref={sheet} onClose={close} aria-labelledby="sheet-title">
      <h2 id="sheet-title">{title}</h2>
      {children}
      <button type="button" class="plain" onClick={close}>
        Back to the step
      </button>
    </dialog>
  )
}
