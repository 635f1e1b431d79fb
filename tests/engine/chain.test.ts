import { expect, test } from 'vitest'
import { type Chain, emptyChain, extend, foresee, WRONG, within, wrongDensity } from '../../engine/chain.ts'
import { AT, FAULT_OHM, type Row } from '../../engine/reading.ts'
import { type Chance, chance } from '../bench/random.ts'

const DIMS = 6
const SPREAD = Float64Array.of(0, 0, 0.2, 0.1, 0.3, 0.05)
const PLACES = 3

const someRow = (own: Chance, shown?: number): Row => {
  const fill = (n: number, low: number, high: number) => Float64Array.from({ length: n }, () => own.between(low, high))
  return {
    mean: fill(PLACES, 0.9, 1.1),
    slope: fill(PLACES * DIMS, -1, 1),
    fresh: fill(PLACES, 0.001, 0.01),
    hidden: new Uint8Array(PLACES),
    shown: shown ?? own.between(0.8, 1.2),
  }
}
const empty = (): Chain => emptyChain(PLACES, DIMS, SPREAD, Float64Array.of(0.3, 0.4, 0.5), Float64Array.of(0.1, 0.05, 0.02))

/** Standard deviation of nuisance d of place j: the place's own two first, then what all share. */
const sdOf = (c: Chain, j: number, d: number): number => (d === AT ? c.atSd[j] : d === FAULT_OHM ? c.ohmSd[j] : c.spread[d]) ?? Number.NaN
const slopeOf = (c: Chain, row: Row, j: number, d: number): number => row.slope[j * c.dims + d] ?? Number.NaN
const covariance = (c: Chain, rows: readonly Row[], j: number): number[][] =>
  rows.map((a, i) =>
    rows.map((b, k) => {
      let sum = i === k ? (a.fresh[j] ?? Number.NaN) : 0
      for (let d = 0; d < c.dims; d++) sum += slopeOf(c, a, j, d) * slopeOf(c, b, j, d) * sdOf(c, j, d) ** 2
      return sum
    }),
  )

/** Solves a · x = b by Gauss without pivoting (a is positive definite), and gives the determinant with it. */
const solved = (a: readonly (readonly number[])[], b: readonly number[]): { x: number[]; det: number } => {
  const rows = a.map((row, i) => [...row, b[i] ?? 0])
  let det = 1
  for (const [k, pivot] of rows.entries()) {
    const p = pivot[k] ?? Number.NaN
    det *= p
    for (const [i, row] of rows.entries()) {
      if (i === k) continue
      const factor = (row[k] ?? 0) / p
      rows[i] = row.map((v, n) => v - factor * (pivot[n] ?? 0))
    }
  }
  return { x: rows.map((row, i) => (row.at(-1) ?? Number.NaN) / (row[i] ?? Number.NaN)), det }
}
const offsOf = (rows: readonly Row[], j: number): number[] =>
  rows.map(row => (row.shown === 'OL' ? Number.NaN : row.shown - (row.mean[j] ?? Number.NaN)))
const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, v, i) => sum + v * (b[i] ?? Number.NaN), 0)

/** Log density of all rows together under place j, as one multivariate normal. */
const logNormal = (c: Chain, rows: readonly Row[], j: number): number => {
  if (rows.length === 0) return 0
  const offs = offsOf(rows, j)
  const { x, det } = solved(covariance(c, rows, j), offs)
  return -0.5 * (dot(offs, x) + Math.log(det) + rows.length * Math.log(2 * Math.PI))
}

test('the log likelihood is that of one normal vector, each reading with its chance of being plain wrong (40 chains of 5)', () => {
  for (let seed = 1; seed <= 40; seed++) {
    const own = chance(seed)
    let c = empty()
    const dense = new Float64Array(PLACES)
    const rows: Row[][] = [[], [], []]
    for (let n = 0; n < 5; n++) {
      const row = someRow(own)
      const next = extend(c, row)
      for (const [j, before] of rows.entries()) {
        const density = Math.exp(logNormal(c, [...before, row], j) - logNormal(c, before, j))
        const wrong = WRONG * wrongDensity(row.shown)
        dense[j] = (dense[j] ?? 0) + Math.log((1 - WRONG) * density + wrong)
        expect(next.wrong[j]).toBeCloseTo(wrong / ((1 - WRONG) * density + wrong), 8)
        // What is likelier wrong than right stays out of the sums that follow.
        if ((1 - WRONG) * density >= wrong) before.push(row)
      }
      c = next
    }
    for (let j = 0; j < PLACES; j++) expect(c.log[j], `seed ${seed}, place ${j}`).toBeCloseTo(dense[j] ?? Number.NaN, 8)
  }
})

