import type { Machine } from '../../engine/machine.ts'
import type { Fault, Truth } from './truth.ts'

/** A machine small enough to work out by hand: two branches, round numbers. */
export const smallMachine: Machine = {
  format: 'ohmward.machine',
  version: 1,
  id: 'small',
  name: 'Two branches',
  supply: { ratedVoltage: 24, setVoltage: 24, ratedCurrent: 5, limit: { mode: 'constant-current', current: 5 }, zeroVoltBonded: true },
  branches: [
    {
      id: 'B1',
      protection: { kind: 'breaker', rating: 10, curve: 'C' },
      wiring: [
        { id: 'W1', from: 'terminals', to: 'J1', length: 10, conductor: { area: 1, class: 5 } },
        { id: 'W2', from: 'J1', to: 'X1', length: 4, conductor: { area: 0.5, class: 5 } },
        { id: 'W3', from: 'J1', to: 'X2', length: 6, conductor: { area: 0.5, class: 5 } },
      ],
      loads: [
        { id: 'K1', at: 'X1', kind: 'coil', watts: 4.8, pluggable: true },
        { id: 'K2', at: 'X2', kind: 'coil', watts: 4.8, pluggable: true },
      ],
    },
    {
      id: 'B2',
      protection: { kind: 'fuse', rating: 10 },
      wiring: [{ id: 'W9', from: 'terminals', to: 'J9', length: 5, conductor: { area: 1, class: 5 } }],
      loads: [{ id: 'K9', at: 'J9', kind: 'coil', watts: 9.6, pluggable: true }],
    },
  ],
}

const exact = { gain: 0, offset: 0 }
/** Conductors at their maxima at 20 °C, a supply of 5 A, a meter without error, devices that never open by themselves. */
export const smallTruth = (fault: Fault, more: Partial<Truth> = {}): Truth => ({
  machine: smallMachine,
  fault,
  symptom: 'all-dead',
  scale: { W1: 1, W2: 1, W3: 1, W9: 1 },
  celsius: 20,
  earthOhm: 0.05,
  electronicOhm: 1e4,
  coldShare: 1,
  devices: {
    B1: { ohm: 0.03, instant: Infinity, hold: Infinity, heat: Infinity, warm: 0 },
    B2: { ohm: 0.03, instant: Infinity, hold: Infinity, heat: Infinity, warm: 0 },
  },
  supply: { volts: 24, limit: 5, mode: 'constant-current' },
  lampUnderLimit: 'off',
  injectorAmpere: 1,
  meter: {
    volt: [exact, exact, exact, exact],
    ohm: [exact, exact, exact, exact, exact, exact],
    clamp: exact,
    series: exact,
    leads: 0.4,
    zeroed: 0,
  },
  seed: 7,
  ...more,
})
export const shortInW3: Fault = { kind: 'short-to-zero', branch: 'B1', run: 'W3', at: 2, ohm: 0.1 }
