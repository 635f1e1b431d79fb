// How good the methods of finding the place are: closed forms beside published figures, and simulated cases beside both.
import { type Cable, cableOf, DEAD_SHORT, type FaultOhm, meanOf, USUAL_FAULT, varianceOf } from '../../engine/cable.ts'
import { resistancePerMetre } from '../../engine/conductor.ts'
import { CONDUCTOR_SHORT_OHM } from '../../engine/fault.ts'
import { foretell, ideal, type Setting } from '../../engine/foretell.ts'
import { type Errors, type Instrument, instrumentOf } from '../../engine/instrument.ts'
import { estimate, type Method, measured, type Readings } from '../../engine/method.ts'
import { celsius } from '../../engine/quantities.ts'
import published from '../reference/method.json' with { type: 'json' }
import { type Chance, chance } from './random.ts'

// --- The figures' own meter and wire -------------------------------------------------------------------------------

const even = (...halfWidths: number[]): number => Math.hypot(...halfWidths) / Math.sqrt(3)
/** Ω: 0.8 % + 3 counts of 0.1, leads zeroed to 0.05, contacts 0.02. Volts 0.5 % + 0.3 mV, amperes 0.5 %. All rectangular. */
const meter = (ownOhm: number, commonOhm: number): Instrument => {
  const errors =
    (gain: number, common: number, own: number, limit: number) =>
    (value: number): Errors => ({ gain, common, own, range: 0, limit: limit + gain * Math.sqrt(3) * Math.abs(value) })
  return {
    ohm: errors(even(0.008), commonOhm, ownOhm, 0.37),
    volt: errors(even(0.005), 0, even(0.0003), 0.0003),
    ampere: errors(even(0.005), 0, 0, 0),
  }
}
export const PLAIN = meter(even(0.3, 0.02), even(0.05))
/** Counts taken apart: 0.25 Ω common to all readings and 0.05 Ω each reading's own. */
export const SPLIT = meter(even(0.05, 0.02), even(0.25, 0.05))

/** Two equal class 5 cores at 0.94 to 1 of the maximum and 10 to 30 °C. */
export const wire = (area: number, length: number): Cable => {
  const most = resistancePerMetre({ area }, celsius(20))
  const core = 0.97 * most
  return {
    length,
    lengthSd: 0,
    core,
    loop: 2 * core,
    spread: Math.hypot(even(0.03 / 0.97), even(0.0393)),
    leastLoop: 2 * most * 0.94 * (1 - 0.0393),
  }
}
/** A fault of 0 to 0.5 Ω, evenly. */
export const HALF_OHM: FaultOhm = Array.from({ length: 10 }, (_, i) => ({ share: 0.1, mean: (i + 0.5) / 20, sd: 0.05 / Math.sqrt(12) }))

// --- Cases by chance ------------------------------------------------------------------------------------------------

export type Shape = 'normal' | 'even'
/** Mean 0, standard deviation 1: one rectangular error. */
const drawn = (from: Chance, shape: Shape): number =>
  shape === 'even'
    ? from.between(-Math.sqrt(3), Math.sqrt(3))
    : Math.sqrt(-2 * Math.log(1 - from.next())) * Math.cos(2 * Math.PI * from.next())

/** The same, made of two: tolerance and temperature, the meter's offset and the leads' zeroing, the last count and its rounding. */
const ofTwo = (from: Chance, shape: Shape): number => (drawn(from, shape) + drawn(from, shape)) / Math.SQRT2

const OHMS: ReadonlySet<Method> = new Set(['one-end', 'two-ends', 'one-end-healthy', 'two-ends-healthy', 'far-jumper'])

