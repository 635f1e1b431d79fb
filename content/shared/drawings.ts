// What the drawings show, for those who cannot see them: which sentences, in which order. The sentences stand in each language.
import type { Figures } from './figures.ts'
import type { Cell } from './types.ts'

export interface DrawingSentences {
  readonly strip: {
    readonly count: (branches: number) => string
    /** `list`: of `likely`. */
    readonly likeliest: (list: string) => string
    readonly likely: (branch: string, of100: number) => string
    readonly none: string
    readonly unlikely: (list: string) => string
    readonly open: (list: string) => string
    readonly working: (branch: string) => string
  }
  readonly cabinet: string
  readonly buses: (devices: number, closed: string) => string
  readonly all: string
  readonly no: string
  readonly tips: string
  readonly mainsToSupply: string
  readonly tree: {
    readonly branch: (branch: string) => string
    readonly run: (run: string, from: string, to: string, metres: string, moving: boolean) => string
    readonly cabinet: string
  }
  readonly closed: {
    readonly none: string
    readonly all: string
    readonly some: (closed: number, count: number) => string
    readonly named: (names: string) => string
  }
}
export interface Run {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly length: number
  readonly moving?: boolean
}
/** So many of the likeliest branches are named, and none under this share. */
const NAMED = 3
const LEAST = 0.05

/** The sentences of a language as functions of what is drawn. */
export const drawingsFrom = (s: DrawingSentences, { round }: Figures) => ({
  /** The terminal strip: the likeliest branches, those that are unlikely by now, those whose device is not closed, where the work is. */
  stripAlt: (cells: readonly Cell[], working: string | undefined): string => {
    const list = (some: readonly Cell[]) => some.map(c => c.id).join(', ')
    const likely = [...cells]
      .filter(c => !c.unlikely && c.p >= LEAST)
      .sort((a, b) => b.p - a.p)
      .slice(0, NAMED)
    const unlikely = cells.filter(c => c.unlikely)
    const open = cells.filter(c => c.device !== 'closed')
    return [
      s.strip.count(cells.length),
      likely.length > 0 ? s.strip.likeliest(likely.map(c => s.strip.likely(c.id, Math.round(c.p * 100))).join(', ')) : s.strip.none,
      unlikely.length > 0 ? s.strip.unlikely(list(unlikely)) : '',
      open.length > 0 ? s.strip.open(list(open)) : '',
      working === undefined ? '' : s.strip.working(working),
    ]
      .filter(Boolean)
      .join(' ')
  },
  cabinetAlt: (how: string): string => `${s.cabinet} ${how}`,
  /** All devices side by side at the buses, for a reading that sees every branch whose device is closed. */
  groupAlt: (how: string, closed: readonly string[], count: number): string =>
    `${s.buses(count, closed.length === count ? s.all : closed.join(', ') || s.no)} ${how}`,
  /** The line over that drawing. `names`: of the branches whose device is closed, where they are few enough to be named. */
  closedWords:
    (count: number) =>
    (names: string | undefined, closed: number): string => {
      if (closed === 0) return s.closed.none
      if (closed === count) return s.closed.all
      return names === undefined ? s.closed.some(closed, count) : s.closed.named(names)
    },
  tipsAlt: (how: string): string => `${s.tips} ${how}`,
  supplyAlt: (how: string): string => `${s.mainsToSupply} ${how}`,
  /** A branch's wiring in words, run by run. Metres. */
  treeAlt: (branch: string, runs: readonly Run[], mark: string): string =>
    [
      s.tree.branch(branch),
      ...runs.map(r =>
        s.tree.run(r.id, r.from === 'terminals' ? s.tree.cabinet : r.from, r.to, `${round(r.length, 2)} m`, r.moving === true),
      ),
      mark,
    ]
      .filter(Boolean)
      .join(' '),
})
