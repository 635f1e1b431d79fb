import { first, words } from '../words.ts'
import { Title } from './title.tsx'
import { GAUGES, jobOf, type LIMITS, MODES, SIZES, type Typed, type Wrong } from './toolReckon.ts'

interface CableProps {
  readonly typed: Typed
  readonly wrong: Wrong | undefined
  readonly change: (typed: Typed) => void
  readonly go: (read: ReturnType<typeof jobOf>) => void
  readonly back: () => void
}

/** The sentence for a field that is wrong: its name, what stands there, what is wanted. */
const wrongWords = ({ field, found, low, high }: Wrong): string => {
  const { cable: say } = words().tool
  const { round } = first().figures
  return field === 'taps' ? say.wrongTaps(found) : say.wrong(say[field], found, round(low, 2), round(high, 2))
}

/** The cable, the meter and what can feed it. */
export const ToolCable = ({ typed, wrong, change, go, back }: CableProps) => {
  const { cable: say } = words().tool
  const set = <K extends keyof Typed>(key: K, value: Typed[K]) => change({ ...typed, [key]: value })
  const number = (key: keyof typeof LIMITS | 'taps', label: string, empty = '') => (
    <label class="field" key={key}>
      {label}
      <input
        type="text"
        inputMode={key === 'taps' ? 'text' : 'decimal'}
        value={typed[key]}
        placeholder={empty}
        aria-invalid={wrong?.field === key}
        onInput={e => set(key, e.currentTarget.value)}
      />
    </label>
  )
  const pick = <K extends keyof Typed>(key: K, label: string, options: readonly (readonly [Typed[K], string])[]) => (
    <label class="field" key={key}>
      {label}
      <select value={typed[key]} onChange={e => set(key, e.currentTarget.value as Typed[K])}>
        {options.map(([value, name]) => (
          <option key={value} value={value}>
            {name}
          </option>
        ))}
      </select>
    </label>
  )
  const { written, quantity } = first().figures
  return (
    <main class="place">
      <Title text={say.title} step="cable" />
      <p>{say.lead}</p>
      {number('length', say.length)}
      {pick('percent', say.drawn, [
        ['0', say.exact],
        ['5', say.within(5)],
        ['10', say.within(10)],
      ])}
      {pick('size', say.size, [
        ...SIZES.map(area => [area, say.mm2(written(area))] as const),
        ...GAUGES.map(size => [`awg${size}`, say.awg(size)] as const),
      ])}
      {pick('kind', say.kind, [
        ['flexible', say.flexible],
        ['stiff', say.stiff],
      ])}
      {number('celsius', say.celsius, say.unknown)}
      {pick('back', say.back, [
        ['core', say.core],
        ['chassis', say.chassis],
      ])}
      {pick('step', say.step, [
        ['0.1', quantity(0.1, 'Ω')],
        ['0.01', quantity(0.01, 'Ω')],
      ])}
      {pick('source', say.source, [
        ['none', say.none],
        ['injector', say.injector],
        ['supply', say.supply],
      ])}
      {typed.source !== 'none' && number('ampere', say.ampere)}
      {typed.source === 'supply' &&
        pick(
          'mode',
          say.mode,
          MODES.map(mode => [mode, say.modes[mode]] as const),
        )}
      {typed.source === 'supply' && number('rating', say.rating, say.unknown)}
      {typed.source !== 'none' && number('taps', say.taps, say.tapsEmpty)}
      <p role="alert" class="problem">
        {wrong ? wrongWords(wrong) : ''}
      </p>
      <div class="actions flow">
        <button type="button" class="primary" onClick={() => go(jobOf(typed))}>
          {say.go}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
