export interface Spot {
  readonly x: number
  readonly y: number
}

/** A meter's lead with its tip. A halo of paper keeps it readable where it crosses a conductor. */
export const Lead = ({ from, to, kind }: { from: Spot; to: Spot; kind: 'red' | 'black' }) => {
  const bend = Math.min(60, Math.abs(from.x - to.x) / 2)
  const d = `M${from.x} ${from.y}C${from.x - bend} ${from.y} ${to.x + bend} ${to.y} ${to.x} ${to.y}`
  return (
    <>
      <path d={d} class="halo" />
      {kind === 'black' && <path d={d} class="edge" />}
      <path d={d} class={`lead ${kind}`} />
      <circle cx={to.x} cy={to.y} r={6} class={`tip ${kind}`} />
    </>
  )
}
