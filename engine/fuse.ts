// Cartridge fuses: their time-current gates. Times are pre-arcing times at about 23 °C.
import type { Gate } from './gate.ts'
import type { Protection } from './machine.ts'

export type FuseKind = NonNullable<Protection['fuse']>

const gate = (
  source: string,
  ratings: readonly [number, number],
  times: number,
  notBefore: number | undefined,
  within: number | undefined,
  confirmed: boolean,
): Gate => ({
  times,
  ratings,
  confirmed,
  source: confirmed ? source : `${source} (from memory)`,
  ...(notBefore === undefined ? {} : { notBefore }),
  ...(within === undefined ? {} : { within }),
})

const QUICK = 'IEC 60127-2 standard sheet 2'
const SLOW = 'IEC 60127-2 standard sheet 3'
const SMALL = [0.032, 0.1] as const
const LARGE = [0.125, 6.3] as const
const NORTH = 'UL/CSA 248-14'
const BLADE = 'ISO 8820-3'
const ANY = [0, Infinity] as const

/** Where a figure was found in no published copy, its gate is marked so and decides nothing. */
export const fuseGates = (kind: FuseKind): readonly Gate[] => {
  switch (kind) {
    case 'F':
      return [
        gate(QUICK, SMALL, 1.5, 3600, undefined, true),
        gate(QUICK, SMALL, 4, 0.003, 0.1, true),
        gate(QUICK, SMALL, 10, undefined, 0.02, true),
        gate(QUICK, LARGE, 1.5, 3600, undefined, true),
        gate(QUICK, LARGE, 2.1, undefined, 1800, true),
        gate(QUICK, LARGE, 2.75, 0.05, 2, true),
        gate(QUICK, LARGE, 4, 0.01, 0.3, true),
      ]
    case 'T':
      return [
        gate(SLOW, SMALL, 2.1, undefined, 120, false),
        gate(SLOW, SMALL, 2.75, 0.2, 10, false),
        gate(SLOW, SMALL, 4, 0.04, 3, false),
        gate(SLOW, SMALL, 10, 0.01, 0.3, true),
        gate(SLOW, LARGE, 2.1, undefined, 120, false),
        gate(SLOW, LARGE, 2.75, 0.6, 10, false),
        gate(SLOW, LARGE, 4, 0.15, 3, false),
        gate(SLOW, LARGE, 10, 0.02, 0.3, false),
      ]
    case 'UL':
      return [gate(NORTH, ANY, 1.35, undefined, 3600, true), gate(NORTH, [0, 30], 2, undefined, 120, true)]
    case 'blade':
      return [
        gate(BLADE, ANY, 1.1, 360_000, undefined, false),
        gate(BLADE, ANY, 1.35, 0.75, 600, false),
        gate(BLADE, ANY, 1.6, 0.25, 50, false),
        gate(BLADE, ANY, 2, 0.15, 5, false),
        gate(BLADE, ANY, 3.5, 0.04, 0.5, false),
        gate(BLADE, ANY, 6, 0.02, 0.1, false),
      ]
  }
}

/** Any fuse carries its rating: that is what the rating means, if not for the North American series at any warmth. */
export const carriesItsRating: Gate = { times: 1, notBefore: Infinity, source: 'meaning of a fuse’s rating', confirmed: true }
