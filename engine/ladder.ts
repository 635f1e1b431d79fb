// Node voltages of a two-conductor tree, by elimination from the leaves to the root and back: exact, and linear in its size.
//
// Every node is a pair (plus, 0 V) with earth as the common reference. A node hangs on its parent by two series
// resistances, one in each conductor, and carries three shunts: plus to 0 V, plus to earth, 0 V to earth. Because the
// shunts are kept as three conductances (never as an admittance matrix), every sum in the elimination has positive terms
// only and a short of a few milliohm beside insulation of gigaohms loses no digits.
// It stops holding where the wiring is not a tree: two branches that share a 0 V return past the cabinet.

/** Node 0 is the root; a node's parent has a lower index. Resistances in Ω, conductances in S, currents in A, voltages in V. */
export interface Ladder {
  readonly size: number
  readonly parent: Int32Array
  /** Series resistance to the parent, in the plus and in the 0 V conductor. */
  readonly plusOhm: Float64Array
  readonly zeroOhm: Float64Array
  /** Shunts: plus to 0 V, plus to earth, 0 V to earth. */
  readonly across: Float64Array
  readonly plusEarth: Float64Array
  readonly zeroEarth: Float64Array
  /** Current put into the node's plus and 0 V from outside (earth is where it comes from). */
  readonly intoPlus: Float64Array
  readonly intoZero: Float64Array
  /** Results of `solve`. */
  readonly plus: Float64Array
  readonly zero: Float64Array
}

export const ladder = (size: number): Ladder => {
  const f = () => new Float64Array(size)
  return {
    size,
    parent: new Int32Array(size),
    plusOhm: f(),
    zeroOhm: f(),
    across: f(),
    plusEarth: f(),
    zeroEarth: f(),
    intoPlus: f(),
    intoZero: f(),
    plus: f(),
    zero: f(),
  }
}

/** Three conductances in S that stand for everything below a node, and the currents in A that its sources push out. */
export interface Port {
  across: number
  plusEarth: number
  zeroEarth: number
  plus: number
  zero: number
}

/** The port seen through a series resistance in each conductor. */
export const through = (p: Port, rp: number, rz: number): Port => {
  const g = p.across
  const d = g * (p.plusEarth + p.zeroEarth) + p.plusEarth * p.zeroEarth
  const det = 1 + (g + p.plusEarth) * rp + (g + p.zeroEarth) * rz + rp * rz * d
  const both = g * (p.plus + p.zero)
  return {
    across: g / det,
    plusEarth: (p.plusEarth + rz * d) / det,
    zeroEarth: (p.zeroEarth + rp * d) / det,
    plus: (p.plus + rz * (p.zeroEarth * p.plus + both)) / det,
    zero: (p.zero + rp * (p.plusEarth * p.zero + both)) / det,
  }
}

// Work space of one solve, grown as needed: what stands at each node once all below it is gathered.
let space = new Float64Array(5 * 256)

const gatherInto = (l: Ladder): Float64Array => {
  const n = l.size
  if (space.length < 5 * n) space = new Float64Array(10 * n)
  const at = space
  const { parent, plusOhm, zeroOhm } = l
  for (let i = 0; i < n; i++) {
    const k = 5 * i
    at[k] = l.across[i] as number
    at[k + 1] = l.plusEarth[i] as number
    at[k + 2] = l.zeroEarth[i] as number
    at[k + 3] = l.intoPlus[i] as number
    at[k + 4] = l.intoZero[i] as number
  }
  for (let i = n - 1; i > 0; i--) {
    const k = 5 * i
    const u = 5 * (parent[i] as number)
    const rp = plusOhm[i] as number,
      rz = zeroOhm[i] as number
    const g = at[k] as number,
      gp = at[k + 1] as number,
      gz = at[k + 2] as number,
      jp = at[k + 3] as number,
      jz = at[k + 4] as number
    const d = g * (gp + gz) + gp * gz
    const by = 1 / (1 + (g + gp) * rp + (g + gz) * rz + rp * rz * d)
    const both = g * (jp + jz)
    at[u] = (at[u] as number) + g * by
    at[u + 1] = (at[u + 1] as number) + (gp + rz * d) * by
    at[u + 2] = (at[u + 2] as number) + (gz + rp * d) * by
    at[u + 3] = (at[u + 3] as number) + (jp + rz * (gz * jp + both)) * by
    at[u + 4] = (at[u + 4] as number) + (jz + rp * (gp * jz + both)) * by
  }
  return at
}

/** All of the ladder as seen at its root. */
export const gather = (l: Ladder): Port => {
  const at = gatherInto(l)
  return { across: at[0] as number, plusEarth: at[1] as number, zeroEarth: at[2] as number, plus: at[3] as number, zero: at[4] as number }
}

/** Fills `plus` and `zero` with the node voltages to earth. Each floating part needs some conductance to earth. */
export const solve = (l: Ladder): void => {
  const at = gatherInto(l)
  const n = l.size
  const { parent, plusOhm, zeroOhm, plus, zero } = l
  const g = at[0] as number,
    gp = at[1] as number,
    gz = at[2] as number,
    jp = at[3] as number,
    jz = at[4] as number
  const d = g * (gp + gz) + gp * gz
  plus[0] = (gz * jp + g * (jp + jz)) / d
  zero[0] = (gp * jz + g * (jp + jz)) / d
  for (let i = 1; i < n; i++) {
    const k = 5 * i
    const up = parent[i] as number
    const rp = plusOhm[i] as number,
      rz = zeroOhm[i] as number
    const g = at[k] as number,
      gp = at[k + 1] as number,
      gz = at[k + 2] as number
    const d = g * (gp + gz) + gp * gz
    const by = 1 / (1 + (g + gp) * rp + (g + gz) * rz + rp * rz * d)
    const jp = at[k + 3] as number,
      jz = at[k + 4] as number
    const p = (plus[up] as number) + rp * jp
    const z = (zero[up] as number) + rz * jz
    // The currents are summed before they meet the product of two large resistances, where they would drown each other.
    const both = g * (rz * (plus[up] as number) + rp * (zero[up] as number) + rp * rz * (jp + jz))
    plus[i] = (p * (1 + rz * gz) + both) * by
    zero[i] = (z * (1 + rp * gp) + both) * by
  }
}
