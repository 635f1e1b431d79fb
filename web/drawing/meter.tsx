import { words } from '../words.ts'
import { Dc } from './symbols.tsx'

export type Mode = 'volt' | 'ohm' | 'amp'
export const METER_WIDTH = 142
export const METER_HEIGHT = 136

/** Where a lead goes in: offsets from the meter's upper left corner. */
export const sockets = { volt: { x: 18, y: 50 }, amp: { x: 18, y: 84 }, com: { x: 18, y: 118 } } as const

const signs = { volt: 'V', ohm: 'Ω', amp: 'A' }
const marks: readonly (readonly [Mode, string, number, number])[] = [
  ['volt', 'V', -26, -12],
  ['ohm', 'Ω', 0, -24],
  ['amp', 'A', 26, -12],
]

interface MeterProps {
  readonly x: number
  readonly y: number
  readonly mode: Mode
  /** A clamp needs no socket. */
  readonly clamp?: boolean | undefined
  /** Which lead goes where stands beside the socket: out there the leads cross whatever they cross. */
  readonly named?: boolean
}

/** The meter: what the display is set to, where the dial points and which sockets are in use. */
export const Meter = ({ x, y, mode, clamp, named }: MeterProps) => {
  const { red, black } = words().drawings
  const knob = { x: 98, y: 92 }
  const [, , dialX, dialY] = marks.find(([m]) => m === mode) ?? ['ohm', 'Ω', 0, -24]
  return (
    <g transform={`translate(${x} ${y})`}>
      <rect width={METER_WIDTH} height={METER_HEIGHT} rx={12} class="paper" />
      <rect x={12} y={8} width={118} height={26} rx={4} class="thin" />
      <text x={80} y={27} text-anchor="end">
        – – –
      </text>
      <text x={96} y={27} class="bold">
        {signs[mode]}
      </text>
      {mode !== 'ohm' && <Dc x={118} y={21} />}
      {(['volt', 'amp', 'com'] as const).map(s => {
        const used = !clamp && (s === 'com' || (s === 'amp') === (mode === 'amp'))
        return (
          <g key={s}>
            <circle cx={sockets[s].x} cy={sockets[s].y} r={8} class={used ? 'full' : 'thin'} />
            <text x={31} y={sockets[s].y + 6} class={used ? 'bold' : ''}>
              {s === 'volt' ? 'VΩ' : s === 'amp' ? 'A' : 'COM'}
            </text>
          </g>
        )
      })}
      {named && (
        <>
          <text x={62} y={sockets.volt.y + 6} class="bold">
            {red}
          </text>
          <text x={75} y={sockets.com.y + 6} class="bold">
            {black}
          </text>
        </>
      )}
      <circle cx={knob.x} cy={knob.y} r={14} />
      <path d={`M${knob.x} ${knob.y}l${dialX * 0.5} ${dialY * 0.5}`} class="heavy" />
      {marks.map(([m, sign, dx, dy]) => (
        <text key={m} x={knob.x + dx} y={knob.y + dy + 6} text-anchor="middle" class={m === mode ? 'bold' : 'dim'}>
          {sign}
        </text>
      ))}
    </g>
  )
}
