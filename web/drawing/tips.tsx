import { Lead } from './lead.tsx'
import { METER_WIDTH, Meter, sockets } from './meter.tsx'
import { useWidth } from './width.ts'

/** Its height in px. */
export const TIPS = 140

/** The meter on ohms with its two tips held together. */
export const Tips = ({ alt }: { alt: string }) => {
  const w = useWidth()
  const x = w - METER_WIDTH - 1
  const tip = { x: Math.round(x / 2), y: 86 }
  return (
    <svg class="drawing" role="img" aria-label={alt} width={w} height={TIPS} viewBox={`0 0 ${w} ${TIPS}`}>
      <Meter x={x} y={2} mode="ohm" named />
      <Lead from={{ x: x + sockets.volt.x, y: 2 + sockets.volt.y }} to={{ x: tip.x, y: tip.y - 6 }} kind="red" />
      <Lead from={{ x: x + sockets.com.x, y: 2 + sockets.com.y }} to={{ x: tip.x, y: tip.y + 6 }} kind="black" />
    </svg>
  )
}
