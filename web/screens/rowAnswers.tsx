import { useState } from 'preact/hooks'
import { words } from '../words.ts'
import { lookAlong } from './row.ts'
import { Sheet } from './sheet.tsx'
import type { Hunt } from './useSession.ts'

/** One look for the whole row of devices: all are closed, or one of them has tripped. */
export const RowAnswers = ({ hunt, row }: { hunt: Hunt; row: readonly string[] }) => {
  const [picking, setPicking] = useState(false)
  const say = words().session.row
  const { branches } = hunt.session.machine
  const { session } = hunt
  const { request } = session
  const told = hunt.tripped !== undefined && row.includes(hunt.tripped) ? hunt.tripped : undefined
  const asked = request.say === 'step' && request.step.kind === 'look' && request.step.look === 'device' ? request.step.branch : ''
  const pick = (id: string) => {
    setPicking(false)
    hunt.sayTripped(id)
    void hunt.sendWhile(lookAlong(row, id))
  }
  return (
    <div class="duo">
      {/* What was seen is said once, though something else was asked in between. */}
      <button type="button" class="primary" onClick={() => void hunt.sendWhile(lookAlong(row, told))}>
        {told === undefined ? say.all : say.tripped(told)}
      </button>
      <button type="button" class="answer" onClick={() => setPicking(true)}>
        {say.another}
      </button>
      {picking && (
        <Sheet title={say.which} close={() => setPicking(false)}>
          <div class="pick">
            {branches
              .filter(({ id }) => row.includes(id) && id !== asked)
              .map(({ id, name }) => (
                <button type="button" key={id} class="answer two" onClick={() => pick(id)}>
                  {id}
                  {name !== undefined && name !== id && <small>{name}</small>}
                </button>
              ))}
          </div>
        </Sheet>
      )}
    </div>
  )
}
