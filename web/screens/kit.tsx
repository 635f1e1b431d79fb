import { useState } from 'preact/hooks'
import type { Kit } from '../../engine/machine.ts'
import { first } from '../words.ts'
import { Title } from './title.tsx'

/** Ampere of the usual small sources, among them a 24 V lamp in series of about 1 A. */
const AMPERES = [0.5, 1, 2, 3]

/** What is at hand. A step asks only for what is ticked here. */
export const KitScreen = ({ problem, back, go }: { problem?: string | undefined; back: () => void; go: (kit: Kit) => void }) => {
  const [clamp, setClamp] = useState(false)
  const [ampere, setAmpere] = useState<number | undefined>()
  const [qualified, setQualified] = useState<boolean | undefined>()
  const [asked, setAsked] = useState(false)
  const { kit: say, back: backWord, figures } = first()
  const start = () => {
    setAsked(true)
    if (qualified === undefined) return
    go({ qualified, ...(clamp ? { clamp } : {}), ...(ampere === undefined ? {} : { injector: { ampere, volts: 24 } }) })
  }
  const radio = (group: string, words: string, on: boolean, pick: () => void) => (
    <label class="choice" key={words}>
      <input type="radio" name={group} checked={on} onChange={pick} />
      <span>{words}</span>
    </label>
  )
  return (
    <main class="place">
      <Title text={say.title} step="kit" />
      <p>{say.lead}</p>
      <label class="choice">
        <input type="checkbox" checked={clamp} onChange={e => setClamp(e.currentTarget.checked)} />
        <span>{say.clamp}</span>
      </label>
      <label class="choice">
        <input type="checkbox" checked={ampere !== undefined} onChange={e => setAmpere(e.currentTarget.checked ? 1 : undefined)} />
        <span>{say.source}</span>
      </label>
      {ampere !== undefined && (
        <fieldset class="row">
          <legend>{say.current}</legend>
          {AMPERES.map(a => radio('ampere', figures.ampere(a), ampere === a, () => setAmpere(a)))}
        </fieldset>
      )}
      <fieldset class="row">
        <legend>{say.qualified}</legend>
        {radio('qualified', say.yes, qualified === true, () => setQualified(true))}
        {radio('qualified', say.no, qualified === false, () => setQualified(false))}
      </fieldset>
      <p role="alert" class="problem">
        {problem ?? (asked && qualified === undefined ? say.sayFirst : '')}
      </p>
      <div class="actions">
        <button type="button" class="primary" onClick={start}>
          {say.start}
        </button>
        <button type="button" class="plain" onClick={back}>
          {backWord}
        </button>
      </div>
    </main>
  )
}
