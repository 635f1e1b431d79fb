import { useState } from 'preact/hooks'
import { Icon } from '../drawing/icons.tsx'
import { first, words } from '../words.ts'
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

/** An answer's value as it was typed, as near as its number tells. */
export const typedOf = (answer: { readonly value: number | 'OL'; readonly unsteady?: boolean; readonly ac?: boolean }): Typed => ({
  ...untyped,
  text: String(answer.value),
  unsteady: answer.unsteady ?? false,
  ac: answer.ac ?? false,
})

/** One key pressed: what stands typed after it. A comma is a point: what is typed is kept with a point, whatever the language shows. */
export const press = (typed: Typed, pressed: string): Typed => {
  const { text } = typed
  const key = pressed === ',' ? '.' : pressed
  if (key === 'jumps') return { ...typed, unsteady: !typed.unsteady }
  if (key === 'a.c.') return { ...typed, ac: !typed.ac }
  if (key === 'OL') return { ...typed, text: text === 'OL' ? '' : 'OL' }
  if (key === '⌫') return { ...typed, text: text === 'OL' ? '' : text.slice(0, -1) }
  const digits = text === 'OL' ? '' : text
  if (key === '−') return { ...typed, text: digits.startsWith('-') ? digits.slice(1) : `-${digits}` }
  if (key === '.' && digits.includes('.')) return typed
  return digits.length >= 7 ? typed : { ...typed, text: digits + (key === '.' && /^-?$/.test(digits) ? '0.' : key) }
}
/** What a key is called, and what it shows where that is no sign of its own. */
const keyWords = (key: string): { name?: string; shown: string } => {
  const { spoken, jumps, ac } = words().session.keypad
  switch (key) {
    case '⌫':
      return { name: spoken.delete, shown: key }
    case '.':
      return { name: first().figures.sign === ',' ? spoken.comma : spoken.point, shown: first().figures.sign }
    case '−':
      return { name: spoken.minus, shown: key }
    case 'OL':
      return { name: spoken.OL, shown: key }
    case 'jumps':
      return { name: spoken.jumps, shown: jumps }
    case 'a.c.':
      return { name: spoken.ac, shown: ac }
    default:
      return { shown: key }
  }
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
  const { keypad } = words().session
  const unit = `${typed.prefix}${quantity}`
  const shown = first().figures.written(typed.text).replace('-', '−')
  const whole = `${shown}${typed.text === 'OL' ? '' : ` ${unit}`}${typed.ac ? ` ${keypad.ac}` : ''}`
  const next = () => {
    const { [quantity]: list } = prefixes
    change({ ...typed, prefix: list[(list.indexOf(typed.prefix) + 1) % list.length] ?? '' })
  }
  const submit = () => {
    const empty = !/\d|OL/.test(typed.text)
    setMissing(empty)
    if (!empty) enter(typed)
  }
  const problem = missing ? keypad.missing : error
  return (
    <>
      <div class="entry">
        <button type="button" class="key back" aria-label={keypad.back} onClick={back}>
          ‹
        </button>
        <div>
          <Title text={title} step={title} />
          <p>{points}</p>
        </div>
      </div>
      <output aria-label={keypad.value}>
        <small>{typed.unsteady ? keypad.jumps : ''}</small>
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
              <button key={key} type="button" class="key small" aria-label={keypad.change(unit)} onClick={next}>
                {keypad.unit}
                <br />
                {unit}
              </button>
            )
          const toggle = key === 'jumps' || key === 'a.c.'
          const on = key === 'jumps' ? typed.unsteady : typed.ac
          const { name, shown: sign } = keyWords(key)
          return (
            <button
              key={key}
              type="button"
              class={`key${key.length > 1 ? ' small' : ''}`}
              aria-label={name}
              aria-pressed={toggle ? on : undefined}
              onClick={() => {
                setMissing(false)
                change(press(typed, key))
              }}
            >
              {key === '⌫' ? <Icon name="erase" /> : sign}
            </button>
          )
        })}
      </div>
      <div class="actions">
        <button type="button" class="primary" onClick={submit}>
          {keypad.shows(typed.text === '' || typed.text === '-' ? '…' : whole)}
        </button>
      </div>
    </>
  )
}
