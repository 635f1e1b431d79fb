import type { ComponentChildren } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { words } from '../words.ts'
import { Below } from './below.tsx'

interface SheetProps {
  readonly title: string
  readonly close: () => void
  /** The way back, where it leads elsewhere than to a step. */
  readonly back?: string
  readonly children: ComponentChildren
}

/** A sheet over the screen. The browser keeps the focus in it and closes it with Escape. */
export const Sheet = ({ title, close, back, children }: SheetProps) => {
  const sheet = useRef<HTMLDialogElement>(null)
  const body = useRef<HTMLElement>(null)
  useEffect(() => {
    sheet.current?.showModal()
  }, [])
  return (
    <dialog ref={sheet} onClose={close} aria-labelledby="sheet-title">
      <h2 id="sheet-title">{title}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard (WCAG 2.1.1) */}
      <section ref={body} class="body" tabIndex={0} aria-labelledby="sheet-title">
        {children}
      </section>
      <Below of={body} />
      <button type="button" class="plain" onClick={() => sheet.current?.close()}>
        {back ?? words().session.backToStep}
      </button>
    </dialog>
  )
}
