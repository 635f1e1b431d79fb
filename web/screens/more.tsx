import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'

/** What is seldom needed, drawn once it is asked for. `open` opens it where something in it must be seen. */
export const More = ({ title, open = false, children }: { title: string; open?: boolean; children: ComponentChildren }) => {
  const [asked, setAsked] = useState(false)
  const shown = asked || open
  return (
    <details open={shown} onToggle={e => setAsked(e.currentTarget.open)}>
      <summary>{title}</summary>
      {shown && children}
    </details>
  )
}
