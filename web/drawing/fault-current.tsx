import type { Along } from '../../engine/along.ts'
import type { Band } from '../../engine/gate.ts'
import { words } from '../words.ts'
import { FRAME, line } from './axes.ts'
import { Diagram } from './diagram.tsx'

interface FaultCurrentProps {
  readonly branch: string
  readonly verdict: string
  readonly way: Along
  readonly band: Band
}
/** Head room above what is worth seeing. */
const ABOVE = 1.15

/** Lowest and highest current of a short circuit over the branch's length, beside the device's band. */
export const FaultCurrent = ({ branch, verdict, way, band }: FaultCurrentProps) => {
  const { points } = way
  const { currentAlt, drawn } = words().protection
  const length = points.at(-1)?.metres ?? 1
  const { holds, opens } = band
  const most = points[0]?.high ?? 1
  const known = [holds, opens].filter(x => Number.isFinite(x) && x > 0)
  // A supply without a known limit would leave the device's band a line at the bottom.
  const end = ABOVE * Math.max(...known, Math.min(most, 3 * Math.max(...known, points.at(-1)?.high ?? 0)))
  return (
    <Diagram alt={currentAlt(branch, verdict)} x={length} y={end} xUnit={drawn.metres} yUnit={drawn.amps}>
      {(x, y) => (
        <>
          {holds > 0 && Number.isFinite(holds) && (
            <rect class="maybe" x={x(0)} y={y(opens)} width={x(length) - x(0)} height={Math.max(0, y(holds) - y(opens))} />
          )}
          {Number.isFinite(opens) && <path class="thin" d={`M${x(0)} ${y(opens)}H${x(length)}`} />}
          <path class="thin" stroke-dasharray="6 5" d={line(points.map(p => [x(p.metres), y(p.high)]))} />
          <path class="heavy" d={line(points.map(p => [x(p.metres), y(p.low)]))} />
          {Number.isFinite(opens) && (
            <text x={FRAME.width - FRAME.right - 2} y={y(opens) - 4} text-anchor="end">
              {drawn.opens}
            </text>
          )}
          {holds > 0 && Number.isFinite(holds) && (
            <text x={FRAME.left + 4} y={Math.min(y(holds) + 17, FRAME.height - FRAME.bottom - 3)}>
              {drawn.closed}
            </text>
          )}
        </>
      )}
    </Diagram>
  )
}
