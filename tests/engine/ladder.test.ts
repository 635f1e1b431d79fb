import { expect, test } from 'vitest'
import { gather, type Ladder, ladder, solve, through } from '../../engine/ladder.ts'
import { type Chance, chance } from '../bench/random.ts'

/** The same circuit by Gauss with pivoting on its conductance matrix: plus of node i is unknown 2i, its 0 V unknown 2i + 1. */
const dense = (l: Ladder): { plus: number[]; zero: number[] } => {
  const n = 2 * l.size
  const a = Array.from({ length: n }, () => new Float64Array(n + 1))
  const add = (i: number, j: number, v: number): void => {
    const row = a[i]
    if (row !== undefined) row[j] = (row[j] ?? 0) + v
  }
  const between = (i: number, j: number, g: number): void => {
    add(i, i, g)
    add(j, j, g)
    add(i, j, -g)
    add(j, i, -g)
  }
  for (let i = 0; i < l.size; i++) {
    between(2 * i, 2 * i + 1, l.across[i] ?? 0)
    add(2 * i, 2 * i, l.plusEarth[i] ?? 0)
    add(2 * i + 1, 2 * i + 1, l.zeroEarth[i] ?? 0)
    add(2 * i, n, l.intoPlus[i] ?? 0)
    add(2 * i + 1, n, l.intoZero[i] ?? 0)
    if (i === 0) continue
    const up = 2 * (l.parent[i] ?? 0)
    between(2 * i, up, 1 / (l.plusOhm[i] ?? 0))
    between(2 * i + 1, up + 1, 1 / (l.zeroOhm[i] ?? 0))
  }
  const at = (i: number, j: number): number => a[i]?.[j] ?? Number.NaN
  for (let k = 0; k < n; k++) {
    let best = k
    for (let i = k + 1; i < n; i++) if (Math.abs(at(i, k)) > Math.abs(at(best, k))) best = i
    const [x, y] = [a[k], a[best]]
    if (x === undefined || y === undefined) throw new Error('no such row')
    a[k] = y
    a[best] = x
    for (let i = 0; i < n; i++) {
      if (i === k) continue
      const factor = at(i, k) / at(k, k)
      for (let j = k; j <= n; j++) add(i, j, -factor * at(k, j))
    }
  }
  const x = a.map((_, i) => at(i, n) / at(i, i))
  return { plus: x.filter((_, i) => i % 2 === 0), zero: x.filter((_, i) => i % 2 === 1) }
}

/** A random tree; resistances from 1 mΩ to `most`, shunts from 1 / `most` to 1000 S or none, earth reached somewhere. */
const someLadder = (own: Chance, most: number): Ladder => {
  const l = ladder(own.whole(1, 9))
  const shunt = () => (own.yes(0.5) ? own.logBetween(1 / most, 1e3) : 0)
  for (let i = 0; i < l.size; i++) {
    if (i > 0) l.parent[i] = own.whole(0, i - 1)
    l.plusOhm[i] = own.logBetween(1e-3, most)
    l.zeroOhm[i] = own.logBetween(1e-3, most)
    l.across[i] = shunt()
    l.plusEarth[i] = shunt()
    l.zeroEarth[i] = shunt()
  }
  l.plusEarth[0] = 1 / most
  l.zeroEarth[0] = own.logBetween(1 / most, 1e2)
  return l
}

test('300 random trees of 1 to 9 nodes, seeds 1 to 300: the same node voltages as by dense elimination, within 1e-9', () => {
  for (let seed = 1; seed <= 300; seed++) {
    const own = chance(seed)
    const l = someLadder(own, 1e3)
    for (let i = 0; i < l.size; i++) {
      l.intoPlus[i] = own.between(-1, 1)
      l.intoZero[i] = own.between(-1, 1)
    }
    solve(l)
    const theirs = dense(l)
    const most = Math.max(...theirs.plus.map(Math.abs), ...theirs.zero.map(Math.abs))
    for (let i = 0; i < l.size; i++) {
      expect(Math.abs((l.plus[i] ?? Number.NaN) - (theirs.plus[i] ?? Number.NaN)) / most, `seed ${seed}, plus ${i}`).toBeLessThan(1e-9)
      expect(Math.abs((l.zero[i] ?? Number.NaN) - (theirs.zero[i] ?? Number.NaN)) / most, `seed ${seed}, 0 V ${i}`).toBeLessThan(1e-9)
    }
  }
})

test('a short behind a cable, by hand: out through one conductor, back through the other', () => {
  const l = ladder(2)
  l.plusOhm[1] = 0.5
  l.zeroOhm[1] = 0.25
  l.across[1] = 1 / 2
  l.zeroEarth[0] = 1 / 10
  // 1 A into plus of the root and out of its 0 V: 0.5 + 2 + 0.25 V between them; earth carries nothing, so 0 V stands at earth.
  l.intoPlus[0] = 1
  l.intoZero[0] = -1
  solve(l)
  expect([...l.plus, ...l.zero]).toEqual([2.75, 2.25, 0, 0.25].map(x => expect.closeTo(x, 12)))
})

