export interface Cell {
  readonly id: string
  readonly p: number
  /** So little is left here that it is ticked off; by readings or by what is known of the wiring. */
  readonly unlikely: boolean
  readonly device: 'closed' | 'open' | 'tripped'
}

/** Branch ids without what they all begin with: 'B1' to 'B12' become '1' to '12'. */
export const shortIds = (ids: readonly string[]): string[] => {
  const common = /^[^0-9]*/.exec(ids[0] ?? '')?.[0] ?? ''
  return ids.map(id => (common !== '' && ids.every(other => other.startsWith(common) && other !== common) ? id.slice(common.length) : id))
}

const mark = { closed: 'M8 0v13', open: 'M8 13L2 4M8 0v3', tripped: 'M8 13L2 4M8 0v3M10 5l5 5M15 5l-5 5' }

/** All branches side by side as in the cabinet: fill how likely, tick unlikely by now, mark the device, frame where the work is. */
export const Strip = ({ cells, working, alt }: { cells: readonly Cell[]; working?: string | undefined; alt: string }) => {
  const names = shortIds(cells.map(c => c.id))
  const rows = cells.length > 14 ? 2 : 1
  const perRow = Math.ceil(cells.length / rows)
  const dense = perRow > 13
  const at = cells.findIndex(c => c.id === working)
  const cell = (c: Cell, i: number) => {
    const here = i === at
    const named = here || !dense || ((i % perRow) % 5 === 4 && (at < 0 || Math.abs(i - at) > 1))
    return (
      <div key={c.id} class={`cell${here ? ' here' : ''}`}>
        <svg class="mark" width={16} height={13} viewBox="0 0 16 13" aria-hidden="true">
          <path d={mark[c.device]} />
        </svg>
        <div class={c.unlikely ? 'level flat' : 'level'}>
          {c.unlikely ? (
            <svg width={14} height={14} viewBox="0 0 14 14" aria-hidden="true" class="tick">
              <path d="M1 8l4 5L13 2" />
            </svg>
          ) : (
            <i style={{ height: `${Math.max(8, Math.round(c.p * 100))}%` }} />
          )}
        </div>
        <b>{named ? names[i] : ''}</b>
      </div>
    )
  }
  return (
    <div class={`strip${rows > 1 ? ' two' : ''}`} role="img" aria-label={alt}>
      <div class="cells">{cells.slice(0, perRow).map(cell)}</div>
      {rows > 1 && <div class="cells">{cells.slice(perRow).map((c, i) => cell(c, i + perRow))}</div>}
    </div>
  )
}
