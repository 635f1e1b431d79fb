import type { Finding, Step, Symptom } from '../../engine/step.ts'
import type { CautionId, Result } from '../../web/flow/request.ts'
import type { Told } from './told.ts'

/** What a wizard says, as the drive's lines say it. Whatever else a line carries is not needed to play. */
export type Out =
  | { readonly say: 'step'; readonly n: number; readonly seconds: number; readonly step: Step }
  | { readonly say: 'confirm'; readonly n: number; readonly caution: CautionId | string; readonly acts?: readonly Step[] }
  | { readonly say: 'mend'; readonly n: number; readonly finding: Finding }
  | { readonly say: 'end'; readonly n?: number; readonly result: Result; readonly seconds: number }
  | { readonly say: 'error'; readonly message: string }

/** Anything that leads a technician: the flow in this process, the drive in another, a script in a test. */
export interface Wizard {
  start(symptom: Symptom, told?: Told): Out | Promise<Out>
  answer(answer: unknown): Out | Promise<Out>
  close?(): void
}