test('a current into plus that comes back through earth alone, by hand', () => {
  const l = ladder(2)
  l.plusOhm[1] = 1
  l.zeroOhm[1] = 1
  l.plusEarth[1] = 1 / 3
  l.zeroEarth[0] = 1 / 5
  l.intoPlus[0] = 2
  solve(l)
  // 2 A through 1 + 3 Ω to earth; the 0 V conductor carries nothing.
  expect([l.plus[0], l.plus[1], l.zero[0], l.zero[1]].map(x => Math.round((x ?? 0) * 1e9) / 1e9)).toEqual([8, 6, 0, 0])
})

test('a port through series resistances is the port of a ladder with one run more', () => {
  const own = chance(5)
  for (let i = 0; i < 50; i++) {
    const l = someLadder(own, 1e3)
    for (let k = 0; k < l.size; k++) {
      l.intoPlus[k] = own.between(-1, 1)
      l.intoZero[k] = own.between(-1, 1)
    }
    const below = gather(l)
    const longer = ladder(l.size + 1)
    for (let k = 0; k < l.size; k++) {
      longer.parent[k + 1] = k === 0 ? 0 : (l.parent[k] ?? 0) + 1
      for (const of of ['plusOhm', 'zeroOhm', 'across', 'plusEarth', 'zeroEarth', 'intoPlus', 'intoZero'] as const)
        longer[of][k + 1] = l[of][k] ?? 0
    }
    longer.plusOhm[1] = 0.3
    longer.zeroOhm[1] = 7
    const [seen, whole] = [through(below, 0.3, 7), gather(longer)]
    for (const of of ['across', 'plusEarth', 'zeroEarth'] as const) expect(seen[of] / whole[of] || 1).toBeCloseTo(1, 12)
    for (const of of ['plus', 'zero'] as const) expect(Math.abs(seen[of] - whole[of])).toBeLessThan(1e-12 * l.size)
  }
})

test('no conductance and no voltage is ever negative, however far apart the resistances are (300 trees to 1e12 Ω)', () => {
  for (let seed = 1; seed <= 300; seed++) {
    const own = chance(seed)
    const l = someLadder(own, 1e12)
    const port = gather(l)
    expect(Math.min(port.across, port.plusEarth, port.zeroEarth), `seed ${seed}`).toBeGreaterThanOrEqual(0)
    // A current into one place lifts every node, or leaves it where it is.
    l.intoPlus[own.whole(0, l.size - 1)] = 1
    solve(l)
    expect(Math.min(...l.plus, ...l.zero), `seed ${seed}`).toBeGreaterThanOrEqual(0)
  }
})

test('a chain of 400 runs, longer than the work space is at first: 400 × 2 × 0.01 Ω and a short at its end', () => {
  for (const nodes of [401, 11]) {
    const l = ladder(nodes)
    for (let i = 1; i < nodes; i++) {
      l.parent[i] = i - 1
      l.plusOhm[i] = l.zeroOhm[i] = 0.01
    }
    l.across[nodes - 1] = 1
    l.zeroEarth[0] = 1
    expect(1 / gather(l).across).toBeCloseTo(1 + 0.02 * (nodes - 1), 9)
  }
})

const SHORT = 0.005
/** Root, a cable of 0.5 Ω a conductor, a short of 5 mΩ at its end; nothing to earth but 1e11 Ω of insulation. */
const shorted = (series: number): Ladder => {
  const l = ladder(3)
  l.plusEarth[0] = l.zeroEarth[0] = 1e-11
  l.parent[2] = 1
  l.plusOhm[1] = l.zeroOhm[1] = series
  l.plusOhm[2] = l.zeroOhm[2] = 0.5
  l.across[2] = 1 / SHORT
  return l
}
const ohmAt = (l: Ladder, node: number): number => {
  l.intoPlus[node] = 1
  l.intoZero[node] = -1
  solve(l)
  return (l.plus[node] ?? Number.NaN) - (l.zero[node] ?? Number.NaN)
}

test('a short of 5 mΩ beside insulation of 1e11 Ω keeps nine digits', () => {
  expect(Math.abs(ohmAt(shorted(0.1), 2) / SHORT - 1)).toBeLessThan(1e-9)
  expect(Math.abs(ohmAt(shorted(0.1), 0) / (SHORT + 1.2) - 1)).toBeLessThan(1e-9)
})

test('and so it does in a part that hangs on by two open contacts of 1e12 Ω', () => {
  expect(Math.abs(ohmAt(shorted(1e12), 1) / (SHORT + 1) - 1)).toBeLessThan(1e-9)
  expect(Math.abs(ohmAt(shorted(1e12), 2) / SHORT - 1)).toBeLessThan(1e-9)
})