test('place and fault resistance after the readings are those of the normal vector', () => {
  for (let seed = 1; seed <= 40; seed++) {
    const own = chance(seed)
    const rows = Array.from({ length: 4 }, () => someRow(own, own.between(0.97, 1.03)))
    const c = rows.reduce(extend, empty())
    for (let j = 0; j < PLACES; j++) {
      const kept = rows.filter((_, n) => c.kept[j * rows.length + n] === 1)
      for (const which of [AT, FAULT_OHM] as const) {
        const sd = sdOf(c, j, which)
        const cross = kept.map(row => slopeOf(c, row, j, which) * sd * sd)
        const a = covariance(c, kept, j)
        const { shift, variance } = within(c, j, which)
        expect(shift).toBeCloseTo(dot(cross, solved(a, offsOf(kept, j)).x), 9)
        expect(variance).toBeCloseTo(sd * sd - dot(cross, solved(a, cross).x), 9)
        expect(variance).toBeLessThan(sd * sd)
      }
    }
  }
})

test('what is foreseen of a reading is the normal vector given the readings before, and what extending counts with', () => {
  const own = chance(3)
  const rows = Array.from({ length: 3 }, () => someRow(own, 1))
  const c = rows.reduce(extend, empty())
  const row = someRow(own, 1)
  const next = extend(c, row)
  for (let j = 0; j < PLACES; j++) {
    const { mean, variance } = foresee(c, row, j, new Float64Array(3))
    const kept = rows.filter((_, n) => c.kept[j * 3 + n] === 1)
    const cross =
      covariance(c, [...kept, row], j)
        .at(-1)
        ?.slice(0, -1) ?? []
    const a = covariance(c, kept, j)
    expect(mean).toBeCloseTo((row.mean[j] ?? Number.NaN) + dot(cross, solved(a, offsOf(kept, j)).x), 9)
    expect(variance).toBeCloseTo((covariance(c, [row], j)[0]?.[0] ?? Number.NaN) - dot(cross, solved(a, cross).x), 9)
    expect(next.kept[j * 4 + 3]).toBe(1)
    expect(next.left[j * 4 + 3]).toBeCloseTo((1 - mean) / Math.sqrt(variance), 9)
  }
})

test('a plain wrong reading is left out: it costs its small chance, and later readings do not feel it', () => {
  const own = chance(8)
  const [first, last] = [someRow(own, 1), someRow(own, 1)]
  const wrong = someRow(own, 40)
  const with3 = [first, wrong, last].reduce(extend, empty())
  const with2 = [first, last].reduce(extend, empty())
  const middle = [first, wrong].reduce(extend, empty())
  const cost = Math.log(WRONG * wrongDensity(40))
  for (let j = 0; j < PLACES; j++) {
    expect(middle.wrong[j]).toBeGreaterThan(0.999999)
    expect([...with3.kept.subarray(3 * j, 3 * j + 3)]).toEqual([1, 0, 1])
    expect((with3.log[j] ?? Number.NaN) - (with2.log[j] ?? Number.NaN)).toBeCloseTo(cost, 6)
    for (const which of [AT, FAULT_OHM] as const) {
      expect(within(with3, j, which).shift).toBeCloseTo(within(with2, j, which).shift, 12)
      expect(within(with3, j, which).variance).toBeCloseTo(within(with2, j, which).variance, 12)
    }
  }
})

test('no number at all can come from a short circuit only by mistake', () => {
  const c = extend(empty(), { ...someRow(chance(1)), shown: 'OL' })
  for (let j = 0; j < PLACES; j++) {
    expect(c.log[j]).toBeCloseTo(Math.log(WRONG * 0.05), 12)
    expect(c.kept[j]).toBe(0)
  }
})

test('the sizes of a plain wrong reading share out to about 1 of 1 over all that a meter shows', () => {
  // ∫ d|x| / (14 (|x| + 0.05)) from 0 to 60 kΩ: ln(60,000/0.05)/14.
  let sum = 0
  for (let x = 0; x < 60_000; ) {
    const width = 0.01 * (x + 0.05)
    sum += wrongDensity(x + width / 2) * width
    x += width
  }
  expect(sum).toBeGreaterThan(0.9)
  expect(sum).toBeLessThan(1.05)
})
