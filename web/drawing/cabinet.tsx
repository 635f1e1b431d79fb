import { words } from '../words.ts'
import { Lead, type Spot } from './lead.tsx'
import { METER_HEIGHT, METER_WIDTH, Meter, type Mode, sockets } from './meter.tsx'
import { Dc, Device, type DeviceState, Earth } from './symbols.tsx'
import { useWidth } from './width.ts'

/** The least and the most height that the picture takes, in px; without what hangs below the devices, the cropped one. */
export const CABINET = { least: 146, most: 232, crop: 88 } as const

/** Room for the meter above the source that feeds the branch, in px. */
export const FED = 168

/** The widest that a letter of a name is, px. */
const LETTER = 11

/** Heights of the picture's levels, in px: where there is little room, they stand closer. */
const levels = (height: number) => {
  const spare = Math.max(0, height - CABINET.least)
  const at = (y: number, share: number) => Math.round(y + spare * share)
  return {
    plusBus: 22,
    device: at(27, 0.08),
    plus: at(66, 0.36),
    zero: at(96, 0.6),
    zeroBus: at(117, 0.82),
    earth: at(131, 1),
  }
}

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
  readonly height: number
  /** The upper part alone, where only the devices matter. */
  readonly crop?: boolean
}

/** The branch whose outgoing terminal a point is. */
const branchOf = (point: string | undefined): string | undefined => {
  const place = point?.slice(0, Math.max(0, point.lastIndexOf('.'))).split('/')[0] ?? ''
  return ['', 'supply', 'bus'].includes(place) ? undefined : place
}

