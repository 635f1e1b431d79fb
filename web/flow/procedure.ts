// The procedure as a person would draw it, and beside it the power state. Guards and actions are functions by name.
import { assign, not, setup } from 'xstate'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Known } from '../../engine/prior.ts'
import type { Answer, Symptom } from '../../engine/step.ts'
import { answered } from './answered.ts'
import { asAsked } from './asked.ts'
import { breach, decide, leaveAs, makeSafe } from './decide.ts'
import { equipped, type Hunt, leftAlone, powerOf, startOf } from './hunt.ts'
import type { Asked, Result, Stage, Tools } from './request.ts'

/** What an answer brought about on the machine may stand although the answer was taken back. */
export type Kept = Pick<Hunt, 'provedDead' | 'unsure' | 'still' | 'covered' | 'energised' | 'liveSeconds'>
type Said =
  | { type: 'answered'; answer: Answer; asked?: Asked | undefined }
  | { type: 'tookBack'; kept: Kept }
  | { type: 'resumed' }
  | { type: 'kit'; kit: Tools }
  | { type: 'handedOver' }
  | { type: 'stopped' }
  | { type: 'closed' }
interface Now {
  context: Hunt
  event: Said
}

const at =
  (stage: Stage) =>
  ({ context }: Now): boolean =>
    context.stage === stage
const ended =
  (result: Result) =>
  ({ context }: Now): Hunt =>
    leaveAs(context, result)

export const procedure = setup({
  types: { context: {} as Hunt, events: {} as Said, input: {} as { machine: Machine; kit: Kit; symptom: Symptom; known: Known } },
  guards: {
    isLive: ({ context }) => powerOf(context) === 'live',
    isOff: ({ context }) => powerOf(context) === 'off',
    isProvedDead: ({ context }) => powerOf(context) === 'provedDead',
    keepsTheRules: ({ context }) => breach(context) === undefined,
    asksBriefing: at('briefing'),
    asksOfSupply: at('checkingSupply'),
    asksToProveDead: at('provingDead'),
    asksToNarrow: at('narrowing'),
    asksToLocate: at('locating'),
    asksToMend: at('mending'),
    asksToCheck: at('checking'),
    asksToRestore: at('restoring'),
    hasEnded: at('closing'),
  },
  actions: {
    keepAnswer: assign(({ context, event }) =>
      event.type === 'answered' ? decide(answered(asAsked(context, event.asked), event.answer)) : context,
    ),
    takeBack: assign(({ context, event }) => (event.type === 'tookBack' ? decide({ ...context, ...event.kept }) : context)),
    proveAgain: assign(({ context }) => decide(leftAlone(context))),
    equip: assign(({ context, event }) => (event.type === 'kit' ? decide(equipped(context, event.kit)) : context)),
    makeSafe: assign(({ context }) => makeSafe(context)),
    handOver: assign(ended('handed-over')),
    stop: assign(ended('stopped')),
  },
}).createMachine({
  id: 'procedure',
  type: 'parallel',
  context: ({ input }) => decide(startOf(input.machine, input.kit, input.symptom, input.known)),
  states: {
    power: {
      initial: 'live',
      states: {
        live: {
          always: [
            { guard: 'isProvedDead', target: 'provedDead' },
            { guard: 'isOff', target: 'off' },
          ],
        },
        off: {
          always: [
            { guard: 'isLive', target: 'live' },
            { guard: 'isProvedDead', target: 'provedDead' },
          ],
        },
        provedDead: {
          always: [
            { guard: 'isLive', target: 'live' },
            { guard: 'isOff', target: 'off' },
          ],
        },
      },
    },
    work: {
      initial: 'deciding',
      on: {
        answered: { guard: not('hasEnded'), target: '.deciding', actions: 'keepAnswer' },
        tookBack: { target: '.deciding', actions: 'takeBack' },
        resumed: { guard: not('hasEnded'), target: '.deciding', actions: 'proveAgain' },
        kit: { guard: not('hasEnded'), target: '.deciding', actions: 'equip' },
        handedOver: { guard: not('hasEnded'), target: '.deciding', actions: 'handOver' },
        stopped: { guard: not('hasEnded'), target: '.deciding', actions: 'stop' },
      },
      states: {
        deciding: {
          always: [
            { guard: not('keepsTheRules'), target: 'makingSafe' },
            { guard: 'asksBriefing', target: 'briefing' },
            { guard: 'asksOfSupply', target: 'checkingSupply' },
            { guard: 'asksToProveDead', target: 'provingDead' },
            { guard: 'asksToNarrow', target: 'narrowing' },
            { guard: 'asksToLocate', target: 'locating' },
            { guard: 'asksToMend', target: 'mending' },
            { guard: 'asksToCheck', target: 'checking' },
            { guard: 'asksToRestore', target: 'restoring' },
            { guard: 'hasEnded', target: 'closing' },
          ],
        },
        makingSafe: { entry: 'makeSafe', always: 'deciding' },
        briefing: {},
        checkingSupply: {},
        provingDead: {},
        narrowing: {},
        locating: {},
        mending: {},
        checking: {},
        restoring: {},
        closing: { on: { closed: 'ended' } },
        ended: { type: 'final' },
      },
    },
  },
})
