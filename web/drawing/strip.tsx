import { useWidth } from './width.ts'

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

/** Px: the widest figure of a name, in ordinary and in heavy type; what stays free beside a name; the frame's least width. */
const [FIGURE, HEAVY, FREE, FRAME] = [9.5, 11, 4, 34]

/** All branches side by side as in the cabinet: fill how likely, tick unlikely by now, mark the device, frame where the work is. */
export const Strip = ({ cells, working, alt }: { cells: readonly Cell[]; working?: string | undefined; alt: string }) => {
  const width = useWidth()
  const names = shortIds(cells.map(c => c.id))
  const rows = cells.length > 14 ? 2 : 1
  const perRow = Math.ceil(cells.length / rows)
  const at = cells.findIndex(c => c.id === working)
  const longest = Math.max(...names.map(name => name.length)) * FIGURE + FREE
  const frame = Math.max(FRAME, (names[at]?.length ?? 0) * HEAVY + 2 * FREE)
  const pitch = width / perRow
  const beside = (width - frame - 6) / Math.max(1, perRow - 1)
  // Where a name is wider than its cell, every second, fifth or tenth is named, and none that would reach into the frame.
  const every = [1, 2, 5, 10].find(n => n * Math.min(pitch, at < 0 ? pitch : beside) >= longest) ?? perRow
  const named = (i: number) => {
    if (i === at || every === 1) return true
    const sameRow = at >= 0 && Math.floor(i / perRow) === Math.floor(at / perRow)
    return (i % perRow) % every === every - 1 && (!sameRow || (Math.abs(i - at) - 0.5) * beside + 3 >= longest / 2)
  }
  const cell = (c: Cell, i: number) => {
    const here = i === at
    return (
      <div key={c.id} class={`cell${here ? ' here' : ''}`} style={here ? { flexBasis: `${frame}px` } : {}}>
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
        <b>{named(i) ? names[i] : ''}</b>
      </div>
    )
  }
  return (
    <div class={`strip${rows > 1 ? ' two' : ''}${every > 1 ? ' dense' : ''}`} role="img" aria-label={alt}>
      <div class="cells">{cells.slice(0, perRow).map(cell)}</div>
      {rows > 1 && <div class="cells">{cells.slice(perRow).map((c, i) => cell(c, i + perRow))}</div>}
    </div>
  )
}
