import type { Machine } from '../../engine/machine.ts'
import { first, words } from '../words.ts'
import { Title } from './title.tsx'

interface TwiceProps {
  readonly machine: Machine
  readonly replace: () => void
  readonly both: () => void
  readonly back: () => void
}
/** A machine came in whose id the phone knows, and it is not the same. */
export const MachineTwice = ({ machine, replace, both, back }: TwiceProps) => {
  const { twice: say } = words().machines
  return (
    <main class="place">
      <Title text={say.title(machine.name)} step="twice" />
      <p>{say.lead(machine.id)}</p>
      <div class="actions">
        <button type="button" class="primary" onClick={both}>
          {say.both}
        </button>
        <button type="button" class="answer" onClick={replace}>
          {say.replace}
        </button>
        <button type="button" class="plain" onClick={back}>
          {first().back}
        </button>
      </div>
    </main>
  )
}
