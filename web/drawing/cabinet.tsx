import { Lead, type Spot } from './lead.tsx'
import { METER_WIDTH, Meter, type Mode, sockets } from './meter.tsx'
import { Dc, Device, type DeviceState, Earth } from './symbols.tsx'
import { useWidth } from './width.ts'

/** Heights of the picture's levels, in px. */
const Y = { plusBus: 28, device: 42, plus: 92, zero: 140, zeroBus: 174, earth: 196, height: 212 }

export interface CabinetProps {
  readonly alt: string
  readonly branches: readonly string[]
  readonly working?: string | undefined
  readonly devices: Readonly<Record<string, DeviceState>>
  readonly fuses: readonly string[]
  readonly bus: 'joined' | 'opened'
  readonly bond: 'joined' | 'opened'
  readonly mode?: Mode | undefined
  readonly red?: string | undefined
  readonly black?: string | undefined
  /** The part to put a hand on, ringed. */
  readonly ring?: 'device' | 'bus' | 'bond' | 'branch' | 'supply' | undefined
  /** A current-limited source and where its return goes. */
  readonly source?: 'zero' | 'earth' | undefined
  readonly clamp?: boolean | undefined
  readonly three?: boolean
  /** The upper part alone, where only the devices matter. */
  readonly crop?: boolean
}

