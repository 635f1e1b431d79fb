import type { Branch } from '../../engine/machine.ts'
import type { Interval } from '../../engine/step.ts'
import { first } from '../words.ts'
import { Labels, type Layout, layOut, type Node } from './layout.ts'
import { type Core, Probes, probesReach } from './probes.tsx'
import { LoadBox } from './symbols.tsx'
import { useWidth } from './width.ts'

/** The height that a picture of a branch takes, in px. */
export const TREE = { least: 146, most: 250, usual: 230 } as const
/** Height of a lane; where there is less, lanes stand closer and their loads' names beside them, down to the least. */
const LANE = 66
const LANE_LEAST = 30
const LEFT = 22
/** Room above the upper lane: for names, and for the probes' own where there are any. Below the lowest: for its load and the scale. */
const ABOVE = 34
const ABOVE_PROBES = 56
const BELOW = 66
const BELOW_CLOSE = 40

/** The distance of the lanes that fit in this height; too small if they do not. */
const laneOf = (lanes: number, height: number, top: number, below: number): { lane: number; close: boolean } => {
  if (top + (lanes - 1) * LANE + BELOW <= height) return { lane: LANE, close: false }
  return { lane: Math.min(LANE, Math.floor((height - top - below) / Math.max(1, lanes - 1))), close: lanes > 1 }
}
/** Nearer to the cabinet than this the probes' names have no room at a junction's left, px. */
const BESIDE = 130

export interface TreeProps {
  readonly alt: string
  readonly branch: Branch
  /** What the screen leaves, in px. */
  readonly height?: number
  readonly openedRuns?: readonly string[]
  readonly unplugged?: readonly string[]
  /** The suspected stretch, metres from the run's near end, or the suspected load. */
  readonly mark?: { readonly run?: string | undefined; readonly along?: Interval | undefined; readonly load?: string | undefined }
  /** The junction or run where the probes go. */
  readonly probe?: { readonly node: string; readonly red?: Core | undefined; readonly black?: Core | undefined } | undefined
  readonly ringLoad?: string | undefined
  readonly ringRun?: string | undefined
}

/** A moving run is drawn as a wave, a fixed one straight. */
const cable = (x1: number, x2: number, y: number, moving: boolean | undefined) => {
  const n = Math.max(1, Math.round((x2 - x1) / 14))
  return moving ? `M${x1} ${y}${`q${(x2 - x1) / n / 4} -7 ${(x2 - x1) / n / 2} 0t${(x2 - x1) / n / 2} 0`.repeat(n)}` : `M${x1} ${y}H${x2}`
}
/** The junctions that a drawing must not leave out: where the probes, the hand or the suspicion are. */
const inFocus = (p: TreeProps): string[] => {
  const runs = (p.branch.wiring ?? []).filter(r => [p.probe?.node, p.ringRun, p.mark?.run, ...(p.openedRuns ?? [])].includes(r.id))
  const loads = (p.branch.loads ?? []).filter(l => [p.ringLoad, p.mark?.load, ...(p.unplugged ?? [])].includes(l.id))
  return [p.probe?.node ?? '', ...runs.map(r => r.to), ...loads.map(l => l.at)]
}
const metres = (x: number) => `${first().figures.round(x, 1)} m`

