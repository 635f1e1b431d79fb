import { readFileSync } from 'node:fs'
import type { Machine } from '../../engine/machine.ts'
import type { Point } from '../../engine/step.ts'
import type { Fault, State, Truth } from './truth.ts'

/** One case of tests/reference/circuits.json: an invented machine, its fault, and what a perfect meter shows. */
export interface ReferenceCase {
  readonly machine: Machine
  readonly fault: {
    readonly kind: string
    readonly branch: string
    readonly run?: string
    readonly load?: string
    readonly at?: number
    readonly ohm?: number
  }
  readonly truth: {
    readonly scale: Readonly<Record<string, number>>
    readonly temp: number
    readonly earth_ohm: number
    readonly electronic_ohm: number
    readonly device_ohm: Readonly<Record<string, number>>
  }
  readonly readings: readonly ReferenceReading[]
}
export interface ReferenceReading {
  readonly after: string
  readonly ask: { readonly meter: 'volt' | 'ohm'; readonly red: Point; readonly black: Point }
  readonly true: number
}

export const referenceCases = (): ReferenceCase[] => {
  const file = new URL('../reference/circuits.json', import.meta.url)
  return (JSON.parse(readFileSync(file, 'utf8')) as { cases: ReferenceCase[] }).cases
}

const faultOf = (fault: ReferenceCase['fault']): Fault => {
  const kind = fault.kind.replace(/^short-(zero|earth)$/, 'short-to-$1')
  return { ...fault, kind } as Fault
}

const steady = { gain: 0, offset: 0 }
/** The case in the bench's own words; its injector gives 1 A and its meter is perfect. */
export const truthOf = (one: ReferenceCase): Truth => ({
  machine: one.machine,
  fault: faultOf(one.fault),
  symptom: 'all-dead',
  scale: one.truth.scale,
  celsius: one.truth.temp,
  earthOhm: one.truth.earth_ohm,
  electronicOhm: one.truth.electronic_ohm,
  coldShare: 1,
  devices: Object.fromEntries(
    Object.entries(one.truth.device_ohm).map(([id, ohm]) => [id, { ohm, instant: 99, hold: 99, heat: 99, warm: 0 }]),
  ),
  supply: {
    volts: one.machine.supply.setVoltage ?? 24,
    limit: one.machine.supply.limit?.current ?? 5,
    mode:
      one.machine.supply.limit?.mode === 'hiccup'
        ? 'hiccup'
        : one.machine.supply.limit?.mode === 'latch-off'
          ? 'latch-off'
          : 'constant-current',
  },
  lampUnderLimit: 'steady',
  injectorAmpere: 1,
  meter: { volt: [], ohm: [], clamp: steady, series: steady, leads: 0, zeroed: 0 },
  seed: 1,
})

/** The state that a reading's `after` describes. */
export const stateOf = (one: ReferenceCase, reading: ReferenceReading): State => {
  const on = reading.after === 'supply on'
  const injected = /injected into (\w+)\.plus, out of (\S+)$/.exec(reading.after)
  const [, branch, outOf] = injected ?? []
  return {
    supply: on ? 'on' : 'off',
    latched: false,
    bus: 'joined',
    bond: 'joined',
    unplugged: new Set(),
    opened: new Set(),
    devices: new Map(one.machine.branches.map(b => [b.id, on ? 'closed' : 'open'])),
    fault: faultOf(one.fault),
    ...(branch === undefined ? {} : { injector: { branch, into: outOf === 'earth' ? ('earth' as const) : ('zero' as const) } }),
  }
}
