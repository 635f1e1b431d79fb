import { useEffect, useRef } from 'preact/hooks'
import { whole } from './whole.ts'

/** A screen's title. Takes the focus whenever `step` changes, so that a screen reader starts there. */
export const Title = ({ text, step }: { text: string; step: string | number }) => {
  const title = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    title.current?.focus({ preventScroll: true })
    scrollTo(0, 0)
  }, [step])
  return (
    <h1 ref={title} tabIndex={-1}>
      {whole(text)
        .split(' ')
        .flatMap((word, i) => [i > 0 ? ' ' : '', /-/.test(word) && word.length < 16 ? <span class="whole">{word}</span> : word])}
    </h1>
  )
}