/** The supply, the buses, the devices and outgoing terminals, earth, and where the meter's leads go. */
export const Cabinet = (p: CabinetProps) => {
  const w = useWidth()
  const box = p.mode !== undefined || p.source !== undefined
  const end = box ? w - METER_WIDTH - 14 : p.three ? w - 120 : w - 8
  const at = box ? Math.max(98, end - 46) : Math.round((88 + end) / 2)
  const index = p.working === undefined ? -1 : p.branches.indexOf(p.working)
  const columns: { id: string; x: number }[] = []
  const first = p.working === undefined ? Math.max(0, Math.min(p.branches.length - 1, 1)) : index
  for (let i = first, x = at; i >= 0 && x >= 96; i -= 1, x -= 48) columns.push({ id: p.branches[i] ?? '', x })
  for (let i = first + 1, x = at + 48; !box && i < p.branches.length && x < end - 12; i += 1, x += 48)
    columns.push({ id: p.branches[i] ?? '', x })
  const meter = { x: w - METER_WIDTH - 1, y: 42 }
  const spot = (point: string): Spot => {
    if (point === 'earth') return { x: 84, y: Y.earth - 6 }
    const plus = point.endsWith('.plus')
    if (point.startsWith('supply')) return { x: 34, y: plus ? 56 : 146 }
    if (point.startsWith('bus')) return { x: at + 22, y: plus ? Y.plusBus : Y.zeroBus }
    return { x: at, y: plus ? Y.plus : Y.zero }
  }
  const socket = (s: keyof typeof sockets): Spot => ({ x: meter.x + sockets[s].x, y: meter.y + sockets[s].y })
  const ring: Spot | undefined =
    p.ring &&
    { device: { x: at, y: 56 }, bus: { x: 34, y: 42 }, bond: { x: 84, y: 183 }, branch: { x: at, y: 116 }, supply: { x: 34, y: 101 } }[
      p.ring
    ]
  const height = p.crop ? 120 : Y.height
  return (
    <svg class="drawing" role="img" aria-label={p.alt} width={w} height={height} viewBox={`0 0 ${w} ${height}`}>
      <text x={56} y={18}>
        24 V bus
      </text>
      {!(p.source && p.mode) && (
        <text x={box ? end + 6 : 112} y={Y.zeroBus + 20}>
          0 V bus
        </text>
      )}
      <rect x={8} y={56} width={52} height={90} rx={4} />
      <text x={34} y={96} text-anchor="middle" class="bold">
        24 V
      </text>
      <Dc x={34} y={112} />
      <path d={`M34 56V${p.bus === 'opened' ? 50 : Y.plusBus}M34 ${p.bus === 'opened' ? 34 : Y.plusBus}V${Y.plusBus}H${end}`} />
      <path d={`M34 146V${Y.zeroBus}H${end}`} />
      <path d={p.bond === 'opened' ? `M84 ${Y.zeroBus}v5M84 ${Y.earth - 12}l-9-7` : `M84 ${Y.zeroBus}v18`} />
      <Earth x={84} y={Y.earth} />
      {p.three && (
        <g class="thin">
          <path d={`M97 ${Y.earth}H108M176 ${Y.earth}H${w - 8}`} stroke-dasharray="4 4" />
          {(
            [
              [1, Y.plusBus, Y.zeroBus],
              [2, Y.plusBus, Y.earth],
              [3, Y.zeroBus, Y.earth],
            ] as const
          ).map(([n, a, b], i) => (
            <g key={n} transform={`translate(${w - 100 + i * 40} 0)`}>
              <path d={`M0 ${a}V${b}M-8 ${a}h16M-8 ${b}h16`} class="heavy" />
              <circle cy={n === 3 ? 150 : 90} r={15} class="full" />
              <text y={(n === 3 ? 150 : 90) + 6} text-anchor="middle" class="onfull bold">
                {n}
              </text>
            </g>
          ))}
        </g>
      )}
      {columns.map(({ id, x }) => {
        const working = id === p.working
        const state = p.devices[id] ?? 'closed'
        return (
          <g key={id} class={working ? '' : 'faint'}>
            <path d={`M${x} ${Y.plusBus}V${Y.device}M${x} ${Y.device + 28}V${Y.plus}M${x} ${Y.zero}V${Y.zeroBus}`} />
            <Device x={x} y={Y.device} state={state} fuse={p.fuses.includes(id)} />
            <circle cx={x} cy={Y.plus} r={7} class="paper" />
            <circle cx={x} cy={Y.zero} r={7} class="paper" />
            <text x={x} y={p.crop ? 115 : 122} text-anchor="middle" class={working ? 'bold' : 'dim'}>
              {id}
            </text>
          </g>
        )
      })}
      {p.clamp && <path d={`M${meter.x} 78H${at + 14}M${at + 14} 78a14 9 0 1 1-4-7`} class="heavy" />}
      {p.source && (
        <>
          <rect x={meter.x} y={p.mode ? 177 : 62} width={METER_WIDTH} height={p.mode ? 32 : 96} rx={6} class="paper" />
          <text x={meter.x + 71} y={p.mode ? 199 : 116} text-anchor="middle" class="bold">
            current source
          </text>
          {!p.mode && <Lead from={{ x: meter.x, y: Y.plus }} to={spot('X.plus')} kind="red" />}
          <Lead from={{ x: meter.x, y: p.mode ? 200 : Y.zero }} to={spot(p.source === 'earth' ? 'earth' : 'X.zero')} kind="black" />
        </>
      )}
      {p.mode && <Meter x={meter.x} y={meter.y} mode={p.mode} />}
      {p.mode === 'amp' && p.source && (
        <>
          <path
            d={`M${socket('amp').x} ${socket('amp').y}C${meter.x - 30} ${socket('amp').y} ${meter.x - 30} 184 ${meter.x} 184`}
            class="lead red"
          />
          <Lead from={socket('com')} to={spot('X.plus')} kind="black" />
        </>
      )}
      {p.red && <Lead from={socket('volt')} to={spot(p.red)} kind="red" />}
      {p.black && <Lead from={socket('com')} to={spot(p.black)} kind="black" />}
      {p.red && (
        <text x={meter.x - 4} y={socket('volt').y - 10} text-anchor="end" class="bold">
          red
        </text>
      )}
      {p.black && (
        <text x={meter.x - 4} y={socket('com').y + 20} text-anchor="end" class="bold">
          black
        </text>
      )}
      {ring && (
        <ellipse
          cx={ring.x}
          cy={ring.y}
          rx={p.ring === 'supply' ? 34 : 25}
          ry={p.ring === 'branch' ? 46 : p.ring === 'supply' ? 56 : 25}
          class="ring"
        />
      )}
    </svg>
  )
}