/** The readings as a meter would show them that is off as it may be: one gain and one offset a range, and each reading's own. */
export const disturbed = (readings: Readings, tools: Instrument, from: Chance, shape: Shape): Readings => {
  const shared = new Map<string, readonly [gain: number, common: number]>()
  const off = (quantity: keyof Instrument, value: number): number => {
    const { gain, common, own, range } = tools[quantity](value)
    const key = `${quantity} ${range}`
    const [g, c] = shared.get(key) ?? [drawn(from, shape), ofTwo(from, shape)]
    shared.set(key, [g, c])
    return value * (1 + gain * g) + common * c + own * ofTwo(from, shape)
  }
  const quantity = OHMS.has(readings.method) ? 'ohm' : 'volt'
  const shown = Object.entries(readings).map(([key, value]) => {
    if (key === 'taps')
      return [key, (readings as Readings & { method: 'taps' }).taps.map(tap => ({ ...tap, volts: off('volt', tap.volts) }))]
    return [key, typeof value === 'number' ? off(key === 'ampere' ? 'ampere' : quantity, value) : value]
  })
  return Object.fromEntries(shown)
}

export interface Case {
  readonly method: Method
  readonly cable: Cable
  readonly tools: Instrument
  readonly setting: Setting
  /** What the estimate takes the fault to be, and how it falls in truth. */
  readonly fault: FaultOhm
  readonly ohm: (from: Chance) => number
  readonly shape: Shape
  /** How many times the wire has the resistance that the estimate takes it to have; 1 where nothing is said. */
  readonly wireTimes?: number
}
export interface Simulated {
  /** Share of the 95 % intervals that hold the place. */
  readonly covered: number
  /** Root of the mean square error in metres, and of the uncertainties that the estimates claimed. */
  readonly error: number
  readonly claimed: number
  /** Shares of cases whose upper bound holds, and where it says more than the cable's end; metres that it lies past the place. */
  readonly bounded: number
  readonly boundTells: number
  readonly overshoot: number
}
const rms = (of: readonly number[]): number => Math.sqrt(of.reduce((sum, x) => sum + x * x, 0) / of.length)
const share = (of: readonly boolean[]): number => of.filter(Boolean).length / of.length

/** So many cases with the place anywhere on the cable, each with wire and meter off as they may be. */
export const simulate = (
  { method, cable, tools, setting, fault, ohm, shape, wireTimes = 1 }: Case,
  cases: number,
  seed: number,
): Simulated => {
  const from = chance(seed)
  const all = Array.from({ length: cases }, () => {
    const place = from.between(0, cable.length)
    const scale = wireTimes * (1 + cable.spread * ofTwo(from, shape))
    const real: Cable = { ...cable, core: cable.core * scale, loop: cable.loop * scale }
    const readings = disturbed(ideal(method, place, ohm(from), real, setting), tools, from, shape)
    return { place, e: estimate(readings, cable, tools, fault) }
  })
  const bound = all.map(({ place, e }) => ({ place, at: e.upperBound ?? Number.POSITIVE_INFINITY }))
  return {
    covered: share(all.map(({ place, e }) => place >= e.interval.low && place <= e.interval.high)),
    error: rms(all.map(({ place, e }) => e.place - place)),
    claimed: rms(all.map(({ e }) => e.standardUncertainty)),
    bounded: share(bound.map(({ place, at }) => at >= place)),
    boundTells: share(bound.map(({ at }) => at < cable.length)),
    overshoot: bound.reduce((sum, { place, at }) => sum + at - place, 0) / cases,
  }
}

// --- The four methods with bounds to hold them against --------------------------------------------------------------

const KIT = instrumentOf({})
const CABLE = cableOf({ conductor: { area: 1.5 }, length: 30 })
const TAPS = [0, 7.5, 15, 22.5, 30]
export const SETTING: Setting = { ampere: 1, taps: TAPS }
const normalFault = { mean: meanOf(USUAL_FAULT), sd: Math.sqrt(varianceOf(USUAL_FAULT)) }
const usualOhm = (from: Chance): number => from.logBetween(CONDUCTOR_SHORT_OHM.low, CONDUCTOR_SHORT_OHM.high)

