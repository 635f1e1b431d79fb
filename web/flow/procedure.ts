// The procedure as a person would draw it, and beside it the power state. Guards and actions are functions by name.
import { and, assign, not, setup } from 'xstate'
import type { Kit, Machine } from '../../engine/machine.ts'
import type { Answer, Symptom } from '../../engine/step.ts'
import { breach, decide, makeSafe } from './decide.ts'
import { answered, type Hunt, powerOf, startOf } from './hunt.ts'
import type { Result, Stage } from './request.ts'

type Said = { type: 'answered'; answer: Answer } | { type: 'handedOver' } | { type: 'stopped' } | { type: 'closed' }

const at =
  (stage: Stage) =>
  ({ context }: { context: Hunt }): boolean =>
    context.stage === stage
const ended =
  (result: Result) =>
  ({ context }: { context: Hunt }): Hunt =>
    decide({ ...context, result })
const first = ({ machine, kit, symptom }: { machine: Machine; kit: Kit; symptom: Symptom }): Hunt =>
  decide({ ...startOf(machine, kit, symptom), stage: 'briefing', request: { say: 'end', n: 0, result: 'stopped', seconds: 0 } })

export const procedure = setup({
  types: { context: {} as Hunt, events: {} as Said, input: {} as { machine: Machine; kit: Kit; symptom: Symptom } },
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
    keepAnswer: assign(({ context, event }) => (event.type === 'answered' ? decide(answered(context, event.answer)) : context)),
    makeSafe: assign(({ context }) => makeSafe(context)),
    handOver: assign(ended('handed-over')),
    stop: assign(ended('stopped')),
  },
}).createMachine({
  id: 'procedure',
  type: 'parallel',
  context: ({ input }) => first(input),
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
      initial: 'briefing',
      on: {
        answered: { target: '.deciding', actions: 'keepAnswer' },
        handedOver: { target: '.closing', actions: 'handOver' },
        stopped: { target: '.closing', actions: 'stop' },
      },
      states: {
        briefing: {},
        deciding: {
          always: [
            { guard: 'hasEnded', target: 'closing' },
            { guard: not('keepsTheRules'), target: 'makingSafe' },
            { guard: and(['keepsTheRules', 'asksBriefing']), target: 'briefing' },
            { guard: and(['keepsTheRules', 'asksOfSupply']), target: 'checkingSupply' },
            { guard: and(['keepsTheRules', 'asksToProveDead']), target: 'provingDead' },
            { guard: and(['keepsTheRules', 'asksToNarrow']), target: 'narrowing' },
            { guard: and(['keepsTheRules', 'asksToLocate']), target: 'locating' },
            { guard: and(['keepsTheRules', 'asksToMend']), target: 'mending' },
            { guard: and(['keepsTheRules', 'asksToCheck']), target: 'checking' },
            { guard: and(['keepsTheRules', 'asksToRestore']), target: 'restoring' },
          ],
        },
        makingSafe: { entry: 'makeSafe', always: { guard: 'hasEnded', target: 'closing' } },
        checkingSupply: {},
        narrowing: {},
        provingDead: {},
        locating: {},
        mending: {},
        checking: {},
        restoring: {},
        closing: { on: { answered: undefined, closed: 'ended' } },
        ended: { type: 'final' },
      },
    },
  },
})
