import type { Kit, Machine } from '../../engine/machine.ts'
import type { Step } from '../../engine/step.ts'
import type { Result } from '../../web/flow/request.ts'
import { stepSeconds } from './costs.ts'
import type { Unsafe } from './safety.ts'
import { type Habits, Technician } from './technician.ts'
import { toldOf } from './told.ts'
import type { Truth } from './truth.ts'
import type { Out, Wizard } from './wizard.ts'

export interface Played {
  readonly found: boolean
  /** The first finding named was right; undefined where the machine was restored without any. */
  readonly firstRight: boolean | undefined
  readonly findings: number
  /** Did the first finding's interval as stated hold the fault? */
  readonly covered: boolean | undefined
  /** The same, where the run was the right one: then only its metres are in question. */
  readonly coveredInRun: boolean | undefined
  /** How sure the first finding said it was. */
  readonly stated: number | undefined
  readonly secondsToPlace: number | undefined
  readonly seconds: number
  readonly result: Result | 'stuck'
  /** The machine really is whole again, whatever the wizard says. */
  readonly restored: boolean
  readonly unsafe: readonly Unsafe[]
  readonly energisings: number
  readonly secondsAtStart: number
  /** Steps whose stated seconds are not what they cost. */
  readonly misstated: number
  readonly errors: readonly string[]
  readonly steps: number
  readonly transcript: readonly { readonly out: Out; readonly answer?: unknown }[]
  /** Milliseconds that the wizard took for each next step. */
  readonly millis: readonly number[]
}

/** More requests than this and the wizard is going round in circles. */
const MOST = 500

/** How long the walk along unknown wiring takes can only be guessed. */
const isGuess = (shown: Machine, step: Step): boolean =>
  step.kind === 'finding' && shown.branches.some(b => b.id === step.finding.branch && b.wiring === undefined)

/** Plays one machine to its end. */
export const play = async (truth: Truth, wizard: Wizard, shown: Machine, kit: Kit, habits: Habits = {}): Promise<Played> => {
  const technician = new Technician(truth, shown, kit, habits)
  const transcript: { out: Out; answer?: unknown }[] = []
  const errors: string[] = []
  const millis: number[] = []
  let misstated = 0
  let stated: number | undefined
  let result: Played['result'] = 'stuck'
  const timed = async (ask: () => Out | Promise<Out>): Promise<Out> => {
    const from = performance.now()
    const out = await Promise.resolve()
      .then(ask)
      .catch((fault: unknown): Out => ({ say: 'error', message: String(fault) }))
    millis.push(performance.now() - from)
    return out
  }
  let out = await timed(() => wizard.start(truth.symptom, habits.tells ? toldOf(truth) : {}))
  while (transcript.length < MOST) {
    if (out.say === 'end') {
      result = out.result
      transcript.push({ out })
      break
    }
    if (out.say === 'error') {
      errors.push(out.message)
      transcript.push({ out })
      break
    }
    if (out.say === 'step' && !isGuess(shown, out.step) && Math.abs(out.seconds - stepSeconds(shown, out.step)) > 0.5) misstated++
    if (out.say === 'step' && out.step.kind === 'finding') stated ??= out.step.finding.probability
    const answer = out.say === 'step' ? technician.step(out) : out.say === 'mend' ? technician.mend(out) : technician.confirm(out)
    transcript.push({ out, answer })
    out = await timed(() => wizard.answer(answer))
  }
  wizard.close?.()
  const [first] = technician.verdicts
  return {
    found: technician.found,
    firstRight: first?.right,
    findings: technician.verdicts.length,
    covered: first?.covered,
    coveredInRun: first?.ownRun ? first.covered : undefined,
    stated,
    secondsToPlace: technician.secondsToPlace,
    seconds: technician.seconds,
    result,
    restored: result === 'restored' && technician.restored,
    unsafe: technician.monitor.unsafe,
    energisings: technician.monitor.energisings,
    secondsAtStart: technician.monitor.secondsAtStart,
    misstated,
    errors,
    steps: transcript.length,
    transcript,
    millis,
  }
}

/** What is known of a machine whose branches have only been counted. */
export const countOnly = (machine: Machine): Machine => ({
  format: 'ohmward.machine',
  version: 1,
  id: machine.id,
  name: machine.name,
  supply: {},
  branches: machine.branches.map(({ id }) => ({ id })),
})
