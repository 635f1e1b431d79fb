import { Lamp } from './symbols.tsx'
import { useWidth } from './width.ts'

/** Mains, the machine's own switch with its lock, and the 24 V supply with its lamp. */
export const SupplyDrawing = ({ alt, on, lamp, ring }: { alt: string; on: boolean; lamp?: boolean; ring: 'switch' | 'lamp' | 'mains' }) => {
  const w = useWidth()
  const cx = Math.round(w * 0.38)
  const bx = w - 118
  return (
    <svg
      class="drawing"
      role="img"
      aria-label={alt}
      width={w}
      height={ring === 'switch' ? 168 : 134}
      viewBox={`0 0 ${w} ${ring === 'switch' ? 168 : 134}`}
    >
      <text x={2} y={72}>
        mains
      </text>
      <path d={`M2 84H${cx - 24}M${cx + 24} 84H${bx}`} />
      <path d={on ? `M${cx - 24} 84H${cx + 24}` : `M${cx - 24} 84L${cx + 20} 58`} class="heavy" />
      <circle cx={cx - 24} cy={84} r={5} class="paper" />
      <circle cx={cx + 24} cy={84} r={5} class="paper" />
      <text x={cx} y={112} text-anchor="middle" class="bold">
        {on ? 'on' : 'off'}
      </text>
      {!on && (
        <g transform={`translate(${cx - 11} 136)`}>
          <path d="M4 12V7a7 7 0 0 1 14 0v5" />
          <rect y={12} width={22} height={16} rx={3} class="full" />
        </g>
      )}
      <rect x={bx} y={8} width={110} height={120} rx={6} />
      <text x={bx + 55} y={31} text-anchor="middle" class="bold">
        24 V
      </text>
      <text x={bx + 55} y={52} text-anchor="middle">
        supply
      </text>
      <Lamp x={bx + 55} y={95} state={lamp ? 'on' : 'paper'} />
      {ring === 'switch' && <ellipse cx={cx} cy={78} rx={48} ry={44} class="ring" />}
      {ring === 'lamp' && <circle cx={bx + 55} cy={95} r={31} class="ring" />}
      {ring === 'mains' && <ellipse cx={bx + 2} cy={84} rx={26} ry={24} class="ring" />}
    </svg>
  )
}
