import { useEffect, useState } from 'preact/hooks'
import { useWidth } from '../drawing/width.ts'
import { playedAgain } from '../log/digest.ts'
import type { Log, SessionSummary } from '../log/log.ts'
import { type Reading, readingsOf, type Trend, trendsOf } from '../log/trend.ts'
import { first, problemWords, words } from '../words.ts'
import { Behind, useOpenedOnPaper } from './reviewBars.tsx'
import { day } from './reviewFilter.ts'
import { Title } from './title.tsx'

/** The latest sessions at the machine: each is played again, which takes a phone about a second. */
const SESSIONS = 12
/** Points that are drawn. */
const MOST = 12
const HEIGHT = 112
const SIDE = 14
/** Room for the least and the largest figure. */
const LEFT = 80
const UNITS = { volt: 'V', ohm: 'Ω', amp: 'A' } as const

const amount = (value: number, meter: Reading['meter']): string => first().figures.quantity(value, UNITS[meter])
const valueWords = ({ value, meter }: Reading): string => (value === 'OL' ? 'OL' : amount(value, meter))
const nameOf = ({ meter, points }: Trend): string => {
  const [red = '', black] = points
  const { pointShort } = words().steps
  return `${UNITS[meter]} ${black === undefined ? red : words().report.between(pointShort(red), pointShort(black))}`
}

/**
 * One dot a reading, in the order of time and evenly apart; hollow before, full after the repair, each kind joined by its own line: what is
 * read of a sound branch from one repair to the next is where a decline shows. OL stands at the top.
 */
const Picture = ({ trend, alt }: { trend: Trend; alt: string }) => {
  const w = useWidth()
  const { meter, readings } = trend
  const values = readings.flatMap(({ value }) => (value === 'OL' ? [] : [value]))
  const low = Math.min(0, ...values)
  const high = Math.max(low + 1e-9, ...values)
  const isOpen = values.length < readings.length
  const top = isOpen ? 3 * SIDE : SIDE
  const y = (value: number) => HEIGHT - SIDE - ((value - low) / (high - low)) * (HEIGHT - SIDE - top)
  const dots = readings.map((reading, i) => ({
    reading,
    x: LEFT + (i * (w - LEFT - SIDE)) / Math.max(1, readings.length - 1),
    y: reading.value === 'OL' ? SIDE : y(reading.value),
  }))
  const labels = [
    ...(isOpen ? [{ word: 'OL', at: SIDE }] : []),
    ...[...new Set([high, low])].map(x => ({ word: amount(x, meter), at: y(x) })),
  ]
  return (
    <svg class="drawing bars" role="img" aria-label={alt} width={w} height={HEIGHT} viewBox={`0 0 ${w} ${HEIGHT}`}>
      {labels.map(({ word, at }) => (
        <text key={word} x={LEFT - 12} y={at + 6} text-anchor="end">
          {word}
        </text>
      ))}
      {[false, true].map(after => (
        <path
          key={String(after)}
          d={dots
            .filter(({ reading }) => reading.after === after)
            .map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`)
            .join('')}
          class="thin"
        />
      ))}
      {dots.map(({ x, y, reading }) => (
        <circle key={`${reading.session} ${x}`} cx={x} cy={y} r={6} class={reading.after ? 'bar' : 'paper'} />
      ))}
    </svg>
  )
}

interface TrendProps {
  readonly log: Log
  readonly sessions: readonly SessionSummary[]
  /** The machine's id. */
  readonly machine: string
  readonly back: () => void
}

/** Readings at the same points over time, so that a slow decline shows: a picture and its table for each point. */
export const ReviewTrend = ({ log, sessions, machine, back }: TrendProps) => {
  const [trends, setTrends] = useState<readonly Trend[] | undefined>()
  const [status, setStatus] = useState('')
  const { keeping, review } = words()
  const { trend: say } = keeping
  useOpenedOnPaper()
  const latest = sessions.filter(({ machineId }) => machineId === machine).slice(0, SESSIONS)
  useEffect(() => {
    let here = true
    const work = async () => {
      const readings: Reading[] = []
      for (const { id } of latest) {
        const events = await log.events(id)
        if (!here) return
        const session = playedAgain(events)
        if (session) readings.push(...readingsOf(id, session, events))
        // The screen stays alive meanwhile.
        await new Promise(next => setTimeout(next, 0))
      }
      if (here) setTrends(trendsOf(readings))
    }
    work().catch(reason => setStatus(problemWords(reason)))
    return () => {
      here = false
    }
  }, [machine])
  return (
    <main class="place review">
      <Title text={say.title} step="trend" />
      <p class="why">{say.note}</p>
      <p role="status">{status || (trends === undefined ? say.busy(latest.length) : '')}</p>
      {trends?.length === 0 && <p>{say.none}</p>}
      {trends?.slice(0, MOST).map(trend => (
        <section key={nameOf(trend)}>
          <h2>{nameOf(trend)}</h2>
          <Picture trend={trend} alt={`${nameOf(trend)}: ${trend.readings.map(valueWords).join(', ')}`} />
          <Behind lines={trend.readings.length} heads={[say.day, say.reading]}>
            {trend.readings.map(reading => (
              <tr key={`${reading.session} ${reading.wall}`}>
                <td>{day(reading.wall)}</td>
                <td>
                  {valueWords(reading)} {reading.after ? say.after : say.before}
                </td>
              </tr>
            ))}
          </Behind>
        </section>
      ))}
      <div class="actions flow">
        {trends !== undefined && trends.length > 0 && (
          <button type="button" class="answer" onClick={() => print()}>
            {review.print}
          </button>
        )}
        <button type="button" class="plain" onClick={back}>
          {review.toSession}
        </button>
      </div>
    </main>
  )
}
