// What the drawings show, for those who cannot see them. English.

interface Cell {
  readonly id: string
  readonly p: number
  readonly unlikely: boolean
  readonly device: string
}
const list = (cells: readonly Cell[]) => cells.map(c => c.id).join(', ')

/** The terminal strip: the likeliest branches, those that are unlikely by now, those whose device is not closed, where the work is. */
export const stripAlt = (cells: readonly Cell[], working: string | undefined): string => {
  const likely = [...cells]
    .filter(c => !c.unlikely && c.p >= 0.05)
    .sort((a, b) => b.p - a.p)
    .slice(0, 3)
  const unlikely = cells.filter(c => c.unlikely)
  const open = cells.filter(c => c.device !== 'closed')
  return [
    `Terminal strip, ${cells.length} branches.`,
    likely.length > 0
      ? `Likeliest: ${likely.map(c => `${c.id} with ${Math.round(c.p * 100)} of 100`).join(', ')}.`
      : 'No branch stands out.',
    unlikely.length > 0 ? `Unlikely by now: ${list(unlikely)}.` : '',
    open.length > 0 ? `Device not closed: ${list(open)}.` : '',
    working === undefined ? '' : `Work is at ${working}.`,
  ]
    .filter(Boolean)
    .join(' ')
}

export const cabinetAlt = (how: string): string => `Drawing of the cabinet: supply, buses, devices, outgoing terminals, earth. ${how}`
/** All devices side by side at the buses, for a reading that sees every branch whose device is closed. */
export const groupAlt = (how: string, closed: readonly string[], count: number): string =>
  `Drawing of the buses with all ${count} devices. Closed: ${closed.length === count ? 'all' : closed.join(', ') || 'none'}. ${how}`
/** The line over that drawing. `names`: of the branches whose device is closed, where they are few enough to be named. */
export const closedWords =
  (count: number) =>
  (names: string | undefined, closed: number): string => {
    if (closed === 0) return 'all devices open'
    if (closed === count) return 'all devices closed'
    return names === undefined ? `${closed} of ${count} devices closed` : `closed: ${names}`
  }
export const tipsAlt = (how: string): string => `Drawing of the meter on ohms, its tips held together. ${how}`
export const supplyAlt = (how: string): string => `Drawing of mains, switch and 24 V supply. ${how}`

/** A branch's wiring in words, run by run. Metres. */
export const treeAlt = (
  branch: string,
  runs: readonly { readonly id: string; readonly from: string; readonly to: string; readonly length: number; readonly moving?: boolean }[],
  mark: string,
): string =>
  `Branch ${branch} to scale. ${runs
    .map(r => `Run ${r.id} from ${r.from === 'terminals' ? 'the cabinet' : r.from} to ${r.to}, ${r.length} m${r.moving ? ', moving' : ''}.`)
    .join(' ')} ${mark}`.trimEnd()
