import { useState } from 'preact/hooks'
import { Title } from './title.tsx'

export type Quantity = 'V' | 'Ω' | 'A'
const prefixes: Record<Quantity, readonly string[]> = { V: ['', 'm'], Ω: ['', 'k', 'M', 'm'], A: ['', 'm'] }
const factors: Record<string, number> = { '': 1, m: 1e-3, k: 1e3, M: 1e6 }
const keys = ['7', '8', '9', '⌫', '4', '5', '6', 'OL', '1', '2', '3', 'jumps', '0', '.', '−', 'unit'] as const

/** What has been typed so far; kept as the draft, so that it survives a reload. */
export interface Typed {
  readonly text: string
  readonly prefix: string
  readonly unsteady: boolean
  readonly ac: boolean
}
export const untyped: Typed = { text: '', prefix: '', unsteady: false, ac: false }

/** The value in V, Ω or A, as an answer. Empty text gives no number, which the reader of answers refuses in words. */
export const rawValue = ({ text, prefix, unsteady, ac }: Typed) => ({
  value: text === 'OL' ? 'OL' : text === '' ? undefined : Number((Number(text) * (factors[prefix] ?? 1)).toPrecision(12)),
  ...(unsteady ? { unsteady } : {}),
  ...(ac ? { ac } : {}),
})

/** One key pressed: what stands typed after it. */
export const press = (typed: Typed, key: string): Typed => {
  const { text } = typed
  if (key === 'jumps') return { ...typed, unsteady: !typed.unsteady }
  if (key === 'a.c.') return { ...typed, ac: !typed.ac }
  if (key === 'OL') return { ...typed, text: text === 'OL' ? '' : 'OL' }
  if (key === '⌫') return { ...typed, text: text === 'OL' ? '' : text.slice(0, -1) }
  const digits = text === 'OL' ? '' : text
  if (key === '−') return { ...typed, text: digits.startsWith('-') ? digits.slice(1) : `-${digits}` }
  if (key === '.' && digits.includes('.')) return typed
  return digits.length >= 7 ? typed : { ...typed, text: digits + (key === '.' && /^-?$/.test(digits) ? '0.' : key) }
}
const spoken: Record<string, string> = {
  '⌫': 'delete',
  '.': 'point',
  '−': 'minus',
  OL: 'OL, past the range',
  jumps: 'display jumps',
  'a.c.': 'a.c., alternating voltage',
}

interface KeypadProps {
  readonly title: string
  readonly points: string
  readonly quantity: Quantity
  readonly typed: Typed
  readonly error: string
  readonly change: (typed: Typed) => void
  readonly enter: (typed: Typed) => void
  readonly back: () => void
}

/** The second moment of a reading: the display's value, typed with one thumb. */
export const Keypad = ({ title, points, quantity, typed, error, change, enter, back }: KeypadProps) => {
  const [missing, setMissing] = useState(false)
  const unit = `${typed.prefix}${quantity}`
  const shown = typed.text.replace('-', '−')
  const whole = `${shown}${typed.text === 'OL' ? '' : ` ${unit}`}${typed.ac ? ' a.c.' : ''}`
  const next = () => {
    const { [quantity]: list } = prefixes
    change({ ...typed, prefix: list[(list.indexOf(typed.prefix) + 1) % list.length] ?? '' })
  }
  const submit = () => {
    const empty = !/\d|OL/.test(typed.text)
    setMissing(empty)
    if (!empty) enter(typed)
  }
  const problem = missing ? 'Type what the display shows.' : error
  return (
    <>
      <div class="entry">
        <button type="button" class="key back" aria-label="Back to the drawing" onClick={back}>
          ‹
        </button>
        <div>
          <Title text={title} step={title} />
          <p>{points}</p>
        </div>
      </div>
      <output aria-label="value">
        <small>{typed.unsteady ? 'jumps' : ''}</small>
        <strong>{shown === '' ? '–' : shown}</strong> {typed.text === 'OL' ? '' : unit}
        {typed.ac ? ' ∼' : ''}
      </output>
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      <div class="keys">
        {keys.map(k => {
          const key = k === 'OL' && quantity === 'V' ? 'a.c.' : k
          if (key === 'unit')
            return (
              <button key={key} type="button" class="key small" aria-label={`unit ${unit}, change`} onClick={next}>
                unit
                <br />
                {unit}
              </button>
            )
          const toggle = key === 'jumps' || key === 'a.c.'
          const on = key === 'jumps' ? typed.unsteady : typed.ac
          return (
            <button
              key={key}
              type="button"
              class={`key${key.length > 1 ? ' small' : ''}`}
              aria-label={spoken[key]}
              aria-pressed={toggle ? on : undefined}
              onClick={() => {
                setMissing(false)
                change(press(typed, key))
              }}
            >
              {key}
            </button>
          )
        })}
      </div>
      <div class="actions">
        <button type="button" class="primary" onClick={submit}>
          {typed.text === '' || typed.text === '-' ? 'It shows …' : `It shows ${whole}`}
        </button>
      </div>
    </>
  )
}
