import { useState } from 'preact/hooks'
import type { Stretch } from '../../engine/foretell.ts'
import type { Method } from '../../engine/method.ts'
import { ToolCable } from './toolCable.tsx'
import { ToolMethods } from './toolMethods.tsx'
import { ToolReadings } from './toolReadings.tsx'
import { type Job, type Outcome, outcomeOf, stretchOf, type Typed, UNTYPED, type Wrong } from './toolReckon.ts'
import { ToolResult } from './toolResult.tsx'

type View =
  | { at: 'cable'; wrong?: Wrong }
  | { at: 'methods'; job: Job; stretch: Stretch }
  | { at: 'readings'; job: Job; stretch: Stretch; method: Method }
  | { at: 'result'; job: Job; stretch: Stretch; method: Method; outcome: Outcome }

/** The sharper of what was known before and what an outcome gives: a stretch is never widened by a duller method. */
const sharper = (before: Stretch, outcome: Outcome): Stretch => {
  const after = 'estimate' in outcome ? stretchOf(outcome.estimate) : undefined
  return after !== undefined && after.high - after.low < before.high - before.low ? after : before
}

/** A place on one cable by measuring, outside a session: from the cable over the method and its readings to the stretch. */
export const Tool = ({ leave }: { leave: () => void }) => {
  const [typed, setTyped] = useState<Typed>(UNTYPED)
  const [view, setView] = useState<View>({ at: 'cable' })
  switch (view.at) {
    case 'cable':
      return (
        <ToolCable
          typed={typed}
          wrong={view.wrong}
          change={now => {
            setTyped(now)
            setView({ at: 'cable' })
          }}
          go={read =>
            setView(
              read.ok
                ? { at: 'methods', job: read.job, stretch: { low: 0, high: read.job.cable.length } }
                : { at: 'cable', wrong: read.wrong },
            )
          }
          back={leave}
        />
      )
    case 'methods':
      return (
        <ToolMethods
          job={view.job}
          stretch={view.stretch}
          pick={method => setView({ ...view, at: 'readings', method })}
          back={() => setView({ at: 'cable' })}
        />
      )
    case 'readings':
      return (
        <ToolReadings
          job={view.job}
          method={view.method}
          go={values => setView({ ...view, at: 'result', outcome: outcomeOf(view.job, view.method, values) })}
          back={() => setView({ ...view, at: 'methods' })}
        />
      )
    case 'result':
      return (
        <ToolResult
          job={view.job}
          outcome={view.outcome}
          narrow={() => setView({ at: 'methods', job: view.job, stretch: sharper(view.stretch, view.outcome) })}
          again={() => setView({ ...view, at: 'readings' })}
          another={() => setView({ at: 'cable' })}
          back={leave}
        />
      )
  }
}
