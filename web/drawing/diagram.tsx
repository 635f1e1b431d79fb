import type { ComponentChildren } from 'preact'
import { first } from '../words.ts'
import { FRAME, place, ticks } from './axes.ts'

const { width, height, left, right, top, bottom } = FRAME
interface DiagramProps {
  readonly alt: string
  /** Where each axis ends, and its unit. */
  readonly x: number
  readonly y: number
  readonly xUnit: string
  readonly yUnit: string
  readonly children: (x: (value: number) => number, y: (value: number) => number) => ComponentChildren
}

/** Two axes with figures; what is drawn in them comes from outside. */
export const Diagram = ({ alt, x, y, xUnit, yUnit, children }: DiagramProps) => {
  const { written } = first().figures
  const across = place(x, left, width - right)
  const up = place(y, height - bottom, top)
  return (
    <svg class="drawing diagram" role="img" aria-label={alt} width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
      {ticks(y, 4).map(v => (
        <g key={v}>
          <path class="faint" d={`M${left} ${up(v)}H${width - right}`} />
          <text x={left - 5} y={up(v) + 5} text-anchor="end">
            {written(String(v))}
          </text>
        </g>
      ))}
      {ticks(x, 5).map(v => (
        <text key={v} x={across(v)} y={height - 6} text-anchor={across(v) > width - 30 ? 'end' : 'middle'}>
          {written(String(v))}
        </text>
      ))}
      {children(across, up)}
      <text x={4} y={13}>
        {yUnit}
      </text>
      <text x={8} y={height - 6}>
        {xUnit}
      </text>
    </svg>
  )
}
