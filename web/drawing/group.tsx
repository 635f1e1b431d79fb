import { words as say } from '../words.ts'
import { ranges } from './ranges.ts'
import { Dc, type DeviceState } from './symbols.tsx'
import { useWidth } from './width.ts'

/** Heights in px: the least and the most that the picture takes, and its levels. */
export const GROUP = { least: 146, most: 190 } as const
interface GroupProps {
  readonly alt: string
  readonly names: readonly string[]
  readonly states: readonly DeviceState[]
  readonly height: number
  readonly mode: 'volt' | 'ohm'
  /** In words: which devices are closed. */
  readonly words: (names: string | undefined, closed: number) => string
}

/** The meter between the two buses, and all the devices side by side: the reading sees every branch whose device is closed. */
export const Group = ({ alt, names, states, height, mode, words }: GroupProps) => {
  const w = useWidth()
  const { plusBus, zeroBus, red, black } = say().drawings
  const spare = Math.max(0, height - GROUP.least)
  const y = { plus: 52, device: 60 + Math.round(spare * 0.2), name: 104 + Math.round(spare * 0.4), zero: 116 + Math.round(spare * 0.7) }
  const left = 62
  const pitch = (w - left - 8) / Math.max(1, names.length)
  const at = (i: number) => Math.round(left + (i + 0.5) * pitch)
  const closed = states.flatMap((s, i) => (s === 'closed' ? [i] : []))
  // A name under each only where they stand apart; the line above names them in any case.
  const named = pitch >= Math.max(...names.map(n => n.length)) * 10 + 4
  const lean = Math.min(10, pitch * 0.45)
  return (
    <svg class="drawing" role="img" aria-label={alt} width={w} height={height} viewBox={`0 0 ${w} ${height}`}>
      <text x={left} y={y.plus - 9}>
        {plusBus}
      </text>
      <path d={`M30 ${y.plus}H${w - 4}M30 ${y.zero}H${w - 4}`} />
      <text x={w - 16} y={y.zero + 20} text-anchor="end">
        {zeroBus}
      </text>
      {states.map((state, i) => {
        const x = at(i)
        const open = state !== 'closed'
        return (
          <g key={names[i]} class={open ? 'faint' : ''}>
            <path
              d={
                open
                  ? `M${x} ${y.plus}V${y.device}M${x} ${y.device + 26}L${x - lean} ${y.device + 6}M${x} ${y.device + 26}V${y.name - 16}`
                  : `M${x} ${y.plus}V${y.name - 16}`
              }
            />
            <path d={`M${x} ${y.name + 3}V${y.zero}`} />
            {!open && pitch >= 12 && <path d={`M${x - 4} ${y.device + 6}h8M${x - 4} ${y.device + 20}h8`} />}
            {named && (
              <text x={x} y={y.name} text-anchor="middle" class={open ? 'dim' : 'bold'}>
                {names[i]}
              </text>
            )}
          </g>
        )
      })}
      <text x={w / 2} y={14} text-anchor="middle" class="bold">
        {words(ranges(names, closed, Math.floor((w - 90) / 10)), closed.length)}
      </text>
      <path d={`M24 ${y.plus}V${y.plus + 12}M24 ${y.zero}V${y.zero - 12}`} class="halo" />
      <path d={`M24 ${y.plus}V${y.plus + 14}`} class="lead red" />
      <path d={`M24 ${y.zero}V${y.zero - 14}`} class="edge" />
      <path d={`M24 ${y.zero}V${y.zero - 14}`} class="lead black" />
      <rect x={2} y={y.plus + 14} width={44} height={y.zero - y.plus - 28} rx={8} class="paper" />
      <text x={24} y={Math.round((y.plus + y.zero) / 2) + (mode === 'ohm' ? 6 : 0)} text-anchor="middle" class="bold">
        {mode === 'ohm' ? 'Ω' : 'V'}
      </text>
      {mode === 'volt' && <Dc x={24} y={Math.round((y.plus + y.zero) / 2) + 12} />}
      <text x={14} y={y.zero + 20} class="bold">
        {black}
      </text>
      <circle cx={24} cy={y.plus} r={6} class="tip red" />
      <circle cx={24} cy={y.zero} r={6} class="tip black" />
      <text x={2} y={y.plus - 11} class="bold">
        {red}
      </text>
    </svg>
  )
}
