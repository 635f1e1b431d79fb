import type { ComponentChildren } from 'preact'
import { useEffect } from 'preact/hooks'
import { useWidth } from '../drawing/width.ts'
import { words } from '../words.ts'

export interface Bar {
  readonly name: string
  readonly value: number
  /** What stands at the bar's end. */
  readonly label: string
  /** Share of all, up to and with this bar, 0 to 1: the line of a Pareto chart. */
  readonly upTo?: number
}
/** More bars than this are no picture any more; the table has them all. */
const MOST = 10
const ROW = 50

/** Bars across, the largest first, each with its words above it; the dots are the running share of all. Sizes in CSS pixels. */
const Picture = ({ alt, bars }: { alt: string; bars: readonly Bar[] }) => {
  const w = useWidth()
  const shown = bars.slice(0, MOST)
  const most = Math.max(...shown.map(bar => bar.value), 1e-9)
  const full = w - 8
  const fits = Math.floor((w - 8) / 8.6)
  const cut = (text: string, room: number) => (text.length > room ? `${text.slice(0, Math.max(1, room - 1))}…` : text)
  const at = (i: number) => i * ROW + 32
  const dots = shown.flatMap(({ upTo }, i) => (upTo === undefined ? [] : [{ x: 4 + upTo * full, y: at(i) + 7 }]))
  return (
    <svg
      class="drawing bars"
      role="img"
      aria-label={alt}
      width={w}
      height={shown.length * ROW + 8}
      viewBox={`0 0 ${w} ${shown.length * ROW + 8}`}
    >
      {shown.map((bar, i) => (
        <rect key={bar.name} x={4} y={at(i)} width={Math.max(2, (bar.value / most) * full)} height={14} class="bar" />
      ))}
      {dots.length > 1 && <path d={`M${dots.map(({ x, y }) => `${x.toFixed(1)} ${y}`).join('L')}`} class="thin" />}
      {shown.map((bar, i) => (
        <g key={bar.name}>
          <text x={4} y={at(i) - 8}>
            {cut(bar.name, fits - bar.label.length - 2)}
          </text>
          <text x={w - 4} y={at(i) - 8} text-anchor="end" class="bold">
            {bar.label}
          </text>
        </g>
      ))}
      {dots.map(({ x, y }) => (
        <circle key={y} cx={Math.min(x, w - 6)} cy={y} r={4} class="paper" />
      ))}
    </svg>
  )
}

/** On paper a table cannot be opened, so all are before they are printed. */
export const useOpenedOnPaper = (): void =>
  useEffect(() => {
    const opened = () => {
      for (const table of document.querySelectorAll('details')) table.open = true
    }
    addEventListener('beforeprint', opened)
    return () => removeEventListener('beforeprint', opened)
  }, [])

/** The table that stands behind a picture: opened by a tap, and open on paper. */
export const Behind = ({ lines, heads, children }: { lines: number; heads: readonly string[]; children: ComponentChildren }) => (
  <details>
    <summary>{words().review.charts.table(lines)}</summary>
    <table>
      <thead>
        <tr>
          {heads.map(head => (
            <th key={head}>{head}</th>
          ))}
        </tr>
      </thead>
      <tbody>{children}</tbody>
    </table>
  </details>
)

interface ChartProps {
  readonly title: string
  readonly note: string
  readonly bars: readonly Bar[]
  /** Heads of the table: what is counted, and how. */
  readonly heads: { readonly of: string; readonly how: string }
}

/** A chart is a picture with its table behind it. */
export const Chart = ({ title, note, bars, heads }: ChartProps) => {
  const { charts: say } = words().review
  const isPareto = bars.some(bar => bar.upTo !== undefined)
  const percent = (share: number | undefined) => (share === undefined ? '' : `${Math.round(share * 100)} %`)
  return (
    <section>
      <h2>{title}</h2>
      <p class="why">{note}</p>
      {bars.length === 0 ? (
        <p>{say.nothing}</p>
      ) : (
        <Picture
          alt={`${title}: ${bars
            .slice(0, 3)
            .map(b => `${b.name} ${b.label}`)
            .join(', ')}`}
          bars={bars}
        />
      )}
      {bars.length > 0 && (
        <Behind lines={bars.length} heads={[heads.of, heads.how, ...(isPareto ? [say.upTo] : [])]}>
          {bars.map(bar => (
            <tr key={bar.name}>
              <td>{bar.name}</td>
              <td>{bar.label}</td>
              {isPareto && <td>{percent(bar.upTo)}</td>}
            </tr>
          ))}
        </Behind>
      )}
    </section>
  )
}