/** The supply, the buses, the devices and outgoing terminals, earth, and where the meter's leads go. */
export const Cabinet = (p: CabinetProps) => {
  const w = useWidth()
  const { plusBus, zeroBus, source: sourceWord } = words().drawings
  const Y = levels(p.crop ? CABINET.least : p.height)
  const narrow = w < 310
  const box = p.mode !== undefined || p.source !== undefined
  const end = box ? w - METER_WIDTH - 14 : p.three ? w - 136 : w - 8
  // A reading from one branch to another shows both, side by side, and no third.
  const other = [p.red, p.black].map(branchOf).find(id => id !== undefined && id !== p.working)
  // Where a lead passes between the terminals, or the name is wider than the way there, names stand above the bus.
  const above = other !== undefined || (box && (p.working?.length ?? 0) > 3)
  const zeros = other === undefined || p.red?.endsWith('.zero') === true
  const at = other !== undefined ? Math.max(138, end - 34) : box ? Math.max(98, end - 46) : Math.round((88 + end) / 2)
  const otherX = Math.max(90, at - 48)
  const index = p.working === undefined ? -1 : p.branches.indexOf(p.working)
  const columns: { id: string; x: number }[] = []
  const first = p.working === undefined ? Math.max(0, Math.min(p.branches.length - 1, 1)) : index
  const wide = (Math.max(...p.branches.map(id => id.length)) * LETTER) / 2
  const pitch = Math.max(48, 2 * wide + 8)
  if (other !== undefined) columns.push({ id: p.working ?? '', x: at }, { id: other, x: otherX })
  for (let i = first, x = at; other === undefined && i >= 0 && (x === at || x >= Math.max(96, 66 + wide)); i -= 1, x -= pitch)
    columns.push({ id: p.branches[i] ?? '', x })
  for (let i = first + 1, x = at + pitch; !box && i < p.branches.length && x < end - Math.max(12, wide); i += 1, x += pitch)
    columns.push({ id: p.branches[i] ?? '', x })
  const height = p.crop ? CABINET.crop : p.height
  const meter = { x: w - METER_WIDTH - 1, y: p.mode && p.source ? 0 : Math.round((height - METER_HEIGHT) / 2) }
  const supply = { top: Y.device + 12, height: Y.zero - Y.device - 8 }
  const spot = (point: string): Spot => {
    if (point === 'earth') return { x: 84, y: Y.earth - 6 }
    const plus = point.endsWith('.plus')
    if (point.startsWith('supply')) return { x: 34, y: plus ? supply.top : supply.top + supply.height }
    if (point.startsWith('bus')) return { x: at + 22, y: plus ? Y.plusBus : Y.zeroBus }
    return { x: other !== undefined && branchOf(point) === other ? otherX : at, y: plus ? Y.plus : Y.zero }
  }
  const clampY = Math.round((Y.device + 28 + Y.plus) / 2)
  const socket = (s: keyof typeof sockets): Spot => ({ x: meter.x + sockets[s].x, y: meter.y + sockets[s].y })
  const source = p.mode ? { top: height - 29, height: 28 } : { top: Y.plus - 20, height: Y.zero - Y.plus + 40 }
  const ring: Spot | undefined =
    p.ring &&
    {
      device: { x: at, y: Y.device + 14 },
      bus: { x: 34, y: Math.round((Y.plusBus + supply.top) / 2) },
      bond: { x: 84, y: Math.round((Y.zeroBus + Y.earth) / 2) },
      branch: { x: at, y: Math.round((Y.plus + Y.zero) / 2) },
      supply: { x: 34, y: supply.top + supply.height / 2 },
    }[p.ring]
  return (
    <svg class="drawing" role="img" aria-label={p.alt} width={w} height={height} viewBox={`0 0 ${w} ${height}`}>
      {!above && (
        <text x={56} y={15}>
          {plusBus}
        </text>
      )}
      {!p.crop && !(p.source && p.mode) && ![p.source, p.red, p.black].includes('earth') && !(narrow && box) && (
        <text x={112} y={Y.zeroBus + 19}>
          {zeroBus}
        </text>
      )}
      {p.crop ? (
        <path d={`M34 ${Y.plusBus}H${end}`} />
      ) : (
        <>
          <rect x={8} y={supply.top} width={52} height={supply.height} rx={4} />
          <text x={34} y={supply.top + supply.height / 2 + 1} text-anchor="middle" class="bold">
            24 V
          </text>
          <Dc x={34} y={supply.top + supply.height / 2 + 14} />
          <path
            d={
              p.bus === 'opened'
                ? `M34 ${supply.top}v-3M30 ${supply.top - 4}L22 ${Y.plusBus + 2}M34 ${Y.plusBus}H${end}`
                : `M34 ${supply.top}V${Y.plusBus}H${end}`
            }
          />
          <path d={`M34 ${supply.top + supply.height}V${Y.zeroBus}H${end}`} />
          <path d={p.bond === 'opened' ? `M84 ${Y.zeroBus}v3M84 ${Y.earth - 4}l-10-8` : `M84 ${Y.zeroBus}V${Y.earth - 8}`} />
          <Earth x={84} y={Y.earth} />
        </>
      )}
      {p.three && (
        <g class="thin">
          <path d={`M97 ${Y.earth}H108M176 ${Y.earth}H${w - 30}`} stroke-dasharray="4 4" />
          {(
            [
              [1, Y.plusBus, Y.zeroBus],
              [2, Y.plusBus, Y.earth],
              [3, Y.zeroBus, Y.earth],
            ] as const
          ).map(([n, a, b], i) => (
            <g key={n} transform={`translate(${w - 116 + i * 38} 0)`}>
              <path d={`M0 ${a}V${b}M-8 ${a}h16M-8 ${b}h16`} class="heavy" />
              <circle cy={n === 3 ? Y.zeroBus - 18 : Y.plus + 6} r={15} class="full" />
              <text y={(n === 3 ? Y.zeroBus - 18 : Y.plus + 6) + 6} text-anchor="middle" class="onfull bold">
                {n}
              </text>
            </g>
          ))}
        </g>
      )}
      {columns.map(({ id, x }) => {
        const working = id === p.working || id === other
        const state = p.devices[id] ?? 'closed'
        return (
          <g key={id} class={working ? '' : 'faint'}>
            <path d={`M${x} ${Y.plusBus}V${Y.device}M${x} ${Y.device + 28}V${Y.plus}${zeros ? `M${x} ${Y.zero}V${Y.zeroBus}` : ''}`} />
            <Device x={x} y={Y.device} state={state} fuse={p.fuses.includes(id)} />
            <circle cx={x} cy={Y.plus} r={6} class="paper" />
            {zeros && <circle cx={x} cy={Y.zero} r={6} class="paper" />}
            <text
              x={x + (other === undefined ? 0 : x === at ? -10 : 10)}
              y={above ? 15 : Math.round((Y.plus + Y.zero) / 2) + 6}
              text-anchor={other === undefined ? 'middle' : x === at ? 'start' : 'end'}
              class={working ? 'bold' : 'dim'}
            >
              {id}
            </text>
          </g>
        )
      })}
      {p.clamp && <path d={`M${meter.x} ${clampY}H${at + 14}M${at + 14} ${clampY}a14 8 0 1 1-4-6`} class="heavy" />}
      {p.source && (
        <>
          <rect x={meter.x} y={source.top} width={METER_WIDTH} height={source.height} rx={6} class="paper" />
          <text x={meter.x + 71} y={source.top + source.height / 2 + 6} text-anchor="middle" class="bold">
            {sourceWord}
          </text>
          {!p.mode && <Lead from={{ x: meter.x, y: Y.plus }} to={spot('X.plus')} kind="red" />}
          <Lead
            from={{ x: meter.x, y: p.mode ? source.top + 20 : Y.zero }}
            to={spot(p.source === 'earth' ? 'earth' : 'X.zero')}
            kind="black"
          />
        </>
      )}
      {p.mode && <Meter x={meter.x} y={meter.y} mode={p.mode} clamp={p.clamp} named={p.red !== undefined} />}
      {p.mode === 'amp' && p.source && (
        <>
          <path
            d={`M${socket('amp').x} ${socket('amp').y}C${meter.x - 30} ${socket('amp').y} ${meter.x - 30} ${source.top + 8} ${meter.x} ${source.top + 8}`}
            class="lead red"
          />
          <Lead from={socket('com')} to={spot('X.plus')} kind="black" />
        </>
      )}
      {p.red && <Lead from={socket('volt')} to={spot(p.red)} kind="red" />}
      {p.black && <Lead from={socket('com')} to={spot(p.black)} kind="black" />}
      {ring && (
        <ellipse
          cx={ring.x}
          cy={ring.y}
          rx={p.ring === 'supply' ? 33 : 24}
          ry={
            p.ring === 'branch' ? (Y.zero - Y.plus) / 2 + 18 : p.ring === 'supply' ? supply.height / 2 + 8 : p.ring === 'device' ? 21 : 16
          }
          class="ring"
        />
      )}
    </svg>
  )
}
