import type { Interval } from '../../engine/step.ts'
import { first } from '../words.ts'
import { ticks } from './axes.ts'
import { useWidth } from './width.ts'

const HEIGHT = 132
const LEFT = 30
const RIGHT = 14
const CABLE = 62
const APART = 16

interface StretchProps {
  readonly alt: string
  /** Metres. */
  readonly length: number
  readonly near: string
  readonly far: string
  /** Where the fault may be; without `best` it is only bounded. */
  readonly place?: (Pick<Interval, 'low' | 'high'> & Partial<Pick<Interval, 'best'>>) | undefined
  /** Junctions where volts were read. */
  readonly taps?: readonly number[]
}

/** One cable to scale, its two cores from the near to the far end, and the stretch that holds the fault laid over it. */
export const CableStretch = ({ alt, length, near, far, place, taps = [] }: StretchProps) => {
  const width = useWidth()
  const x = (metres: number) => LEFT + ((width - LEFT - RIGHT) * Math.min(Math.max(metres, 0), length)) / length
  const { round } = first().figures
  const best = place?.best === undefined ? undefined : x(place.best)
  return (
    <svg class="drawing" role="img" aria-label={alt} width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`}>
      <rect class="paper" x={4} y={CABLE - 26} width={LEFT - 4} height={APART + 52} />
      {place && (
        <rect
          class="stretch"
          x={x(place.low)}
          y={CABLE - 12}
          width={Math.max(6, x(place.high) - x(place.low))}
          height={APART + 24}
          rx={6}
          stroke-dasharray={place.best === undefined ? '7 6' : undefined}
        />
      )}
      {[CABLE, CABLE + APART].map(y => (
        <path key={y} class="heavy" d={`M${LEFT} ${y}H${width - RIGHT}`} />
      ))}
      {taps.map(at => (
        <path key={at} d={`M${x(at)} ${CABLE - 6}V${CABLE + APART + 6}`} />
      ))}
      {best !== undefined && (
        <>
          <path class="bolt violet" d={`M${best + 3} ${CABLE - 8}l-8 18h9l-5 16`} />
          <text class="bold violet-text" x={Math.min(Math.max(best, 40), width - 40)} y={CABLE - 20} text-anchor="middle">
            {`${round(place?.best ?? 0, 1)} m`}
          </text>
        </>
      )}
      <text x={4} y={18}>
        {near}
      </text>
      <text x={width - 4} y={18} text-anchor="end">
        {far}
      </text>
      {ticks(length, 5).map(at => (
        <g key={at}>
          <path class="thin" d={`M${x(at)} ${CABLE + APART + 22}v6`} />
          <text x={x(at)} y={HEIGHT - 6} text-anchor={x(at) > width - 40 ? 'end' : 'middle'}>
            {at === 0 ? '0 m' : round(at, 1)}
          </text>
        </g>
      ))}
    </svg>
  )
}
