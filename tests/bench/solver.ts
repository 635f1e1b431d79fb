// The slow twin's arithmetic: node voltages by plain elimination, and the two-faced parts by trying their faces until all agree.

export interface Resistor {
  readonly a: string
  readonly b: string
  readonly ohm: number
}
/** A voltage behind `inside` ohm that gives `limit` ampere and no more. */
export interface Source {
  readonly plus: string
  readonly minus: string
  readonly volts: number
  readonly inside: number
  readonly limit: number
}
/** A converter's input: nothing below 15 V, its rated current from 16 V on, a straight line between. */
export interface Draw {
  readonly plus: string
  readonly minus: string
  readonly ampere: number
}
export interface Feed {
  readonly into: string
  readonly outOf: string
  readonly ampere: number
}
export interface Net {
  readonly resistors: readonly Resistor[]
  readonly sources: readonly Source[]
  readonly draws: readonly Draw[]
  readonly feeds: readonly Feed[]
}
export interface Solved {
  /** Volt at a node against its own island's first node; NaN where the node is not in the net. */
  at(node: string): number
  /** False where no conductor joins the two at all. */
  joined(a: string, b: string): boolean
  readonly sources: readonly { readonly ampere: number; readonly limited: boolean }[]
  /** In which part of its law each draw came to rest. */
  readonly draws: readonly DrawFace[]
  /** The nodes, and the first one of each island. */
  readonly nodes: readonly string[]
  readonly firsts: readonly string[]
}

export const DRAW_FROM = 15
export const DRAW_FULL = 16
export type DrawFace = 'off' | 'ramp' | 'full'

const nodesOf = (net: Net): Map<string, number> => {
  const index = new Map<string, number>()
  const add = (node: string): void => {
    if (!index.has(node)) index.set(node, index.size)
  }
  for (const part of net.resistors) {
    add(part.a)
    add(part.b)
  }
  for (const part of [...net.sources, ...net.draws]) {
    add(part.plus)
    add(part.minus)
  }
  for (const feed of net.feeds) {
    add(feed.into)
    add(feed.outOf)
  }
  return index
}

/** For each node the first node of its island. */
const islandsOf = (net: Net, index: ReadonlyMap<string, number>): number[] => {
  const island = Array.from({ length: index.size }, (_, i) => i)
  const root = (i: number): number => {
    let r = i
    while (island[r] !== r) r = island[r] ?? r
    return r
  }
  const tie = (a: string, b: string): void => {
    const [x, y] = [root(index.get(a) ?? 0), root(index.get(b) ?? 0)]
    island[Math.max(x, y)] = Math.min(x, y)
  }
  for (const r of net.resistors) tie(r.a, r.b)
  for (const part of [...net.sources, ...net.draws]) tie(part.plus, part.minus)
  return island.map((_, i) => root(i))
}

/** A row of the conductance matrix: only what is not zero. */
type Row = Map<number, number>
const add = (row: Row | undefined, at: number, siemens: number): void => {
  row?.set(at, (row.get(at) ?? 0) + siemens)
}

/**
 * Solves G v = i by plain elimination. G is symmetric with a heavy diagonal, so no pivot search is needed; from the last
 * node to the first, which on a tree of cables (parents named first) fills nothing in.
 */
const eliminate = (g: readonly Row[], i: Float64Array): Float64Array => {
  const value = (at: number): number => i[at] ?? 0
  const lower: [number, number][][] = g.map(() => [])
  for (let k = g.length - 1; k > 0; k--) {
    const row = g[k] ?? new Map<number, number>()
    const before = [...row].filter(([j]) => j < k)
    lower[k] = before
    for (const [r, siemens] of before) {
      const share = siemens / (row.get(k) ?? 0)
      for (const [j, other] of before) add(g[r], j, -share * other)
      i[r] = value(r) - share * value(k)
    }
  }
  const v = new Float64Array(g.length)
  for (const [k, row] of g.entries()) {
    v[k] = (lower[k] ?? []).reduce((sum, [j, siemens]) => sum - siemens * (v[j] ?? 0), value(k)) / (row.get(k) ?? 0)
  }
  return v
}