/** As the engine believes: wire, meter and fault as they may be, all errors rectangular. */
export const believed = (method: Method): Case => ({
  method,
  cable: CABLE,
  tools: KIT,
  setting: SETTING,
  fault: USUAL_FAULT,
  ohm: usualOhm,
  shape: 'even',
})
/** Every error normal and of the same variance; so is the fault's own resistance where the method cannot tell it. */
export const allNormal = (method: Method): Case => ({
  ...believed(method),
  shape: 'normal',
  ...(method === 'injected-near'
    ? { fault: [{ share: 1, ...normalFault }], ohm: from => normalFault.mean + normalFault.sd * drawn(from, 'normal') }
    : {}),
})

/** Deliberately wrong: conductors at 0.90 of the maximum, 25 K warmer or colder, and a fault of up to 2 Ω. */
export const wrong = (method: Method, kelvin: number): Case => ({
  ...believed(method),
  ohm: from => from.between(0, 2),
  wireTimes: (0.9 / 0.96) * (1 + 0.00393 * kelvin),
})

const onlyOwn = (errors: (value: number) => Errors) => (): Errors => ({ ...errors(0), gain: 0, common: 0 })
/** Wire known, and nothing off but each reading by itself, alike for all: the case that the Cramér–Rao bounds are for. */
export const bounded = (method: Method): Case => ({
  ...allNormal(method),
  cable: { ...CABLE, spread: 0 },
  tools: { ohm: onlyOwn(KIT.ohm), volt: onlyOwn(KIT.volt), ampere: () => ({ gain: 0, common: 0, own: 0, range: 0, limit: 0 }) },
})

/** Cramér–Rao bound of the error in metres, of `bounded`. Taps: root of the mean of 1/n1 + 1/n2 over all places. */
export const cramerRao = (method: 'two-ends' | 'injected-near' | 'injected-far' | 'taps'): number => {
  const { ohm, volt } = bounded(method).tools
  const perVolt = volt(0).own / (SETTING.ampere * CABLE.loop)
  switch (method) {
    case 'two-ends':
      return ohm(0).own / (Math.SQRT2 * CABLE.loop)
    case 'injected-near':
      return Math.hypot(volt(0).own / SETTING.ampere, normalFault.sd) / CABLE.loop
    case 'injected-far':
      return Math.SQRT2 * perVolt
    case 'taps': {
      const stretches = TAPS.slice(1).map((_, i) => 1 / (i + 1) + 1 / (TAPS.length - 1 - i))
      return perVolt * Math.sqrt(stretches.reduce((sum, x) => sum + x, 0) / stretches.length)
    }
  }
}
export const JUDGED = ['two-ends', 'injected-near', 'injected-far', 'taps'] as const

// --- The table ------------------------------------------------------------------------------------------------------

export const COLUMNS = ['A0', 'Af', 'B', 'Bs', 'C1', 'C2', 'C3', 'D0', 'Df', 'E', 'F', 'E2', 'E3'] as const
export type Column = (typeof COLUMNS)[number]
const METHODS: Readonly<Record<Column, readonly [Method, FaultOhm]>> = {
  A0: ['one-end', DEAD_SHORT],
  Af: ['one-end', HALF_OHM],
  B: ['two-ends', HALF_OHM],
  Bs: ['two-ends', HALF_OHM],
  C1: ['one-end-healthy', DEAD_SHORT],
  C2: ['two-ends-healthy', HALF_OHM],
  C3: ['far-jumper', HALF_OHM],
  D0: ['injected-near', DEAD_SHORT],
  Df: ['injected-near', HALF_OHM],
  E: ['injected-far', DEAD_SHORT],
  F: ['taps', DEAD_SHORT],
  E2: ['core-drop', DEAD_SHORT],
  E3: ['loop-drop', DEAD_SHORT],
}
/** C1 to C3 divide by a reading, so that the closed form only comes near: they are simulated as well. */
export const BY_SIMULATION: ReadonlySet<Column> = new Set<Column>(['C1', 'C2', 'C3'])

