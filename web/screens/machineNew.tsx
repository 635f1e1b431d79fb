import { useState } from 'preact/hooks'
import { words } from '../words.ts'
import { BranchCount } from './branchCount.tsx'

/** A machine in a minute: its name, and how many branches leave its cabinet. */
export const MachineNew = ({ go, back }: { go: (name: string, count: number) => void; back: () => void }) => {
  const [name, setName] = useState('')
  const { machines: say } = words()
  return (
    <BranchCount
      back={back}
      go={({ name: unnamed, branches }) => go(name.trim() === '' ? unnamed : name.trim(), branches.length)}
      above={
        <label class="field">
          {say.fields.name.name}
          <input type="text" maxLength={60} autocomplete="off" value={name} onInput={e => setName(e.currentTarget.value)} />
        </label>
      }
    />
  )
}