export const solve = (net: Net): Solved => {
  const index = nodesOf(net)
  const n = index.size
  const of = (node: string): number => index.get(node) ?? -1
  const island = islandsOf(net, index)
  const limited = net.sources.map(() => false)
  const faces: DrawFace[] = net.draws.map(() => 'full')
  let v: Float64Array = new Float64Array(n)
  const across = (plus: string, minus: string): number => (v[of(plus)] ?? Number.NaN) - (v[of(minus)] ?? Number.NaN)
  const currentOf = (s: Source, isLimited: boolean): number => (isLimited ? s.limit : (s.volts - across(s.plus, s.minus)) / s.inside)

  for (let round = 0; ; round++) {
    if (round > 2000) throw new Error('the circuit finds no rest: its sources and loads keep changing face')
    const g: Row[] = Array.from({ length: n }, () => new Map())
    const i = new Float64Array(n)
    const conduct = (a: number, b: number, siemens: number): void => {
      add(g[a], a, siemens)
      add(g[b], b, siemens)
      add(g[a], b, -siemens)
      add(g[b], a, -siemens)
    }
    const feed = (into: number, outOf: number, ampere: number): void => {
      i[into] = (i[into] ?? 0) + ampere
      i[outOf] = (i[outOf] ?? 0) - ampere
    }
    for (const r of net.resistors) if (r.a !== r.b) conduct(of(r.a), of(r.b), 1 / r.ohm)
    for (const [k, s] of net.sources.entries()) {
      if (!limited[k]) conduct(of(s.plus), of(s.minus), 1 / s.inside)
      feed(of(s.plus), of(s.minus), limited[k] ? s.limit : s.volts / s.inside)
    }
    for (const [k, d] of net.draws.entries()) {
      const slope = d.ampere / (DRAW_FULL - DRAW_FROM)
      if (faces[k] === 'full') feed(of(d.minus), of(d.plus), d.ampere)
      if (faces[k] === 'ramp') {
        conduct(of(d.plus), of(d.minus), slope)
        feed(of(d.plus), of(d.minus), slope * DRAW_FROM)
      }
    }
    for (const f of net.feeds) feed(of(f.into), of(f.outOf), f.ampere)
    // An island exchanges no current with the rest, so holding one node of it at zero changes nothing within.
    for (const [k, first] of island.entries()) if (first === k) add(g[k], k, 1)
    v = eliminate(g, i)

    // After a while only the first part that disagrees changes its face: slower, but it cannot run in circles of many.
    const oneOnly = round > 30
    let changed = false
    for (const [k, d] of net.draws.entries()) {
      const u = across(d.plus, d.minus)
      const face: DrawFace = u < DRAW_FROM ? 'off' : u > DRAW_FULL ? 'full' : 'ramp'
      if (face !== faces[k] && !(oneOnly && changed)) {
        faces[k] = oneOnly && face !== 'ramp' && faces[k] !== 'ramp' ? 'ramp' : face
        changed = true
      }
    }
    for (const [k, s] of net.sources.entries()) {
      const now = limited[k] ? across(s.plus, s.minus) < s.volts - s.limit * s.inside : currentOf(s, false) > s.limit
      if (now !== limited[k] && !(oneOnly && changed)) {
        limited[k] = now
        changed = true
      }
    }
    if (!changed) break
  }
  return {
    at: node => (index.has(node) ? (v[of(node)] as number) : Number.NaN),
    joined: (a, b) => index.has(a) && index.has(b) && island[of(a)] === island[of(b)],
    draws: faces,
    nodes: [...index.keys()],
    firsts: [...index.keys()].filter((_, i) => island[i] === i),
    sources: net.sources.map((s, k) => ({ ampere: currentOf(s, limited[k] === true), limited: limited[k] === true })),
  }
}
