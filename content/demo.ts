// The demo machine: a filling station of an invented plant. Twelve branches, wiring known, some of it moving.
import { breaker, fixed, moving, sensor } from './demoParts.ts'

export const demo = {
  format: 'ohmward.machine',
  version: 1,
  id: 'filler-2',
  name: 'Filler 2',
  place: 'Hall B, bottle line',
  supply: {
    ratedVoltage: 24,
    setVoltage: 24.2,
    ratedCurrent: 10,
    limit: { mode: 'hiccup', current: 12 },
    zeroVoltBonded: true,
  },
  branches: [
    {
      id: 'B1',
      name: 'controller',
      protection: breaker(4),
      wiring: [{ id: '1-W1', from: 'terminals', to: '1-J1', length: 1.5, conductor: fixed }],
      loads: [{ id: 'K1', name: 'controller K1', at: '1-J1', kind: 'electronic', watts: 30, pluggable: true }],
    },
    {
      id: 'B2',
      name: 'operator panel',
      protection: breaker(2),
      wiring: [{ id: '2-W1', from: 'terminals', to: '2-J1', length: 6, conductor: fixed }],
      loads: [{ id: 'P2', name: 'panel P2', at: '2-J1', kind: 'electronic', watts: 18, pluggable: true }],
    },
    {
      id: 'B3',
      name: 'filling head',
      protection: breaker(4),
      wiring: [
        { id: '3-W1', from: 'terminals', to: '3-J1', length: 8, conductor: fixed },
        { id: '3-W2', from: '3-J1', to: '3-J2', length: 5.5, conductor: moving, moving: true },
        { id: '3-W3', from: '3-J2', to: '3-J3', length: 3, conductor: sensor, moving: true },
        { id: '3-W4', from: '3-J1', to: '3-J4', length: 4, conductor: sensor },
      ],
      loads: [
        { id: 'Y31', name: 'valve Y31', at: '3-J2', kind: 'coil', watts: 8, pluggable: true },
        { id: 'Y32', name: 'valve Y32', at: '3-J3', kind: 'coil', watts: 8, pluggable: true },
        { id: 'S33', name: 'sensor S33', at: '3-J4', kind: 'electronic', watts: 1, pluggable: true },
      ],
    },
    {
      id: 'B4',
      name: 'capper',
      protection: breaker(4),
      wiring: [
        { id: '4-W1', from: 'terminals', to: '4-J1', length: 10, conductor: fixed },
        { id: '4-W2', from: '4-J1', to: '4-J2', length: 4, conductor: moving, moving: true },
      ],
      loads: [
        { id: 'S41', name: 'sensor S41', at: '4-J1', kind: 'electronic', watts: 1, pluggable: true },
        { id: 'Y42', name: 'valve Y42', at: '4-J2', kind: 'coil', watts: 11, pluggable: true },
      ],
    },
    {
      id: 'B5',
      name: 'infeed sensors',
      protection: breaker(2),
      wiring: [
        { id: '5-W1', from: 'terminals', to: '5-J1', length: 12, conductor: fixed },
        { id: '5-W2', from: '5-J1', to: '5-J2', length: 5, conductor: sensor },
        { id: '5-W3', from: '5-J1', to: '5-J3', length: 7, conductor: sensor },
      ],
      loads: [
        { id: 'S51', name: 'sensor S51', at: '5-J2', kind: 'electronic', watts: 1, pluggable: true },
        { id: 'S52', name: 'sensor S52', at: '5-J3', kind: 'electronic', watts: 1, pluggable: true },
      ],
    },
    {
      id: 'B6',
      name: 'outfeed sensors',
      protection: breaker(2),
      wiring: [
        { id: '6-W1', from: 'terminals', to: '6-J1', length: 18, conductor: fixed },
        { id: '6-W2', from: '6-J1', to: '6-J2', length: 6, conductor: sensor },
      ],
      loads: [
        { id: 'S61', name: 'sensor S61', at: '6-J1', kind: 'electronic', watts: 1, pluggable: true },
        { id: 'S62', name: 'sensor S62', at: '6-J2', kind: 'electronic', watts: 1, pluggable: true },
      ],
    },
    {
      id: 'B7',
      name: 'lift',
      protection: breaker(4),
      wiring: [
        { id: '7-W1', from: 'terminals', to: '7-J1', length: 7, conductor: fixed },
        { id: '7-W2', from: '7-J1', to: '7-J2', length: 6, conductor: moving, moving: true },
      ],
      loads: [
        { id: 'Y71', name: 'brake Y71', at: '7-J2', kind: 'coil', watts: 20, pluggable: true },
        { id: 'S72', name: 'sensor S72', at: '7-J2', kind: 'electronic', watts: 1, pluggable: true },
      ],
    },
    {
      id: 'B8',
      name: 'signal tower',
      protection: breaker(2),
      wiring: [{ id: '8-W1', from: 'terminals', to: '8-J1', length: 9, conductor: fixed }],
      loads: [{ id: 'H8', name: 'tower H8', at: '8-J1', kind: 'lamp', watts: 12, pluggable: true }],
    },
    {
      id: 'B9',
      name: 'rinser valves',
      protection: breaker(4),
      wiring: [
        { id: '9-W1', from: 'terminals', to: '9-J1', length: 11, conductor: fixed },
        { id: '9-W2', from: '9-J1', to: '9-J2', length: 3, conductor: fixed },
      ],
      loads: [
        { id: 'Y91', name: 'valve Y91', at: '9-J1', kind: 'coil', watts: 8, pluggable: true },
        { id: 'Y92', name: 'valve Y92', at: '9-J2', kind: 'coil', watts: 8, pluggable: true },
      ],
    },
    {
      id: 'B10',
      name: 'contactors',
      protection: breaker(2),
      wiring: [{ id: '10-W1', from: 'terminals', to: '10-J1', length: 1, conductor: fixed }],
      loads: [{ id: 'Q10', name: 'contactor Q10', at: '10-J1', kind: 'coil', watts: 6 }],
    },
    {
      id: 'B11',
      name: 'dosing pump',
      protection: breaker(6),
      wiring: [{ id: '11-W1', from: 'terminals', to: '11-J1', length: 14, conductor: fixed }],
      loads: [{ id: 'M11', name: 'pump M11', at: '11-J1', kind: 'motor', watts: 40, pluggable: true }],
    },
    {
      id: 'B12',
      name: 'cabinet fan',
      protection: { kind: 'fuse', rating: 2 },
      wiring: [{ id: '12-W1', from: 'terminals', to: '12-J1', length: 2, conductor: fixed }],
      loads: [{ id: 'M12', name: 'fan M12', at: '12-J1', kind: 'motor', watts: 10, pluggable: true }],
    },
  ],
}
