import { useEffect, useState } from 'preact/hooks'

/** The column's inner width in CSS pixels, so that a drawing's units are pixels and its lettering never shrinks. */
const column = () => Math.max(280, Math.min(document.documentElement.clientWidth, 520) - 24)

export const useWidth = (): number => {
  const [width, setWidth] = useState(column)
  useEffect(() => {
    const measure = () => setWidth(column())
    addEventListener('resize', measure)
    return () => removeEventListener('resize', measure)
  }, [])
  return width
}
