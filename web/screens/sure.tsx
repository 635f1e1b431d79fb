import { useState } from 'preact/hooks'
import { first } from '../words.ts'
import { Sheet } from './sheet.tsx'

interface SureProps {
  /** The button at the screen's foot, and the one that does it. */
  readonly label: string
  readonly title: string
  /** What is lost. */
  readonly text: string
  readonly go: () => void
}

/**
 * What cannot be taken back: a second tap, elsewhere. The sheet's own way back lies where the first tap was, and what is lost is told
 * between the two, so that a finger that bounces does nothing.
 */
export const Sure = ({ label, title, text, go }: SureProps) => {
  const [asked, setAsked] = useState(false)
  return (
    <>
      <button type="button" class="link" onClick={() => setAsked(true)}>
        {label}
      </button>
      {asked && (
        <Sheet title={title} close={() => setAsked(false)} back={first().back}>
          <button
            type="button"
            class="answer"
            onClick={() => {
              setAsked(false)
              go()
            }}
          >
            {label}
          </button>
          <p>{text}</p>
        </Sheet>
      )}
    </>
  )
}
