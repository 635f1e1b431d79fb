import type { ComponentChildren } from 'preact'
import { useLayoutEffect, useRef, useState } from 'preact/hooks'

import { Larger } from './larger.tsx'

interface PictureProps {
  /** Heights in px: below the least a drawing cannot be read, past the most it gains nothing. */
  readonly least: number
  readonly most: number
  readonly children: (height: number) => ComponentChildren
}

/** Room for a drawing: what the words leave of the screen. Lettering keeps its size; what gives way is the space between. */
export const Picture = ({ least, most, children }: PictureProps) => {
  const box = useRef<HTMLDivElement>(null)
  const [height, setHeight] = useState(least)
  useLayoutEffect(() => {
    const room = box.current
    if (!room) return
    const measure = () => setHeight(Math.max(least, Math.min(most, Math.floor(room.clientHeight))))
    measure()
    const watch = new ResizeObserver(measure)
    watch.observe(room)
    return () => watch.disconnect()
  }, [least, most])
  return (
    <div ref={box} class="picture" style={{ flexBasis: `${least}px`, maxHeight: `${most}px` }}>
      {children(height)}
      <Larger>{() => children(most)}</Larger>
    </div>
  )
}
