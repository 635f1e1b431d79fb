// Every step that can be asked for, once.
import type { Act, Step } from '../../content/shared/types.ts'
import type * as engine from '../../engine/step.ts'

// Keyed by the engine's own type: an act that is added there does not compile here until it is listed.
export const ACTS: Record<engine.Act['act'], readonly Act[]> = {
  supply: [
    { act: 'supply', to: 'on' },
    { act: 'supply', to: 'off' },
  ],
  'prove-dead': [{ act: 'prove-dead' }],
  'zero-leads': [{ act: 'zero-leads' }],
  device: [
    { act: 'device', branch: 'B3', to: 'open' },
    { act: 'device', branch: 'B3', to: 'closed' },
  ],
  load: [
    { act: 'load', branch: 'B3', load: 'Y32', to: 'unplugged' },
    { act: 'load', branch: 'B3', load: 'Y32', to: 'plugged' },
  ],
  run: [
    { act: 'run', branch: 'B3', run: '3-W2', to: 'opened' },
    { act: 'run', branch: 'B3', run: '3-W2', to: 'joined' },
  ],
  bus: [
    { act: 'bus', to: 'opened' },
    { act: 'bus', to: 'joined' },
  ],
  bond: [
    { act: 'bond', to: 'opened' },
    { act: 'bond', to: 'joined' },
  ],
  inject: [
    { act: 'inject', branch: 'B3', to: 'on', into: 'zero' },
    { act: 'inject', branch: 'B3', to: 'on', into: 'earth' },
    { act: 'inject', branch: 'B3', to: 'off' },
  ],
}
export const POINTS = ['supply.plus', 'supply.zero', 'bus.plus', 'bus.zero', 'earth', 'B3.plus', 'B3.zero', 'B3/3-J1.plus', 'B3/3-W2.zero']
const LOOKS: readonly Step[] = [
  { kind: 'look', look: 'supply-lamp' },
  { kind: 'look', look: 'mains-lamp' },
  { kind: 'look', look: 'device', branch: 'B3' },
]
const READS: readonly Step[] = [
  { kind: 'read', meter: 'amp', branch: 'B3' },
  ...POINTS.flatMap(red => POINTS.filter(black => black !== red).map((black): Step => ({ kind: 'read', meter: 'ohm', red, black }))),
]
export const STEPS: readonly Step[] = [
  ...Object.values(ACTS).flatMap(acts => acts.map((act): Step => ({ kind: 'act', act }))),
  ...LOOKS,
  ...READS,
]
/** What the machine file says of the things they name. */
export const NAMES = { runs: ['3-W2'], near: '3-J1', load: 'valve Y32' }
