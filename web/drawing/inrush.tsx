import type { PowerUp } from '../../engine/powerup.ts'
import { words } from '../words.ts'
import { FRAME, line } from './axes.ts'
import { Diagram } from './diagram.tsx'

/** The supply's current over time while its branches are closed one after another, beside its limit. */
export const InRush = ({ up }: { up: PowerUp }) => {
  const { drawn, inrushAlt } = words().protection
  const seconds = up.line.at(-1)?.seconds ?? 1
  const peak = Math.max(...up.line.map(m => m.ampere))
  const end = 1.15 * Math.max(peak, up.limit ?? 0)
  // One moment a pixel is enough; peaks within a pixel must not be lost.
  const columns = new Map<number, readonly [number, number]>()
  return (
    <Diagram alt={inrushAlt(peak, seconds)} x={seconds} y={end} xUnit={drawn.seconds} yUnit={drawn.amps}>
      {(x, y) => {
        for (const m of up.line) {
          const column = Math.round(x(m.seconds))
          const [low, high] = columns.get(column) ?? [m.ampere, m.ampere]
          columns.set(column, [Math.min(low, m.ampere), Math.max(high, m.ampere)])
        }
        const points = [...columns].flatMap(([column, [low, high]]): (readonly [number, number])[] => [
          [column, y(high)],
          [column, y(low)],
        ])
        return (
          <>
            <path class="heavy" d={line([[x(0), y(0)], ...points])} />
            {up.steps.map(s => (
              <path key={s.branch} class="thin" d={`M${x(s.at)} ${y(0)}v6`} />
            ))}
            {up.limit !== undefined && (
              <>
                <path class="thin" stroke-dasharray="6 5" d={`M${x(0)} ${y(up.limit)}H${x(seconds)}`} />
                <text x={FRAME.width - FRAME.right - 2} y={y(up.limit) - 4} text-anchor="end">
                  {drawn.limit}
                </text>
              </>
            )}
          </>
        )
      }}
    </Diagram>
  )
}