/** A branch's wiring to scale: junctions, runs, loads; the suspected stretch laid over it; the probes at their junction. */
export const Tree = (p: TreeProps) => {
  const w = useWidth()
  const room = p.height ?? TREE.usual
  const whole = layOut(p.branch)
  const probed = (t: Layout): Node | undefined =>
    t.runs.find(r => r.run.id === p.probe?.node)?.to ?? t.nodes.find(n => n.id === p.probe?.node)
  // At a side way that leaves far enough from the cabinet the leads come from below: from above they would lie over the way it leaves.
  const isUnder = (t: Layout): boolean => {
    const { lane = 0, metres = 0 } = probed(t) ?? {}
    return lane > 0 && lane === t.lanes - 1 && LEFT + (metres * (w - LEFT - 40)) / t.reach > BESIDE + 30
  }
  const roomOf = (t: Layout) => {
    const under = isUnder(t)
    const top = p.probe && !under ? ABOVE_PROBES : ABOVE
    return { under, top, ...laneOf(t.lanes, room, top, under ? BELOW : BELOW_CLOSE) }
  }
  // Probes in a middle lane would lie over their neighbours: then only the ways that matter are drawn.
  const middle = (probed(whole)?.lane ?? 0) > 0 && !isUnder(whole)
  const fits = roomOf(whole).lane >= LANE_LEAST && !middle
  const tree = fits ? whole : layOut(p.branch, inFocus(p))
  const { close, under, top, ...fitted } = roomOf(tree)
  const lane = Math.max(LANE_LEAST, fitted.lane)
  const hang = close ? 14 : 22
  const beside = close ? Math.max(0, ...tree.loads.map(l => l.load.id.length)) * 9 : 0
  // Loads side by side at one junction, the last of them maybe ringed, must not leave the drawing.
  const abreast = Math.max(0, ...tree.loads.map(l => l.place)) * 18
  const scale = (w - LEFT - 40 - beside - abreast) / tree.reach
  const height = top + (tree.lanes - 1) * lane + (close && !under ? BELOW_CLOSE : BELOW)
  const labels = new Labels(w, height)
  const bar = [1, 2, 5, 10, 20, 50].find(m => m * scale >= 36) ?? 50
  labels.take({ x: LEFT, y: height - 18, width: bar * scale + 48, height: 18 })
  const X = (m: number) => LEFT + m * scale
  const at = (n: Node) => ({ x: X(n.metres), y: top + n.lane * lane })
  const marked = tree.runs.find(r => r.run.id === p.mark?.run)
  const focus = [...inFocus(p), marked?.from.id]
  const shown: ({ text: string; x: number; y: number; violet?: boolean } | undefined)[] = []
  for (const { node, place } of tree.loads)
    labels.take({ x: at(node).x + 8 + place * 18, y: at(node).y + hang - 12, width: 16, height: 24 })
  const from = marked && at(marked.to)
  const along = marked && (p.mark?.along ?? { low: 0, best: marked.run.length / 2, high: marked.run.length })
  const stretch = marked &&
    from &&
    along && {
      x1: X(marked.from.metres + along.low),
      x2: X(marked.from.metres + along.high),
      x: X(marked.from.metres + along.best),
      y: from.y,
    }
  if (stretch) {
    labels.take({ x: stretch.x1 - 2, y: stretch.y - 15, width: stretch.x2 - stretch.x1 + 4, height: 30 })
    labels.take({ x: stretch.x - 8, y: stretch.y - 26, width: 14, height: 12 })
    if (p.mark?.along) {
      const middle = Math.min(Math.max(stretch.x, 44), w - 44)
      // From where to where, as the title says it: a single figure would read as the stretch's length.
      const label = labels.place(`${first().figures.round(along.low, 1)}–${metres(along.high)}`, [
        { x: middle, y: stretch.y + 32 },
        { x: middle, y: stretch.y - 20 },
      ])
      shown.push(label && { ...label, violet: true })
    }
  }
  const probeRun = tree.runs.find(r => r.run.id === p.probe?.node)
  const probeNode = probeRun?.from ?? tree.nodes.find(n => n.id === p.probe?.node)
  const tip = probeNode && { x: at(probeNode).x + (probeRun ? 16 : 0), y: at(probeRun?.to ?? probeNode).y }
  const side = tip && tip.x > BESIDE ? -1 : 1
  const reach = probesReach()
  if (tip)
    labels.take({ x: tip.x - (side < 0 ? reach : 12), y: under ? tip.y - 6 : tip.y - 56, width: reach + 12, height: under ? 54 : 62 })
  const ringed = tree.runs.find(r => r.run.id === p.ringRun)
  if (ringed) labels.take({ x: X(ringed.from.metres) - 12, y: at(ringed.to).y - 20, width: 48, height: 40 })
  const held = tree.loads.find(l => l.load.id === p.ringLoad)
  if (held) labels.take({ x: at(held.node).x - 4 + held.place * 18, y: at(held.node).y + 2, width: 40, height: 40 })
  const rank = (n: Node) => (n === marked?.from ? 2 : focus.includes(n.id) ? 1 : 0)
  // The junction that the finding is told from comes first, so that its name is never left out.
  for (const node of [...tree.nodes].sort((a, b) => rank(b) - rank(a))) {
    const { x, y } = at(node)
    // Where lanes stand close, an end that is named by its load needs no second name, unless the step names it.
    const byLoad = close && node.lane > 0 && !focus.includes(node.id) && tree.loads.some(l => l.node === node)
    if (byLoad && !tree.runs.some(r => r.from === node)) continue
    if (node.id === 'terminals') shown.push(labels.place(p.branch.id, [{ x: LEFT, y: y + 30 }]))
    else
      shown.push(
        labels.place(node.id, [
          { x, y: y - 14 },
          { x: x - 24, y: y - 16 },
          { x: x - 26, y: y + 24 },
          { x: x + 26, y: y + 24 },
          { x, y: y + 26 },
          { x: x + 14, y: y + 44 },
          { x: x - 40, y: y + 44 },
        ]),
      )
  }
  for (const { node, ways } of tree.left) {
    const { x, y } = at(node)
    labels.take({ x: x - 4, y, width: 26, height: 20 })
    shown.push(
      labels.place(`+${ways}`, [
        { x: x + 24, y: y + 30 },
        { x: x + 34, y: y + 22 },
      ]),
    )
  }
  for (const { load, node, place } of tree.loads) {
    const { x, y } = at(node)
    shown.push(
      labels.place(load.id, [
        ...(close ? [{ x: x + 30 + place * 18 + load.id.length * 4.5, y: y + hang + 6 }] : []),
        { x: x + 16 + place * 18, y: y + hang + 26 },
        { x: x + 44 + place * 18, y: y + 32 },
        { x: x - 24, y: y + 34 },
        { x: x + 16, y: y + 60 },
      ]),
    )
  }
  for (const { run, from: a, to } of tree.runs) {
    const mid = (X(a.metres) + X(to.metres)) / 2
    const y = at(to).y
    if (X(to.metres) - X(a.metres) > 42)
      shown.push(
        labels.place(metres(run.length), [
          { x: mid, y: y - 11 },
          { x: mid, y: y + 22 },
        ]),
      )
  }
  return (
    <svg class="drawing" role="img" aria-label={p.alt} width={w} height={height} viewBox={`0 0 ${w} ${height}`}>
      {stretch && (
        <rect x={stretch.x1 - 2} y={stretch.y - 14} width={Math.max(6, stretch.x2 - stretch.x1 + 4)} height={28} rx={6} class="stretch" />
      )}
      {tree.runs.map(({ run, from: a, to }) => {
        const x = X(a.metres)
        const y = at(to).y
        const gap = p.openedRuns?.includes(run.id) ? 16 : 0
        return (
          <g key={run.id} class={run.id === marked?.run.id ? 'violet heavy' : ''}>
            {a.lane !== to.lane && <path d={`M${x} ${at(a).y}V${y}`} />}
            <path d={cable(x + gap, X(to.metres), y, run.moving)} />
            {gap > 0 && <path d={`M${x + 16} ${y - 7}v14`} />}
            {run.id === p.ringRun && <ellipse cx={x + 12} cy={y} rx={22} ry={20} class="ring" />}
          </g>
        )
      })}
      {tree.loads.map(({ load, node, place }) => {
        const { x, y } = at(node)
        const lx = x + 16 + place * 18
        const out = p.unplugged?.includes(load.id)
        return (
          <g key={load.id} class={load.id === p.mark?.load ? 'violet heavy' : ''}>
            <path d={out ? `M${x} ${y}L${x + 6} ${y + 8}` : `M${x} ${y}L${lx} ${y + hang}`} />
            <LoadBox x={lx} y={y + hang + (out ? 4 : 1)} />
            {load.id === p.mark?.load && <rect x={lx - 12} y={y + hang - 11} width={24} height={24} rx={5} class="stretch" />}
            {load.id === p.ringLoad && <circle cx={lx} cy={y + hang} r={20} class="ring" />}
          </g>
        )
      })}
      {tree.left.map(({ node }) => (
        <path key={node.id} d={`M${at(node).x} ${at(node).y}l9 12l7 0`} class="thin" stroke-dasharray="3 4" />
      ))}
      {tree.nodes.map(n => (
        <g key={n.id}>
          {n.id === 'terminals' ? (
            <rect x={LEFT - 8} y={at(n).y - 12} width={10} height={24} class="paper" />
          ) : (
            <circle cx={at(n).x} cy={at(n).y} r={6} class="paper" />
          )}
        </g>
      ))}
      {stretch && <path d={`M${stretch.x + 3} ${stretch.y - 24}l-8 13h7l-4 11`} class="violet bolt" />}
      {tip && <Probes tip={tip} side={side} under={under} red={p.probe?.red} black={p.probe?.black} />}
      {shown.map(
        s =>
          s && (
            <text key={`${s.text}${s.x}`} x={s.x} y={s.y} text-anchor="middle" class={s.violet ? 'violet-text bold' : ''}>
              {s.text}
            </text>
          ),
      )}
      <path d={`M${LEFT} ${height - 8}v5h${bar * scale}v-5`} class="thin" />
      <text x={LEFT + 6 + bar * scale} y={height - 3}>{`${bar} m`}</text>
    </svg>
  )
}
