import type { ComponentChildren } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { Band, type PowerWord } from '../drawing/band.tsx'
import { type Cell, Strip } from '../drawing/strip.tsx'
import type { Session } from '../flow/request.ts'
import { words } from '../words.ts'
import { Clock } from './clock.tsx'
import { type Left, leftOf } from './left.ts'
import { workingBranch } from './names.ts'
import { painted } from './painted.ts'

/** A branch is ticked when less than a twentieth of an even share is left there. */
const UNLIKELY = 0.05

const cellsOf = (session: Session): Cell[] => {
  const { branches } = session.machine
  const measured = session.entries.some(e => e.request.say === 'step' && e.request.step.kind !== 'act' && !('cannot' in e.answer))
  // Where voltage is proved again nothing is suspect any more.
  const restored = session.request.say === 'end' && session.request.result === 'restored'
  return branches.map(({ id }) => {
    const p = restored ? 0 : (session.belief.find(b => b.branch === id)?.p ?? 0)
    return { id, p, unlikely: restored || (measured && p * branches.length < UNLIKELY), device: session.positions.devices[id] ?? 'closed' }
  })
}

/** Voltage was just read where there should be none. */
const STILL_LIVE: readonly string[] = ['not-extra-low-voltage', 'voltage-stays']

const bandOf = ({ request, positions, power }: Session): PowerWord => {
  if ('caution' in request && STILL_LIVE.includes(request.caution ?? '')) return 'danger'
  return positions.injector ? 'fed' : power
}

/** What is left to search, reckoned after the step stands: its intervals take longer than all else on the screen. */
const useLeft = (session: Session): Left | undefined => {
  const [left, setLeft] = useState<Left | undefined>()
  useEffect(() => {
    let stands = true
    void painted().then(() => stands && setLeft(leftOf(session)))
    return () => {
      stands = false
    }
  }, [session])
  return left
}

/** 'Step 7', of which a narrow screen shows the figure alone. */
const Step = ({ text }: { text: string }) => {
  const figure = text.search(/\d/)
  return (
    <>
      <span class="spared">{text.slice(0, figure)}</span>
      {text.slice(figure)}
    </>
  )
}

interface FrameProps {
  readonly session: Session
  readonly since: number
  /** 'enter' leaves more room for the keypad. */
  readonly moment?: 'place' | 'enter'
  readonly head?: string
  readonly children: ComponentChildren
}

/** What is in sight on every screen of a session: step, machine, time, power state, terminal strip. */
export const Frame = ({ session, since, moment = 'place', head, children }: FrameProps) => {
  const { request } = session
  const working = workingBranch(
    request.say === 'step' ? request.step : request.say === 'mend' ? { kind: 'finding', finding: request.finding } : undefined,
  )
  const cells = cellsOf(session)
  const left = useLeft(session)
  const say = words().phone.left
  const step = words().session.step(session.entries.length + 1)
  const aside = left && (left.metres === undefined ? say.branches(left.branches, left.minutes) : say.metres(left.metres, left.minutes))
  return (
    <main class={moment}>
      <div class="top">
        <header>
          <span>
            {head ?? <Step text={step} />} · {aside ?? session.machine.name}
          </span>
          <Clock since={since} />
        </header>
        <Band power={bandOf(session)} />
      </div>
      <Strip cells={cells} working={working} alt={words().drawings.stripAlt(cells, working)} />
      {children}
    </main>
  )
}
