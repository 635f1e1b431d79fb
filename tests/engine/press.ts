// An invented press and a full kit, right in every field, and a way to spoil one.

export const press = () => ({
  format: 'ohmward.machine',
  version: 1,
  id: 'press-7',
  name: 'Press 7',
  place: 'Hall 2',
  supply: {
    ratedVoltage: 24,
    setVoltage: 24.2,
    ratedCurrent: 10,
    limit: { mode: 'constant-current', current: 11.5 },
    zeroVoltBonded: true,
  },
  branches: [
    { id: 'B1', protection: { kind: 'fuse', rating: 2 } },
    { id: 'B2' },
    {
      id: 'B3',
      name: 'Feeder valves',
      protection: { kind: 'breaker', rating: 4, curve: 'C' },
      wiring: [
        { id: 'W11', from: 'terminals', to: 'J1', length: 12, conductor: { area: 0.75, class: 5 }, moving: false, temperature: 35 },
        { id: 'W12', from: 'J1', to: 'X1', length: 3.5, conductor: { awg: 18, stranded: true }, moving: true },
        { id: 'W13', from: 'J1', to: 'X2', length: 4 },
      ],
      loads: [
        { id: 'Y1', name: 'Clamp', at: 'X1', kind: 'coil', watts: 4.8, pluggable: true },
        { id: 'K1', at: 'terminals', kind: 'coil' },
      ],
    },
  ],
})
export const kit = () => ({
  meter: { ohm: { percent: 0.8, counts: 3, resolution: 0.1 }, volt: { percent: 0.5 }, amp: {}, series: { counts: 3 } },
  clamp: true,
  injector: { ampere: 1, volts: 24 },
  qualified: false,
})

export type Key = string | number
/** The file with one value changed, or taken out where `value` is `undefined`. */
export const changed = (file: unknown, path: readonly Key[], value: unknown): unknown => {
  const [key, ...rest] = path
  if (key === undefined) return value
  if (Array.isArray(file)) return file.map((item, i) => (i === key ? changed(item, rest, value) : item))
  const inside = Object.entries(file as object).filter(([name]) => name !== key)
  const now = changed((file as Record<Key, unknown>)[key], rest, value)
  return Object.fromEntries(now === undefined ? inside : [...inside, [key, now]])
}
