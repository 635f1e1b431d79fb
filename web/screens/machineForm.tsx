import { useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import { endsOf, type Refusal, type Spot, textsAt, without, withTexts } from '../machines/edit.ts'
import { FIELDS, type Field, type Texts } from '../machines/fields.ts'
import { first, words } from '../words.ts'
import { More } from './more.tsx'
import { Sure } from './sure.tsx'
import { Title } from './title.tsx'

interface FormProps {
  readonly machine: Machine
  readonly spot: Spot
  /** What was typed before the app was closed. */
  readonly typed: Texts | undefined
  /** After each letter, so that nothing half-typed is lost. */
  readonly keep: (texts: Texts) => void
  readonly save: (machine: Machine) => void
  readonly back: () => void
}
/** Seldom told: under 'More'. */
const SELDOM: readonly string[] = ['class', 'awg', 'stranded', 'temperature']

/** One thing of a machine: its few fields, each with what it takes. */
export const MachineForm = ({ machine, spot, typed, keep, save, back }: FormProps) => {
  const [texts, setTexts] = useState<Texts>(() => typed ?? textsAt(machine, spot))
  const [wrong, setWrong] = useState<readonly Refusal[]>([])
  const { machines: say } = words()
  const { item } = spot
  const change = (key: string, text: string) => {
    const now = { ...texts, [key]: text }
    setTexts(now)
    keep(now)
  }
  const orSay = (changed: ReturnType<typeof withTexts>) => (changed.ok ? save(changed.value) : setWrong(changed.wrong))
  const isOld = (spot.item === 'branch' && spot.branch !== undefined) || ('index' in spot && spot.index !== undefined)
  const fields: readonly Field[] = FIELDS[item]
  const seldom = (field: Field) => SELDOM.includes(field.key) || (field.type === 'id' && field.key === 'id' && item !== 'branch')
  const optionsOf = (field: Field): readonly string[] | undefined => {
    const ends = 'branch' in spot ? endsOf(machine.branches[spot.branch ?? -1]) : []
    if (field.key === 'at') return ends
    // A run cannot begin where it ends.
    if (field.key === 'from') return ends.filter(end => !('index' in spot) || end !== textsAt(machine, spot)['to'])
    if (field.type === 'flag') return ['yes', 'no']
    return field.choices
  }
  const row = (field: Field) => {
    const { key } = field
    const label = say.fields[key as keyof typeof say.fields]
    const told = wrong.find(w => w.key === key)
    const options = optionsOf(field)
    const described = { id: `field-${key}`, 'aria-invalid': told !== undefined, 'aria-describedby': `${key}-must` }
    const value = texts[key] ?? ''
    return (
      <div class="field" key={key}>
        <label for={`field-${key}`}>{label.name}</label>
        {options ? (
          <select {...described} value={value} onChange={e => change(key, e.currentTarget.value)}>
            {!(field.needed && value !== '') && <option value="">{say.notSaid}</option>}
            {options.map(option => (
              <option key={option} value={option}>
                {(say.choices as Readonly<Record<string, string>>)[option] ?? option}
              </option>
            ))}
          </select>
        ) : (
          <input
            {...described}
            type="text"
            inputMode={field.type === 'number' ? 'decimal' : 'text'}
            autocomplete="off"
            value={value}
            onInput={e => change(key, e.currentTarget.value)}
          />
        )}
        <p id={`${key}-must`} class={told ? 'problem' : 'source'} role={told ? 'alert' : undefined}>
          {told ? say.wrong[told.why](label.name, told.found, label.must) : label.must}
        </p>
      </div>
    )
  }
  return (
    <main class="place">
      <Title text={isOld ? say.change[item] : say.add[item]} step={`${item}-form`} />
      <form class="form" onSubmit={e => e.preventDefault()}>
        {fields.filter(field => !seldom(field)).map(row)}
        {fields.some(seldom) && (
          <More title={say.more} open={wrong.some(({ key }) => fields.some(field => field.key === key && seldom(field)))}>
            <div class="form">{fields.filter(seldom).map(row)}</div>
          </More>
        )}
      </form>
      {wrong
        .filter(({ key }) => !fields.some(field => field.key === key))
        .map(({ key, found, why }) => (
          <p key={key} role="alert" class="problem">
            {say.wrong[why](key, found, '')}
          </p>
        ))}
      <div class="actions">
        <button type="button" class="primary" onClick={() => orSay(withTexts(machine, spot, texts))}>
          {say.keep}
        </button>
        <nav>
          <button type="button" class="link" onClick={back}>
            {first().back}
          </button>
          {isOld && (item === 'run' || item === 'load') && (
            <Sure
              label={say.takeOut}
              title={say.sureOut(texts['id'] ?? '')}
              text={say.outForGood}
              go={() => orSay(without(machine, spot))}
            />
          )}
        </nav>
      </div>
    </main>
  )
}
