import { useState } from 'preact/hooks'
import type { Machine } from '../../engine/machine.ts'
import type { Told } from '../flow/told.ts'
import { first } from '../words.ts'
import { Title } from './title.tsx'

interface WhichProps {
  readonly machine: Machine
  readonly asks: 'branch' | 'load'
  readonly back: () => void
  readonly go: (told: Told) => void
}
/** More than these stand two in a row. */
const LONG = 6

/** Which branch is out, or which load: its branch first, so that no list is longer than it must be. */
export const WhichScreen = ({ machine, asks, back, go }: WhichProps) => {
  const [branch, setBranch] = useState<string | undefined>()
  const { which: say, back: backWord } = first()
  const loads = machine.branches.find(({ id }) => id === branch)?.loads ?? []
  const picked = (id: string) => {
    const hasLoads = (machine.branches.find(b => b.id === id)?.loads ?? []).length > 0
    if (asks === 'load' && hasLoads) setBranch(id)
    else go({ branch: id })
  }
  const list = branch === undefined ? machine.branches : loads
  return (
    <main class="place">
      <header>
        <span>{machine.name}</span>
      </header>
      <Title text={branch === undefined ? say.branch : say.load} step={branch ?? 'which'} />
      <p>{say.lead}</p>
      <div class={`actions list which${list.length > LONG ? ' pairs' : ''}`}>
        {list.map(({ id, name }) => (
          <button key={id} type="button" class="answer" onClick={() => (branch === undefined ? picked(id) : go({ branch, load: id }))}>
            {say.of(id, name)}
          </button>
        ))}
        <button type="button" class="answer waiting" onClick={() => go(branch === undefined ? {} : { branch })}>
          {say.notSure}
        </button>
        <button type="button" class="plain" onClick={branch === undefined ? back : () => setBranch(undefined)}>
          {backWord}
        </button>
      </div>
    </main>
  )
}
