// An example: a tunnel oven of an invented bakery. Twelve branches behind electronic devices, a supply that holds its limit current.
import { branchOf } from './demoParts.ts'

const device = (rating: number) => ({ kind: 'electronic', rating })

export const oven = {
  format: 'ohmward.machine',
  version: 1,
  id: 'oven-1',
  name: 'Tunnel oven 1',
  place: 'Bakery, line 1, cabinet +S2',
  supply: {
    ratedVoltage: 24,
    setVoltage: 24,
    ratedCurrent: 20,
    limit: { mode: 'constant-current', current: 22 },
    zeroVoltBonded: true,
  },
  branches: [
    branchOf(1, 'controller', device(4), [[0, 2, 'fixed']], [[1, 'K', 'controller', 'electronic', 36]]),
    branchOf(2, 'panel', device(2), [[0, 9, 'fixed']], [[1, 'P', 'panel', 'electronic', 20]]),
    branchOf(
      3,
      'gas valves',
      device(4),
      [
        [0, 14, 'fixed'],
        [1, 6, 'fixed'],
      ],
      [
        [1, 'Y', 'valve', 'coil', 14],
        [2, 'Y', 'valve', 'coil', 14],
      ],
    ),
    branchOf(4, 'ignition', device(2), [[0, 16, 'fixed']], [[1, 'T', 'igniter', 'electronic', 12]]),
    branchOf(
      5,
      'belt drive',
      device(4),
      [
        [0, 22, 'fixed'],
        [1, 2, 'sensor'],
      ],
      [
        [1, 'Q', 'brake', 'coil', 30],
        [2, 'S', 'sensor', 'electronic', 1],
      ],
    ),
    branchOf(
      6,
      'infeed',
      device(2),
      [
        [0, 8, 'fixed'],
        [1, 3, 'moving'],
      ],
      [
        [1, 'S', 'sensor', 'electronic', 1],
        [2, 'Y', 'valve', 'coil', 8],
      ],
    ),
    branchOf(
      7,
      'outfeed',
      device(2),
      [
        [0, 31, 'fixed'],
        [1, 3, 'moving'],
      ],
      [
        [1, 'S', 'sensor', 'electronic', 1],
        [2, 'Y', 'valve', 'coil', 8],
      ],
    ),
    branchOf(
      8,
      'zone 1 dampers',
      device(4),
      [
        [0, 12, 'fixed'],
        [1, 5, 'fixed'],
      ],
      [
        [1, 'M', 'actuator', 'motor', 7],
        [2, 'M', 'actuator', 'motor', 7],
      ],
    ),
    branchOf(
      9,
      'zone 2 dampers',
      device(4),
      [
        [0, 19, 'fixed'],
        [1, 5, 'fixed'],
      ],
      [
        [1, 'M', 'actuator', 'motor', 7],
        [2, 'M', 'actuator', 'motor', 7],
      ],
    ),
    branchOf(
      10,
      'temperature transmitters',
      device(2),
      [
        [0, 12, 'sensor'],
        [1, 8, 'sensor'],
      ],
      [
        [1, 'B', 'transmitter', 'electronic', 1],
        [2, 'B', 'transmitter', 'electronic', 1],
      ],
    ),
    branchOf(11, 'signal tower', device(2), [[0, 11, 'fixed']], [[1, 'H', 'tower', 'lamp', 15]]),
    branchOf(
      12,
      'contactors',
      device(2),
      [[0, 1.5, 'fixed']],
      [
        [1, 'Q', 'contactor', 'coil', 7],
        [1, 'Q', 'contactor', 'coil', 7],
      ],
    ),
  ],
}
