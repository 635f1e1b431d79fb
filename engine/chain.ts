// The readings of one branch taken together: for every place, how well it explains them all, with the errors they share.
//
// Readings of one session share the meter's gain and offset, the leads, the injected current, the conductors' tolerance: so
// they are one draw of a normal vector, factorised one reading at a time (Cholesky). Each reading may also be plain wrong
// (misread, mistyped, wrong probe) with a small chance; where that explains it better it is left out of the chain.
import { AT, FAULT_OHM, type Row } from './reading.ts'

/** Chance that a reading is plain wrong (common practice, no source). */
export const WRONG = 0.02

/** Places × readings. `root` is the lower triangular factor of the accepted readings, row by row; `left` the whitened rests. */
export interface Chain {
  readonly places: number
  readonly rows: readonly Row[]
  readonly dims: number
  /** Standard deviations of the shared nuisances. */
  readonly spread: Float64Array
  /** Own standard deviations of place and fault resistance. */
  readonly atSd: Float64Array
  readonly ohmSd: Float64Array
  readonly root: Float64Array
  readonly left: Float64Array
  /** 1 where the reading belongs to the chain of that place. */
  readonly kept: Uint8Array
  /** Log likelihood of all readings, per place. */
  readonly log: Float64Array
  /** Per place, the chance that the latest reading was plain wrong. */
  readonly wrong: Float64Array
}

const width = (rows: number): number => (rows * (rows + 1)) / 2

/** Density of a reading that is plain wrong: any size is as likely as any other; OL by itself has a chance of 5 of 100. */
export const wrongDensity = (shown: number | 'OL'): number => (shown === 'OL' ? 0.05 : 1 / (14 * (Math.abs(shown) + 0.05)))

/** Σ over nuisances of slope × slope × variance, for reading a and b (the same or two) of place j. */
export const shared = (a: Row, b: Row, j: number, dims: number, spread: Float64Array, atSd: number, ohmSd: number): number => {
  const o = j * dims
  let sum =
    (a.slope[o + AT] as number) * (b.slope[o + AT] as number) * atSd * atSd +
    (a.slope[o + FAULT_OHM] as number) * (b.slope[o + FAULT_OHM] as number) * ohmSd * ohmSd
  for (let d = 2; d < dims; d++) {
    const sd = spread[d] as number
    sum += (a.slope[o + d] as number) * (b.slope[o + d] as number) * sd * sd
  }
  return sum
}

/** What the kept readings so far say of one more reading of place j: its mean and variance, and the new row of the root. */
export interface Next {
  mean: number
  variance: number
}
export const foresee = (c: Chain, row: Row, j: number, line: Float64Array): Next => {
  const m = c.rows.length
  const atSd = c.atSd[j] as number,
    ohmSd = c.ohmSd[j] as number
  let mean = row.mean[j] as number
  let variance = shared(row, row, j, c.dims, c.spread, atSd, ohmSd) + (row.fresh[j] as number)
  const roots = j * width(m),
    lefts = j * m
  for (let a = 0; a < m; a++) {
    line[a] = 0
    if (c.kept[lefts + a] === 0) continue
    let sum = shared(row, c.rows[a] as Row, j, c.dims, c.spread, atSd, ohmSd)
    for (let b = 0; b < a; b++) sum -= (line[b] as number) * (c.root[roots + width(a) + b] as number)
    const w = sum / (c.root[roots + width(a) + a] as number)
    line[a] = w
    mean += w * (c.left[lefts + a] as number)
    variance -= w * w
  }
  return { mean, variance: Math.max(variance, (row.fresh[j] as number) * 0.5, 1e-14) }
}

export const emptyChain = (places: number, dims: number, spread: Float64Array, atSd: Float64Array, ohmSd: Float64Array): Chain => ({
  places,
  rows: [],
  dims,
  spread,
  atSd,
  ohmSd,
  root: new Float64Array(0),
  left: new Float64Array(0),
  kept: new Uint8Array(0),
  log: new Float64Array(places),
  wrong: new Float64Array(places),
})

/** The chain with one more reading. `soundLog`: its log likelihood where the fault is hidden from it, as in a sound branch. */
export const extend = (c: Chain, row: Row, soundLog = 0): Chain => {
  const m = c.rows.length,
    n = c.places
  const root = new Float64Array(n * width(m + 1)),
    left = new Float64Array(n * (m + 1)),
    kept = new Uint8Array(n * (m + 1))
  const log = Float64Array.from(c.log),
    wrong = new Float64Array(n)
  const line = new Float64Array(m)
  const other = WRONG * wrongDensity(row.shown)
  const shown = row.shown === 'OL' ? Infinity : row.shown
  for (let j = 0; j < n; j++) {
    const hidden = row.hidden[j] === 1
    const { mean, variance } = foresee(c, row, j, line)
    const off = shown - mean
    const right = row.shown === 'OL' ? 0 : ((1 - WRONG) * Math.exp((-off * off) / (2 * variance))) / Math.sqrt(2 * Math.PI * variance)
    log[j] = (log[j] as number) + (hidden ? soundLog : Math.log(right + other))
    wrong[j] = hidden ? Math.min(1, other / Math.exp(soundLog)) : other / (right + other)
    root.set(c.root.subarray(j * width(m), (j + 1) * width(m)), j * width(m + 1))
    left.set(c.left.subarray(j * m, (j + 1) * m), j * (m + 1))
    kept.set(c.kept.subarray(j * m, (j + 1) * m), j * (m + 1))
    if (hidden || right < other) continue
    const at = j * width(m + 1) + width(m)
    root.set(line, at)
    root[at + m] = Math.sqrt(variance)
    left[j * (m + 1) + m] = off / Math.sqrt(variance)
    kept[j * (m + 1) + m] = 1
  }
  return { ...c, rows: [...c.rows, row], root, left, kept, log, wrong }
}

/** Mean shift and variance that the kept readings leave of a place's own metre (`AT`) or fault resistance (`FAULT_OHM`). */
export const within = (c: Chain, j: number, which: typeof AT | typeof FAULT_OHM): { shift: number; variance: number } => {
  const m = c.rows.length
  const sd = (which === AT ? c.atSd[j] : c.ohmSd[j]) as number
  let shift = 0
  let variance = sd * sd
  const line = new Float64Array(m)
  for (let a = 0; a < m; a++) {
    if (c.kept[j * m + a] === 0) continue
    let sum = ((c.rows[a] as Row).slope[j * c.dims + which] as number) * sd * sd
    for (let b = 0; b < a; b++) sum -= (line[b] as number) * (c.root[j * width(m) + width(a) + b] as number)
    const w = sum / (c.root[j * width(m) + width(a) + a] as number)
    line[a] = w
    shift += w * (c.left[j * m + a] as number)
    variance -= w * w
  }
  return { shift, variance: Math.max(variance, 0) }
}