/** Closed form, the place anywhere on the cable. F: one tap before the fault, taps every quarter, and the far end. */
export const closedForm = (column: Column, area: number, length: number): number => {
  const [method, fault] = METHODS[column]
  const cable = wire(area, length)
  const tools = column === 'Bs' ? SPLIT : PLAIN
  if (column !== 'F') return foretell(method, cable, tools, { ampere: 1, taps: [] }, fault).standardUncertainty
  const quarters = [0, 1, 2, 3].map(i => {
    const [low, high] = [(i * length) / 4, ((i + 1) * length) / 4]
    return foretell(method, cable, tools, { ampere: 1, taps: [low, length] }, fault, { low, high }).standardUncertainty
  })
  return rms(quarters)
}

/** Standard deviation of the estimate, each rectangular error drawn by itself, and wild ones cut to 5 lengths either way as in the figures. */
export const simulated = (column: Column, area: number, length: number, trials: number, seed: number): number => {
  const [method] = METHODS[column]
  const cable = wire(area, length)
  const from = chance(seed)
  const off = (halfWidth: number): number => from.between(-halfWidth, halfWidth)
  const errors = Array.from({ length: trials }, () => {
    const place = from.between(0, length)
    const scale = 1 + off(0.03) / 0.97
    const real = { ...cable, core: cable.core * scale, loop: cable.loop * scale }
    const [gain, zero] = [1 + off(0.008), off(0.05)]
    const true_ = ideal(method, place, column === 'C1' ? 0 : from.between(0, 0.5), real, SETTING)
    const shown = Object.entries(true_).map(([k, v]) => [k, typeof v === 'number' ? v * gain + zero + off(0.3) + off(0.02) : v])
    const at = measured(Object.fromEntries(shown), cable, PLAIN).place
    return Math.min(Math.max(at, -5 * length), 6 * length) - place
  })
  const mean = errors.reduce((sum, x) => sum + x, 0) / trials
  return rms(errors.map(x => x - mean))
}

/** Off by what share of a published figure, beyond the half of its last digit that rounding took. */
export const offBy = (ours: number, written: string): number => {
  const half = 0.5 * 10 ** -(written.split('.')[1]?.length ?? 0)
  return Math.max(Math.abs(ours - Number(written)) - half, 0) / Number(written)
}

const percent = (x: number): string => `${(100 * x).toFixed(1)} %`
const TRIALS = 40_000

/** Everything above as text, for a person to read. */
export const methodTable = (cases = 2000, seed = 3): string => {
  const lines = ['standard uncertainty of the place in metres, closed form (C1 to C3 simulated), with what is published after the slash']
  lines.push(['mm2', 'L', ...COLUMNS].map(title => title.padEnd(12)).join(''))
  let worst = 0
  for (const { area, length, metres } of published.rows) {
    const cells = COLUMNS.map((column, i) => {
      const written = metres[i] ?? ''
      if (written.endsWith('*')) return 'refused'
      const ours = BY_SIMULATION.has(column) ? simulated(column, area, length, TRIALS, seed) : closedForm(column, area, length)
      worst = Math.max(worst, offBy(ours, written))
      return `${ours.toPrecision(3)}/${written}`
    })
    lines.push([String(area), String(length), ...cells].map(cell => cell.padEnd(12)).join(''))
  }
  lines.push(`largest difference past rounding: ${percent(worst)}`, '')
  lines.push(`1.5 mm2, 30 m, 1 A, the kit's meter; ${cases} cases each, seed ${seed}; wrong: wire at 0.90 of the maximum, fault 0 to 2 ohm`)
  const titles = ['method', 'covered', 'covered, normal', 'error m', 'claimed m', 'error/Cramér–Rao', 'wrong, +25 K', 'wrong, -25 K']
  lines.push(titles.map(title => title.padEnd(17)).join(''))
  for (const method of JUDGED) {
    const of = (one: Case) => simulate(one, cases, seed)
    const all = of(believed(method))
    const cells = [
      percent(all.covered),
      percent(of(allNormal(method)).covered),
      all.error.toFixed(3),
      all.claimed.toFixed(3),
      (of(bounded(method)).error / cramerRao(method)).toFixed(3),
      percent(of(wrong(method, 25)).covered),
      percent(of(wrong(method, -25)).covered),
    ]
    lines.push([method, ...cells].map(cell => cell.padEnd(17)).join(''))
  }
  return lines.join('\n')
}
