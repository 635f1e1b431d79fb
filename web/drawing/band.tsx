import type { Words } from '../../content/words.ts'
import { words } from '../words.ts'

export type PowerWord = keyof Words['labels']['powers']

const signs: Record<PowerWord, string> = {
  live: 'M13 2L5 14h6l-2 8 9-12h-6l3-8z',
  fed: 'M4 12h12M11 6l6 6-6 6',
  danger: 'M13 2L5 14h6l-2 8 9-12h-6l3-8z',
  off: 'M12 3v8M7 6a8 8 0 1 0 10 0',
  provedDead: 'M12 2v9M2 11h20M6 16h12M10 21h4',
}

/** What may be assumed of the 24 V circuit, by word, sign and pattern, and what that allows. */
export const Band = ({ power }: { power: PowerWord }) => (
  <div class={`band ${power}`}>
    <svg width={24} height={24} viewBox="0 0 24 24" aria-hidden="true">
      <path d={signs[power]} />
    </svg>
    <strong>{words().labels.powers[power].word}</strong>
    <span>{words().labels.powers[power].allows}</span>
  </div>
)
