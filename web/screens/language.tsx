import { useState } from 'preact/hooks'
import { LANGUAGES, type Language } from '../../content/languages.ts'
import { first, language, setLanguage } from '../words.ts'

/** Every word in another language, at once, wherever it is chosen; under it, who has checked the words. */
export const LanguageChoice = ({ note: noted = true }: { note?: boolean }) => {
  const [failed, setFailed] = useState(false)
  const { language: name, note, notStored } = first()
  const take = (id: string) =>
    setLanguage(id as Language).then(
      () => setFailed(false),
      () => setFailed(true),
    )
  return (
    <div class="language">
      <label class="field">
        {name}
        <select value={language()} onChange={e => take(e.currentTarget.value)}>
          {Object.entries(LANGUAGES).map(([id, own]) => (
            <option key={id} value={id} lang={id}>
              {own}
            </option>
          ))}
        </select>
      </label>
      {noted && note && <p class="source">{note}</p>}
      {failed && (
        <p role="alert" class="problem">
          {notStored}
        </p>
      )}
    </div>
  )
}
