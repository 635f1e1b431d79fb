import { Dc } from './symbols.tsx'

export type Mode = 'volt' | 'ohm' | 'amp'
export const METER_WIDTH = 142
export const METER_HEIGHT = 124

/** Where a lead goes in: offsets from the meter's upper left corner. */
export const sockets = { volt: { x: 18, y: 48 }, amp: { x: 18, y: 75 }, com: { x: 18, y: 102 } } as const

const signs = { volt: 'V', ohm: 'Ω', amp: 'A' }
const marks: readonly (readonly [Mode, string, number, number])[] = [
  ['volt', 'V', -27, -15],
  ['ohm', 'Ω', 0, -29],
  ['amp', 'A', 27, -15],
]

/** The meter: what the display is set to, where the dial points and which sockets are in use; a clamp needs none. */
export const Meter = ({ x, y, mode, clamp }: { x: number; y: number; mode: Mode; clamp?: boolean | undefined }) => {
  const knob = { x: 98, y: 94 }
  const [, , dialX, dialY] = marks.find(([m]) => m === mode) ?? ['ohm', 'Ω', 0, -29]
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
      <circle cx={knob.x} cy={knob.y} r={16} />
      <path d={`M${knob.x} ${knob.y}l${dialX * 0.5} ${dialY * 0.5}`} class="heavy" />
      {marks.map(([m, sign, dx, dy]) => (
        <text key={m} x={knob.x + dx} y={knob.y + dy + 6} text-anchor="middle" class={m === mode ? 'bold' : 'dim'}>
          {sign}
        </text>
      ))}
    </g>
  )
}
