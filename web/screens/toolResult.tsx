import type { Estimate } from '../../engine/method.ts'
import { CableStretch } from '../drawing/stretch.tsx'
import { first, words } from '../words.ts'
import { Pairs } from './pairs.tsx'
import { Title } from './title.tsx'
import { type Job, type Outcome, stretchOf } from './toolReckon.ts'

interface ResultProps {
  readonly job: Job
  readonly outcome: Outcome
  readonly narrow: () => void
  readonly again: () => void
  readonly another: () => void
  readonly back: () => void
}

/** The heading: a place, a bound, or that there is none. */
const heading = (estimate: Estimate | undefined): string => {
  const { result: say } = words().tool
  const { metres } = first().figures
  const stretch = estimate && stretchOf(estimate)
  if (estimate === undefined || stretch === undefined) return say.none
  return estimate.upperBoundOnly ? say.most(metres(stretch.high)) : say.at(metres(estimate.interval.best))
}

/** To the hundredth: finer no usual ohmmeter shows. */
const ohms = (value: number) => `${first().figures.round(value, 2)} Ω`

/** Place, interval and resistances from the readings, with the drawing; or in plain words why there is none. */
export const ToolResult = ({ job, outcome, narrow, again, another, back }: ResultProps) => {
  const { readings, refused, result: say } = words().tool
  const { fixed, metres } = first().figures
  const { length } = job.cable
  const estimate = 'estimate' in outcome ? outcome.estimate : undefined
  const stretch = estimate && stretchOf(estimate)
  const isPlace = estimate !== undefined && stretch !== undefined && !estimate.upperBoundOnly
  const best = isPlace ? estimate.interval.best : undefined
  const why =
    'refused' in outcome
      ? outcome.refused === 'no-current'
        ? readings.noCurrent
        : refused[outcome.refused]
      : outcome.estimate.refusedBecause && refused[outcome.estimate.refusedBecause]
  const rows: readonly (readonly [string, string | undefined])[] = [
    [say.interval, isPlace ? say.stretch(fixed(stretch.low, 1), metres(stretch.high)) : undefined],
    [say.uncertainty, isPlace ? metres(Math.max(0.1, estimate.standardUncertainty)) : undefined],
    [say.bound, estimate?.upperBound !== undefined && estimate.upperBound < length ? metres(estimate.upperBound) : undefined],
    [say.loop, estimate?.loopOhm === undefined ? undefined : ohms(estimate.loopOhm)],
    [say.fault, estimate?.faultOhm === undefined ? undefined : ohms(Math.max(0, estimate.faultOhm))],
  ]
  return (
    <main class="place">
      <Title text={heading(estimate)} step={`result ${heading(estimate)}`} />
      <CableStretch
        alt={
          stretch === undefined
            ? say.plain(metres(length))
            : say.drawing(metres(length), metres(stretch.low), metres(stretch.high), best === undefined ? undefined : metres(best))
        }
        length={length}
        near={say.near}
        far={say.far}
        place={stretch && { ...stretch, ...(best === undefined ? {} : { best }) }}
      />
      {why && (
        <p role="status" class="problem">
          {why}
        </p>
      )}
      {estimate?.upperBoundOnly && <p>{say.onlyBound}</p>}
      <Pairs rows={rows} />
      {isPlace && estimate.upperBound !== undefined && <p>{say.assumesFault}</p>}
      <p class="source">{say.assumes}</p>
      <div class="actions flow">
        <button type="button" class="primary" onClick={why === undefined || stretch !== undefined ? narrow : again}>
          {why === undefined || stretch !== undefined ? say.narrow : say.again}
        </button>
        <button type="button" class="answer" onClick={another}>
          {say.another}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
