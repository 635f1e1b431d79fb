// Where the parts of a branch stand in its drawing: metres to the right, one lane for each side way.
import type { Branch, Load, Run } from '../../engine/machine.ts'

export interface Node {
  readonly id: string
  readonly metres: number
  readonly lane: number
}
export interface Layout {
  readonly nodes: readonly Node[]
  readonly runs: readonly { readonly run: Run; readonly from: Node; readonly to: Node }[]
  readonly loads: readonly { readonly load: Load; readonly node: Node; readonly place: number }[]
  /** Metres from the terminals to the farthest end. */
  readonly reach: number
  readonly lanes: number
  /** Ways that were left out, counted at the junction where they leave. */
  readonly left: readonly { readonly node: Node; readonly ways: number }[]
}

/**
 * The longest way keeps its parent's lane; every other way gets a lane of its own below. With `only`, a side way that leads to
 * none of these junctions is left out, so that a branch of many ways fits a small screen.
 */
export const layOut = (branch: Branch, only?: readonly string[]): Layout => {
  const wiring = branch.wiring ?? []
  const nodes = new Map<string, Node>([['terminals', { id: 'terminals', metres: 0, lane: 0 }]])
  const runs: { run: Run; from: Node; to: Node }[] = []
  const reachOf = (id: string): number => Math.max(0, ...wiring.filter(r => r.from === id).map(r => r.length + reachOf(r.to)))
  const leadsTo = (id: string): boolean => only?.includes(id) !== false || wiring.some(r => r.from === id && leadsTo(r.to))
  const left: { node: Node; ways: number }[] = []
  let lanes = 1
  const place = (from: Node) => {
    const out = wiring.filter(r => r.from === from.id).sort((a, b) => b.length + reachOf(b.to) - a.length - reachOf(a.to))
    const kept = out.filter((run, i) => i === 0 || leadsTo(run.to))
    if (kept.length < out.length) left.push({ node: from, ways: out.length - kept.length })
    kept.forEach((run, i) => {
      const to = { id: run.to, metres: from.metres + run.length, lane: i === 0 ? from.lane : lanes }
      if (i > 0) lanes += 1
      nodes.set(to.id, to)
      runs.push({ run, from, to })
      place(to)
    })
  }
  const root = nodes.get('terminals')
  if (root) place(root)
  const taken = new Map<string, number>()
  const loads = (branch.loads ?? []).flatMap(load => {
    const node = nodes.get(load.at)
    if (!node) return []
    const before = taken.get(load.at) ?? 0
    taken.set(load.at, before + 1)
    return [{ load, node, place: before }]
  })
  return { nodes: [...nodes.values()], runs, loads, reach: Math.max(1, ...[...nodes.values()].map(n => n.metres)), lanes, left }
}

interface Box {
  x: number
  y: number
  width: number
  height: number
}

/** Room that a name takes in 16 px type, px. */
export const widthOf = (text: string): number => text.length * 9 + 4

/** Keeps lettering apart: a label takes the first of its places that is free, or is left out. Sizes in px, 16 px type. */
export class Labels {
  private readonly boxes: Box[] = []
  private readonly width: number
  private readonly height: number
  constructor(width: number, height = Number.POSITIVE_INFINITY) {
    this.width = width
    this.height = height
  }
  take(box: Box): void {
    this.boxes.push(box)
  }
  place(text: string, spots: readonly { x: number; y: number }[]): { text: string; x: number; y: number } | undefined {
    const width = widthOf(text)
    for (const spot of spots) {
      const x = Math.max(0, Math.min(spot.x - width / 2, this.width - width))
      const box = { x, y: spot.y - 14, width, height: 18 }
      const inside = box.y + box.height <= this.height
      const free =
        inside &&
        this.boxes.every(b => b.x >= box.x + box.width || box.x >= b.x + b.width || b.y >= box.y + box.height || box.y >= b.y + b.height)
      if (!free) continue
      this.boxes.push(box)
      return { text, x: x + width / 2, y: spot.y }
    }
    return undefined
  }
}
