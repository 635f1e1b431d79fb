import { useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import { words } from '../words.ts'
import { type Field, fieldsOf, SUPPLY, type Typed } from './designerFigures.ts'

interface Form {
  readonly machine: Machine
  readonly typed: Typed
  readonly change: (typed: Typed) => void
}

const One = ({ field, typed, change }: Omit<Form, 'machine'> & { field: Field }) => {
  const { page, fuseNames } = words().protection
  const value = typed[field.path] ?? ''
  const put = (text: string) => change({ ...typed, [field.path]: text })
  return (
    <div class="field">
      <label for={field.path}>
        {field.load === undefined ? '' : `${field.load}: `}
        {page[field.label]}
      </label>
      {field.choices === undefined ? (
        <input
          id={field.path}
          type="text"
          inputMode="decimal"
          value={value}
          placeholder={page.unknown}
          onInput={e => put(e.currentTarget.value)}
        />
      ) : (
        <select id={field.path} value={value} onChange={e => put(e.currentTarget.value)}>
          <option value="">{page.unknown}</option>
          {field.choices.map(choice => (
            <option key={choice} value={choice}>
              {fuseNames[choice as keyof typeof fuseNames] ?? choice}
            </option>
          ))}
        </select>
      )}
    </div>
  )
}

/** A heading that opens its fields; they are drawn only then, for a machine may have hundreds. */
const Group = ({ title, fields, typed, change }: Omit<Form, 'machine'> & { title: string; fields: readonly Field[] }) => {
  const [open, setOpen] = useState(false)
  if (fields.length === 0) return null
  return (
    <details onToggle={e => setOpen(e.currentTarget.open)}>
      <summary>{title}</summary>
      {open && (
        <div class="form">
          {fields.map(field => (
            <One key={field.path} field={field} typed={typed} change={change} />
          ))}
        </div>
      )}
    </details>
  )
}

/** Figures from data sheets. Empty is 'not known'. */
export const KnownForm = ({ machine, typed, change }: Form) => {
  const { page, deviceWords } = words().protection
  return (
    <details class="figures">
      <summary>{page.known}</summary>
      <p>{page.keep}</p>
      <Group title={page.supply} fields={SUPPLY} typed={typed} change={change} />
      {machine.branches.map((b, i) => (
        <Group
          key={b.id}
          title={`${b.id} ${b.name ?? ''} · ${deviceWords(b.protection)}`}
          fields={fieldsOf(b, i)}
          typed={typed}
          change={change}
        />
      ))}
    </details>
  )
}
