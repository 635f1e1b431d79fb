import type { Kit, Machine } from '../../engine/machine.ts'
import type { Session } from '../../web/flow/request.ts'
import { advance, answerTo, begin, readAnswer } from '../../web/flow/session.ts'
import type { StoredEvent } from '../../web/log/log.ts'
import { invent } from '../bench/invent.ts'
import { Technician } from '../bench/technician.ts'

const MOST = 300
const INJECTOR: Kit = { clamp: true, injector: { ampere: 1, volts: 24 } }

/** A whole session of a simulated technician at an invented machine: the same seed gives the same one. */
export const played = (
  seed: number,
  more: Partial<Pick<Machine, 'id' | 'name'>> = {},
  branches = 3 + (seed % 6),
  cannot = 0.05,
): Session => {
  const truth = invent(seed, { branches, fault: seed % 5 === 0 ? 'other' : 'short' })
  const machine = { ...truth.machine, ...more }
  const kit = seed % 2 === 0 ? INJECTOR : {}
  const technician = new Technician({ ...truth, machine }, machine, kit, { cannot, wrong: 0.02 })
  let session = begin({ type: 'started', machine, kit, symptom: truth.symptom })
  for (let i = 0; i < MOST && session.request.say !== 'end'; i++) {
    const { request } = session
    const raw =
      request.say === 'step' ? technician.step(request) : request.say === 'mend' ? technician.mend(request) : technician.confirm(request)
    const answer = readAnswer(request, raw, kit)
    if (!answer.ok) throw new Error(answer.message)
    session = advance(session, answerTo(session, answer.value))
  }
  return session
}

const two = (n: number): string => String(n).padStart(2, '0')
/** The events as a phone would have kept them from `start` on, `seconds` apart. */
export const stamped = (session: Session, start = '2026-11-25T02:05:00.000Z', seconds = 20): StoredEvent[] =>
  session.events.map((event, i) => {
    const at = new Date(Date.parse(start) + i * seconds * 1000 + 3_600_000)
    const day = at.toISOString().slice(0, 11)
    const wall = `${day}${two(at.getUTCHours())}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())}.000+01:00`
    return { seq: i + 1, wall, zone: 'Europe/Berlin', mono: i * seconds * 1000, boot: 'boot-1', event }
  })
