import type { Kit, Machine } from '../../engine/machine.ts'
import type { Session } from '../../web/flow/request.ts'
import { advance, answerTo, begin, readAnswer } from '../../web/flow/session.ts'
import type { Wizard } from './wizard.ts'

/** The flow in this very process: the same requests as the screens and the drive make. */
export const inProcess = (machine: Machine, kit: Kit): Wizard => {
  let session: Session | undefined
  return {
    start: (symptom, told) => {
      session = begin({ type: 'started', machine, kit, symptom, ...told })
      return session.request
    },
    answer: raw => {
      if (session === undefined) throw new Error('an answer before the start')
      const read = readAnswer(session.request, raw)
      if (!read.ok) return { say: 'error', message: read.message }
      session = advance(session, answerTo(session, read.value))
      return session.request
    },
  }
}
