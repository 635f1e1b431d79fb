import type { Stretch } from '../../engine/foretell.ts'
import type { Method } from '../../engine/method.ts'
import { CableStretch } from '../drawing/stretch.tsx'
import { first, words } from '../words.ts'
import { Title } from './title.tsx'
import { type Job, type Offer, offersOf } from './toolReckon.ts'

interface MethodsProps {
  readonly job: Job
  /** Where the place may still be. */
  readonly stretch: Stretch
  readonly pick: (method: Method) => void
  readonly back: () => void
}

/** Finer than this no hand finds and no drawing tells, metres. */
const atLeast = (metres: number) => Math.max(0.1, metres)

/** What each method will give before anything is read, and a plain no where it is worth nothing. */
export const ToolMethods = ({ job, stretch, pick, back }: MethodsProps) => {
  const { methods: say, names, refused, result } = words().tool
  const { about, metres, round, duration } = first().figures
  const offers = offersOf(job, stretch)
  const useful = offers.filter(offer => offer.refused === undefined)
  const worthless = offers.filter((offer): offer is Offer & { refused: NonNullable<Offer['refused']> } => offer.refused !== undefined)
  const now = about(stretch.high - stretch.low)
  const { length } = job.cable
  return (
    <main class="place">
      <Title text={say.title} step="methods" />
      <CableStretch
        alt={result.drawing(metres(length), metres(stretch.low), metres(stretch.high), undefined)}
        length={length}
        near={result.near}
        far={result.far}
        place={stretch}
      />
      <p>{say.now(round(stretch.low, 1), metres(stretch.high))}</p>
      <div class="actions list">
        {useful.map(({ method, foretold, boundOnly, toPlace }) => (
          <button key={method} type="button" class="answer two" onClick={() => pick(method)}>
            {names[method]}
            <small>{(boundOnly ? say.bound : say.gives)(now, about(atLeast(foretold.leaves)))}</small>
            <small>{say.sure(metres(atLeast(foretold.standardUncertainty)), duration(toPlace))}</small>
          </button>
        ))}
      </div>
      {worthless.length > 0 && (
        <>
          <h2>{say.worthless}</h2>
          <dl class="words">
            {worthless.map(({ method, refused: why }) => (
              <div key={method}>
                <dt>{names[method]}</dt>
                <dd>{refused[why]}</dd>
              </div>
            ))}
          </dl>
        </>
      )}
      <div class="actions flow">
        <button type="button" class="plain" onClick={back}>
          {say.back}
        </button>
      </div>
    </main>
  )
}
