import { fuseNames, page } from '../../content/en-protection.ts'
import type { BreakerStandard } from '../../engine/breaker.ts'
import type { Known } from '../../engine/device.ts'
import type { FuseKind } from '../../engine/fuse.ts'

const STANDARDS: readonly BreakerStandard[] = ['IEC 60898-1', 'IEC 60898-2', 'IEC 60947-2']
const FUSES: readonly FuseKind[] = ['F', 'T', 'UL', 'blade']
/** What stands in the fields, as it is typed. */
export interface Typed {
  readonly reserve: string
  readonly seconds: string
  readonly holds: string
  readonly breakers: string
  readonly fuses: string
}
export const NOTHING_TYPED: Typed = { reserve: '', seconds: '', holds: '', breakers: 'IEC 60898-1', fuses: '' }

/** A comma counts as a point; what is no number above 0 counts as not known. */
const number = (text: string): number | undefined => {
  const value = Number(text.replace(',', '.'))
  return text.trim() !== '' && Number.isFinite(value) && value > 0 ? value : undefined
}
export const knownFrom = (typed: Typed): Known => {
  const [current, seconds, holds] = [number(typed.reserve), number(typed.seconds), number(typed.holds)]
  const breakers = STANDARDS.find(s => s === typed.breakers)
  const fuses = FUSES.find(f => f === typed.fuses)
  return {
    ...(current !== undefined && seconds !== undefined && { reserve: { current, seconds } }),
    ...(holds !== undefined && { holds }),
    ...(breakers && { breakers }),
    ...(fuses && { fuses }),
  }
}

/** Figures that no machine file holds. Empty is 'not known'. */
export const KnownForm = ({ typed, change }: { typed: Typed; change: (typed: Typed) => void }) => {
  const field = (key: 'reserve' | 'seconds' | 'holds', label: string) => (
    <label class="field">
      {label}
      <input
        type="text"
        inputMode="decimal"
        value={typed[key]}
        placeholder={page.unknown}
        onInput={e => change({ ...typed, [key]: e.currentTarget.value })}
      />
    </label>
  )
  return (
    <details>
      <summary>{page.known}</summary>
      <div class="form">
        {field('reserve', page.reserve)}
        {field('seconds', page.reserveSeconds)}
        {field('holds', page.holds)}
        <label class="field">
          {page.breakers}
          <select value={typed.breakers} onChange={e => change({ ...typed, breakers: e.currentTarget.value })}>
            {STANDARDS.map(s => (
              <option key={s}>{s}</option>
            ))}
          </select>
        </label>
        <label class="field">
          {page.fuses}
          <select value={typed.fuses} onChange={e => change({ ...typed, fuses: e.currentTarget.value })}>
            <option value="">{page.unknown}</option>
            {FUSES.map(f => (
              <option key={f} value={f}>
                {fuseNames[f]}
              </option>
            ))}
          </select>
        </label>
      </div>
    </details>
  )
}
