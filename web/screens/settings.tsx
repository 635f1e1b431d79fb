import { useState } from 'preact/hooks'
import { CHOICES, type Setting, set, settings } from '../settings.ts'
import { first, words } from '../words.ts'
import { LanguageChoice } from './language.tsx'
import { Title } from './title.tsx'

/** What is set once for this phone. Each choice holds at once. */
export const SettingsScreen = ({ leave }: { leave: () => void }) => {
  const [now, setNow] = useState(settings)
  const { settings: say } = words().phone
  const choose = <K extends Setting>(key: K) => (
    <fieldset class="row" key={key}>
      <legend>{say[key]}</legend>
      {CHOICES[key].map(value => (
        <label class="choice" key={value}>
          <input
            type="radio"
            name={key}
            checked={now[key] === value}
            onChange={() => {
              set(key, value as ReturnType<typeof settings>[K])
              setNow(settings())
            }}
          />
          <span>{say.values[value]}</span>
        </label>
      ))}
    </fieldset>
  )
  return (
    <main class="place">
      <Title text={say.title} step="settings" />
      <LanguageChoice />
      {choose('hand')}
      {choose('theme')}
      {choose('sound')}
      {choose('vibration')}
      <p>{say.extra}</p>
      <div class="actions flow">
        <button type="button" class="plain" onClick={leave}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
