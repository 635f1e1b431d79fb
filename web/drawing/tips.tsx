import { words } from '../words.ts'
import { Lead } from './lead.tsx'
import { METER_WIDTH, Meter, sockets } from './meter.tsx'
import { useWidth } from './width.ts'

/** Its height in px. */
export const TIPS = 128

/** The meter on ohms with its two tips held together. */
export const Tips = ({ alt }: { alt: string }) => {
  const w = useWidth()
  const { red, black } = words().drawings
  const x = w - METER_WIDTH - 1
  const tip = { x: Math.round(x / 2), y: 77 }
  return (
    <svg class="drawing" role="img" aria-label={alt} width={w} height={TIPS} viewBox={`0 0 ${w} ${TIPS}`}>
      <Meter x={x} y={2} mode="ohm" />
      <Lead from={{ x: x + sockets.volt.x, y: 2 + sockets.volt.y }} to={{ x: tip.x, y: tip.y - 6 }} kind="red" />
      <Lead from={{ x: x + sockets.com.x, y: 2 + sockets.com.y }} to={{ x: tip.x, y: tip.y + 6 }} kind="black" />
      <text x={x - 8} y={44} text-anchor="end" class="bold">
        {red}
      </text>
      <text x={x - 8} y={126} text-anchor="end" class="bold">
        {black}
      </text>
    </svg>
  )
}
