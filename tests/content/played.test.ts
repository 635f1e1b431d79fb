import { expect, test } from 'vitest'
import { later } from '../../content/en/later.ts'
import { whySentence } from '../../content/shared/facts.ts'
import type { Kit } from '../../engine/machine.ts'
import type { Request, Session } from '../../web/flow/request.ts'
import { advance, answerTo, begin, readAnswer } from '../../web/flow/session.ts'
import { placeOf } from '../../web/screens/finding.tsx'
import { namesFor } from '../../web/screens/names.ts'
import { invent } from '../bench/invent.ts'
import { countOnly } from '../bench/play.ts'
import { Technician } from '../bench/technician.ts'

const { cautions, whys } = later

const { stepHow, stepTitle } = later.steps
const { findingTitle, mend } = later.findings
const { results } = later.labels

/** Everything that a screen would say to this request. */
const said = (session: Session, request: Request): string[] => {
  if (request.say === 'confirm') return [cautions[request.caution]?.title ?? '', cautions[request.caution]?.source ?? '']
  if (request.say === 'mend') return [mend(request.finding, placeOf(session, request.finding)).title]
  if (request.say === 'end') return [results[request.result]?.title ?? '']
  const { step, why } = request
  if (step.kind === 'finding') return [findingTitle(step.finding, placeOf(session, step.finding)), whySentence(whys, why)]
  const names = namesFor(session, step)
  return [stepTitle(step, names), stepHow(step, names), whySentence(whys, why)]
}
const KITS: readonly Kit[] = [{ qualified: false }, { qualified: true, clamp: true, injector: { ampere: 1, volts: 24 } }]
/** More requests than this and the session is going round in circles. */
const MOST = 300

test.each(
  [1, 2, 3, 4, 5, 6].flatMap(seed =>
    KITS.flatMap(kit =>
      [true, false].map(known => ({
        seed,
        kit,
        known,
        with: kit.injector ? 'a current source' : 'a meter only',
        fault: seed % 3 === 0 ? ('other' as const) : ('short' as const),
      })),
    ),
  ),
)('every request of a played session has words: machine $seed, $fault, $with, wiring known $known', ({ seed, kit, known, fault }) => {
  const truth = invent(seed, { fault })
  const machine = known ? truth.machine : countOnly(truth.machine)
  const technician = new Technician(truth, machine, kit, { cannot: 0.1 })
  let session = begin({ type: 'started', machine, kit, symptom: truth.symptom })
  const lacking: unknown[] = []
  for (let i = 0; i < MOST && session.request.say !== 'end'; i += 1) {
    const { request } = session
    const words = said(session, request)
    if (words.some(text => text === '' || /undefined|NaN|\?/.test(text)) || (words[0] ?? '').split(' ').length > 20)
      lacking.push({ words, request })
    const raw =
      request.say === 'step' ? technician.step(request) : request.say === 'mend' ? technician.mend(request) : technician.confirm(request)
    const answer = readAnswer(request, raw, kit)
    if (!answer.ok) throw new Error(answer.message)
    session = advance(session, answerTo(session, answer.value))
  }
  expect(lacking).toEqual([])
  expect(said(session, session.request)).not.toContain('')
})
