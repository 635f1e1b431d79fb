// Symbols by own primitives, after the practice of IEC 60617: switch, fuse, earth, resistor load, lamp.

interface At {
  x: number
  y: number
}
export type DeviceState = 'closed' | 'open' | 'tripped'

/** A device in a vertical line, 28 px high: contact open or closed; a fuse is a box in the line; tripped has a cross. */
export const Device = ({ x, y, state, fuse }: At & { state: DeviceState; fuse?: boolean | undefined }) => (
  <g transform={`translate(${x} ${y})`}>
    {fuse ? (
      <>
        <rect x={-6} y={2} width={12} height={24} transform={state === 'closed' ? '' : 'translate(18 2) rotate(20)'} />
        {state === 'closed' && <path d="M0 0v28" />}
      </>
    ) : (
      <path d={state === 'closed' ? 'M0 0v28' : 'M0 28L-15 4'} />
    )}
    {!fuse && <path d="M-5 0h10" />}
    {state === 'tripped' && <path d="M8 10l12 12M20 10l-12 12" />}
  </g>
)

export const Earth = ({ x, y }: At) => <path d={`M${x} ${y - 8}v8M${x - 13} ${y}h26M${x - 8} ${y + 6}h16M${x - 3} ${y + 12}h6`} />

/** A load, 14 px square, hung from its junction. */
export const LoadBox = ({ x, y }: At) => <rect x={x - 7} y={y - 7} width={14} height={14} class="paper" />

/** Direct current: a whole line over a broken one. */
export const Dc = ({ x, y }: At) => <path d={`M${x - 9} ${y - 3}h18M${x - 9} ${y + 3}h4m3 0h4m3 0h4`} class="thin" />

const rays = 'M0-17v-7M12-12l5-5M17 0h7M12 12l5 5M0 17v7M-12 12l-5 5M-17 0h-7M-12-12l-5-5'

/** A lamp as it is seen: filled with rays, broken rays, or empty with a cross after IEC 60617. */
export const Lamp = ({ x, y, state }: At & { state: string }) => (
  <g transform={`translate(${x} ${y})`}>
    <circle r={11} class={state === 'steady' || state === 'on' ? 'full' : state === 'blinking' ? 'half' : 'paper'} />
    {state === 'unknown' ? null : state === 'off' ? (
      <path d="M-8-8l16 16M8-8l-16 16" class="thin" />
    ) : (
      <path d={rays} stroke-dasharray={state === 'blinking' ? '3 3' : ''} />
    )}
  </g>
)
