// An example: a parcel sorter of an invented depot. Twenty-four branches: sixteen like chutes, and what drives and feeds them.
import { branchOf, breaker } from './demoParts.ts'

const CHUTES = 16
/** A chute: a flap on a moving cable, a sensor that counts, a lamp for whoever empties it. Two and a half metres of cable from one chute to the next. */
const chute = (i: number) =>
  branchOf(
    i + 9,
    `chute ${i + 1}`,
    breaker(2),
    [
      [0, 12 + 2.5 * i, 'fixed'],
      [1, 2.5, 'moving'],
      [1, 4, 'sensor'],
    ],
    [
      [2, 'Y', 'flap', 'coil', 11],
      [3, 'S', 'sensor', 'electronic', 1],
      [1, 'H', 'lamp', 'lamp', 3],
    ],
  )

export const sorter = {
  format: 'ohmward.machine',
  version: 1,
  id: 'sorter-3',
  name: 'Parcel sorter 3',
  place: 'Depot, hall 2, gate 7',
  supply: {
    ratedVoltage: 24,
    setVoltage: 24.5,
    ratedCurrent: 40,
    limit: { mode: 'hiccup', current: 46 },
    zeroVoltBonded: true,
  },
  branches: [
    branchOf(1, 'controller', breaker(4), [[0, 2, 'fixed']], [[1, 'K', 'controller', 'electronic', 40]]),
    branchOf(
      2,
      'remote inputs',
      breaker(4),
      [
        [0, 18, 'fixed'],
        [1, 20, 'fixed'],
      ],
      [
        [1, 'K', 'station', 'electronic', 10],
        [2, 'K', 'station', 'electronic', 10],
      ],
    ),
    branchOf(
      3,
      'scanner gate',
      breaker(6),
      [
        [0, 9, 'fixed'],
        [1, 3, 'sensor'],
      ],
      [
        [1, 'B', 'scanner', 'electronic', 48],
        [2, 'S', 'sensor', 'electronic', 1],
      ],
    ),
    branchOf(
      4,
      'infeed belts',
      breaker(4),
      [
        [0, 7, 'fixed'],
        [1, 6, 'fixed'],
      ],
      [
        [1, 'Q', 'brake', 'coil', 24],
        [2, 'Q', 'brake', 'coil', 24],
      ],
    ),
    branchOf(
      5,
      'lift table',
      breaker(4),
      [
        [0, 10, 'fixed'],
        [1, 5, 'moving'],
      ],
      [
        [2, 'Y', 'valve', 'coil', 19],
        [2, 'S', 'sensor', 'electronic', 1],
      ],
    ),
    branchOf(
      6,
      'signal towers',
      breaker(2),
      [
        [0, 14, 'fixed'],
        [1, 25, 'fixed'],
      ],
      [
        [1, 'H', 'tower', 'lamp', 12],
        [2, 'H', 'tower', 'lamp', 12],
      ],
    ),
    branchOf(
      7,
      'contactors',
      breaker(2),
      [[0, 1.5, 'fixed']],
      [
        [1, 'Q', 'contactor', 'coil', 7],
        [1, 'Q', 'contactor', 'coil', 7],
      ],
    ),
    branchOf(8, 'label printer', breaker(6), [[0, 16, 'fixed']], [[1, 'P', 'printer', 'electronic', 60]]),
    ...Array.from({ length: CHUTES }, (_, i) => chute(i)),
  ],
}
