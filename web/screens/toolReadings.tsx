import { useState } from 'preact/hooks'
import { feeds } from '../../engine/foretell.ts'
import type { Method } from '../../engine/method.ts'
import { first, words } from '../words.ts'
import { Checklist } from './checklist.tsx'
import { Keypad, rawValue, type Typed, untyped } from './keypad.tsx'
import { Title } from './title.tsx'
import { type Field, fieldsOf, type Job } from './toolReckon.ts'

interface ReadingsProps {
  readonly job: Job
  readonly method: Method
  readonly go: (values: ReadonlyMap<string, number>) => void
  readonly back: () => void
}
/** Past these 24 V d.c. is none. */
const MOST = { dc: 60, ac: 25 } as const

const fieldWord = ({ word, at }: Field): string => {
  const { readings } = words().tool
  return word === undefined ? readings.tap(first().figures.metres(at ?? 0)) : readings.fields[word]
}

/** One reading on the keypad. */
const Entry = ({ field, typed, back, done }: { field: Field; typed: Typed; back: () => void; done: (typed: Typed) => void }) => {
  const [now, setNow] = useState(typed)
  const [error, setError] = useState('')
  const { readings: say } = words().tool
  const enter = (entered: Typed) => {
    const { value, ac } = rawValue(entered)
    if (value === 'OL') setError(say.over)
    else if (typeof value === 'number' && field.quantity === 'V' && Math.abs(value) > (ac ? MOST.ac : MOST.dc)) setError(say.stop)
    else done(entered)
  }
  return (
    <main class="place enter">
      <Keypad
        title={fieldWord(field)}
        points={say.points}
        quantity={field.quantity}
        typed={now}
        error={error}
        change={typed => {
          setNow(typed)
          setError('')
        }}
        enter={enter}
        back={back}
      />
    </main>
  )
}

/** First what must be so, then each reading of the method. */
export const ToolReadings = ({ job, method, go, back }: ReadingsProps) => {
  const [sure, setSure] = useState(false)
  const [typed, setTyped] = useState<ReadonlyMap<string, Typed>>(new Map())
  const [at, setAt] = useState<Field | undefined>()
  const [asked, setAsked] = useState(false)
  const { before, how, names, readings: say } = words().tool
  const fields = fieldsOf(method, job.setting)
  const left = fields.filter(({ key }) => !typed.has(key)).length
  if (!sure) {
    const points = feeds(method) ? (job.source === 'supply' ? before.supply : before.injector) : before.ohm
    return (
      <main class="place">
        <Title text={before.title} step={`before ${method}`} />
        <Checklist points={points} done={before.done} go={() => setSure(true)}>
          {button => (
            <>
              <p class="source">{before.source}</p>
              <div class="actions flow">
                {button}
                <button type="button" class="plain" onClick={back}>
                  {first().back}
                </button>
              </div>
            </>
          )}
        </Checklist>
      </main>
    )
  }
  if (at !== undefined)
    return (
      <Entry
        key={at.key}
        field={at}
        typed={typed.get(at.key) ?? untyped}
        back={() => setAt(undefined)}
        done={entered => {
          setTyped(new Map([...typed, [at.key, entered]]))
          setAt(undefined)
        }}
      />
    )
  const shown = (entered: Typed, { quantity }: Field): string =>
    `${first().figures.written(entered.text).replace('-', '−')} ${entered.prefix}${quantity}`
  const ready = () => {
    setAsked(true)
    if (left > 0) return
    const values = [...typed].map(([key, entered]) => [key, rawValue(entered).value] as const)
    go(new Map(values.filter((pair): pair is readonly [string, number] => typeof pair[1] === 'number')))
  }
  return (
    <main class="place">
      <Title text={say.title} step={`readings ${method}`} />
      <h2>{names[method]}</h2>
      <p>{how[method]}</p>
      <div class="actions list">
        {fields.map(field => {
          const entered = typed.get(field.key)
          return (
            <button key={field.key} type="button" class="answer two" onClick={() => setAt(field)}>
              {fieldWord(field)}
              <small>{entered === undefined ? say.missing : shown(entered, field)}</small>
            </button>
          )
        })}
      </div>
      <p role="alert" class="problem">
        {asked && left > 0 ? say.left(left) : ''}
      </p>
      <div class="actions flow">
        <button type="button" class={left > 0 ? 'primary waiting' : 'primary'} onClick={ready}>
          {say.go}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
