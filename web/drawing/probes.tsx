import { words } from '../words.ts'
import { widthOf } from './layout.ts'
import type { Spot } from './lead.tsx'

export type Core = 'plus' | 'zero'

const nameOf = (kind: 'red' | 'black', core: Core) => `${words().drawings[kind]} ${core === 'plus' ? '24 V' : '0 V'}`

/** How far from the tip the probes' names reach, px. */
export const probesReach = (): number =>
  25 + Math.max(...(['red', 'black'] as const).flatMap(kind => (['plus', 'zero'] as const).map(core => widthOf(nameOf(kind, core)))))

interface ProbesProps {
  readonly tip: Spot
  /** Where the leads go: to the left or the right, over the cable or under it. */
  readonly side: 1 | -1
  readonly under?: boolean
  readonly red?: Core | undefined
  readonly black?: Core | undefined
}

/** Both probes at a junction: 24 V on its left, 0 V on its right, their names one above the other. */
export const Probes = ({ tip, side, under = false, red, black }: ProbesProps) => (
  <>
    {(['red', 'black'] as const).map(kind => {
      const core = kind === 'red' ? red : black
      if (!core) return null
      const dx = core === 'plus' ? -6 : 6
      // The lead that stands nearer to its name takes the lower line, so that the two never cross.
      const [near, far] = under ? [-20, -39] : [22, 44]
      const rise = dx < 0 === side < 0 ? near : far
      const d = `M${tip.x + dx} ${tip.y}V${tip.y - rise + Math.sign(rise) * 6}Q${tip.x + dx} ${tip.y - rise} ${tip.x + dx + side * 8} ${tip.y - rise}H${tip.x + side * 20}`
      return (
        <g key={kind}>
          <path d={d} class="halo" />
          {kind === 'black' && <path d={d} class="edge" />}
          <path d={d} class={`lead ${kind}`} />
          <circle cx={tip.x + dx} cy={tip.y} r={5} class={`tip ${kind}`} />
          <text x={tip.x + side * 25} y={tip.y - rise + 6} text-anchor={side < 0 ? 'end' : 'start'} class="bold">
            {nameOf(kind, core)}
          </text>
        </g>
      )
    })}
  </>
)
