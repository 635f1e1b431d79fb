import { useEffect, useState } from 'preact/hooks'

/** The column's inner width in CSS pixels, so that a drawing's units are pixels and its lettering never shrinks. */
const column = () => {
  const { clientWidth } = document.documentElement
  // A phone on its side has the drawing at the left and the words at the right.
  if (innerHeight <= 480 && clientWidth >= 600) return Math.min(440, Math.floor((clientWidth - 40) / 2))
  return Math.max(280, Math.min(clientWidth, 520) - 24)
}

export const useWidth = (): number => {
  const [width, setWidth] = useState(column)
  useEffect(() => {
    const measure = () => setWidth(column())
    addEventListener('resize', measure)
    return () => removeEventListener('resize', measure)
  }, [])
  return width
}
