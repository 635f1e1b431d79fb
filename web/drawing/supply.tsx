import { words } from '../words.ts'
import { Lamp } from './symbols.tsx'
import { useWidth } from './width.ts'

interface SupplyProps {
  readonly alt: string
  readonly on: boolean
  readonly lamp?: boolean
  readonly ring: 'switch' | 'lamp' | 'mains'
  readonly height: number
}
/** The least and the most height that the picture takes, in px, and that of the supply in it. */
export const SUPPLY = { least: 112, most: 180, locked: 138 } as const
const BOX = 108

/** Mains, the machine's own switch with its lock, and the 24 V supply with its lamp. */
export const SupplyDrawing = ({ alt, on, lamp, ring, height }: SupplyProps) => {
  const w = useWidth()
  const say = words().drawings
  // The line stands in the middle of what the height leaves; the lock hangs below the switch.
  const room = !on && ring === 'switch' ? height - 26 : height
  const top = Math.max(0, Math.round((room - BOX) / 2))
  const cx = Math.round(w * 0.38)
  const bx = w - 118
  return (
    <svg class="drawing" role="img" aria-label={alt} width={w} height={height} viewBox={`0 ${-top} ${w} ${height}`}>
      <text x={2} y={60}>
        {say.mains}
      </text>
      <path d={`M2 72H${cx - 24}M${cx + 24} 72H${bx}`} />
      <path d={on ? `M${cx - 24} 72H${cx + 24}` : `M${cx - 24} 72L${cx + 20} 46`} class="heavy" />
      <circle cx={cx - 24} cy={72} r={5} class="paper" />
      <circle cx={cx + 24} cy={72} r={5} class="paper" />
      <text x={cx} y={98} text-anchor="middle" class="bold">
        {on ? say.on : say.off}
      </text>
      {!on && (
        <g transform={`translate(${cx - 11} 106)`}>
          <path d="M4 12V7a7 7 0 0 1 14 0v5" />
          <rect y={12} width={22} height={16} rx={3} class="full" />
        </g>
      )}
      <rect x={bx} y={2} width={110} height={BOX - 4} rx={6} />
      <text x={bx + 55} y={24} text-anchor="middle" class="bold">
        24 V
      </text>
      <text x={bx + 55} y={42} text-anchor="middle">
        {say.supply}
      </text>
      <Lamp x={bx + 55} y={76} state={lamp ? 'on' : on ? 'unknown' : 'off'} />
      {ring === 'switch' && <ellipse cx={cx} cy={66} rx={48} ry={40} class="ring" />}
      {ring === 'lamp' && <circle cx={bx + 55} cy={76} r={25} class="ring" />}
      {ring === 'mains' && <ellipse cx={bx + 2} cy={72} rx={26} ry={24} class="ring" />}
    </svg>
  )
}
